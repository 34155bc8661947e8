"""The MkDocs plugin: records in, pages out. Wiring only."""

from __future__ import annotations

import gc
import logging
import re
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from spanbook.ground.drawings import read as drawing
from spanbook.ground.images import Refused
from spanbook.ground.language import ENGLISH, speak
from spanbook.mkdocs import sharing, shell, sitemap
from spanbook.mkdocs.brackets import Brackets
from spanbook.mkdocs.colophon import colophon
from spanbook.mkdocs.data import for_programs, lay, licence_named
from spanbook.mkdocs.dated import tell_days
from spanbook.mkdocs.early import Frame
from spanbook.mkdocs.frames import frame_of, in_language, plain
from spanbook.mkdocs.guides import guides, only_guides
from spanbook.mkdocs.options import SpanbookConfig
from spanbook.outputs.folder import NoPlace, Sources, allow, mark, settled
from spanbook.outputs.folder.held import held
from spanbook.outputs.text.failure import sentence
from spanbook.reading import image_cache
from spanbook.reading.plain import said
from spanbook.reading.problems import Severity, errors
from spanbook.reading.releases import BrokenRelease, Release, read_releases
from spanbook.rules.checking import check_folder
from spanbook.rules.photographs import refusal_words
from spanbook.site import assets, permanent, views
from spanbook.site.along import files as along
from spanbook.site.along import manifest
from spanbook.site.common import Site
from spanbook.site.drawings import draw
from spanbook.site.finder.tables import script
from spanbook.site.forms.forge import forge_of
from spanbook.site.page import Around
from spanbook.site.photographs import develop, develop_guides
from spanbook.site.scripts import EVERY_PAGE
from spanbook.site.told import in_template
from spanbook.wording import building as words
from spanbook.wording.along import state_told

log = logging.getLogger("mkdocs.plugins.spanbook")
_LEVELS = {Severity.ERROR: logging.ERROR, Severity.WARNING: logging.WARNING, Severity.ADVICE: logging.DEBUG}
# A guide's heading and first paragraph, where it begins with them.
_OPENING = re.compile(r"\A\s*(?:<h1\b.*?</h1>)?\s*(?:<p>.*?</p>)?", re.DOTALL)


Step = Callable[[int, int], None]


class BrokenRecords(PluginError):  # noqa: N818 - the name says what happened
    """Records with errors: nothing was touched."""


class SpanbookPlugin(BasePlugin[SpanbookConfig]):
    """Reads the records beside the Markdown guides and adds a page for everything in them."""

    _collecting = False
    # Who wants to know how many pages are made, of how many.
    step: Step | None = None
    # Who wants to know what pages are made from before any is made.
    begun: Callable[[Site], None] | None = None
    # What stands around the pages of this build, once it is captured.
    frame: Frame | None = None
    _emptied: Path | None = None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        speak(self.config.language)
        if self.config.language != ENGLISH:
            in_language(config, self.config.language)
        # Before MkDocs empties the old site: with a broken record the old pages stay.
        checked = check_folder(Path(config.docs_dir))
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
            self.begun(site)
        read = {record: said(record) for record in self._checked.register.records}
        tables = assets.tables(site, guides(files), lambda record: read[record].texts)
        self._state = assets.state_of(tables)
        licence = licence_named(self.config.licence)
        self._colophon = colophon(
            Path(config.docs_dir), self.config.contact, licence, bool(releases and config.site_url)
        )
        laid = lay(site.answers, config, licence, self.config.release, releases, self.config.exports, read)
        around = Around(
            help_address=self._help_address(files),
            release=laid.release,
            forge=forge_of(config.repo_url, config.edit_uri),
            schemas=f"{(config.site_url or '').rstrip('/')}/{assets.SCHEMAS}",
            name=config.site_name,
            data=laid.shown,
            contact=self.config.contact or "",
            day=self._colophon.day,
        )
        self._page_around = around
        self._front = views.front(site)
        pages = list(views.all_pages(site))
        shown_by = sharing.pictures(site, pages, config.site_name, self.config.pictures)
        for made in pages:
            file = shell.record_file(made, config)
            shell.RecordPage(made, file, config, around, sharing.tags(made, config.site_url, shown_by))
            files.append(file)
        beside = {
            **tables,
            **laid.files,
            **shown_by,
            **manifest.files(config.site_name, config.site_description or ""),
            **drawings,
            **assets.scripts(self._state, laid.release),
            **assets.schemas(),
            along.HELD: script("held", []),
            assets.STYLESHEET: assets.stylesheet(self._around.frame),
        }
        register = self._checked.register
        beside |= for_programs(config.site_url, around, releases, laid.state, len(register.records))
        beside[permanent.LIST] = "\n".join([*permanent.public(register), ""]).encode()
        for address, data in beside.items():
            files.append(File.generated(config, address, content=data))
        for address, kept in pictures.items():
            files.append(File.generated(config, address, abs_src_path=str(kept)))
        return files

    def _releases(self, config: MkDocsConfig) -> tuple[Release, ...]:
        try:
            return read_releases(Path(config.config_file_path).parent)
        except BrokenRelease as broken:
            raise PluginError(str(broken)) from None

    def _help_address(self, files: Files) -> str | None:
        if self.config.help_page is None:
            return None
        file = files.get_file_from_path(self.config.help_page)
        if file is None:
            raise PluginError(words.no_help_page(self.config.help_page))
        return file.url

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        self._nav = nav
        self._pages, self._made_pages = len(files.documentation_pages()), 0
        return nav

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        env.globals["colophon"] = self._colophon
        env.globals["_spanbook"] = in_template
        tell_days(files, Path(config.docs_dir))
        self._env = env
        self._policies = shell.add_shells(env, files, self._nav, config, self._around.made_for)
        self.frame = Frame(config, env, self._page_around)
        self._made = frozenset(file.dest_uri for file in files.documentation_pages())
        return env

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        # A guide may ask for a template of the project's own; any other stops the build, or shows a fragment.
        asked = page.meta.get("template", "main.html")
        if not isinstance(page, shell.RecordPage) and not shell.has_template(config, asked):
            where = page.file.src_uri
            log.info(
                "%s asks for the template %s, which is not in custom_dir: it gets main.html", where, asked
            )
            del page.meta["template"]
        return markdown

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        # After what the guide says first of the site, and before everything else that it has to say.
        if not page.is_homepage or isinstance(page, shell.RecordPage):
            return html
        return _OPENING.sub(lambda opening: opening[0] + self._front, html, count=1)

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        if not self._around.made_for and not isinstance(page, shell.RecordPage):
            page.content = plain.inside(self._env, context, page.content or "")
            self._context = context
        return context

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        self._made_pages += 1
        if self.step:
            self.step(self._made_pages, self._pages)
        # A record page's shell was mended when it was captured.
        if isinstance(page, shell.RecordPage):
            return output
        if not self._around.made_for:
            output = plain.headed(self._env, self._context, output)
        return shell.guarded(shell.mended(output), self._policies[shell.depth_of(page.file)])

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
        told = self._colophon.as_of or state_told(self._state)
        # The last of all that is written: it tells of every file what it holds.
        (site / along.LIST).write_bytes(along.listed(held(site), self._state, told))
        mark.put(site)
        if bare := sorted(shell.unguarded(site, self._made)):
            raise PluginError(words.unguarded(bare))

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
