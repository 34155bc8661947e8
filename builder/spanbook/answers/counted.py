"""How many machines a question is about: one of several numbers counts once, by the one that tells."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from spanbook.answers.applicability import Fits
from spanbook.answers.questions import Question, in_order
from spanbook.answers.readings import machine_of


def counted(fits: Fits, found: Iterable[Question]) -> tuple[Question, ...]:
    """Questions with what their numbers count for, in their order by it."""
    return in_order(_once(fits, question) for question in found)


def _once(fits: Fits, question: Question) -> Question:
    series, position = question.series, question.tells
    if position is None:
        return question
    shared = [number for number in fits.register.units.shared(series) if number in question.numbers]
    machines = (machine_of(fits.register, series, number) for number in shared)
    told = (fits.speaking.of(machine, position).own == machine.own for machine in machines)
    again = sum(not own for own in told)
    return replace(question, again=again) if again else question
