"""What a site is made in: each job can be done anywhere, and knows nothing of the others.

A job gives the same files wherever it is done; which job makes a page, and how many there are, no page shows.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from operator import itemgetter
from typing import Protocol

from spanbook.outputs.folder.written import Written
from spanbook.press.data import Laid, lay
from spanbook.press.work import Printed, Work, printed
from spanbook.site import assets, record_files, views
from spanbook.site.each import Each, EachTable, Share
from spanbook.site.page import Around, SitePage

Put = Callable[[str, bytes], Written]
Step = Callable[[int], None]  # is told how many pages more are made


@dataclass(frozen=True, slots=True)
class Done:
    """What a job has made: its files, its pages in their order, and what the data is called."""

    files: tuple[Written, ...]
    pages: tuple[Printed, ...] = ()
    laid: Laid | None = None


class Job(Protocol):
    """What can be done on its own; `put` takes each file, `step` is told of pages."""

    def do(self, work: Work, put: Put, step: Step) -> Done: ...


@dataclass(frozen=True, slots=True)
class Pages:
    """The pages of one view, or a share of them."""

    view: int
    share: Share = (0, 1)

    def do(self, work: Work, put: Put, step: Step) -> Done:
        pages = views.pages_of(work.site, views.VIEWS[self.view], self.share)
        return _print(work, pages, work.around, put, step)


@dataclass(frozen=True, slots=True)
class Tables:
    """A family of the tables that scripts look up in, or a share of it."""

    family: str
    share: Share = (0, 1)

    def do(self, work: Work, put: Put, step: Step) -> Done:
        made = assets.tables(work.site, self.family, work.guides, self.share)
        return Done(tuple(put(path, data) for path, data in made))


@dataclass(frozen=True, slots=True)
class Data:
    """The files of data, and the page that tells of them: a view by its place."""

    view: int

    def do(self, work: Work, put: Put, step: Step) -> Done:
        laid, made = lay(work.site, work.wanted)
        files = tuple(put(path, data) for path, data in made.items())
        around = replace(work.around, release=laid.release, data=laid.shown)
        page = _print(work, views.pages_of(work.site, views.VIEWS[self.view]), around, put, step)
        # Of the tables only that page tells; they are large.
        return Done((*files, *page.files), page.pages, replace(laid, shown=replace(laid.shown, each=())))


@dataclass(frozen=True, slots=True)
class Beside:
    """A share of the records as JSON beside their pages."""

    share: Share = (0, 1)

    def do(self, work: Work, put: Put, step: Step) -> Done:
        site = work.site
        said = (lambda record: site.said(record).values, work.wanted.licence, self.share)
        made = record_files.files(site.answers, *said)
        return Done(tuple(put(path, data) for path, data in made.items()))


@dataclass(frozen=True, slots=True)
class Past:
    """The pages at addresses where something stood once, by the titles of what stands there now."""

    titles: Mapping[str, str]

    def do(self, work: Work, put: Put, step: Step) -> Done:
        return _print(work, views.past_pages(work.site, self.titles), work.around, put, step)


def _print(work: Work, pages: Iterator[SitePage], around: Around, put: Put, step: Step) -> Done:
    written: list[Written] = []
    made: list[Printed] = []
    for page in pages:
        told, files = printed(work, page, around)
        written += (put(path, data) for path, data in files)
        made.append(told)
        step(1)
    return Done(tuple(written), tuple(made))


def first(work: Work, shares: int) -> Sequence[Job]:
    """All that needs nothing of another job. What is in one piece begins first, so that nobody waits for it
    when all shares are made."""
    whole: list[Job] = []
    parted: list[Job] = []
    each = [(number, shares) for number in range(shares)]
    for place, view in enumerate(views.VIEWS):
        if isinstance(view, Each):
            parted += (Pages(place, share) for share in each)
        elif view is views.data.pages:
            whole.insert(0, Data(place))  # of all the longest
        else:
            whole.append(Pages(place))
    for name, family in assets.FAMILIES.items():
        if isinstance(family, EachTable):
            parted += (Tables(name, share) for share in each)
        else:
            whole.append(Tables(name))
    beside = map(Beside, each) if work.wanted.records else ()
    return [*whole, *parted, *beside]


def in_order(jobs: Sequence[Job], done: Sequence[Done]) -> Iterator[Printed]:
    """All pages in the order of the site, whatever was made first."""
    made = [(job.view, one) for job, one in zip(jobs, done, strict=True) if isinstance(job, Pages | Data)]
    return (page for _, one in sorted(made, key=itemgetter(0)) for page in one.pages)


def state_of(jobs: Sequence[Job], done: Sequence[Done]) -> str:
    """The state of the tables that scripts look up in."""
    tables = (one.files for job, one in zip(jobs, done, strict=True) if isinstance(job, Tables))
    return assets.state_of({file.path: file.digest for files in tables for file in files})
