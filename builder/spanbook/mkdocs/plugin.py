"""The MkDocs plugin: records in, pages out. Wiring only."""

from __future__ import annotations

import gc
import logging
import sqlite3
from collections.abc import Callable
from concurrent.futures import Executor
from contextlib import AbstractContextManager, suppress
from dataclasses import replace
from pathlib import Path

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from spanbook.answers.answers import Answers
from spanbook.ground.drawings import read as drawing
from spanbook.ground.images import Refused
from spanbook.ground.language import ENGLISH, speak
from spanbook.mkdocs import shell, sitemap
from spanbook.mkdocs.brackets import Brackets
from spanbook.mkdocs.brief import brief_of
from spanbook.mkdocs.built import Step
from spanbook.mkdocs.colophon import colophon
from spanbook.mkdocs.data import licence_named, no_index
from spanbook.mkdocs.dated import Days
from spanbook.mkdocs.early import Frame, beside
from spanbook.mkdocs.frames import frame_of, in_language
from spanbook.mkdocs.guide_pages import Framing, GuidePages, template_of
from spanbook.mkdocs.guides import only_guides
from spanbook.mkdocs.options import SpanbookConfig
from spanbook.mkdocs.straight import Straight, nobody_asks
from spanbook.mkdocs.through import Through
from spanbook.outputs.folder import NoPlace, Sources, allow, mark, settled
from spanbook.outputs.folder.held import held
from spanbook.outputs.folder.written import Place
from spanbook.outputs.text.failure import sentence
from spanbook.press.again import Asked
from spanbook.press.work import Work
from spanbook.press.workers import ShareLost, Workers, workers
from spanbook.reading import image_cache
from spanbook.reading.problems import Severity, errors
from spanbook.reading.releases import BrokenRelease, Release, read_releases
from spanbook.rules.checking import Checked, check_folder
from spanbook.rules.photographs import refusal_words
from spanbook.site import assets
from spanbook.site.along import files as along
from spanbook.site.common import Site
from spanbook.site.drawings import draw
from spanbook.site.photographs import develop, develop_guides
from spanbook.site.scripts import EVERY_PAGE
from spanbook.site.told import in_template
from spanbook.wording import building as words
from spanbook.wording.along import state_told

log = logging.getLogger("mkdocs.plugins.spanbook")
_LEVELS = {Severity.ERROR: logging.ERROR, Severity.WARNING: logging.WARNING, Severity.ADVICE: logging.DEBUG}


class BrokenRecords(PluginError):  # noqa: N818 - the name says what happened
    """Records with errors: nothing was touched."""


