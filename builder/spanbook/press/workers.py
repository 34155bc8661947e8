"""Who makes the shares of a site: this process alone, or several that it begins."""

from __future__ import annotations

import gc
import multiprocessing
import os
import sqlite3
import sys
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from contextlib import AbstractContextManager, contextmanager
from typing import Protocol

from spanbook.ground.language import gettext as _
from spanbook.outputs.folder.written import Writer
from spanbook.press import elsewhere, freight, worker
from spanbook.press.elsewhere import Share, share
from spanbook.press.freight import Freight
from spanbook.press.jobs import Done, Job, Step
from spanbook.press.work import Work

_SHARES = 4  # for each that works, so that nobody waits long for the last
# Records from which on a second process gains more than it takes to begin it.
WORTH = 200


class ShareLost(Exception):  # noqa: N818 - it says what happened
    """Whoever made a share of the site is gone, and the share with it. The message says what to do."""


class Workers(Protocol):
    """`shares` is into how many shares the pages of a kind are worth parting."""

    shares: int

    def do(self, jobs: Sequence[Job], step: Step) -> list[Done]:
        """What each job has made, in the order of the jobs. Raises whatever a job raises, and ShareLost."""


class Alone:
    """This process makes everything, one job after another."""

    shares = _SHARES

    def __init__(self, work: Work) -> None:
        self._work = work
        self._writer = Writer(work.place)

    def do(self, jobs: Sequence[Job], step: Step) -> list[Done]:
        return [self._done(job, step) for job in jobs]

    def _done(self, job: Job, step: Step) -> Done:
        step(0)  # whoever follows may end it before any
        return worker.done(job, self._work, self._writer, step)


class Forked:
    """Processes that hold what this one does, and write the files themselves."""

    def __init__(self, pool: ProcessPoolExecutor, many: int) -> None:
        self.shares = many * _SHARES
        self._pool = pool

    def do(self, jobs: Sequence[Job], step: Step) -> list[Done]:
        try:
            sent = [self._pool.submit(worker.do, job) for job in jobs]
            for future in as_completed(sent):
                step(future.result().count)
            return [future.result() for future in sent]
        except BrokenProcessPool as broken:
            raise lost() from broken


class Elsewhere:
    """Any executor: what is made comes back as bytes, and is written here, so many shares at a time."""

    def __init__(self, executor: Executor, many: int, packed: Freight, writer: Writer) -> None:
        self.shares = many * _SHARES
        self._executor, self._ahead = executor, many * 2
        self._freight, self._writer = packed, writer

    def do(self, jobs: Sequence[Job], step: Step) -> list[Done]:
        left, under_way, done = deque(jobs), deque[tuple[Job, Future[Share | None]]](), list[Done]()
        try:
            while left or under_way:
                while left and len(under_way) < self._ahead:
                    under_way.append((left[0], self._executor.submit(share, self._freight.name, left[0])))
                    left.popleft()
                job, future = under_way.popleft()
                done.append(self._written(self._result(job, future)))
                step(done[-1].count)
        finally:
            for _job, future in under_way:
                future.cancel()
        return done

    def _result(self, job: Job, future: Future[Share | None]) -> Share:
        name = self._freight.name
        try:
            made = future.result() or self._executor.submit(share, name, job, self._freight).result()
        except BrokenExecutor as broken:
            raise lost() from broken
        except (OSError, sqlite3.Error):
            raise
        except Exception as failure:
            told = _("whoever was to make a share of the site did not: {failure}")
            raise ShareLost(told.format(failure=f"{type(failure).__name__}: {failure}")) from failure
        assert made is not None, "it was sent along"
        return made

    def _written(self, made: Share) -> Done:
        for path, data in made.files:
            self._writer.put(path, data)
        return made.done


def lost() -> ShareLost:
    return ShareLost(
        _(
            "a process that made a share of the site ended before it was done: it was killed, or had no "
            "memory left; build with --jobs 1"
        )
    )


def fitting(records: int) -> int:
    """How many processes a site of so many records gains by: as many as this one may use cores."""
    return 1 if records < WORTH else cores()


def cores() -> int:
    """How many of the processor's cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def can_fork() -> bool:
    """Whether a process can be begun that holds all that this one does; macOS' own libraries forbid it."""
    return "fork" in multiprocessing.get_all_start_methods() and sys.platform != "darwin"


@contextmanager
def alone(work: Work) -> Iterator[Workers]:
    with _set_apart():
        yield Alone(work)


@contextmanager
def _set_apart() -> Iterator[None]:
    """What was there before is not walked when circles are collected, until all is made."""
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


@contextmanager
def forked(work: Work, many: int) -> Iterator[Workers]:
    """So many processes, each of which begins with all that this one has read and worked out.

    They are gone at the end, however it comes.
    """
    before = set(multiprocessing.active_children())
    context = multiprocessing.get_context("fork")
    pool = ProcessPoolExecutor(many, context, worker.begin, (work, os.getpid()))
    with _set_apart():
        try:
            yield Forked(pool, many)
            pool.shutdown()
        except BaseException:
            for process in set(multiprocessing.active_children()) - before:
                process.kill()
            pool.shutdown(cancel_futures=True)
            raise


@contextmanager
def sent(work: Work, executor: Executor, many: int) -> Iterator[Workers]:
    """Somebody's own executor, of which so many work at a time. Raises OSError."""
    packed = freight.pack(work)
    freight.keep(packed)
    try:
        yield Elsewhere(executor, many, packed, Writer(work.place))
    finally:
        freight.let_go(packed.name)
        elsewhere.forget()


@contextmanager
def begun(work: Work, many: int) -> Iterator[Workers]:
    """So many processes where none can be forked: each of them reads what was kept for it."""
    with (
        ProcessPoolExecutor(many, multiprocessing.get_context("spawn")) as pool,
        sent(work, pool, many) as all_,
    ):
        yield all_


def workers(work: Work, jobs: int | None, executor: Executor | None) -> AbstractContextManager[Workers]:
    """Who makes a site: an executor that somebody has given, or processes of our own, or this one alone.

    Where nothing can be forked a second process has to be asked for: it begins by loading the caller's
    program again, which not every program bears.
    """
    if executor is not None:
        return sent(work, executor, jobs or cores())
    many = jobs or (fitting(len(work.site.register.records)) if can_fork() else 1)
    if many == 1:
        return alone(work)
    return forked(work, many) if can_fork() else begun(work, many)
