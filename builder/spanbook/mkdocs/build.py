"""Building the site with MkDocs, beside the old one, which is whole until the new one takes its place."""

from __future__ import annotations

import time
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from mkdocs.commands import build as mkdocs_build
from mkdocs.config.defaults import MkDocsConfig

from spanbook.ground.changes import Changes
from spanbook.mkdocs import settings
from spanbook.mkdocs.built import Built, Step
from spanbook.mkdocs.failures import BuildFailed, failures_told
from spanbook.mkdocs.inputs import inputs_of, places_of
from spanbook.mkdocs.plugin import SpanbookPlugin, sources_of
from spanbook.mkdocs.settings import Say
from spanbook.outputs.folder import NoPlace, allow, ledger, published, settled
from spanbook.outputs.folder.changes import Settled
from spanbook.outputs.folder.ledger import Made
from spanbook.outputs.serving import look
from spanbook.outputs.text.failure import about
from spanbook.press.again import Asked


def build(
    project: Path,
    site: Path | None,
    strict: bool,
    say: Say,
    step: Step | None = None,
    anew: bool = False,
    jobs: int | None = None,
    executor: Executor | None = None,
) -> Built:
    """Build the site of a project folder, telling the steps through `say`, and through `step` how many pages
    are made, of how many; `anew` whatever was kept, in so many processes, as many as fit, or by an executor.

    Raises BuildFailed.
    """
    started = time.monotonic()
    with settings.messages(say) as told, failures_told():
        config = settings.load(project, strict)
        try:
            place = settled(site or project / "site")
            allow(place, sources_of(config), as_left=True)  # what is in it is looked at below, once
            watched = tuple(places_of(config))
            seen, inputs = look(watched), inputs_of(config)
            left = ledger.left(place) if inputs and not anew else None
            if left and inputs and left.inputs == inputs.all and not (config.strict and left.warnings):
                made, changes = left, None
                for warning in made.warnings:
                    say(warning)
            else:
                again = Asked(inputs.program, left.parts if left else "") if inputs else None
                means = _Means(step, jobs, executor, again, as_left=left is not None)
                made, changes = _build(config, place, say, means)
                # What changed meanwhile may be in it or not.
                sure = inputs.all if inputs and look(watched) == seen else ""
                of = inputs.of.places if inputs else ()
                made = replace(made, warnings=tuple(told.warnings), inputs=sure, made_from=of)
                ledger.note(place, made)
        except NoPlace as refused:
            raise BuildFailed(str(refused)) from None
    return Built(place, made.pages, time.monotonic() - started, made.size, changes)


@dataclass(frozen=True, slots=True)
class _Means:
    """Who makes the pages, who is told of them, what the site before may give to the new one, and whether it
    is as it was left."""

    step: Step | None
    jobs: int | None
    executor: Executor | None
    again: Asked | None
    as_left: bool


def _build(config: MkDocsConfig, place: Path, say: Say, means: _Means) -> tuple[Made, Changes]:
    plugin = config.plugins.get("spanbook")
    if isinstance(plugin, SpanbookPlugin):
        plugin.step, plugin.before = means.step, place
        plugin.jobs, plugin.executor = means.jobs, means.executor
        plugin.again, plugin.published = means.again, True
    seen: list[Settled] = []
    publish = partial(published, as_left=means.as_left, told=seen.append)
    with publish(place, sources_of(config), say) as fresh, about(fresh):
        config.site_dir = str(fresh)
        mkdocs_build.build(config)
    (one,) = seen
    made = Made(one.pages, one.size, one.state)
    if isinstance(plugin, SpanbookPlugin):
        made = replace(made, parts=plugin.keep())
    return made, one.changes
