"""What is advised of conversions and supersessions that fall short, at which line and in which words."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import act, assembly, parts

LID = assembly("lid", "xa, first: 1, last: 60", more=parts("L-1").replace("number", "by: w, number"))
LATER = "xa, first: 1, last: 99, fitted: field, anchor: later"
HAT = assembly("hat", "xa, first: 61, last: 99", LATER, more=parts("H-1"))
BOTH = LID + HAT


def kit(*spans: str, more: str = "") -> str:
    lines = "".join(f"- {{series: xa, {span}}}\n" for span in spans)
    return (
        "# file: content/conversions/kit.yml\nkind: conversion\nid: kit\ntitle: Kit\nposition: body/cover\n"
        f"from: [lid]\nto: hat\nevidence: [{{source: book}}]\nserials:\n{lines}{more}"
    )


SHORT, PAST, UNMET, NEVER = (
    "conversion-short-of-base",
    "conversion-past-base",
    "conversion-need-unmet",
    "supersession-never-had",
)
NEED = "needs:\n- {position: pump, assemblies: [wide], why: Oil}\n"
PUMPS = assembly("narrow", "xa, first: 1, last: 9", position="pump") + assembly(
    "wide", "xa, first: 10, last: 99", position="pump"
)
WORLDS = {
    "numbers that were never issued are told over, and no conversion goes there": (
        BOTH + kit("first: 1, last: 30"),
        [(SHORT, 9, "lid is recorded on XA 31 to XA 60, and no conversion of it reaches there")],
    ),
    "after the second of two spans": (
        BOTH + kit("first: 1, last: 10", "first: 11, last: 58"),
        [(SHORT, 10, "lid is recorded on XA 59 to XA 60, and no conversion of it reaches there")],
    ),
    "before the first": (
        BOTH + kit("first: 2, last: 60"),
        [(SHORT, 9, "lid is recorded on XA 1, and no conversion of it reaches there")],
    ),
    "on both sides: at the first of them": (
        BOTH + kit("first: 2, last: 59"),
        [(SHORT, 9, "lid is recorded on XA 1, XA 60, and no conversion of it reaches there")],
    ),
    "perhaps short is no advice": (BOTH + kit("first: 1, last: [50, 60]"), []),
    "one span of two past its base": (
        BOTH + kit("first: 1, last: 60", "first: 70, last: 72"),
        [(PAST, 10, "lid was never on XA 70 to XA 72")],
    ),
    "the same span twice is told twice, each at its line": (
        BOTH + kit("first: 1, last: 61", "first: 1, last: 61"),
        [(PAST, 9, "lid was never on XA 61"), (PAST, 10, "lid was never on XA 61")],
    ),
    "what never fits at all is told by itself": (
        BOTH + kit("first: 70, last: 72"),
        [("conversion-never-fits", 5, "lid, which has no span on the machines that may take it")],
    ),
    "a need": (
        BOTH + PUMPS + kit("first: 1, last: 60", more=NEED),
        [(UNMET, 11, "nothing recorded brings wide to XA 1 to XA 9")],
    ),
    "a replacement": (
        BOTH
        + act(
            "a",
            "L-1",
            "L-9",
            "serials:\n- {series: xa, first: 1, last: 60}\n- {series: xa, first: 70, last: 72}\n",
        ),
        [(NEVER, 8, "L-1 was never on XA 70 to XA 72")],
    ),
}


@each_row(("world", "wanted"), WORLDS.values())
def test_told(world: str, wanted: list[tuple[str, int, str]], tmp_path: Path) -> None:
    families = (SHORT, PAST, UNMET, NEVER, "conversion-never-fits")
    told = [one for one in worlds.told(tmp_path, world) if one[0] in families]
    assert told == wanted


def test_a_run_without_an_end(tmp_path: Path) -> None:
    open_ended = assembly("lid", "xb, first: 100, last: open") + assembly(
        "hat", "xb, first: 100, last: 101, option: true"
    )
    short = kit("first: 100, last: 120").replace("xa", "xb")
    told = [one for one in worlds.told(tmp_path, open_ended, short) if one[0] == SHORT]
    assert told == [(SHORT, 9, "lid is recorded on 0121B and up, and no conversion of it reaches there")]
