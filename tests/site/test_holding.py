"""What somebody holds, told in the page: the script adds up what the builder would, case by case."""

from __future__ import annotations

import json
import random
import subprocess
from pathlib import Path
from typing import Any

import pytest

from spanbook.answers.readings import machine_of
from spanbook.answers.signs.key import Key, Seen
from spanbook.reading.records import Absence, Assembly
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.holding.tables import table
from tests.support.demo import demo
from tests.support.registers import assembly, record, register

REGISTER = demo()
SITE = Site(REGISTER.answers)
KEYS = {path: SITE.answers.key(path) for path in addresses.with_keys(REGISTER)}
GAIN = Path(__file__).parents[2] / "builder/spanbook/site/holding/gain.js"
RUN = """
const out = cases.map(([path, answers, machine]) => {
  const key = tables[path], given = new Map(answers);
  const told = SpanbookHolding.told(key, given, machine);
  const looks = told.looks.map((one) => [one.sign, one.gain]);
  const grounds = told.likely.map((thing) => SpanbookHolding.grounds(key, given, thing));
  const signs = grounds.map((each) => [each.agrees, each.against].map((some) => some.map(([sign]) => sign)));
  return [told.held, told.likely, looks, told.alike, signs];
});
console.log(JSON.stringify(out));
"""


def in_the_page(tables: dict[str, Any], cases: list[Any]) -> list[Any]:
    given = f"const tables = {json.dumps(tables)}, cases = {json.dumps(cases)};"
    code = "\n".join([GAIN.read_text(encoding="utf-8"), given, RUN])
    run = subprocess.run(["node"], input=code, capture_output=True, text=True, check=True)
    found: list[Any] = json.loads(run.stdout)
    return found


def drawn(rng: random.Random, key: Key, made: dict[str, Any]) -> tuple[list[Any], list[int] | None, Seen]:
    """Some signs with any answers, and a machine or none."""
    signs = rng.sample(key.signs, rng.randint(0, len(key.signs)))
    places = [[key.signs.index(sign), rng.randint(0, len(sign.answers))] for sign in signs]
    answers = {key.signs[s].id: [*key.signs[s].answers, None][a] for s, a in places}
    if rng.random() < 0.5:
        return places, None, Seen(answers)
    series = REGISTER.series[rng.choice(list(made["machines"]["series"]))]
    first, last, row = rng.choice(made["machines"]["series"][series.id])
    number = rng.choice(
        [n for n in (first, last or first + 7, (first + (last or first)) // 2) if n in series.issued]
    )
    return places, made["machines"]["rows"][row], Seen(answers, machine_of(REGISTER, series, number))


@pytest.mark.slow  # node
def test_the_page_tells_what_the_builder_tells() -> None:
    rng = random.Random(16)
    tables = {path: table(SITE, key) for path, key in KEYS.items()}
    drawings = [(path, *drawn(rng, KEYS[path], tables[path])) for path in KEYS for _ in range(40)]
    found = in_the_page(tables, [[path, answers, machine] for path, answers, machine, _ in drawings])
    for (path, _, _, seen), (held, likely, looks, alike, grounds) in zip(drawings, found, strict=True):
        key = KEYS[path]
        told, things = key.told(seen), [*key.things, None]
        assert [things[i] for i in likely] == [one.thing for one in told.likely]
        assert [held[i] for i in likely] == pytest.approx([one.share for one in told.likely], abs=1e-9)
        assert [key.signs[sign] for sign, _ in looks] == [one.sign for one in told.looks]
        assert [gain for _, gain in looks] == pytest.approx([one.gain for one in told.looks], abs=1e-9)
        assert [things[i] for i in alike] == list(told.alike)
        by = [[[key.signs[sign] for sign in each] for each in both] for both in grounds]
        assert by == [[list(one.agrees), list(one.against)] for one in told.likely]


def test_a_table_is_whole_numbers() -> None:
    for key in KEYS.values():
        made = table(SITE, key)
        weights = [one for sign in made["signs"] for row in sign[6] for one in row]
        weights += [one for row in made["machines"]["rows"] for one in row]
        assert weights
        assert all(isinstance(one, int) for one in weights)
        assert {len(row) for sign in made["signs"] for row in sign[6]} == {len(key.things) + 1}


def test_every_position_with_three_things_has_one() -> None:
    things = [one for one in REGISTER.assemblies.values() if not isinstance(one, Absence)]
    count = {one.position: sum(other.position == one.position for other in things) for one in things}
    assert set(KEYS) == {path for path, held in count.items() if held >= 3}
    assert len(KEYS) > 10


@pytest.mark.parametrize(("held", "there"), [(2, False), (3, True)])
def test_what_is_not_fitted_is_nothing_to_hold(held: int, there: bool) -> None:
    made = register(
        *(assembly(f"lid-{n}", f"first: {n}, last: {n}") for n in range(1, held + 1)),
        record(
            "kind: absence\nid: none\ntitle: None\nposition: cover\n"
            "serials: [{series: xb, first: 15, last: 20}]\n",
            "absence",
            "none",
        ),
    )
    assert all(isinstance(one, Assembly) for one in made.at_position["cover"])
    assert ("cover" in addresses.with_keys(made)) is there
