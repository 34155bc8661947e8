"""What the lists of assemblies have on one machine where they go by its number, and on whose word."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from spanbook.answers.lines import Held, Lists
from spanbook.answers.readings import Reading
from spanbook.answers.standing import Judge, Judgement
from spanbook.reading.records import Assembly
from spanbook.register.statements import Limit


@dataclass(frozen=True, slots=True)
class PartsHere:
    """One place of an assembly's list, with the lines that a machine surely or possibly has there, and of
    each the spans that reach it."""

    assembly: Assembly
    held: Held
    limits: tuple[tuple[tuple[Limit, Judgement], ...], ...]


def parts_here(
    lists: Lists, judge: Judge, machine: Reading, assemblies: Iterable[Assembly]
) -> Iterator[PartsHere]:
    """The places of some assemblies' lists that go by the number, as they are on a machine."""
    said = lists.register.said
    for assembly in dict.fromkeys(assemblies):
        for held in lists.by_number(assembly, machine):
            reaching = (lists.reaching(one.line, machine) for one in held.lines)
            judged = (tuple((one, judge.of(said[one])) for one in each) for each in reaching)
            yield PartsHere(assembly, held, tuple(judged))
