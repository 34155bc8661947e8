"""What a comparison of two registers tells: every change that readers would see, as values."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from spanbook.answers.orders import Alternative
from spanbook.answers.questions import Question
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Reason, Weight
from spanbook.answers.standing import Standing
from spanbook.ground.intervals import Run
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.piecewise import Change
from spanbook.ground.years import Years
from spanbook.reading.nodes import Node, Step
from spanbook.reading.problems import Place
from spanbook.reading.records import GonePage, Record, Series, SeriesSpan, Teardown
from spanbook.register.model import Register
from spanbook.register.statements import Statement

RecordKey = tuple[str, str]  # kind and id
StatementKey = tuple[str, str, str]  # kind, id and anchor


@dataclass(frozen=True, slots=True)
class HeldLines:
    """One place of a list that goes by the number: the numbers that it may be, and whether it surely is."""

    name: str
    numbers: tuple[str, ...]
    sure: bool


@dataclass(frozen=True, slots=True)
class Held:
    """One assembly of an answer: its id, yes or maybe, how it came there, and whether it is an option.

    `lines` are those of its list that go by the number.
    """

    assembly: str
    covers: str
    fitted: str
    option: bool
    lines: tuple[HeldLines, ...] = ()


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

    ways: tuple[Alternative, ...]
    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class OrderChange:
    """A number is ordered otherwise, or on other terms; None: no act names it."""

    key: PartKey
    before: Ordered | None
    after: Ordered | None


@dataclass(frozen=True, slots=True)
class StandingChange:
    """A statement by its record and anchor; None: it is not said there.

    `gained` are the reasons that are new for it, `lost` those that are gone; none where a side says nothing.
    """

    kind: str
    record: str
    anchor: str
    before: Standing | None
    after: Standing | None
    gained: tuple[Reason, ...] = ()
    lost: tuple[Reason, ...] = ()


@dataclass(frozen=True, slots=True)
class Against:
    """What speaks against statements and did not before.

    `fresh` tells whether it is new itself; else it was seen before, and the statements are what changed.
    """

    reason: Reason
    statements: tuple[Statement, ...]
    fresh: bool


@dataclass(frozen=True, slots=True)
class Look:
    """A machine that was looked at: what each position showed, by what it does to what is recorded there.

    `reading` is its number where that is beyond doubt; `first` tells whether nobody has told of it before.
    """

    teardown: Teardown
    reading: Reading | None
    first: bool
    shown: tuple[tuple[str, Weight | None], ...]


@dataclass(frozen=True, slots=True)
class FieldChange:
    """A field of a statement by its steps, and what stands there on both sides; None: nothing."""

    steps: tuple[Step, ...]
    before: Node | None
    after: Node | None


@dataclass(frozen=True, slots=True)
class StatementChange:
    """A statement that says anything else; `place` is where it does now.

    `backed` tells whether what it rests on changed as well.
    """

    before: Statement
    after: Statement
    place: Place
    fields: tuple[FieldChange, ...]
    backed: bool


@dataclass(frozen=True, slots=True)
class BreakChange:
    """A break that lies elsewhere: its 90 % intervals, None where what was seen cannot all be true.

    `by` are the records that moved it: teardowns, and the sources of spans that changed.
    """

    series: Series
    position: str
    earlier: str
    later: str
    before: Run | None
    after: Run | None
    by: tuple[Record, ...]


@dataclass(frozen=True, slots=True)
class Contradictions:
    """What speaks against statements and did not, and breaks by which what was seen cannot all be true."""

    old: Register
    new: Register
    against: tuple[Against, ...]
    breaks: tuple[BreakChange, ...]

    def __bool__(self) -> bool:
        return bool(self.against or self.breaks)


def impossible(breaks: Iterable[BreakChange]) -> tuple[BreakChange, ...]:
    """Those that lie nowhere any more."""
    return tuple(one for one in breaks if one.after is None)


@dataclass(frozen=True, slots=True)
class RecordChange:
    """A record that says anything else: added, removed, changed or renamed (from the id `before`)."""

    sort: str
    kind: str
    id: str
    before: str | None = None


@dataclass(frozen=True, slots=True)
class Comparison:
    """All that changes for readers; `born` and `dead` are public addresses, `gone` those with a reason.

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
    gone: tuple[GonePage, ...]
    records: tuple[RecordChange, ...]
    against: tuple[Against, ...]
    looks: tuple[Look, ...]
    statements: tuple[StatementChange, ...]
    breaks: tuple[BreakChange, ...]
    besides: tuple[str, ...] = ()

    @property
    def contradictions(self) -> Contradictions:
        return Contradictions(self.old, self.new, self.against, impossible(self.breaks))

    @property
    def unbacked(self) -> tuple[StatementChange, ...]:
        """Statements that say anything else on the word of the same evidence."""
        return tuple(one for one in self.statements if not one.backed)

    @property
    def nothing(self) -> bool:
        """Whether readers see just what they saw."""
        return not (self.records or self.born or self.dead or self.besides)
