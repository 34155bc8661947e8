"""What a comparison of two registers tells: every change that readers would see, as values."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.orders import Leaf
from spanbook.answers.questions import Question
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.piecewise import Change
from spanbook.ground.years import Years
from spanbook.reading.records import SeriesSpan
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Held:
    """One assembly of an answer: its id, yes or maybe, how it came there, and whether it is an option."""

    assembly: str
    covers: str
    fitted: str
    option: bool


@dataclass(frozen=True, slots=True)
class Answer:
    """What a number has at a position, as its machine card says it."""

    state: str
    held: tuple[Held, ...]


@dataclass(frozen=True, slots=True)
class AnswerChange:
    """Numbers of a series that answer otherwise at a position; None: it is not asked of them."""

    series: str
    position: str
    change: Change[Answer]


@dataclass(frozen=True, slots=True)
class YearChange:
    """Numbers of a series that are of another year; None: of none that is known."""

    series: str
    change: Change[Years]


@dataclass(frozen=True, slots=True)
class Term:
    """An act on the way to an order: the machines it is limited to, and the conversions it needs."""

    act: str
    serials: tuple[SeriesSpan, ...]
    conversions: tuple[str | None, ...]


@dataclass(frozen=True, slots=True)
class Ordered:
    """What is ordered for a number today: every complete way, and the terms of the acts that lead there."""

    ways: tuple[tuple[Leaf, ...], ...]
    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class OrderChange:
    """A number is ordered otherwise, or on other terms; None: no act names it."""

    key: PartKey
    before: Ordered | None
    after: Ordered | None


@dataclass(frozen=True, slots=True)
class StandingChange:
    """A statement by its record and anchor; None: it is not said there."""

    kind: str
    record: str
    anchor: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class RecordChange:
    """A record that says anything else: added, removed, changed or renamed (from the id `before`)."""

    sort: str
    kind: str
    id: str
    before: str | None = None


@dataclass(frozen=True, slots=True)
class Comparison:
    """All that changes for readers; `born` and `dead` are public addresses.

    `besides` are the files that a proposal touches and that are neither records nor photographs, where that
    is known.
    """

    old: Register
    new: Register
    answers: tuple[AnswerChange, ...]
    years: tuple[YearChange, ...]
    orders: tuple[OrderChange, ...]
    standings: tuple[StandingChange, ...]
    opened: tuple[Question, ...]
    closed: tuple[Question, ...]
    born: tuple[str, ...]
    dead: tuple[str, ...]
    records: tuple[RecordChange, ...]
    besides: tuple[str, ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether readers see just what they saw."""
        return not (self.records or self.born or self.dead or self.besides)
