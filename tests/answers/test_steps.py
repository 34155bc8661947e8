"""What single conversions make of a machine, and how they follow one another: by hand."""

from __future__ import annotations

import pytest

from spanbook.answers.readings import read_serial
from spanbook.answers.steps import chain, of_conversions, there
from spanbook.reading.records import Conversion, Record
from spanbook.register.link import build
from tests.answers import test_plans_nested as nested
from tests.support.registers import record

TREE = """\
kind: positions
positions:
- id: block
  title: Block
  positions:
  - id: filter
    title: Filter
    within: [b]
    positions:
    - {id: valve, title: Valve, within: [f1]}
"""


@pytest.mark.parametrize(
    ("holds", "known"),
    [
        ({"block": "b", "block/filter": "f1"}, True),
        ({"block": "b", "block/filter": "f0"}, False),
        ({"block": "b"}, None),
        ({"block": "other", "block/filter": "f1"}, False),
        ({"block": "other"}, False),
        ({"block/filter": "f1"}, None),
        ({}, None),
    ],
)
def test_a_place_is_there_where_all_that_is_around_it_has_it(
    holds: dict[str, str], known: bool | None
) -> None:
    made = build([record(TREE, "positions", "positions"), record(nested.MACHINE, "machine", "x")])
    assert there(made, holds.get, "block/filter/valve") is known
    assert there(made, holds.get, "block") is True
    assert there(made, holds.get, "in-no-tree") is True


def test_what_goes_inside_waits_for_what_is_around_it() -> None:
    """The step begins with anything; without the filter there would be nothing to put the valve in."""
    put = nested.kit("put", "pump", "p0", "p1", "also: [{position: filter/valve, to: v0}]\n")
    made = nested.world(put, nested.kit("on", "filter", "f0", "f1"))
    holds = {"pump": "p0", "filter": "f0"}
    assert nested.ids(nested.planned(made, holds, {"filter/valve": "v0"})) == ["on", "put"]


def led(start: list[str], goal: str, *kits: Record) -> list[str]:
    """The conversions that lead from one of some filters to another."""
    made = nested.world(*kits)
    found = [one for one in kits if isinstance(one, Conversion)]
    return [step.id for step in chain(of_conversions(made, found, read_serial(made, "XA 1")[0]), start, goal)]


def test_the_fewest_steps_lead_on_whatever_they_need() -> None:
    needs = "needs: [{position: pump, assemblies: [p2], why: It leaks}]\n"
    a, b = nested.kit("a", "filter", "f0", "f1", needs), nested.kit("b", "filter", "f1", "f2")
    short = nested.kit("c", "filter", "f0", "f2")
    assert led(["f0"], "f2", a, b) == ["a", "b"]
    assert led(["f0"], "f2", a, b, short) == ["c"]
    assert led(["f0", "f1"], "f2", a, b) == ["b"]
    assert led(["f0", "f2"], "f2", a, b) == []
    assert led(["f2"], "f0", a, b) == []
    assert led(["f0"], "p1", a, b) == []
    anything = nested.kit("d", "pump", "p0", "p1", "also: [{position: filter, to: f2}]\n")
    assert led(["f0"], "f2", a, b, anything) == ["d"]
    assert led([], "f2", anything) == ["d"]
