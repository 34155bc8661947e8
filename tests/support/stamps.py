"""Stamps without a record around them, and series stamped in any way at random."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

from hypothesis import assume
from hypothesis import strategies as st

from spanbook.ground.running_order import Layout, Restarts
from spanbook.ground.serials import Form, Stamp
from spanbook.ground.stamped import Letters, Stamped, Value, What, weeks_in
from spanbook.reading.series_order import SeriesOrder
from spanbook.reading.series_typed import Plant, SecondIssue, SeriesTyped

MOST = 12  # of a number that begins again, in a series at random


def stamp_of(stamped: str) -> Stamp:
    """The stamp of numbers that never begin again."""
    return Layout(Stamped.of(stamped)).stamp()


@dataclass(frozen=True)
class Entry:
    """A machine of the ledger: what its stamp says, each once for all that it may say."""

    values: dict[What, Value]
    number: int
    mark: str


@dataclass(frozen=True)
class World:
    """A series at random, with its ledger written out plainly in the order in which it was numbered."""

    order: SeriesOrder
    ledger: tuple[Entry, ...]

    def text(self, entry: Entry) -> str:
        """What is on the plate."""
        return self._form(entry).show(entry.number)

    def spellings(self, entry: Entry) -> list[str]:
        """What is on the plate with any noughts before its number, or none."""
        form = self._form(entry)
        return [f"{form.prefix}{entry.number:0{width}}{form.suffix}" for width in range(1, form.width + 6)]

    def _form(self, entry: Entry) -> Form:
        layout = self.order.layout
        return layout.stamped.form({**entry.values, What.ISSUE: entry.mark}, layout.letters)


PARTS = {
    "year": ["{year}", "{year:2}", "{year:letter}"],
    "month": ["{month}", "{month:2}", "{month:letter}"],
    "week": ["{week}", "{week:2}"],
    "letter": ["{letter}"],
    "plant": ["{plant}"],
    "issue": ["{issue}"],
}
_joints = st.sampled_from(["", "", "-", "/", " ", ".", "HK ", "X"])


@st.composite
def worlds(draw: st.DrawFn) -> World:
    """A series whose numbers begin again with a year, month, week or letter, or never, and its ledger."""
    restarts = draw(st.sampled_from([None, *Restarts]))
    needed = {"year": ["year"], "month": ["year", "month"], "week": ["year", "week"], "letter": ["letter"]}
    has = list(needed.get(restarts or "", []))
    has += draw(st.lists(st.sampled_from(["plant", "issue"]), unique=True, max_size=2))
    number = draw(st.sampled_from(["{number}", "{number:2}", "{number:4}"]))
    pieces = draw(st.permutations([number, *(draw(st.sampled_from(PARTS[one])) for one in has)]))
    text = draw(_joints) + "".join(piece + draw(_joints) for piece in pieces)
    most = 1 if restarts is Restarts.WEEK else 2
    years = draw(st.lists(st.integers(1915, 1932), min_size=1, max_size=most, unique=True))
    return world(
        text, tuple(sorted(years)), restarts, draw(st.booleans()), draw(st.sampled_from(["IOQ", ""]))
    )


def world(
    text: str, years: tuple[int, ...], restarts: Restarts | None, blocks_known: bool, left_out: str
) -> World:
    stamped = Stamped.of(text)
    letters = Letters(left_out, tuple((year, "ABCDEFGHJKLMNPRSTUVW"[year - 1915]) for year in years))
    block, *_ = Layout(stamped, years, restarts, MOST, letters).blocks()

    def typed(number: int) -> int | str:
        """A number of the first block as a record has it."""
        if restarts is None:
            return number
        # Plants are not known of what is typed: any letter will do.
        values = {**block.values, What.PLANT: "N"}
        return stamped.form(values, letters).show(number)

    again = (SecondIssue("A", ((typed(2), typed(3)),)), SecondIssue("B", ((typed(3), typed(3)),)))
    runs = ((typed(1), typed(2)), (typed(10), typed(11))) if blocks_known else ()
    order = SeriesOrder(
        SeriesTyped(
            stamped=stamped,
            restarts=restarts.value if restarts else None,
            most=MOST,
            left_out=left_out,
            year_letters=dict(letters.of_years),
            plants=(Plant("North", "N", runs, (), None), Plant("South", "S", (), (), None))
            if stamped.has(What.PLANT)
            else (),
            seconds=again if stamped.has(What.ISSUE) else (),
            first=typed(1),
            last=None,
            years=dict.fromkeys(years, 1),
            years_last={},
            skipped=(),
        )
    )
    # A record may have no number that reads as several: a rule refuses it.
    assume(all(order.place(typed(number)) is not None for number in (1, 2, 3, 10, 11)))
    return World(order, tuple(_ledger(order, restarts, blocks_known)))


def _ledger(order: SeriesOrder, restarts: Restarts | None, blocks_known: bool) -> list[Entry]:
    """Year after year, month after month: plain loops over what is counted, nothing of places."""
    typed, letters = order.typed, order.layout.letters
    rows: list[dict[What, Value]] = [{}]
    if restarts in (Restarts.YEAR, Restarts.MONTH, Restarts.WEEK):
        rows = [{What.YEAR: year} for year in sorted(typed.years)]
    if restarts is Restarts.MONTH:
        rows = [{**row, What.MONTH: month} for row, month in product(rows, range(1, 13))]
    if restarts is Restarts.WEEK:
        rows = [
            {**row, What.WEEK: week} for row in rows for week in range(1, weeks_in(int(row[What.YEAR])) + 1)
        ]
    if restarts is Restarts.LETTER:
        rows = [{What.LETTER: letter} for letter in letters.running]
    found = []
    for i, row in enumerate(rows):
        for number in range(1, MOST + 1) if len(rows) < 24 else (1, 2, 3, 9, 10, 11):
            marks = [""]
            if typed.seconds and i == 0:
                marks += ["A"] * (2 <= number <= 3) + ["B"] * (number == 3)
            for mark in marks:
                plants = ["N", "S"] if typed.plants else [""]
                if typed.plants and blocks_known and i == 0 and number in (1, 2, 10, 11) and not mark:
                    plants = ["N"]
                elif typed.plants and blocks_known:
                    plants = ["S"]
                found += [Entry({**row, What.PLANT: plant}, number, mark) for plant in plants]
    return found
