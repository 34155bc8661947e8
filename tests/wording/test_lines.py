"""Lines that go by the number, and either of two suppliers' parts: asked, on the card, on the sheet."""

from __future__ import annotations

import json

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.instead import would_do
from spanbook.answers.listed import listed
from spanbook.answers.orders import orders
from spanbook.answers.readings import read_serial
from spanbook.answers.supersession import order_now
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.text import order as order_text
from spanbook.outputs.text import strip as strip_text
from spanbook.register.model import Register
from spanbook.wording.lines import listed_words
from spanbook.wording.parts_here import parts_words
from spanbook.wording.pieces import plain
from spanbook.wording.this_machine import seen_words
from tests.support.lists import Values, listing
from tests.support.registers import record, register

# The lid changed somewhere from XA 11 to XA 13, the valve came with XA 5; of rings there are two.
LIST: list[Values] = [
    {"number": "P-1", "name": "Lid", "serials": [{"series": "xa", "first": 1, "last": [10, 12]}]},
    {"number": "P-2", "name": "Lid", "serials": [{"series": "xa", "first": [11, 13], "last": "open"}]},
    {"number": "P-4", "name": "Ring", "quantity": 2, "or": [{"number": "S 4", "by": "castle-joint"}]},
    {"number": "P-5", "name": "Valve", "serials": [{"series": "xa", "first": [5, 7], "last": "open"}]},
]
STEPS = [
    {"id": "valve", "do": "Unscrew the valve", "frees": [{"number": "P-5"}]},
    {"id": "lid", "do": "Lift the lid", "frees": [{"number": "P-1"}], "renew": True},
    {"id": "ring", "do": "Take the ring", "frees": [{"number": "P-4", "quantity": 2}], "renew": True},
]
ACCOUNT = {"kind": "strip-down", "id": "m", "assembly": "lid", "date": "2024", "seen-by": "m", "steps": STEPS}
ACT = "kind: supersession\nid: a\nold: [{number: P-2}]\nnew: [{number: P-9, name: Lid}]\n"


@pytest.fixture(scope="module")
def made() -> Register:
    return register(
        listing(LIST),
        record(json.dumps(ACCOUNT), "strip-down", "m"),
        record(ACT, "supersession", "a"),
    )


def key(number: str, by: str = "example-works") -> PartKey:
    return PartKey.of(by, number)


@pytest.mark.parametrize(
    ("number", "serial", "said"),
    [
        (
            "P-1",
            None,
            "In the lid only from XA 1 to somewhere between XA 10 and XA 12; in its place P-2, from "
            "somewhere between XA 11 and XA 13 to the end, XA 20.",
        ),
        ("P-1", "XA 3", "XA 3 has it in the lid: from XA 1 to somewhere between XA 10 and XA 12."),
        (
            "P-1",
            "XA 11",
            "Whether the lid of XA 11 has P-1 or P-2 is not known: P-1 from XA 1 to somewhere between XA 10 "
            "and XA 12.",
        ),
        (
            "P-1",
            "XA 20",
            "The lid of XA 20 does not have P-1 (only from XA 1 to somewhere between XA 10 and XA 12). It "
            "has P-2 there.",
        ),
        (
            "P-5",
            "XA 6",
            "Whether the lid of XA 6 has P-5 or none is not known: P-5 from somewhere between XA 5 and XA 7 "
            "to the end, XA 20.",
        ),
        (
            "P-5",
            "XA 1",
            "The lid of XA 1 does not have P-5 (only from somewhere between XA 5 and XA 7 to the end, "
            "XA 20).",
        ),
        (
            "P-4",
            None,
            "In the lid on all machines that have it. On that line S 4 (castle-joint) serves as well.",
        ),
    ],
)
def test_what_a_list_says_of_a_number(made: Register, number: str, serial: str | None, said: str) -> None:
    machine = read_serial(made, serial)[0] if serial else None
    (one,) = listed(Answers(made).ever, key(number), machine)
    assert listed_words(made, one) == said


def test_nothing_is_said_of_a_line_that_just_has_it() -> None:
    plain_list = register(listing([{"number": "P-1", "name": "Lid"}]))
    (one,) = listed(Answers(plain_list).ever, key("P-1"))
    assert listed_words(plain_list, one) == ""


