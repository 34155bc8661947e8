"""What a site is made in: each job can be done anywhere, and knows nothing of the others.

A job gives the same files wherever it is done; which job makes a page, and how many there are, no page shows.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from operator import itemgetter
from typing import Protocol, TypeVar

from spanbook.ground.notes import Noted
from spanbook.outputs.folder.written import Written
from spanbook.press import rows
from spanbook.press.data import Laid, lay
from spanbook.press.parts import Made, Make, Onto, Part, Printed
from spanbook.press.rows import Gathered
from spanbook.press.work import Work, printed
from spanbook.reading.records import Record
from spanbook.site import assets, record_files, views
from spanbook.site.each import Each, EachTable, File, Share, of_share
from spanbook.site.page import Around, SitePage
from spanbook.site.past import with_the_past
from spanbook.site.views import questions

T = TypeVar("T")
Step = Callable[[int], None]  # is told how many pages more are made


@dataclass(frozen=True, slots=True)
class Done:
    """What a job has made, in its order, and what the data is called.

    `noted` is what another process has noted meanwhile.
    """

    parts: tuple[Part, ...]
    laid: Laid | None = None
    noted: NotedThere | None = None

    @property
    def files(self) -> Iterator[Written]:
        return (file for part in self.parts for file in part.files)

    @property
    def pages(self) -> Iterator[Printed]:
        return (page for part in self.parts for page in part.pages)

    @property
    def count(self) -> int:
        """How many pages there are."""
        return sum(len(part.pages) for part in self.parts)


@dataclass(frozen=True, slots=True)
class NotedThere:
    """What a process has noted, in which the first number is one."""

    process: int
    first: int
    noted: Noted


class Job(Protocol):
    """What can be done on its own: its files go `onto` the disk, `step` is told of pages."""

    def do(self, work: Work, onto: Onto, step: Step) -> Done: ...


@dataclass(frozen=True, slots=True)
class Pages:
    """The pages of one view, or a share of them."""

    view: int
    share: Share = (0, 1)

    def do(self, work: Work, onto: Onto, step: Step) -> Done:
        site, view = work.site, views.VIEWS[self.view]
        if not isinstance(view, Each):
            make = partial(_made, work, onto, step, partial(views.pages_of, site, view))
            return Done((self._part(work, onto, step, "", None, make),))
        make_one = partial(_made_of, work, onto, step, view)
        return Done(
            tuple(
                self._part(work, onto, step, view.address(one), one, partial(make_one, one))
                for one in of_share(view.things(site), self.share)
            )
        )

    def _part(self, work: Work, onto: Onto, step: Step, name: str, of: object, make: Make) -> Part:
        part = work.part(onto, (f"view {self.view}", name), of, make)
        if part.carried:
            step(len(part.pages))
        return part


@dataclass(frozen=True, slots=True)
class Open:
    """The page of what is open in all records, by what was told of each series: a view by its place."""

    view: int
    told: tuple[questions.Asked, ...]

    def do(self, work: Work, onto: Onto, step: Step) -> Done:
        page = with_the_past(work.site, questions.page_of(self.told))
        made = _print(work, iter([page]), work.around, onto, step)
        return Done((Part(("open", ""), *made),))


@dataclass(frozen=True, slots=True)
class Tables:
    """A family of the tables that scripts look up in, or a share of it."""

    family: str
    share: Share = (0, 1)

    def do(self, work: Work, onto: Onto, step: Step) -> Done:
        site, family = work.site, assets.FAMILIES[self.family]
        if not isinstance(family, EachTable):
            return Done((self._part(work, onto, "", None, partial(family, site, work.guides)),))
        return Done(
            tuple(
                self._part(work, onto, family.name(one), one, partial(family.files, site, one))
                for one in of_share(family.things(site), self.share)
            )
        )

    def _part(
        self, work: Work, onto: Onto, name: str, of: object, files: Callable[[], Iterable[File]]
    ) -> Part:
        return work.part(onto, (f"tables {self.family}", name), of, partial(_put, onto, files))


@dataclass(frozen=True, slots=True)
class Rows:
    """What the files of data are put together of, of one sort, or a share of it."""

    sort: str
    share: Share = (0, 1)

    def do(self, work: Work, onto: Onto, step: Step) -> Done:
        every = of_share(rows.runs(work.site, self.sort), self.share)
        return Done(tuple(self._part(work, onto, run) for run in every))

    def _part(self, work: Work, onto: Onto, run: rows.Run) -> Part:
        def make() -> Made:
            return Made((), told=rows.made(work.site, self.sort, run.things))

        return work.part(onto, (_rows_of(self.sort), run.name), run.things, make)


def _rows_of(sort: str) -> str:
    return f"rows {sort}"


@dataclass(frozen=True, slots=True)
class Data:
    """The files of data, of all rows, and the page that tells of them: a view by its place."""

    view: int
    rows: Gathered

    def do(self, work: Work, onto: Onto, step: Step) -> Done:
        files: list[Written] = []
        laid = lay(work.site, work.wanted, self.rows, lambda path, data: files.append(onto.put(path, data)))
        around = replace(work.around, release=laid.release, data=laid.shown)
        page = _print(work, views.pages_of(work.site, views.VIEWS[self.view]), around, onto, step)
        # Of the tables only that page tells; they are large.
        laid = replace(laid, shown=replace(laid.shown, each=()))
        return Done((Part(("data", ""), (*files, *page.files), page.pages),), laid)


@dataclass(frozen=True, slots=True)
class Beside:
    """A share of the records as JSON beside their pages."""

    share: Share = (0, 1)

    def do(self, work: Work, onto: Onto, step: Step) -> Done:
        every = of_share(record_files.pages_of_records(work.site.register), self.share)
        return Done(tuple(self._part(work, onto, record, page) for record, page in every))

    def _part(self, work: Work, onto: Onto, record: Record, page: str) -> Part:
        def files() -> Iterator[File]:
            said, licence = work.site.said(record).values, work.wanted.licence
            yield record_files.file_of(work.site.answers, record, page, said, licence)

        return work.part(onto, ("beside", page), record, partial(_put, onto, files))


@dataclass(frozen=True, slots=True)
class Past:
    """The pages at addresses where something stood once, by the titles of what stands there now."""

    titles: Mapping[str, str]

    def do(self, work: Work, onto: Onto, step: Step) -> Done:
        made = _print(work, views.past_pages(work.site, self.titles), work.around, onto, step)
        return Done((Part(("past", ""), *made),))


def _put(onto: Onto, make: Callable[[], Iterable[File]]) -> Made:
    return Made(tuple(onto.put(path, data) for path, data in make()))


def _made(work: Work, onto: Onto, step: Step, pages: Callable[[], Iterator[SitePage]]) -> Made:
    return _print(work, pages(), work.around, onto, step)


def _made_of(work: Work, onto: Onto, step: Step, view: Each[T], thing: T) -> Made:
    """What is made of one thing, with what pages of all need of it."""
    made = _print(work, views.pages_of_thing(work.site, view, thing), work.around, onto, step)
    return made._replace(told=view.told(work.site, thing))


def _print(work: Work, pages: Iterator[SitePage], around: Around, onto: Onto, step: Step) -> Made:
    written: list[Written] = []
    made: list[Printed] = []
    for page in pages:
        told, files = printed(work, page, around)
        written += (onto.put(path, data) for path, data in files)
        made.append(told)
        step(1)
    return Made(tuple(written), tuple(made))


def rows_first(shares: int) -> Sequence[Job]:
    """What the files of data wait for."""
    return [Rows(sort, (number, shares)) for sort in rows.SORTS for number in range(shares)]


def gathered(done: Iterable[Done]) -> Gathered:
    """All rows, when they are made."""
    packed: dict[str, list[bytes]] = {}
    for part in (part for one in done for part in one.parts):
        assert isinstance(part.told, bytes), "rows are told"
        packed.setdefault(part.key[0].removeprefix(_rows_of("")), []).append(part.told)
    return Gathered(packed)


def first(work: Work, shares: int, every_row: Gathered) -> Sequence[Job]:
    """All that needs nothing of another job but `every_row`. What is in one piece begins first: then
    nobody waits for it when all shares are made."""
    whole: list[Job] = []
    parted: list[Job] = []
    each = [(number, shares) for number in range(shares)]
    for place, view in enumerate(views.VIEWS):
        if isinstance(view, Each):
            parted += (Pages(place, share) for share in each)
        elif view is questions.pages:
            continue  # it waits for what is told of each series
        elif view is views.data.pages:
            whole.insert(0, Data(place, every_row))  # of all the longest
        else:
            whole.append(Pages(place))
    for name, family in assets.FAMILIES.items():
        if isinstance(family, EachTable):
            parted += (Tables(name, share) for share in each)
        else:
            whole.append(Tables(name))
    beside = map(Beside, each) if work.wanted.records else ()
    return [*whole, *parted, *beside]


def open_page(done: Iterable[Done]) -> Open:
    """What is left to be made of questions, when those of all series are."""
    told = (part.told for one in done for part in one.parts)
    asked = tuple(one for one in told if isinstance(one, questions.Asked))
    return Open(views.VIEWS.index(questions.pages), asked)


def in_order(jobs: Sequence[Job], done: Sequence[Done]) -> Iterator[Printed]:
    """All pages in the order of the site, whatever was made first."""
    made = [
        (job.view, one) for job, one in zip(jobs, done, strict=True) if isinstance(job, Pages | Open | Data)
    ]
    return (page for _, one in sorted(made, key=itemgetter(0)) for page in one.pages)


def state_of(jobs: Sequence[Job], done: Sequence[Done]) -> str:
    """The state of the tables that scripts look up in."""
    tables = (one.files for job, one in zip(jobs, done, strict=True) if isinstance(job, Tables))
    return assets.state_of({file.path: file.digest for files in tables for file in files})
