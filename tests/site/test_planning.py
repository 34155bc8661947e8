"""Conversions planned in the page: the script finds what the builder finds, world by world."""

from __future__ import annotations

import json
import random
from typing import Any

import pytest
from hypothesis import given

from spanbook.answers.answers import Answers
from spanbook.answers.conversions import as_it_left_the_works, as_late_as_it_can_be
from spanbook.answers.plans import NoPlan, Plan, convert
from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.steps import Holds
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.site.common import Site
from spanbook.site.planning.tables import table
from spanbook.wording.conversions import named_words
from tests.answers.test_plans import drawn
from tests.answers.test_plans import reading as first_machine
from tests.answers.test_plans_nested import Drawn, small_machines
from tests.support.demo import demo
from tests.support.node import in_node
from tests.support.scripts import script_text
from tests.support.tries import tries

pytestmark = pytest.mark.slow

SCRIPTS = ("pieces/pieces.js", "planning/steps.js", "planning/search.js", "planning/plans.js")
RUN = """
const ids = ({ steps }) => steps.map(({ id }) => id);
const told = (found, table) => {
  if (!found) return null;
  const named = (each) => each.map((one) => [...one.slice(0, -2), table.parts[one.at(-2)][0], one.at(-1)]);
  if (found.why) {
    const { position, wanted, why, need, unknown, states, missing } = found;
    const inTheWay = need ? [need[0].id, need[1].position, need[1].assemblies] : null;
    const told = { position, wanted, why, need: inTheWay, missing: named(missing) };
    return { ...told, unknown: unknown ?? null, states: states ?? 0 };
  }
  const advised = found.advised.map(([step, need]) => [step.id, need.position, need.assemblies]);
  const { parts, more } = found;
  return { steps: ids(found), parts, advised, others: found.others.map(ids), more, left: named(found.left) };
};
const out = cases.map(([which, number, holds, wanted]) => {
  const world = SpanbookSteps.world(tables[which], number);
  const held = new Map(Object.entries(holds));
  const found = SpanbookPlans.convert(world, held, new Map(Object.entries(wanted)));
  return {
    found: told(found, tables[which]),
    back: found.why ? null : told(SpanbookPlans.wayBack(world, held, found), tables[which]),
    works: Object.fromEntries(SpanbookPlans.works(world)),
    latest: Object.fromEntries(SpanbookPlans.latest(world, held)),
  };
});
console.log(JSON.stringify(out));
"""
Case = tuple[str, int, dict[str, str], dict[str, str]]


def in_the_page(tables: dict[str, Any], cases: list[Case]) -> list[Any]:
    given = f"const tables = {json.dumps(tables)}, cases = {json.dumps(cases)};"
    code = "\n".join([script_text(*SCRIPTS), given, RUN])
    found: list[Any] = in_node(code)
    return found


def by_the_builder(made: Register, machine: Reading, holds: Holds, wanted: Holds) -> Any:
    found = convert(made, machine, holds, wanted)
    return {
        "found": told(made, found),
        "back": told(made, found.back) if isinstance(found, Plan) else None,
        "works": as_it_left_the_works(Answers(made).fits, machine),
        "latest": as_late_as_it_can_be(made, machine, holds),
    }


def told(made: Register, found: Plan | NoPlan | None) -> Any:
    if isinstance(found, NoPlan):
        need = found.need and [found.need[0].id, found.need[1].position, list(found.need[1].assemblies)]
        return {
            "position": found.position,
            "wanted": found.wanted,
            "why": str(found.why),
            "need": need,
            "unknown": found.unknown,
            "states": found.states,
            "missing": [[named_words(made, key), quantity] for key, quantity in found.missing],
        }
    return found and {
        "steps": [step.id for step in found.steps],
        "parts": found.new_parts,
        "advised": [[one.id, need.position, list(need.assemblies)] for one, need in found.advised],
        "others": [[step.id for step in other.steps] for other in found.others],
        "more": found.more,
        "left": [[at, named_words(made, key), quantity] for at, key, quantity in found.left],
    }


