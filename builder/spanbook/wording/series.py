"""How a series is numbered: where its numbers begin again, its plants, what was issued twice, its years."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, pgettext
from spanbook.ground.years import FAR, MONTHS
from spanbook.reading.records import Beside, End, Plant, Series
from spanbook.wording.grammar import listed
from spanbook.wording.spans import end_words, numbers_words, runs_words, typed_words

BEGINS_AGAIN = {
    "year": marked("Every year the number begins again."),
    "month": marked("Every month the number begins again."),
    "week": marked("Every week the number begins again, in weeks as ISO 8601 counts them."),
    "letter": marked("With every letter the number begins again."),
}
_BESIDE = {"before": marked("a number before {}"), "after": marked("a number after {}")}


def begins_again(series: Series) -> str | None:
    """That the number begins again, and with what; nothing where it never does."""
    return _(BEGINS_AGAIN[series.order.restarts]) if series.order.restarts else None


def years_begin(series: Series) -> str | None:
    """In which month the works' years began; nothing where that was January."""
    begin = series.years_begin
    if begin is None:
        return None
    told = (
        _("The works' years began in {} of the year before.")
        if begin.before
        else _("The works' years began in {}.")
    )
    return told.format(_(MONTHS[begin.month - 1]))


def plant_words(series: Series, plant: Plant, numbers: SpanSet) -> tuple[str, str]:
    """A plant, and its numbers as far as they are known."""
    name = (
        _("{plant}, stamped {letter}").format(plant=plant.name, letter=plant.letter)
        if plant.letter
        else plant.name
    )
    known = runs_words(numbers, series) if numbers else _("which numbers is not known")
    return name, f"{known}. {plant.note}." if plant.note else known


def issued_again(series: Series) -> str | None:
    """The numbers that were stamped a second time, as the second plate has them."""
    again = [
        series.stamp.show(block.place(number) + nth + 1)
        for block in series.order.blocks
        for nth, number in _nth(block.seconds)
    ]
    return listed(again) if again else None


def _nth(seconds: tuple[tuple[int, str], ...]) -> Iterator[tuple[int, int]]:
    """Each number issued again, with how many of its issues stand before it."""
    numbers = [second[0] for second in seconds]
    for i, number in enumerate(numbers):
        yield numbers[:i].count(number), number


def year_words(series: Series, year: int, first: int, end: int | None) -> str:
    """The numbers of a year, from its first to the last before another: `none` where it had none."""
    typed = dict(series.years_as_typed).get(year)
    if year in series.years.unsure and typed is not None:
        begin = _first_words(typed, series)
        if end is None or end >= FAR:
            return _("from {}").format(begin)
        return _("from {first}, up to {last}").format(first=begin, last=series.stamp.show(end))
    if end is not None and end < first:
        return pgettext("numbers of a year", "none")
    issued = SpanSet.of([Span(first, None if end is None or end >= FAR else end)])
    if series.order.restarts:
        issued &= series.issued
        if not issued:
            return pgettext("numbers of a year", "none")
    return numbers_words(issued.first, issued.last, series)


def _first_words(end: End | Beside, series: Series) -> str:
    """The first number of a year, as far as it is known."""
    if isinstance(end, Beside):
        return _(_BESIDE[end.side]).format(typed_words(end.number, series))
    return end_words(end, series)