def asked(made: Register, number: str, serial: str) -> list[str]:
    machine = read_serial(made, serial)[0]
    of = (made, key(number), 1, machine)
    answers = Answers(made)
    would, lists = would_do(made, key(number), machine), listed(answers.ever, key(number), machine)
    return order_text.as_text(answers, number, order_now(*of), orders(*of), would, lists).splitlines()


def test_what_the_machine_has_instead_is_ordered_first(made: Register) -> None:
    first, instead, itself = asked(made, "P-1", "XA 20")
    assert first.startswith("The lid of XA 20 does not have P-1")
    assert (
        instead
        == "  P-2: Order P-9 Lid. Whether it is supplied is not known. Nobody has named evidence for it."
    )
    assert itself.startswith("  P-1: Nobody has replaced it")


def test_what_the_machine_has_is_ordered_and_then_told_of(made: Register) -> None:
    first, then = asked(made, "P-1", "XA 3")
    assert first.startswith("Nobody has replaced it")
    assert then.startswith("XA 3 has it in the lid")


@pytest.mark.parametrize(
    ("serial", "said"),
    [
        ("XA 1", ["lid: P-1 Lid, surely, no evidence"]),
        ("XA 6", ["lid: P-1 Lid, surely, no evidence", "lid: P-5 Valve, possibly, no evidence"]),
        ("XA 12", ["lid: P-1 or P-2 Lid; which of them is not known", "lid: P-5 Valve, surely, no evidence"]),
    ],
)
def test_the_card_tells_the_parts_that_go_by_the_number(made: Register, serial: str, said: list[str]) -> None:
    place = Answers(made).machines.at(read_serial(made, serial)[0], "cover")
    assert [plain(parts_words(made, one)) for one in place.parts] == said


def test_what_was_read_on_the_machine_is_told_of_it() -> None:
    look = {"position": "cover", "assembly": "lid", "parts": [{"number": "P-2"}, {"number": "P-4"}]}
    held = {"kind": "teardown", "id": "t", "date": "2024", "seen-by": "m", "serial": "XA 11", "series": "xa"}
    teardown = {**held, "condition": "untouched", "found": [look]}
    read = register(listing(LIST), record(json.dumps(teardown), "teardown", "t"))
    machine = read_serial(read, "XA 11")[0]
    (seen,) = Answers(read).machines.seen_at(machine, "cover")
    told = "lid, seen 2024 by m, condition untouched: as recorded, and P-2 was read on it."
    assert plain(seen_words(read, seen)) == told


def sheet(made: Register, serial: str | None) -> list[str]:
    machine = read_serial(made, serial)[0] if serial else None
    found = Answers(made).sheet(made.assemblies["lid"], machine)
    assert found
    return [line.strip() for line in strip_text.as_text(made, found, machine, None).splitlines()]


def test_the_sheet_of_any_machine_says_what_goes_by_the_number(made: Register) -> None:
    lines = sheet(made, None)
    assert "Comes off: P-1 or P-2 Lid (by the machine's number)." in lines
    assert "Comes off: P-5 Valve (from somewhere between XA 5 and XA 7 to the end, XA 20)." in lines
    assert (
        "P-1 or P-2 Lid (by the machine's number); P-1, from XA 1 to somewhere between XA 10 and XA 12; P-2, "
        "from somewhere between XA 11 and XA 13 to the end, XA 20: today for P-2 P-9 Lid" in lines
    )


def test_the_sheet_of_a_machine_has_what_it_has(made: Register) -> None:
    late = sheet(made, "XA 20")
    assert "Comes off: P-2 Lid." in late
    assert "P-2 Lid: today P-9 Lid" in late
    assert not any("P-1" in line for line in late)
    early = sheet(made, "XA 1")
    assert "Not on this machine by the parts list: P-5 Valve." in early
    assert "P-5 Valve" not in early  # on the tray
    assert "2 × P-4 or S 4 (castle-joint) Ring" in early


def test_the_sheet_of_a_machine_of_which_it_is_not_known_says_so(made: Register) -> None:
    lines = sheet(made, "XA 6")
    assert "Comes off: P-5 Valve (perhaps: whether this machine has it is not known)." in lines
    assert "P-1 or P-2 Lid (which of them this machine has is not known)" in sheet(made, "XA 11")