def tabled(made: Register, series: Series) -> dict[str, Any]:
    """The table of a series, as a script gets it."""
    sent: dict[str, Any] = json.loads(json.dumps(table(Site(Answers(made)), series)))
    return sent


@pytest.mark.slow  # node
def test_the_page_plans_as_the_builder_does_in_random_worlds() -> None:
    tables: dict[str, Any] = {}
    cases: list[Case] = []
    expected: list[Any] = []
    for seed in range(tries(200)):
        one = drawn(seed)
        series = one.made.series["xa"]
        tables[str(seed)] = tabled(one.made, series)
        machine = first_machine(one.made)
        cases.append((str(seed), machine.number, one.holds, one.wanted))
        expected.append(by_the_builder(one.made, machine, one.holds, one.wanted))
    for case, page, builder in zip(cases, in_the_page(tables, cases), expected, strict=True):
        assert page == builder, case


@pytest.mark.slow  # node
def test_the_page_plans_as_the_builder_does_with_places_inside_and_parts_taken_off() -> None:
    """Every world once, in one run of node."""
    tables: dict[str, Any] = {}
    cases: list[Case] = []
    expected: list[Any] = []

    @given(small_machines())
    def collect(drawn: Drawn) -> None:
        machine = first_machine(drawn.made)
        name = str(len(tables))
        tables[name] = tabled(drawn.made, machine.series)
        cases.append((name, machine.number, drawn.holds, drawn.wanted))
        expected.append(by_the_builder(drawn.made, machine, drawn.holds, drawn.wanted))

    collect()
    for case, page, builder in zip(cases, in_the_page(tables, cases), expected, strict=True):
        assert page == builder, case


@pytest.mark.slow  # node
def test_the_page_plans_as_the_builder_does_for_machines_of_the_demonstration() -> None:
    made, rng = demo(), random.Random(17)
    every = {series.id: tabled(made, series) for series in made.series.values()}
    tables = {id_: sent for id_, sent in every.items() if sent["conversions"]}
    # Where nothing is converted nothing is sent but that.
    assert all(set(sent) == {"conversions", "words"} for id_, sent in every.items() if id_ not in tables)
    assert 0 < len(tables) < len(every)
    cases: list[Case] = []
    expected: list[Any] = []
    for _ in range(tries(400)):
        series = made.series[rng.choice([*tables, "hk", "hk", "hk"])]  # most are for its machines
        numbers = [n for one in series.issued for n in range(one.first, (one.last or one.first + 90) + 1)]
        machine = machine_of(made, series, rng.choice(numbers))
        holds, wanted = any_state(made, rng, machine, set(tables[series.id]["positions"]))
        cases.append((series.id, machine.number, holds, wanted))
        expected.append(by_the_builder(made, machine, holds, wanted))
    found = in_the_page(tables, cases)
    for case, page, builder in zip(cases, found, expected, strict=True):
        assert page == builder, case
    assert sum(bool(one["found"].get("steps")) for one in found) > len(found) // 10


def any_state(
    made: Register, rng: random.Random, machine: Reading, has: set[str]
) -> tuple[dict[str, str], dict[str, str]]:
    """As a machine left the works but for two positions, and one or two things wanted on it."""
    held = dict(as_it_left_the_works(Answers(made).fits, machine))
    paths = sorted(path for path, each in made.at_position.items() if each and path in has)
    for path in rng.sample(paths, 2):
        held[path] = rng.choice(made.at_position[path]).id
    for path in rng.sample(list(held), 1):
        del held[path]
    wishes = sorted({one.to for one in made.conversions.values() if one.position in has})
    wanted = rng.sample(wishes, rng.choice([1, 1, 2])) if wishes else [held[rng.choice(list(held))]]
    return held, {made.assemblies[one].position: one for one in wanted}
