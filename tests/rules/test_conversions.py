"""What conversions lead from and to, what they put on and take off, and what they wait for."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import LID, TWO, assembly, conversion, parts

ALL = "xa, first: 1, last: 20"
TAKES = "takes: [{position: pump, number: O-1}]\n"
NOTHING = (
    "# file: content/absences/none.yml\nkind: absence\nid: none\ntitle: None\nposition: body/cover\n"
    f"serials:\n- {{series: {ALL}, fitted: field, evidence: [{{source: book}}]}}\n"
)
# A place for a valve within the lid.
INSIDE = (
    "# file: content/positions.yml\nkind: positions\npositions:\n- id: body\n  title: Body\n  positions:\n"
    "  - {id: cover, title: Cover, positions: [{id: valve, title: Valve, within: [lid]}]}\n"
    "  - {id: drain, title: Drain}\n- {id: pump, title: Pump}\n"
)
BALL = assembly("no-ball", ALL, position="body/cover/valve") + assembly(
    "ball", f"{ALL}, fitted: field", position="body/cover/valve"
)
CONVERSIONS = {
    "sound": (TWO + conversion("lid", "hat", "adds: [{number: H-2}]\nremoves: [{number: L-2}]\n"), []),
    "into itself": (TWO + conversion("hat, lid", "lid"), [("conversion-same", 6, "from lid to itself")]),
    "to what is never on those machines": (
        LID + assembly("hat", "xa, first: 21, last: 40, fitted: field") + conversion("lid", "hat"),
        [("conversion-never-fits", 6, "hat, which has no span on the machines that may take it")],
    ),
    "from what never was": (
        LID
        + assembly("cap", "xa, first: 21, last: 60", "xb, first: 100, last: 200")
        + assembly("hat", "xa, first: 20, last: 40, fitted: field")
        + conversion("lid, cap", "hat"),
        [("conversion-never-fits", 5, "cap, which has no span on the machines that may take it")],
    ),
    "what it puts on is not in there": (
        TWO + conversion("lid", "hat", "adds: [{number: H-1}, {number: H-3}]\n"),
        [("conversion-adds-stray", 10, "H-3 is put on, and hat does not contain it")],
    ),
    "what comes off was not in there": (
        TWO + conversion("lid", "hat", "removes: [{number: L-1}, {number: L-3}]\n"),
        [("conversion-removes-stray", 10, "L-3 comes off, and lid does not contain it")],
    ),
    "nothing is known of their parts": (
        LID
        + assembly("hat", "xa, first: 1, last: 20, fitted: field")
        + conversion("lid", "hat", "adds: [{number: H-3}]\nremoves: [{number: L-3}]\n"),
        [],
    ),
    "what it makes has a span in another series alone": (
        LID + assembly("hat", "xb, first: unknown, last: open, fitted: field") + conversion("lid", "hat"),
        [("conversion-never-fits", 6, "hat, which has no span on the machines that may take it")],
    ),
    "what it makes is nothing, which has no parts to be known": (
        TWO + NOTHING + conversion("lid", "none", "adds: [{number: H-1}]\n"),
        [("conversion-adds-stray", 10, "H-1 is put on, and none does not contain it")],
    ),
    "a part off a place where nothing has a list": (
        TWO + assembly("pump", ALL, position="pump") + conversion("lid", "hat", TAKES),
        [],
    ),
    "a part off a place where one of two has a list": (
        TWO
        + assembly("pump", ALL, position="pump")
        + assembly("other-pump", f"{ALL}, option: true", position="pump", more=parts("O-2"))
        + conversion("lid", "hat", TAKES),
        [("conversion-takes-stray", 10, "1 × O-1 off pump, and nothing there has it")],
    ),
    "what goes inside alone, in an assembly that stays": (
        INSIDE + TWO + BALL + conversion("no-ball", "ball").replace("body/cover", "body/cover/valve"),
        [],
    ),
    "until the year before it began": (
        TWO + conversion("lid", "hat", "year: [1936, 1938]\nuntil: [1934, 1935]\n"),
        [("conversion-years", 11, "offered from 1936 at the earliest to 1935 at the latest")],
    ),
    "until the year in which its machines were made": (TWO + conversion("lid", "hat", "until: 1931\n"), []),
    "until the year before": (
        TWO + conversion("lid", "hat", "until: 1930\n"),
        [
            (
                *("conversion-before-its-machines", 10),
                "offered to 1930 at the latest, and its machines were made from 1931 on",
            )
        ],
    ),
    "of machines some of which are not dated": (
        assembly("lid", ALL, "xb, first: 100, last: 120")
        + assembly("hat", f"{ALL}, fitted: field", "xb, first: 100, last: 120, fitted: field")
        + conversion("lid", "hat", "- {series: xb, first: 100, last: 120}\nuntil: 1930\n"),
        [],
    ),
}


@each_row(("world", "told"), CONVERSIONS.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)


def kit(id_: str, start: str, to: str, needs: str = "", position: str = "body/cover") -> str:
    more = f"needs: [{{position: {needs}, why: Oil}}]\n" if needs else ""
    text = conversion(start, to, more).replace("conversions/kit.yml", f"conversions/{id_}.yml")
    return text.replace("id: kit", f"id: {id_}").replace("position: body/cover", f"position: {position}", 1)


def fitted(id_: str, position: str, how: str = "field") -> str:
    return assembly(id_, f"xa, first: 1, last: 20, fitted: {how}", position=position)


NEEDING = (
    LID
    + fitted("hat", "body/cover")
    + fitted("old-pump", "pump", "factory")
    + fitted("new-pump", "pump")
    + kit("lid-kit", "lid", "hat", "pump, assemblies: [new-pump]")
)
PUMP = "old-pump", "new-pump", "body/cover, assemblies: [hat]", "pump"


@pytest.mark.parametrize(
    ("world", "told"),
    [
        (NEEDING, []),
        (NEEDING + kit("pump-kit", *PUMP), ["lid-kit and pump-kit need one another first"]),
        # Either of two would do.
        (NEEDING + kit("pump-kit", *PUMP) + kit("other-kit", "old-pump", "new-pump", "", "pump"), []),
        # Some machines left the works with it.
        (NEEDING + kit("pump-kit", *PUMP) + fitted("new-pump", "pump", "factory"), []),
        (NEEDING + kit("pump-kit", "old-pump", "new-pump", "body/cover, assemblies: [hat, lid]", "pump"), []),
        # It is better with the other, and can be done without.
        (NEEDING + kit("pump-kit", *PUMP).replace("why: Oil", "why: Oil, advice: true"), []),
    ],
)
def test_conversions_that_wait_for_one_another(world: str, told: list[str], tmp_path: Path) -> None:
    found = [p for p in worlds.check(tmp_path, world).problems if p.name == "conversion-needs-circle"]
    assert [(p.read, p.place.path) for p in found] == [
        (one, "content/conversions/lid-kit.yml") for one in told
    ]


def test_what_a_conversion_names_and_is_not_there_is_told_once_and_nothing_breaks(tmp_path: Path) -> None:
    """Position, from, to, series, what it needs and what it takes a part off."""
    more = "needs: [{position: nowhere, assemblies: [nobody], why: X}]\nyear: 1930\nuntil: 1931\n"
    more += "takes: [{position: nowhere, number: O-1}]\nremoves: [{number: L-1}]\nadds: [{number: L-1}]\n"
    world = conversion("nobody", "no-one", more).replace("position: body/cover", "position: nowhere")
    found = worlds.told(tmp_path, TWO + world.replace("series: xa", "series: xz"))
    assert {name for name, *_ in found} == {"reference-unknown"}
    unknown = ["assembly no-one", *["assembly nobody"] * 2, *["position nowhere"] * 3, "series xz"]
    assert sorted(read for *_, read in found) == [f"there is no {one}" for one in unknown]


def test_of_numbers_that_the_series_does_not_have_no_year_is_told(tmp_path: Path) -> None:
    world = conversion("lid", "hat", "until: 1930\n").replace("first: 1, last: 20", "first: 200, last: 300")
    names = {name for name, *_ in worlds.told(tmp_path, TWO + world)}
    assert "span-out-of-series" in names
    assert "conversion-before-its-machines" not in names


def test_what_a_conversion_alone_puts_there_gets_a_span_of_the_field(tmp_path: Path) -> None:
    """A span of the works would say that the machines left with it."""
    hat = assembly("hat", "xa, first: 21, last: 40")
    (problem,) = worlds.check(tmp_path, LID + hat + conversion("lid", "hat")).problems
    assert problem.todo == "give it a span of them with fitted: field, or correct the spans"
    followed = assembly(
        "hat", "xa, first: 21, last: 40", "xa, first: 1, last: 20, fitted: field, anchor: kit"
    )
    assert not worlds.check(tmp_path / "followed", LID + followed + conversion("lid", "hat")).problems
