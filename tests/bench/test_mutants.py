"""The faults that are put in, and that those which no test notices are told."""

from __future__ import annotations

import ast
import subprocess
import sys
from functools import cache
from types import FunctionType

import pytest

from tests.bench.faults import mutants
from tests.bench.mutants import living, put_in
from tests.support.command import PROJECT
from tests.support.rows import each_row


def changed(body: str) -> dict[str, int]:
    """Each fault of a function `f(a, b)` as source, with its line in the body."""
    lines = "\n".join(f"    {line}" for line in body.splitlines())
    return {
        "\n".join(line[4:] for line in ast.unparse(mutant.tree).splitlines()[1:]): mutant.line - 1
        for mutant in mutants(ast.parse(f"def f(a, b):\n{lines}"))
    }


@each_row(
    ("body", "faults"),
    [
        ("return a < b", {"return a <= b", "return None"}),
        ("return a and b", {"return a", "return b", "return None"}),
        ("return a + 1", {"return a - 1", "return a + 2", "return None"}),
        ("return not a", {"return a", "return None"}),
        ("a.clear()", {"pass"}),
        ("yield a", {"if False:\n    yield a"}),
        ("return b if a else b", {*(f"return b if {is_} else b" for is_ in (True, False)), "return None"}),
        ("return [x for x in a if x]", {"return [x for x in a]", "return None"}),
        ("return", set()),
        ("c: a | b = a", set()),
        ("def g(a: int | None) -> int | None:\n    pass", set()),
    ],
)
def test_faults_are_small_and_one_at_a_time(body: str, faults: set[str]) -> None:
    assert set(changed(body)) == faults


def test_a_fault_is_told_at_its_line() -> None:
    assert changed("a = b\nif a:\n    b = 2") == {
        "a = b\nif True:\n    b = 2": 2,
        "a = b\nif False:\n    b = 2": 2,
        "a = b\nif a:\n    b = 3": 3,
    }


def test_a_function_that_is_loaded_takes_the_changed_code_wherever_it_is_held() -> None:
    outer = "def outer(a):\n    def inner():\n        return a + 1\n    return inner()\n"
    source = f"{outer}def other():\n    return 5\n"
    held: dict[str, FunctionType] = {}
    exec(compile(source, "made.py", "exec"), held)
    kept, other = cache(held["outer"]), held["other"]
    (change,) = (m for m in mutants(ast.parse(source)) if "a + 2" in ast.unparse(m.tree))
    put_in(change.tree, [held["outer"], other])
    assert (kept(1), other()) == (3, 5)


@pytest.mark.slow
@pytest.mark.parametrize("how", [[], ["--quickly"]])
@pytest.mark.parametrize(
    ("test", "told"),
    [
        ("", ["spanbook.ground.reserved: 8 of 8 noticed"]),
        (
            "::test_the_page_of_a_folder",
            [
                "reserved.py:12: gives None: return _first_word(name) in _DEVICES",
                "reserved.py:16: without part 1: return is_device(name) or _first_word(name) in _PAGES",
                "spanbook.ground.reserved: 6 of 8 noticed",
            ],
        ),
    ],
)
def test_what_no_test_notices_is_told(test: str, told: list[str], how: list[str]) -> None:
    tests = f"tests/ground/test_reserved.py{test}"
    command = [sys.executable, "-m", "tests.bench.mutants", *how, "spanbook.ground.reserved", tests]
    run = subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, check=False)
    assert run.stdout.splitlines() == told, run.stderr


@pytest.mark.slow
def test_every_third_fault_is_a_third_of_them() -> None:
    command = [sys.executable, "-m", "tests.bench.mutants", "--quickly", "--every", "3"]
    asked = [*command, "spanbook.ground.reserved", "tests/ground/test_reserved.py"]
    run = subprocess.run(asked, cwd=PROJECT, capture_output=True, text=True, check=False)
    assert run.stdout.splitlines() == ["spanbook.ground.reserved: 3 of 3 noticed"], run.stderr


@pytest.mark.slow
def test_it_is_said_that_there_is_nothing_to_run() -> None:
    with pytest.raises(AssertionError, match="or there are none"):
        living("made.py", [], ["tests/no_such_test.py"])
