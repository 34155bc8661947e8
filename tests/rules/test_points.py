"""Points of a machine's figures: each says what is there, as those of assemblies and parts do."""

from __future__ import annotations

from spanbook.register.link import build
from spanbook.rules.points import CHECKS
from tests.support.registers import MACHINE, POSITIONS, record

FIGURES = "figures:\n- {file: x.png, shows: X, licence: CC0-1.0, points: [{x: 10, y: 20%s}]}\n"


def told(point: str) -> list[str]:
    machine = record(MACHINE % "20" + FIGURES % point, "machine", "x")
    register = build([machine, record(POSITIONS, "positions", "positions")])
    return [check.rule.name for check in CHECKS for _ in check.find(register)]


def test_a_point_of_a_machine_says_what_is_there() -> None:
    assert told("") == ["point-empty"]
    assert told(", shows: The lid") == []
    # Any part may be pointed out on a whole machine: it has no list of its own.
    assert told(", number: P-1") == []
