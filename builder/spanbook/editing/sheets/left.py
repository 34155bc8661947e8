"""What of a sheet goes into no draft, and why."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Why(StrEnum):
    """Why something of a sheet is left over.

    number, date, truth: what the program made of a text that was typed. formula: its result is not in the
    file. error: a formula failed. whole: a number that is not whole. hidden: a character that no eye sees.
    long: more text than a cell may have. unknown: the name of nothing that is recorded, or of several
    things. form: the field does not take it. choice: it is none of the words that a field takes. comma: the
    field would take it with a decimal point. thousands: it
    would take it without what stands between thousands. cut: the sign is
    missing that the map cuts at. otherwise: an earlier row of the record says something else.
    twice: an earlier row says the same. part, record: an entry of a list, or a record, lacks what it must
    have, or would say something else without what was not taken. unreadable: no record can be made of it.
    no-id: nothing to make an id of. column: a column that the map does not name.
    """

    NUMBER = "number"
    DATE = "date"
    TRUTH = "truth"
    FORMULA = "formula"
    ERROR = "error"
    WHOLE = "whole"
    HIDDEN = "hidden"
    LONG = "long"
    UNKNOWN = "unknown"
    FORM = "form"
    CHOICE = "choice"
    COMMA = "comma"
    THOUSANDS = "thousands"
    CUT = "cut"
    OTHERWISE = "otherwise"
    TWICE = "twice"
    PART = "part"
    RECORD = "record"
    UNREADABLE = "unreadable"
    NO_ID = "no-id"
    COLUMN = "column"


@dataclass(frozen=True, slots=True)
class Left:
    """`row` and `column` count from 1; 0 for a whole column, or a whole row. `heading` is the column's,
    `read` what stood there, `about` what the reason needs: the words it may be, what is missing, the earlier
    row."""

    why: Why
    row: int
    column: int
    heading: str
    read: str
    about: str = ""
