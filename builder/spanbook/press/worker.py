"""A process that makes shares: what it holds, and that it ends with the one that began it."""

from __future__ import annotations

import ctypes
import gc
import os
import signal
import sys
from dataclasses import replace

from spanbook.ground.notes import taking
from spanbook.outputs.folder.written import Writer
from spanbook.press.jobs import Done, Job, NotedThere, Step
from spanbook.press.work import Work
from spanbook.register.cells import lasting

_PR_SET_PDEATHSIG = 1  # prctl(2)


class _Held:
    """What the shares of this process are made from: one site at a time."""

    work: Work | None = None
    writer: Writer | None = None


def begin(work: Work, parent: int) -> None:
    """Make ready for the shares of a site, in a process that was begun for nothing else."""
    gc.disable()  # all of it lives as long as the process
    # Whoever ends the build ends the process that began this one, which sees to the rest.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    _end_with(parent)
    _Held.work, _Held.writer = work, Writer(work.place)


def _end_with(parent: int) -> None:
    """A build that is killed leaves nobody behind who still writes."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:
        os._exit(1)


def do(job: Job) -> Done:
    work, writer = _Held.work, _Held.writer
    assert work, "it was begun"
    assert writer, "it was begun"
    if work.noting is None:
        return done(job, work, writer, lambda count: None)
    notes = work.noting.notes
    first = len(notes)
    with taking(notes):
        made = done(job, work, writer, lambda count: None)
    return replace(made, noted=NotedThere(os.getpid(), first, lasting(notes.since(first))))


def done(job: Job, work: Work, writer: Writer, step: Step) -> Done:
    """Do a job, and let go of what it left behind in circles: while a site is made nobody else collects."""
    made = job.do(work, writer, step)
    gc.collect()
    gc.freeze()  # what is still here is kept for other jobs: it is not walked after each of them
    _give_back()
    return made


def _give_back() -> None:
    """What large tables took goes back to the system, and does not lie unused between what is kept."""
    if sys.platform == "linux" and (trim := getattr(ctypes.CDLL(None), "malloc_trim", None)):
        trim(0)  # the GNU C library has it, others do without
