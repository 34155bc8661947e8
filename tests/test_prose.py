"""Sentences stand on the floor of words: below it answers are values, above it they are only put together.

A rule's and the reader's problem messages stay with their rule, a template's labels in the template, and a
schema's descriptions in the schema.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache

import pytest

from tests.support.code import nodes, trees

FLOORS = ("ground", "register", "answers", "site", "outputs")
# A word beside a space: ` to ` between two values is half a sentence too.
PROSE = re.compile(r"[^\W\d_]{2,}[,;:.?!]* |[ ‘“(][^\W\d_]{2,}")
# Why these hold what reads like a sentence.
ELSEWHERE = {
    "ground/hosts.py": "the names of hosts, and where their limits are told",
    "ground/language.py": "why a language is not spoken: none of its messages can be looked up then",
    "ground/licences.py": "the titles that licences have of their own",
    "ground/punctuation.py": "which point a catalogue is asked for",
    "ground/units.py": "the names of units as records write them",
    "outputs/data/sqlite.py": "SQL",
    "site/opensearch.py": "XML, and the words of robots.txt",
    "outputs/data/workbook.py": "XML",
    "outputs/folder/": "why nothing is written, told by what refuses to: no answer of the records",
    "outputs/serving/": "the server's own pages and refusals: no answer of the records",
    "outputs/text/failure.py": "the system's refusals: no answer of the records",
    "outputs/whole_file.py": "why nothing is written",
}
# What is no sentence though it has a space.
FORMS = {
    "<script type=",  # of an element, HTML
    "noopener nofollow",  # the rel of a link, HTML
    "::warning title=",  # a workflow command
    "::error title=",  # another
    "spanbook check",  # the command
}


def sentences(tree: ast.Module) -> Iterator[str]:
    """Every text of a module that reads like prose, but for docstrings and what only programmers see."""
    passed = {id(node) for node in _docstrings(tree)} | {id(node) for node in _for_programmers(tree)}
    for node in nodes(tree):
        if id(node) in passed:
            continue
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            said = node.value
            if PROSE.search(said) and not any(form in said for form in FORMS):
                yield said


def _docstrings(tree: ast.Module) -> Iterator[ast.AST]:
    for node in nodes(tree):
        for statement in getattr(node, "body", ()) if not isinstance(node, ast.Lambda | ast.IfExp) else ():
            if isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant):
                yield statement.value


def _for_programmers(tree: ast.Module) -> Iterator[ast.AST]:
    """The texts of a ValueError and of an assertion: no reader meets them."""
    for node in nodes(tree):
        of: ast.AST | None = None
        if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call):
            of = node.exc if ast.unparse(node.exc.func) == "ValueError" else None
        elif isinstance(node, ast.Assert):
            of = node.msg
        if of is not None:
            yield from ast.walk(of)


@cache
def told() -> dict[str, list[str]]:
    """The sentences of every module that is to have none, by its path."""
    return {path: list(sentences(tree)) for path, tree in trees().items() if path.split("/")[0] in FLOORS}


@pytest.mark.slow
def test_no_sentence_stands_off_the_floor_of_words() -> None:
    assert {path.split("/")[0] for path in told()} == set(FLOORS)
    stray = {path: said for path, said in told().items() if said and not path.startswith(tuple(ELSEWHERE))}
    assert stray == {}


def test_every_exception_is_still_one() -> None:
    for place in ELSEWHERE:
        assert any(said for path, said in told().items() if path.startswith(place)), place


@pytest.mark.parametrize(
    "line",
    [
        'WHY = "the machine was altered there"',
        'def f(a, b):\n    return f"{a} to {b}"',
        'def f(n):\n    return f"{n} seen"',
        'raise Refused("it moves; one picture is wanted")',
        'def f(x):\n    return {"why": "limited to others"}',
    ],
)
def test_a_sentence_put_back_is_found(line: str) -> None:
    assert list(sentences(ast.parse(line)))


@pytest.mark.parametrize(
    "line",
    [
        '"""What a module is for."""',
        'def f():\n    """What it does, in words."""\n',
        'raise ValueError("a set without an end cannot be listed")',
        'NAME = "no-longer-supplied"',
        'def f(a, b):\n    return f"{a}, {b}"',
        'JOINT = "; "',
    ],
)
def test_what_no_reader_reads_is_passed_over(line: str) -> None:
    assert list(sentences(ast.parse(line))) == []
