from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

import spanbook
from spanbook.cli import main
from spanbook.reading.schemas import folder
from tests.conftest import PROJECT
from tests.support.demo import demo

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-tell.json").read_text(encoding="utf-8")))
FILTER = ("--position", "lubrication/oil-filter")


def tell(*arguments: str, code: int = 0) -> str:
    result = CliRunner().invoke(main, ["tell", *arguments, "--folder", str(PROJECT)])
    assert result.exit_code == code, result.output
    return result.output


def test_what_is_seen_tells_which_it_is() -> None:
    told = tell(*FILTER, "--sign", "lid-held=Four nuts").splitlines()
    assert told[0].endswith("Metal-edge strainer. As recorded: how the lid or the bowl is held.")
    assert "Something that nobody has recorded." in "\n".join(told)
    assert any(
        "Recorded otherwise: how the lid or the bowl is held (one long bolt)." in line for line in told
    )
    assert told[-2:] == [
        "Look next:",
        "   How many bowls or canisters there are, seen from outside: one, two, or something else?",
    ]


def test_what_no_sign_parts_is_told() -> None:
    told = tell("--position", "ignition/magneto", "--sign", "high-tension-leads=none")
    assert "No sign that is recorded parts the Low-tension magneto, type B from" in told


def test_the_machine_the_sizes_and_the_marks_tell_too() -> None:
    assert tell(*FILTER, "--serial", "HK 300").splitlines()[0].split(": ")[1].startswith("Metal-edge")
    assert "Full-flow cartridge filter" in tell(*FILTER, "--size", "diameter=3 3/4 in").splitlines()[0]
    assert "Metal-edge strainer" in tell(*FILTER, "--mark", "WH 118?").splitlines()[1]
    assert "Duplex strainer" in tell(*FILTER, "--mark", "WH 118?").splitlines()[0]


def test_which_part_it_is() -> None:
    told = tell(*FILTER, "--parts", "--sign", "discs=brass").splitlines()
    assert told[0].endswith("WH-1181 Strainer pack. As recorded: what the discs are of.")


def test_what_replaced_a_part_may_be_held_as_well() -> None:
    """The impeller with eight vanes is in no list: it replaced the one with six."""
    pump = ("--position", "cooling/water-pump", "--parts")
    told = tell(*pump, "--sign", "vanes=eight").splitlines()
    assert told[0].endswith(
        "R8 Rubber impeller, eight vanes. As recorded: how many vanes the rubber wheel has."
    )
    # A machine that had the one with six may have it now; one with another pump has neither.
    on = {}
    for serial in ("HK 2000", "HK 1"):
        likely = json.loads(tell(*pump, "--serial", serial, "--json"))["likely"]
        on[serial] = {one["thing"]["number"]: one["share"] for one in likely if one["thing"]}
    assert on["HK 2000"]["R8"] == on["HK 2000"]["R6"] > on["HK 1"]["R8"] == on["HK 1"]["R6"]


@pytest.mark.parametrize(
    "asked",
    [
        FILTER,
        (*FILTER, "--sign", "lid-held=something else", "--serial", "HK 580"),
        (*FILTER, "--parts", "--sign", "discs=brass"),
        ("--position", "ignition/magneto", "--sign", "high-tension-leads=none"),
        ("--position", "drive/clutch"),
    ],
    ids=lambda asked: " ".join(asked[1:]),
)
def test_every_answer_as_json_is_as_its_schema_says(asked: tuple[str, ...]) -> None:
    SCHEMA.validate(json.loads(tell(*asked, "--json")))


def test_where_no_sign_is_recorded_that_is_said() -> None:
    assert "No sign is recorded of anything here" in tell("--position", "drive/clutch")


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (("--position", "lubrication/oil"), "no record has the position lubrication/oil"),
        ((*FILTER, "--sign", "lid=nuts"), "nothing at lubrication/oil-filter is recorded with the sign lid"),
        ((*FILTER, "--sign", "lid-held=4 nuts"), "did you mean four nuts?"),
        ((*FILTER, "--sign", "lid-held"), "lid-held: write it as lid-held=four nuts"),
        ((*FILTER, "--size", "diameter=3"), "has no unit"),
        ((*FILTER, "--serial", "ZZ 1"), "ZZ 1 reads as 0 machines"),
    ],
    ids=lambda one: one if isinstance(one, str) else " ".join(one[2:]),
)
def test_what_cannot_be_asked_is_told_with_what_can(asked: tuple[str, ...], told: str) -> None:
    assert told in tell(*asked, code=1)


def test_the_python_interface_gives_the_same() -> None:
    register = demo()
    key = register.key("lubrication/oil-filter")
    seen = spanbook.seen_of(key, {"lid-held": "four nuts"}, register.machine("HK 580"))
    likely = json.loads(tell(*FILTER, "--sign", "lid-held=four nuts", "--serial", "HK 580", "--json"))[
        "likely"
    ]
    assert [round(one.stated, 6) for one in key.told(seen).likely] == [one["share"] for one in likely]


def test_every_sign_of_the_demonstration_is_asked_somewhere() -> None:
    register = demo()
    keys = [register.key(position, parts=parts) for position in register.positions for parts in (False, True)]
    asked = {sign.id for key in keys for sign in key.signs}
    assert set(register.signs) == asked
