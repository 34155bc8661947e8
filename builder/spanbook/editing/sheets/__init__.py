"""From a spreadsheet's rows to drafts of records, and to all that was left over. Nothing of a cell is
guessed."""

from __future__ import annotations

from spanbook.editing.sheets.alike import Alike, alike
from spanbook.editing.sheets.drafts import Draft, Filled, filled
from spanbook.editing.sheets.left import Left, Why
from spanbook.editing.sheets.names import Names
from spanbook.editing.sheets.standing import Standing, State, standing_of

__all__ = [
    "Alike",
    "Draft",
    "Filled",
    "Left",
    "Names",
    "Standing",
    "State",
    "Why",
    "alike",
    "filled",
    "standing_of",
]
