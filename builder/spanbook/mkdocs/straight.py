"""Record pages and all that is beside them, past MkDocs: written in shares, and told to it afterwards.

That is the way where nobody else asks for pages or files; `through.py` is the other. Both make the same
bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files

from spanbook.mkdocs.brief import Brief
from spanbook.mkdocs.dated import Days
from spanbook.mkdocs.known import KnownFiles
from spanbook.mkdocs.shell import Edited
from spanbook.outputs.folder.written import Place, Written
from spanbook.press.again import Again, Asked
from spanbook.press.jobs import Done, Step
from spanbook.press.known import Known
from spanbook.press.press import make
from spanbook.press.shells import Shell
from spanbook.press.work import Work
from spanbook.press.workers import Workers
from spanbook.site import views
from spanbook.site.views import questions

# What others may do all the same: they see no page, and no file of ours.
_APART = {"startup", "shutdown", "serve", "config", "pre_build", "build_error"}
_DEEPER = 4  # folders at the most between a piece of a page and the deepest page
Begin = Callable[[Work], AbstractContextManager[Workers]]


def nobody_asks(config: MkDocsConfig, own: object) -> bool:
    """Whether no plugin, hook or template besides asks for pages, files or what stands around them."""
    others = {
        event
        for event, methods in config.plugins.events.items()
        if any(getattr(method, "__self__", None) is not own for method in methods)
    }
    return others <= _APART and not config.extra_templates and bool(config.use_directory_urls)


class Straight:
    """One build on this way. `begin` gives who makes the shares, `step` is told of so many more pages; what
    may be carried on of a site is `asked`."""

    def __init__(self, brief: Brief, begin: Begin, step: Step, asked: Asked | None = None) -> None:
        self._brief, self._begin, self._step, self._asked = brief, begin, step, asked
        self._again: Again | None = None
        self._done: Sequence[Done] = ()
        self._open: Sequence[questions.Asked] = ()
        self._known = Known(brief.site, brief.wanted, frozenset(path for path, _ in brief.beside))
        self._files: KnownFiles | None = None
        self.written: Mapping[str, Written] = {}
        self.state = ""

    @property
    def count(self) -> int:
        """How many pages will be made, but for pieces of long ones."""
        return len(self._known.pages)

    @property
    def depths(self) -> Iterable[int]:
        return range(max(page.count("/") for page in self._known.pages) + _DEEPER + 1)

    def files(self, files: Files, config: MkDocsConfig) -> Files:
        self._files = KnownFiles(files, self._known, config)
        return self._files

    def navigated(self) -> None:
        """The navigation is made."""
        assert self._files is not None, "files come first"
        self._files.forget_hubs()

    def files_apart(self, config: MkDocsConfig) -> Files:
        """The same files for whoever looks links up in another thread."""
        assert self._files is not None, "files come first"
        files = KnownFiles(self._files, self._known, config)
        files.forget_hubs()
        return files

    def framed(self, shells: Mapping[int, str], days: Days, config: MkDocsConfig, place: Place) -> None:
        """What stands around the pages is known: here all of them are made."""
        assert self._files is not None, "files come first"
        brief = self._brief
        work = Work(
            site=brief.site,
            guides=brief.guides,
            around=brief.around,
            shells={depth: Shell(text) for depth, text in shells.items()},
            wanted=brief.wanted,
            pictured=brief.pictured,
            place=place,
            base=brief.base,
            edited=Edited(config.repo_url, config.edit_uri, config.edit_uri_template),
            asked=self._files.asked,
        )
        if self._asked is not None:
            self._again = Again(self._asked, work)
            work = self._again.work
        with self._begin(work) as workers:
            made = make(work, workers, ((path, data()) for path, data in brief.beside), self._step)
        self.written, self.state, self._done = made.files, made.state, made.done
        self._open = made.asked
        for file in list(self._files):
            if file.dest_uri in self.written:  # what is ours goes before a file of the theme
                self._files.remove(file)
        self._files.are_made(made.pages, brief.base, lambda page: days.of(page.own_path))

    def front(self) -> str:
        """What the home page tells of the records, when all others are made."""
        return views.front(self._brief.site, questions.worthiest(self._open))

    def keep(self) -> str:
        """Keep the parts for the next build; under which name, empty where nothing can be kept."""
        name = self._again.keep(self._done) if self._again else ""
        self._again, self._done = None, ()  # where a site is served this build is looked at until the next
        return name
