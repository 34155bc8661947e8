"""What the charts of spans say to those who cannot see them, and what a bar says of itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from spanbook.answers.applicability import Segment
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Assembly, FittedSpan, Machine, Series
from spanbook.wording.fits import COVERS, segment_words
from spanbook.wording.records import CONDITIONS
from spanbook.wording.spans import numbers_words, run_words, span_words

THIS = "This assembly"
ALL = "All known here"
RUNS_ON = "on"
NOT_RECORDED = "something that no record has"


def assembly_chart(assembly: Assembly, spans: Iterable[FittedSpan], series: Series) -> str:
    own = "; ".join(span_words(span, series) for span in spans)
    return f"{assembly.title} in {series.name}: {own}."


def position_chart(title: str, series: Series) -> str:
    return f"{title} over the numbers of {series.name}."


def machine_chart(machine: Machine, series: Series) -> str:
    return f"Every position of the {machine.title} over {run_words(series)}."


def segment_bar(segment: Segment, series: Series) -> str:
    return f"{numbers_words(segment.first, segment.last, series)}: {segment_words(segment)}"


def dot_words(shown: str, titles: Sequence[str], condition: str) -> str:
    """A machine that was looked at, what it had there and in which condition."""
    return f"{shown}: {' or '.join(titles) or NOT_RECORDED}, condition: {_(CONDITIONS[condition])}"


def fit_bar(covers: Covers, first: int, last: int | None, series: Series) -> str:
    return f"{COVERS[covers]} {numbers_words(first, last, series)}"
