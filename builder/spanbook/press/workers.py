"""Who makes the shares of a site: this process alone, or several that it begins."""

from __future__ import annotations

import gc
import multiprocessing
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import Protocol

from spanbook.ground.language import gettext as _
from spanbook.outputs.folder.written import Writer
from spanbook.press import worker
from spanbook.press.jobs import Done, Job, Step
from spanbook.press.work import Work

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

    shares = 1

    def __init__(self, work: Work) -> None:
        self._work = work
        self._writer = Writer(work.place)

    def do(self, jobs: Sequence[Job], step: Step) -> list[Done]:
        return [self._done(job, step) for job in jobs]

    def _done(self, job: Job, step: Step) -> Done:
        step(0)  # whoever follows may end it before any
        return job.do(self._work, self._writer.put, step)


class Several:
    """An executor makes them, so many at a time, by what `make` does of a job in its processes."""

    def __init__(self, executor: Executor, many: int, make: Callable[[Job], Done]) -> None:
        self.shares = many * 4  # so that nobody waits long for the last
        self._executor = executor
        self._make = make

    def do(self, jobs: Sequence[Job], step: Step) -> list[Done]:
        try:
            sent = [self._executor.submit(self._make, job) for job in jobs]
            for future in as_completed(sent):
                step(len(future.result().pages))
            return [future.result() for future in sent]
        except BrokenProcessPool as broken:
            raise ShareLost(
                _(
                    "a process that made a share of the site ended before it was done: it was killed, or had "
                    "no memory left; build with --jobs 1"
                )
            ) from broken


def fitting(records: int) -> int:
    """How many processes a site of so many records gains by: as many as this one may use cores."""
    if records < WORTH:
        return 1
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def can_fork() -> bool:
    """Whether a process can be begun that holds all that this one does; macOS' own libraries forbid it."""
    return "fork" in multiprocessing.get_all_start_methods() and sys.platform != "darwin"


@contextmanager
def forked(work: Work, many: int) -> Iterator[Workers]:
    """So many processes, each of which begins with all that this one has read and worked out.

    They are gone at the end, however it comes.
    """
    gc.freeze()  # what all have in common is walked by none
    before = set(multiprocessing.active_children())
    context = multiprocessing.get_context("fork")
    pool = ProcessPoolExecutor(many, context, worker.begin, (work, os.getpid()))
    try:
        yield Several(pool, many, worker.do)
        pool.shutdown()
    except BaseException:
        for process in set(multiprocessing.active_children()) - before:
            process.kill()
        pool.shutdown(cancel_futures=True)
        raise
    finally:
        gc.unfreeze()
