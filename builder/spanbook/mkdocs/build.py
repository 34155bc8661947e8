"""Building the site with MkDocs, beside the old one, which is whole until the new one takes its place."""

from __future__ import annotations

import time
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from pathlib import Path

from mkdocs.commands import build as mkdocs_build
from mkdocs.config.defaults import MkDocsConfig

from spanbook.ground.changes import Changes
from spanbook.ground.hosts import Size
from spanbook.mkdocs import settings
from spanbook.mkdocs.failures import BuildFailed, failures_told
from spanbook.mkdocs.inputs import inputs_of, places_of
from spanbook.mkdocs.plugin import SpanbookPlugin, Step, sources_of
from spanbook.mkdocs.settings import Say
from spanbook.outputs.folder import NoPlace, allow, ledger, published, settled
from spanbook.outputs.folder.changes import settle
from spanbook.outputs.folder.held import size_of
from spanbook.outputs.folder.ledger import Made
from spanbook.outputs.serving import look
from spanbook.outputs.text.failure import about
from spanbook.press.again import Asked


@dataclass(frozen=True, slots=True)
class Built:
    """Where the site is, how many pages it has, how long that took, and how large it is.

    `changes` are its files that are others than before; None where nothing had to be built, because all that
    the site is made from is as it was.
    """

    folder: Path
    pages: int
    seconds: float
    size: Size
    changes: Changes | None


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
            allow(place, sources_of(config))
            watched = tuple(places_of(config))
            seen, inputs = look(watched), inputs_of(config)
            left = ledger.left(place) if inputs and not anew else None
            if left and inputs and left.inputs == inputs.all and not (config.strict and left.warnings):
                made, changes = left, None
                for warning in made.warnings:
                    say(warning)
            else:
                again = Asked(inputs.program, left.parts if left else "") if inputs else None
                made, changes = _build(config, place, say, _Means(step, jobs, executor, again))
                # What changed meanwhile may be in it or not.
                sure = inputs.all if inputs and look(watched) == seen else ""
                made = replace(made, warnings=tuple(told.warnings), inputs=sure)
                ledger.note(place, made)
        except NoPlace as refused:
            raise BuildFailed(str(refused)) from None
    return Built(place, made.pages, time.monotonic() - started, made.size, changes)


@dataclass(frozen=True, slots=True)
class _Means:
    """Who makes the pages, who is told of them, and what the site before may give to the new one."""

    step: Step | None
    jobs: int | None
    executor: Executor | None
    again: Asked | None


def _build(config: MkDocsConfig, place: Path, say: Say, means: _Means) -> tuple[Made, Changes]:
    plugin = config.plugins.get("spanbook")
    if isinstance(plugin, SpanbookPlugin):
        plugin.step, plugin.before = means.step, place
        plugin.jobs, plugin.executor = means.jobs, means.executor
        plugin.again = means.again
    with published(place, sources_of(config), say) as fresh, about(fresh):
        config.site_dir = str(fresh)
        mkdocs_build.build(config)
        made = Made(*size_of(fresh))
        changes = settle(fresh, place)
    if isinstance(plugin, SpanbookPlugin):
        made = replace(made, parts=plugin.keep())
    return made, changes
