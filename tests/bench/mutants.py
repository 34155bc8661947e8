"""Which faults in a module its tests let pass: every small fault put in, one at a time. By hand, outside CI.

`python -m tests.bench.mutants spanbook.answers.breaks tests/answers/test_breaks.py` tells each fault that no
test notices, and the score. No file is touched.

Each fault is tried in two ways. Quickly: the tests are collected once; a copy of that process puts the
changed code into the functions that are already loaded, and runs the tests that go through its line until one
fails. What lives through that is tried again from the start: in a process that takes the module from the
changed tree, by all the tests, with as many examples of each property as in the whole run. With `--quickly`
before the module that is left out, and the score is the least it can be. `--every 3` takes every third fault,
and `--after 1` leaves out the first, so that `--every 2 --after 1` takes the other half.
"""

from __future__ import annotations

import argparse
import ast
import gc
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import json
import os
import resource
import signal
import sys
import threading
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from types import CodeType, FrameType, FunctionType, ModuleType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import HealthCheck, Phase, settings

from tests.bench.faults import Mutant, mutants

# Loaded once, so that no process loads them again.
_HEAVY = ("hypothesis.strategies", "networkx", "jsonschema", "jsonschema_rs", "PIL.Image", "jinja2", "click")
_LEAST = 5  # seconds of work before a process is given up, and then counts as noticed
_PATIENCE = 900  # seconds by the clock, on a machine that is busy with other things
_ROOM = 4 << 30  # bytes; a loop that never ends may ask for all there are


def apart(work: Callable[[int], None], seconds: float) -> tuple[bool, bytes]:
    """Whether a process of its own did some work to the end, and what it wrote into the pipe it was given."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        status = 1
        try:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            work_seconds = int(seconds) + 1
            resource.setrlimit(resource.RLIMIT_CPU, (work_seconds, work_seconds + 1))
            resource.setrlimit(resource.RLIMIT_AS, (_ROOM, _ROOM))
            signal.alarm(work_seconds + _PATIENCE)  # what waits for ever takes no work
            work(writing)
            status = 0
        finally:
            os._exit(status)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        said = pipe.read()
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0, said


class Profile:
    """Properties are tried until one example fails, which need not be the smallest, and nothing is kept.

    That examples are drawn slowly is no fault of the module, but of a machine that is busy.
    """

    @pytest.hookimpl(trylast=True)
    def pytest_configure(self) -> None:
        phases = (Phase.explicit, Phase.generate)
        settings.register_profile(
            "faults",
            settings.default,
            phases=phases,
            database=None,
            report_multiple_bugs=False,
            suppress_health_check=[HealthCheck.too_slow],
        )
        settings.load_profile("faults")


def _pytest(marks: str, tests: Sequence[str], *plugins: object) -> int:
    options = ["-x", "-q", "-s", "-m", marks, "-p", "no:cacheprovider", "--timeout=0"]
    return int(pytest.main([*options, *tests], plugins=[Profile(), *plugins]))


# Quickly: changed code in functions that are loaded.


def nested(code: CodeType) -> Iterator[CodeType]:
    """A module's code and that of every function in it."""
    yield code
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            yield from nested(inner)


def put_in(tree: ast.Module, functions: Sequence[FunctionType]) -> None:
    """Give functions, made of one module, the code they have in a changed tree."""
    path = functions[0].__code__.co_filename
    changed = {(code.co_qualname, code.co_firstlineno): code for code in nested(compile(tree, path, "exec"))}
    for function in functions:
        code = changed.get((function.__code__.co_qualname, function.__code__.co_firstlineno))
        if code and code.co_freevars == function.__code__.co_freevars:
            function.__code__ = code


def made_of(path: str) -> list[FunctionType]:
    """The functions that were made of a file; those inside them are made anew at each call."""
    gc.unfreeze()  # what is frozen is not told
    loaded = (thing for thing in gc.get_objects() if isinstance(thing, FunctionType))
    return [
        function
        for function in loaded
        if function.__code__.co_filename == path and function.__name__ != "<lambda>"
    ]