class SpanbookPlugin(BasePlugin[SpanbookConfig]):
    """Reads the records beside the Markdown guides and adds a page for everything in them."""

    _collecting = False
    # Who wants to know how many pages are made, of how many.
    step: Step | None = None
    # Who has read the records already; else they are read here.
    check: Callable[[Path], Checked] = staticmethod(check_folder)
    # Who wants to know that nothing is wrong with the records, before any page is made.
    begun: Callable[[], None] | None = None
    # Who wants to know what stands around the pages of this build, before any is made.
    framed: Callable[[Frame], None] | None = None
    # The site whose place this one takes, and how many processes make the pages: None for as many as fit.
    before: Path | None = None
    jobs: int | None = 1
    # Somebody's own, which makes them instead.
    executor: Executor | None = None
    # What of the site before may be carried on; None where all is to be made, and nothing kept.
    again: Asked | None = None
    # Whoever puts the site into its place marks it as well.
    published = False
    _emptied: Path | None = None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        speak(self.config.language)
        if self.config.language != ENGLISH:
            in_language(config, self.config.language)
        # Before MkDocs empties the old site: with a broken record the old pages stay.
        checked = self.check(Path(config.docs_dir))
        for problem in checked.problems:
            log.log(_LEVELS[problem.severity], "%s", problem)
        if broken := errors(checked.problems):
            raise BrokenRecords(words.broken(len(broken)))
        self._checked = checked
        # All of it lives as long as the build: walking it at every collection costs more than making it.
        self._collecting = gc.isenabled()
        gc.disable()
        self._around = frame_of(config)
        config.theme.dirs[:0] = map(str, self._around.over)
        config.markdown_extensions.append(Brackets())
        config.extra_css.insert(0, assets.STYLESHEET)
        config.extra_javascript.insert(0, EVERY_PAGE)
        return config

    # The last of all plugins: after this MkDocs removes whatever is in the folder.
    @event_priority(-100)
    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        try:
            allow(settled(Path(config.site_dir)), sources_of(config))
        except NoPlace as refused:
            raise PluginError(str(refused)) from None
        except OSError as failure:
            raise PluginError(sentence(failure)) from failure
        self._emptied = Path(config.site_dir)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        shown = only_guides(files, config)
        try:
            shelf, pictures = develop(self._checked.register, Path(config.docs_dir))
            pictures |= develop_guides(Path(config.docs_dir), shown)
            album, drawings = draw(self._checked.register, Path(config.docs_dir))
        except OSError as failure:
            raise PluginError(words.not_kept(image_cache.folder(), failure)) from failure
        except Refused as refused:
            why, _ = refusal_words(refused)
            raise PluginError(words.photograph_changed(why)) from refused
        except drawing.Refused as refused:
            raise PluginError(words.drawing_changed(refused.flaw)) from refused
        releases = self._releases(config)
        site = Site(self._checked.answers(self.config.assumed), shelf, album, releases)
        if self.begun:
            self.begun()
        licence = licence_named(self.config.licence)
        content = Path(config.docs_dir)
        self._colophon = colophon(content, self.config.contact, licence, bool(releases and config.site_url))
        given = drawings | assets.of_frame(self._around.frame)
        brief = brief_of(config, self.config, site, files, self._colophon, given, pictures)
        self._brief = brief
        self._way: Straight | Through = Through(brief)
        if nobody_asks(config, self):
            again = self.again if self.executor is None else None
            self._way = Straight(brief, self._workers, self._told, again)
        return self._way.files(files, config)

    def _workers(self, work: Work) -> AbstractContextManager[Workers]:
        """Who makes the shares of a site."""
        return workers(work, self.jobs, self.executor)

    def keep(self) -> str:
        """Keep the parts of the site that was built, which has its place; under which name, if any."""
        return self._way.keep() if isinstance(self._way, Straight) else ""

    def _releases(self, config: MkDocsConfig) -> tuple[Release, ...]:
        try:
            return read_releases(Path(config.config_file_path).parent)
        except BrokenRelease as broken:
            raise PluginError(str(broken)) from None

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        self._nav = nav
        self._way.navigated()
        mkdocs_makes = len(files.documentation_pages(inclusion=InclusionLevel.is_included))
        self._pages = mkdocs_makes + (self._way.count if isinstance(self._way, Straight) else 0)
        self._made_pages = 0
        return nav

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        env.globals["colophon"] = self._colophon
        env.globals["_spanbook"] = in_template
        days = Days.in_folder(Path(config.docs_dir))
        every = files.documentation_pages(inclusion=InclusionLevel.is_included)
        for file in every:
            if file.page is not None and not isinstance(file.page, shell.RecordPage):
                file.page.update_date = days.of(file.src_uri)
        depths = {*map(shell.depth_of, every), *self._way.depths}
        shells, policies = shell.captured(env, every, depths, self._nav, config, self._around.made_for)
        shell.add_shells(env, shells)
        self._framing = Framing(env, self._around.made_for, policies, self._way.front)
        if self.framed:
            site = self._brief.site
            site = replace(site, answers=Answers(site.register, site.answers.read_assumed))
            guides = None
            if isinstance(self._way, Straight):  # else others have a say in them
                apart = self._way.files_apart(config)
                guides = GuidePages(self._framing, site, self._nav, every, apart, config)
            self.framed(Frame(site, config, env, self._brief.around, guides, beside(files, self._brief)))
        try:
            self._way.framed(shells, days, config, Place.of(Path(config.site_dir), self.before))
        except sqlite3.OperationalError as failure:
            raise no_index(failure) from failure
        except ShareLost as lost:
            raise PluginError(str(lost)) from lost
        self._made = frozenset(file.dest_uri for file in files.documentation_pages())
        return env

    def _told(self, count: int) -> None:
        """So many pages more are made; pieces of long ones may come besides."""
        self._made_pages += count
        if self.step and self._made_pages < self._pages:
            self.step(self._made_pages, self._pages)

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        asked = page.meta.get("template", "main.html")
        if not isinstance(page, shell.RecordPage) and template_of(page, config) != asked:
            where = page.file.src_uri
            log.info(
                "%s asks for the template %s, which is not in custom_dir: it gets main.html", where, asked
            )
            del page.meta["template"]
        return markdown

    # Before any plugin that looks for what a page says.
    @event_priority(100)
    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        if not isinstance(page, shell.RecordPage):
            page.content = self._framing.inside(page, context)
            self._context = context
        return context

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        self._told(1)
        # A record page's shell was mended when it was captured.
        if isinstance(page, shell.RecordPage):
            return output
        return self._framing.whole(page, self._context, output)

    def on_post_template(self, output_content: str, *, template_name: str, config: MkDocsConfig) -> str:
        if template_name == sitemap.NAME:
            return sitemap.lay(output_content, config.site_url or "", Path(config.site_dir))
        if not template_name.endswith(".html"):
            return output_content
        # A template of the theme's own, such as the page for what is missing, holds nobody else's text.
        output = shell.mended(output_content)
        return shell.guarded(output, shell.policy_of(output))

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        self._collect_again()
        site = Path(config.site_dir)
        told = self._colophon.as_of or state_told(self._way.state)
        found = tuple(held(site, self._way.written))
        # The last of all that is written: it tells of every file what it holds.
        listed = along.listed(((one.path, one.size, one.digest) for one in found), self._way.state, told)
        (site / along.LIST).write_bytes(listed)
        if not self.published:
            mark.put(site)
        if bare := sorted(shell.unguarded(site, (one.path for one in found), self._made)):
            raise PluginError(words.unguarded(bare))
        if self.step:
            self.step(self._pages, self._pages)

    def on_build_error(self, *, error: Exception) -> None:
        self._collect_again()
        if self._emptied and self._emptied.is_dir():
            with suppress(OSError):  # what is half built is ours to remove all the same
                mark.put(self._emptied)

    def _collect_again(self) -> None:
        if self._collecting:
            gc.enable()

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        def build(*arguments: object) -> None:
            try:
                builder(*arguments)
            except Abort as abort:
                # MkDocs would hold back every page until the record is mended; the old ones are whole.
                if not isinstance(abort.__context__, BrokenRecords):
                    raise
                log.error(words.stays())

        server.builder = build
        return server


def sources_of(config: MkDocsConfig) -> Sources:
    """What no site may be built into or around."""
    project = Path(config.config_file_path).resolve().parent
    return Sources(project, tuple(Path(folder).resolve() for folder in (config.docs_dir, *config.theme.dirs)))
