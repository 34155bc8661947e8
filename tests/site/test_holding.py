"""What somebody holds, told in the page: the script adds up what the builder would, case by case."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.readings import machine_of
from spanbook.answers.signs.key import Key, Length, Seen
from spanbook.answers.signs.weights import reads, whole
from spanbook.ground.language import speaking
from spanbook.ground.readings import written
from spanbook.reading.records import Absence, Assembly
from spanbook.site import addresses
from spanbook.site.holding.tables import table
from tests.support.demo import demo, shown
from tests.support.node import in_node
from tests.support.registers import assembly, record, register
from tests.support.scripts import script_text

REGISTER = demo()
SITE = shown()
KEYS = {
    addresses.of_key(path, parts=parts): SITE.answers.key(path, parts=parts)
    for parts in (False, True)
    for path in addresses.with_keys(REGISTER, parts=parts)
}
CODE = script_text("finder/matching.js", "holding/lengths.js", "holding/gain.js")
RUN = """
const out = cases.map(([path, answers, machine, marks, sizes]) => {
  const key = tables[path], given = new Map(answers);
  const rows = marks.map(([text, alike]) => SpanbookHolding.ofMark(key, SpanbookMatching.worn(text), alike));
  for (const [what, text] of sizes) {
    rows.push(...SpanbookLengths.written(text).map((one) => SpanbookHolding.ofSize(key, what, one)));
  }
  const told = SpanbookHolding.told(key, given, machine, ...rows);
  const looks = told.looks.map((one) => [one.sign, one.gain]);
  const grounds = told.likely.map((thing) => SpanbookHolding.grounds(key, given, thing));
  const signs = grounds.map((each) => [each.agrees, each.against].map((some) => some.map(([sign]) => sign)));
  return [told.held, told.likely, looks, told.alike, signs];
});
console.log(JSON.stringify(out));
"""


def test_a_length_is_read_as_the_language_of_the_pages_writes_it() -> None:
    """What a page tells with a decimal comma is taken with one; the point stays."""
    ask = "console.log(JSON.stringify(texts.map(SpanbookLengths.written)));"

    def read(*texts: str) -> Any:
        scripts = script_text("finder/matching.js", "holding/lengths.js")
        return in_node(f"{scripts} const texts = {json.dumps(texts)}; {ask}")

    plain = read("9.5 mm", "9.5 to 10.25 mm")
    assert all(plain)
    assert read("9,5 mm", "9,5 to 10,25 mm") == [[], []]
    with speaking("de"):
        assert read("9,5 mm", "9,5 bis 10,25 mm") == plain
        assert read("9.5 mm", "9.5 to 10.25 mm") == plain


def in_the_page(tables: dict[str, Any], cases: list[Any]) -> list[Any]:
    given = f"const tables = {json.dumps(tables)}, cases = {json.dumps(cases)};"
    code = "\n".join([CODE, given, RUN])
    found: list[Any] = in_node(code)
    return found


def marks_drawn(rng: random.Random, key: Key) -> list[str]:
    """Numbers and marks of what may be held or of anything else, some letters worn away."""
    every = [sorted(texts) for thing in key.things if (texts := thing.texts)] + [sorted(key.readable)]
    read = [rng.choice(rng.choice(every)) for _ in range(rng.choice([0, 0, 1, 2]))]
    return ["".join("?" if rng.random() < 0.2 else c for c in text) for text in read]


def sizes_drawn(rng: random.Random, key: Key) -> list[tuple[str, str]]:
    """Sizes near those that are recorded, as people write them."""
    known = [size for thing in key.things for size in thing.sizes]
    asked = rng.sample(known, min(len(known), rng.choice([0, 0, 1, 2])))
    return [(rng.choice([one.what, one.what.split()[-1]]), _near(rng, one.low)) for one in asked]


def _near(rng: random.Random, mm: Fraction) -> str:
    off = rng.choice([0, 0, rng.uniform(-0.5, 0.5)])
    inches = (float(mm) + off) / 25.4
    whole, over = divmod(round(inches * 64), 64)
    return rng.choice(
        [
            f"{float(mm) + off:.2f} mm",
            f"{inches:.3f} in",
            f"{whole} {over}/64 in",
            f"{inches * 1000:.0f} thou",
        ]
    )


def drawn(rng: random.Random, key: Key, made: dict[str, Any]) -> tuple[list[Any], Seen]:
    """Some signs with any answers, marks and sizes, and a machine or none."""
    signs = rng.sample(key.signs, rng.randint(0, len(key.signs)))
    places = [[key.signs.index(sign), rng.randint(0, len(sign.answers))] for sign in signs]
    answers = {key.signs[s].id: [*key.signs[s].answers, None][a] for s, a in places}
    marks, sizes = marks_drawn(rng, key), sizes_drawn(rng, key)
    lengths = tuple(Length(what, one) for what, text in sizes for one in written(text))
    seen = Seen(answers, None, lengths, marks)
    typed = [[[text, len([m for m in key.readable if reads(text, m)])] for text in marks], sizes]
    if rng.random() < 0.5:
        return [places, None, *typed], seen
    series = REGISTER.series[rng.choice(list(made["machines"]["series"]))]
    first, last, row = rng.choice(made["machines"]["series"][series.id])
    number = rng.choice(
        [n for n in (first, last or first + 7, (first + (last or first)) // 2) if n in series.issued]
    )
    machine = machine_of(REGISTER, series, number)
    return [places, made["machines"]["rows"][row], *typed], replace(seen, machine=machine)


@pytest.mark.slow  # node
def test_the_page_tells_what_the_builder_tells() -> None:
    rng = random.Random(16)
    tables = {path: table(SITE, key) for path, key in KEYS.items()}
    drawings = [(path, *drawn(rng, KEYS[path], tables[path])) for path in KEYS for _ in range(40)]
    assert any(seen.marks for _, _, seen in drawings)
    assert any(seen.lengths for _, _, seen in drawings)
    found = in_the_page(tables, [[path, *typed] for path, typed, _ in drawings])
    for (path, _, seen), (held, likely, looks, alike, grounds) in zip(drawings, found, strict=True):
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
        assert {len(row) for sign in made["signs"] for row in sign[6]} <= {len(key.things) + 1}
        assert all(isinstance(end, int) for thing in made["things"] for size in thing[4] for end in size[1:])


def test_every_position_with_three_things_has_one() -> None:
    things = [one for one in REGISTER.assemblies.values() if not isinstance(one, Absence)]
    count = {one.position: sum(other.position == one.position for other in things) for one in things}
    found = {addresses.of_key(path) for path, held in count.items() if held >= 3}
    assert {address for address in KEYS if address.startswith(addresses.HOLDING)} == found
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


@pytest.mark.parametrize(("listed", "there"), [(1, False), (2, True)])
def test_a_key_for_parts_is_there_where_something_tells_them(listed: int, there: bool) -> None:
    lines = ", ".join(f'{{number: "P-{n}", name: Part}}' for n in range(1, 5))
    held = record(
        "kind: assembly\nid: lid\ntitle: Lid\nposition: cover\nserials: [{series: xa, first: 1, last: 5}]\n"
        f"parts: [{lines}]\n",
        "assembly",
        "lid",
    )
    told = [
        record(
            f'kind: part\nid: p-{n}\nnumber: "P-{n}"\nname: Part\n'
            f'sizes: [{{what: Length, value: "{n}", unit: in}}]\n',
            "part",
            f"p-{n}",
        )
        for n in range(1, listed + 1)
    ]
    assert ("cover" in addresses.with_keys(register(held, *told), parts=True)) is there


WRITTEN = (
    '1-1/2"|.003 in|3 thou|10 micron|12 to 13 mm|17x40x12|17x40x12 mm|1\u00bd in|3 3/4|3 3/4 in.'
    "|1.1/8 inch|5/0 in|x mm||-5 mm|13 to 12 mm|0 mm|1 to 2 to 3 mm|5 feet"
    "|1/3 in|1/128 in|7/64 IN|2 1/4 by 3 in|1 in to 30 mm"
    "|12..13 mm|3\u20444 in|10 \u00b5m|1,5 mm|3 mm in|1- 1/2 in|12 \u2033|1/2/3 in"
)
LENGTHS = st.one_of(
    st.sampled_from(WRITTEN.split("|")),
    st.builds(
        "{}{} {}".format,
        st.decimals(0, 500, places=3),
        st.sampled_from(["", " to 600", "x7"]),
        st.sampled_from(["mm", "in", "thou", "cm", "um"]),
    ),
    st.builds("{} {}/{} {}".format, *[st.integers(0, 70)] * 3, st.sampled_from(["mm", "in", ""])),
)


@pytest.mark.slow  # node
def test_the_page_reads_lengths_as_the_command_does() -> None:
    texts: list[str] = []

    @given(LENGTHS)
    @settings(max_examples=300, database=None)
    def gather(text: str) -> None:
        texts.append(text)

    gather()
    run = "console.log(JSON.stringify(texts.map(SpanbookLengths.written)));"
    code = "\n".join([CODE, f"const texts = {json.dumps(texts)};", run])
    made = in_node(code)
    for text, found in zip(texts, made, strict=True):
        try:
            expected = [
                {"low": whole(one.low - one.step / 2), "high": whole(one.high + one.step / 2)}
                for one in written(text)
            ]
        except ValueError:
            expected = []
        assert found == expected, text
    assert any(made)
    assert not all(made)
