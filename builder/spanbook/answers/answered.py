"""Which questions a look at a machine has answered: nobody is asked what is known."""

from __future__ import annotations

from collections.abc import Iterable

from spanbook.answers.named import GOOD
from spanbook.answers.questions import About, Question
from spanbook.answers.shortfalls import NeverHad
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Find, PartUse


def answered(question: Question, finds: Iterable[Find]) -> bool:
    """Whether what was found on a machine answers a question to its owner.

    Whoever has told what is at a position has told which assembly it is, and which it is not. What it ever
    was is told by that assembly itself, or by a machine that nobody altered. A number that nobody has read is
    asked for until it is read, where the assembly is the one that it should be on.
    """
    there = [find for find in finds if find.position == question.position]
    held = {assembly.id for assembly in question.assemblies}
    another = bool(there and held) and not any(held & set(find.named) for find in there)
    match question.about:
        # What was measured, and what tells two things apart, stands in their records and is asked no more.
        case About.MEASURE | About.ALIKE:
            return False
        case About.LINE:
            return another or any(_on_line(question, use) for find in there for use in find.parts)
        case About.PARTS:
            return another
        case About.NEVER_HAD:
            return another or any(_read(question, use) for find in there for use in find.parts)
        case About.PAST_BASE:
            return any(held & set(find.named) or find.condition in GOOD for find in there)
        case _:
            return bool(there)


def _on_line(question: Question, use: PartUse) -> bool:
    """Whether a number that was read is on one of the lines that a question is about."""
    keys = [key for line in question.lines for key in line.keys]
    return any(PartKey.of(use.by or key.by, use.number) == key for key in keys)


def _read(question: Question, use: PartUse) -> bool:
    """Whether a number that was read is the one that a question is about."""
    short = question.shortfall
    if not isinstance(short, NeverHad):
        return False
    part = short.part
    return PartKey.of(use.by or part.key.by, use.number) in (part.key.plain, *part.also)
