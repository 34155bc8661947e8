"""What conversions lead from and to, what they put on and take off, and what they wait for."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.worlds.records import LID, TWO, assembly, conversion

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
}


@pytest.mark.parametrize(("world", "told"), CONVERSIONS.values(), ids=CONVERSIONS)
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
    ],
)
def test_conversions_that_wait_for_one_another(world: str, told: list[str], tmp_path: Path) -> None:
    found = [p for p in worlds.check(tmp_path, world).problems if p.name == "conversion-needs-circle"]
    assert [(p.read, p.place.path) for p in found] == [
        (one, "content/conversions/lid-kit.yml") for one in told
    ]
