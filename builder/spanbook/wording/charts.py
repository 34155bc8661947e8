"""What the charts of spans say to those who cannot see them, and what a bar says of itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce

from spanbook.answers.applicability import Segment
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.records import Assembly, FittedSpan, Machine, Series
from spanbook.wording.fits import covers_word, segment_words
from spanbook.wording.records import CONDITIONS
from spanbook.wording.spans import numbers_words, run_words, span_words


def this_assembly() -> str:
    return _("This assembly")


def all_known() -> str:
    return _("All known here")


def runs_on() -> str:
    """In place of the last number of a series that has none."""
    return pgettext("in place of a last number", "on")


def assembly_chart(assembly: Assembly, spans: Iterable[FittedSpan], series: Series) -> str:
    own = parted(*(span_words(span, series) for span in spans))
    told = _("{assembly} in {series}: {spans}.")
    return told.format(assembly=assembly.title, series=series.name, spans=own)


def position_chart(title: str, series: Series) -> str:
    return _("{position} over the numbers of {series}.").format(position=title, series=series.name)


def machine_chart(machine: Machine, series: Series) -> str:
    told = _("Every position of the {machine} over {numbers}.")
    return told.format(machine=machine.title, numbers=run_words(series))


def segment_bar(segment: Segment, series: Series) -> str:
    return labelled(numbers_words(segment.first, segment.last, series), segment_words(segment))


def dot_words(shown: str, titles: Sequence[str], condition: str) -> str:
    """A machine that was looked at, what it had there and in which condition."""
    held = reduce(lambda one, other: _("{first} or {last}").format(first=one, last=other), titles or [""])
    return _("{machine}: {held}, condition: {condition}").format(
        machine=shown,
        held=held or _("something that no record has"),
        condition=_(CONDITIONS[condition]),
    )


def fit_bar(covers: Covers, first: int, last: int | None, series: Series) -> str:
    return f"{covers_word(covers)} {numbers_words(first, last, series)}"