class Quick:
    """Instead of running the tests that were collected, finds the faults that live through them."""

    def __init__(self, path: str, changes: Sequence[Mutant]) -> None:
        self.path, self.changes = path, changes
        self.living: list[int] = []

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        sound, said = apart(lambda pipe: self._follow(session, pipe), 600)
        assert sound, "the tests fail as it is, or there are none"
        lines: defaultdict[int, list[int]] = defaultdict(list)
        pace: dict[int, tuple[float, float]] = {}
        for i, (seconds, through) in enumerate(json.loads(said)):
            pace[i] = len(through) / seconds, seconds
            for line in through:
                lines[line].append(i)
        functions = made_of(self.path)
        assert functions, "nothing of the module is loaded"
        lucky: list[int] = []  # the tests that noticed a fault, the last one first
        for number, change in enumerate(self.changes):
            # First what noticed the last faults, then what goes through most of the module in the least time.
            bearing = sorted(lines[change.line], key=lambda i: -pace[i][0])
            bearing.sort(key=lambda i: lucky.index(i) if i in lucky else len(lucky))
            noticing = self._noticing(session, functions, change, bearing, sum(pace[i][1] for i in bearing))
            if noticing is None:
                self.living.append(number)
            elif noticing >= 0:
                lucky = [noticing, *(i for i in lucky if i != noticing)][:8]
        return True

    def _follow(self, session: pytest.Session, pipe: int) -> None:
        """Write the seconds that each test took, and the lines of the module that it went through."""
        told: list[tuple[float, list[int]]] = []
        for item in session.items:
            through: set[int] = set()

            def at_line(frame: FrameType, event: str, value: object, lines: set[int] = through) -> Any:
                lines.add(frame.f_lineno)
                return at_line

            def at_call(frame: FrameType, event: str, value: object, inner: Any = at_line) -> Any:
                return inner if frame.f_code.co_filename == self.path else None

            started = time.process_time()
            threading.settrace(at_call)
            sys.settrace(at_call)
            passed = _passes(item)
            sys.settrace(None)
            threading.settrace(None)
            assert passed, item.nodeid
            told.append((time.process_time() - started + 0.001, sorted(through)))
        _write(pipe, json.dumps(told))

    @staticmethod
    def _noticing(
        session: pytest.Session,
        functions: Sequence[FunctionType],
        change: Mutant,
        bearing: Sequence[int],
        seconds: float,
    ) -> int | None:
        """Which test notices a change; -1 where none came to an end, None where all pass."""

        def work(pipe: int) -> None:
            put_in(change.tree, functions)
            for i in bearing:
                if not _passes(session.items[i]):
                    _write(pipe, str(i))
                    return

        ended, said = apart(work, max(_LEAST, 8 * seconds))
        return (int(said) if said else None) if ended else -1


def _passes(item: pytest.Item) -> bool:
    return not any(report.failed for report in runtestprotocol(item, log=False, nextitem=None))


def _write(pipe: int, text: str) -> None:
    with os.fdopen(pipe, "w", encoding="utf-8", closefd=False) as file:
        file.write(text)


# From the start: the module taken from the changed tree.


class _Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module from a tree instead of its file."""

    def __init__(self, module: str, path: str, tree: ast.Module) -> None:
        self.module, self.path, self.tree = module, path, tree

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        return (
            importlib.util.spec_from_file_location(name, self.path, loader=self)
            if name == self.module
            else None
        )

    def exec_module(self, module: ModuleType) -> None:
        exec(compile(self.tree, self.path, "exec"), vars(module))


def passes(change: _Changed, tests: Sequence[str], seconds: float) -> bool:
    """Whether all tests pass with a module from a changed tree."""

    def work(pipe: int) -> None:
        sys.meta_path.insert(0, change)
        assert _pytest("not (slow or browser)", tests) == 0

    return apart(work, seconds)[0]


def living(path: str, changes: Sequence[Mutant], tests: Sequence[str]) -> list[int]:
    """The numbers of the changes that the quick way lets live."""

    def work(pipe: int) -> None:
        quick = Quick(path, changes)
        assert _pytest("fast", tests, quick) == 0
        _write(pipe, json.dumps(quick.living))

    ended, said = apart(work, 7200)
    assert ended, "the tests fail as it is, or there are none"
    numbers: list[int] = json.loads(said)
    return numbers


def main(*arguments: str) -> None:
    asked = argparse.ArgumentParser(prog="python -m tests.bench.mutants")
    asked.add_argument("--quickly", action="store_true", help="try nothing again from the start")
    asked.add_argument("--every", type=int, default=1, metavar="N", help="take every Nth fault only")
    asked.add_argument("--after", type=int, default=0, metavar="N", help="leave out the first N faults")
    asked.add_argument("module")
    asked.add_argument("tests", nargs="+")
    options = asked.parse_args(arguments)
    module, quickly, tests = options.module, options.quickly, options.tests
    spec = importlib.machinery.PathFinder.find_spec("spanbook")
    assert spec, "spanbook is not installed"
    assert spec.submodule_search_locations, "spanbook is no package"
    path = Path(spec.submodule_search_locations[0]).parent / f"{module.replace('.', '/')}.py"
    source = path.read_text(encoding="utf-8")
    tree, lines = ast.parse(source), source.splitlines()
    for heavy in _HEAVY:
        importlib.import_module(heavy)
    changes = list(mutants(tree))[options.after :: options.every]
    remaining = living(str(path), changes, tests)
    noticed = len(changes) - len(remaining)
    seconds = 0.0 if quickly else _seconds_as_it_is(_Changed(module, str(path), tree), tests)
    for change in (changes[number] for number in remaining):
        if quickly or passes(_Changed(module, str(path), change.tree), tests, seconds):
            print(f"{path.name}:{change.line}: {change.words}: {lines[change.line - 1].strip()}", flush=True)
        else:
            noticed += 1
    print(f"{module}: {noticed} of {len(changes)} noticed")


def _seconds_as_it_is(unchanged: _Changed, tests: Sequence[str]) -> float:
    """How much work, in seconds, is more than the tests can take."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    assert passes(unchanged, tests, 600), "the tests fail as it is, or there are none"
    return _LEAST + 8 * (resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before)


if __name__ == "__main__":
    main(*sys.argv[1:])
