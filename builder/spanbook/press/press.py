"""A site onto the disk: the jobs, whoever does them, and what can be made only when all others are done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from spanbook.ground.notes import taking
from spanbook.outputs.folder.written import Writer, Written
from spanbook.press.data import Laid, for_programs
from spanbook.press.jobs import Done, Past, Step, first, gathered, in_order, open_page, rows_first, state_of
from spanbook.press.parts import Printed
from spanbook.press.work import Work
from spanbook.press.workers import Workers
from spanbook.reading import picture_cache
from spanbook.site import assets, permanent
from spanbook.site.along import files as along
from spanbook.site.common import Site
from spanbook.site.each import File
from spanbook.site.finder.tables import script
from spanbook.site.page import Around
from spanbook.site.views.questions import Asked


@dataclass(frozen=True, slots=True)
class Made:
    """What was written, by its path; the pages in the order of the site; the state of the tables; what each
    job has done, and what is open in each series."""

    files: Mapping[str, Written]
    pages: tuple[Printed, ...]
    state: str
    done: tuple[Done, ...]
    asked: tuple[Asked, ...]


def make(work: Work, workers: Workers, beside: Iterable[File], step: Step) -> Made:
    """Write all that comes from the records, and what is given besides. Raises as jobs and workers do."""
    jobs = rows_first(workers.shares)
    with taking(work.noting.notes if work.noting else None):
        done = workers.do(jobs, step)
        others = first(work, workers.shares, gathered(done))
        jobs, done = [*jobs, *others], [*done, *workers.do(others, step)]
    asked = open_page(done)
    jobs, done = [asked, *jobs], [*workers.do([asked], step), *done]
    titles = {page.address: page.title for one in done for page in one.pages}
    laid = next(one.laid for one in done if one.laid is not None)
    (past,) = workers.do([Past({now: titles[now] for now in work.site.former_pages.values()})], step)
    picture_cache.trim()
    state = state_of(jobs, done)
    writer = Writer(work.place)
    last = [
        writer.put(path, data)
        for path, data in chain(beside, last_files(work.site, work.base, work.around, laid, state))
    ]
    files = {one.path: one for each in (*done, past) for one in each.files} | {one.path: one for one in last}
    return Made(files, (*in_order(jobs, done), *past.pages), state, tuple(done), asked.told)


def last_files(site: Site, base: str | None, around: Around, laid: Laid, state: str) -> Iterator[File]:
    """What tells of all the rest: of a site at an address, and of a state of its tables."""
    register = site.register
    yield from assets.scripts(state, laid.release, around.day).items()
    yield from assets.schemas().items()
    yield along.HELD, script("held", [])
    yield from for_programs(base, around, site.releases, laid, len(register.records))
    yield permanent.LIST, "\n".join([*permanent.public(register), ""]).encode()
