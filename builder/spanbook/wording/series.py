"""How a series is numbered: where its numbers begin again, its plants, what was issued twice, its years."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.years import FAR, MONTHS
from spanbook.reading.records import Beside, End, Plant, Series
from spanbook.wording.grammar import listed
from spanbook.wording.spans import end_words, numbers_words, runs_words, typed_words

BEGINS_AGAIN = {
    "year": "Every year the number begins again.",
    "month": "Every month the number begins again.",
    "week": "Every week the number begins again, in weeks as ISO 8601 counts them.",
    "letter": "With every letter the number begins again.",
}


def begins_again(series: Series) -> str | None:
    """That the number begins again, and with what; nothing where it never does."""
    return BEGINS_AGAIN[series.order.restarts] if series.order.restarts else None


def years_begin(series: Series) -> str | None:
    """In which month the works' years began; nothing where that was January."""
    begin = series.years_begin
    if begin is None:
        return None
    before = " of the year before" if begin.before else ""
    return f"The works' years began in {MONTHS[begin.month - 1]}{before}."


def plant_words(series: Series, plant: Plant, numbers: SpanSet) -> tuple[str, str]:
    """A plant, and its numbers as far as they are known."""
    letter = f", stamped {plant.letter}" if plant.letter else ""
    known = runs_words(numbers, series) if numbers else "which numbers is not known"
    return f"{plant.name}{letter}", f"{known}. {plant.note}." if plant.note else known


def issued_again(series: Series) -> str | None:
    """The numbers that were stamped a second time, as the second plate has them."""
    marked = [
        series.stamp.show(block.place(number) + nth + 1)
        for block in series.order.blocks
        for nth, number in _nth(block.seconds)
    ]
    return listed(marked) if marked else None


def _nth(seconds: tuple[tuple[int, str], ...]) -> Iterator[tuple[int, int]]:
    """Each number issued again, with how many of its issues stand before it."""
    for i, (number, _) in enumerate(seconds):
        yield sum(other == number for other, _ in seconds[:i]), number


def year_words(series: Series, year: int, first: int, end: int | None) -> str:
    """The numbers of a year, from its first to the last before another: `none` where it had none."""
    typed = dict(series.years_as_typed).get(year)
    if year in series.years.unsure and typed is not None:
        upto = "" if end is None or end >= FAR else f", up to {series.stamp.show(end)}"
        return f"from {_first_words(typed, series)}{upto}"
    if end is not None and end < first:
        return "none"
    issued = SpanSet.of([Span(first, None if end is None or end >= FAR else end)])
    if series.order.restarts:
        issued &= series.issued
        if not issued:
            return "none"
    return numbers_words(issued.first, issued.last, series)


def _first_words(end: End | Beside, series: Series) -> str:
    """The first number of a year, as far as it is known."""
    if isinstance(end, Beside):
        return f"a number {end.side} {typed_words(end.number, series)}"
    return end_words(end, series)
