"""Numbers that are given together: whose they are, and what is told of them. Common practice, no source."""

from __future__ import annotations

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.together import Apart, machines_in, together
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.answers.test_units import ENGINE, MACHINE, RAIL, held, world
from tests.support.demo import demo
from tests.support.machines import BOOK
from tests.support.registers import record, unit

OTHER = record(
    "kind: machine\nid: y\ntitle: Y\nmaker: Example Works\nseries:\n"
    '- {id: ya, stamped: "YA {number}", plate: engine, first: 1, last: 20}\n',
    "machine",
    "y",
)


@pytest.fixture(scope="module")
def made() -> Register:
    units = (
        unit("XA 5", "M 3"),
        record("kind: unit\nid: v\nmachine: x\nnumbers: [{serial: XA 7}, {serial: XA 17}]\n", "unit", "v"),
    )
    return world(BOOK, ENGINE, RAIL, OTHER, held("gear", "box", "xm"), *units)


@pytest.mark.parametrize(
    ("text", "numbers", "apart"),
    [
        ("F 118 / XA 9", ["F 118", "XA 9"], None),
        ("f118/xa9", ["F 118", "XA 9"], None),
        ("XA 9 / F 118 / M 4", ["XA 9", "F 118", "M 4"], None),
        ("F 118 / XA 5", ["F 118", "XA 5", "M 3"], None),  # what a record has of one of them comes along
        ("XA 5 / M 3", ["XA 5", "M 3"], None),
        ("XA 17 / XA 7", ["XA 7", "XA 17"], None),  # one plate, and a record that has both
        ("XA 9 / XA 9", [], None),
        ("XA 9 / XA 10", [], Apart.PLATE),
        ("XA 7 / M 3", [], Apart.UNITS),
        ("M 4 / XA 5", [], Apart.PLATE),
        ("XA 9 / YA 9", [], Apart.MODELS),
    ],
)
def test_whose_numbers_are(made: Register, text: str, numbers: list[str], apart: Apart | None) -> None:
    (one,) = together(made, text)
    assert one.apart is apart
    assert (one.machine is None) is (apart is not None)
    if one.machine:
        assert [number.shown for number in one.machine.numbers] == numbers
    else:
        assert list(machines_in(made, text)) == list(one.parts)


@pytest.mark.parametrize(
    "text", ["XA 9", "XA 9 / ", "XA 9 / QQ 1", "XA 9 / F 999", "XA ? / F 118", "/", "a/b"]
)
def test_what_is_not_several_numbers(made: Register, text: str) -> None:
    assert together(made, text) == ()


def test_a_stamp_with_a_stroke_of_its_own_is_one_number() -> None:
    stroke = record(MACHINE.replace("XA {number}", "{number}/26"), "machine", "x")
    made = build([*(one for one in world(ENGINE).records if one.kind != "machine"), stroke])
    assert together(made, "6/26") == ()
    (one,) = together(made, "6/26 / F 118")
    assert [part.own.shown for part in one.parts] == ["6/26", "F 118"]


def test_each_number_tells_of_what_goes_by_its_plate(made: Register) -> None:
    (reading,) = machines_in(made, "F 118 / XA 9")
    machine = Answers(made).machines.of(reading)
    told = {place.position: (place.reading.own.shown, str(place.state)) for place in machine.positions}
    assert told == {
        "engine/cover": ("XA 9", "settled"),
        "engine/rail": ("F 118", "settled"),
        "box": ("F 118", "other-plate"),
        "any": ("F 118", "blank"),
    }


def test_what_was_seen_under_either_is_told(made: Register) -> None:
    seen = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: F 118\ncondition: untouched\n"
        "found: [{position: engine/cover, assembly: lid}]\n",
        "teardown",
        "t",
    )
    whole = Answers(build([*made.records, seen]))
    (reading,) = machines_in(whole.register, "XA 9 / F 118")
    machine = whole.machines.of(reading)
    assert [teardown.id for teardown in machine.teardowns] == ["t"]
    (cover,) = (place for place in machine.positions if place.position == "engine/cover")
    assert [here.teardown.id for here in cover.seen] == ["t"]
    assert cover.reading.own.shown == "XA 9"


def test_the_interface_takes_both_numbers() -> None:
    register = demo()
    (one,) = register.this_machine("HK 588 / 0402M")
    assert {place.reading.own.shown for place in one.positions} == {"HK 588", "0402M"}
    assert register.machine("HK 588 / 0402M").shown == "HK 588 / 0402M"
    with pytest.raises(LookupError, match="reads as 2 machines"):
        register.machine("HK 588 / HK 592")
