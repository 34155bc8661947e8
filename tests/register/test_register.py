"""The register of the demonstration: every link is there from both sides, and nothing can be changed."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import FrozenInstanceError, fields
from pathlib import Path

import pytest

from spanbook.ground.part_numbers import PartKey
from spanbook.reading import read_tree
from spanbook.reading.files import Folder
from spanbook.reading.records import Conversion, Teardown
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.register.statements import Fitting
from tests.support import registers as small

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def register() -> Register:
    return build(read_tree(Folder(CONTENT)).records)


def test_uses_and_parts_lists_name_each_other(register: Register) -> None:
    lines = ((a, line) for a in register.assemblies.values() for line in a.parts)
    named = {(a.id, register.key_of(a, said)) for a, line in lines for said in line.numbers}
    listed = {(use.assembly.id, part.key) for part in register.parts.values() for use in part.uses}
    assert named == listed
    assert len(listed) > 200


def test_acts_stand_on_the_pages_of_their_numbers(register: Register) -> None:
    for act in register.supersessions.values():
        for use in act.old:
            assert act in register.parts[register.key_of(act, use)].old_in
        for use in act.new:
            assert act in register.parts[register.key_of(act, use)].new_in


def test_what_is_cited_knows_it(register: Register) -> None:
    for statement in register.statements:
        for evidence in statement.evidence:
            cited = (
                register.sources[evidence.source]
                if evidence.source
                else register.teardowns[evidence.teardown or ""]
            )
            assert statement in register.cited[cited]


def test_conversions_and_finds_lead_back(register: Register) -> None:
    for conversion in register.conversions.values():
        assert conversion in register.conversions_to[conversion.to]
        assert all(conversion in register.conversions_from[start] for start in conversion.start)
    for teardown in register.teardowns.values():
        for find in teardown.found:
            assert find.assembly is None or teardown in register.found[find.assembly]


def test_numbers_belong_to_the_maker_unless_a_supplier_is_named(register: Register) -> None:
    assert register.parts[PartKey.of("wexmoor-engine-works", "wh-1181")].name == "Strainer pack"
    assert register.parts[PartKey.of("castle-bearing", "A203")].name == "Ball bearing"
    assert PartKey.of("wexmoor-engine-works", "A203") not in register.parts
    assert register.parts[PartKey.of("solent-carburation", "0012")].number == "0012"


def test_the_number_of_a_whole_assembly_has_a_page(register: Register) -> None:
    whole = register.parts[PartKey.of("wexmoor-engine-works", "WH-1180")].whole
    assert [record.id for record in whole] == ["edge-strainer"]


def test_a_parts_list_says_what_a_number_is_called_before_what_is_ordered_whole_by_it() -> None:
    alone = small.record(
        "kind: assembly\nid: plug\ntitle: Drain plug\nposition: cover\nnumber: P-1\n"
        "serials:\n- {series: xa, first: 1, last: 2}\nparts:\n- {number: p-1, name: Plug}\n",
        "assembly",
        "plug",
    )
    part = small.register(alone).parts[PartKey.of("example-works", "P-1")]
    assert (part.number, part.names) == ("p-1", ("Plug", "Drain plug"))


OTHER = (
    "kind: machine\nid: y\ntitle: Y\nmaker: Other Works\nseries:\n"
    '- {id: ya, stamped: "Y {number}", plate: machine, first: 1, last: 9}\n'
)


@pytest.mark.parametrize(("series", "maker"), [("xa", "example-works"), ("ya", "other-works")])
def test_the_series_that_a_record_names_tell_whose_its_numbers_are(series: str, maker: str) -> None:
    text = f"kind: supersession\nid: act\nold: [{{number: P-1}}]\nnew: []\nserials:\n- {{series: {series}, "
    act = small.record(f"{text}first: 1, last: 2}}\n", "supersession", "act")
    register = small.register(small.record(OTHER, "machine", "y"), act)
    assert register.owner(act) == maker
    assert list(register.parts) == [PartKey.of(maker, "P-1")]


@pytest.mark.parametrize("seed", range(3))
def test_the_order_of_files_never_shows(register: Register, seed: int) -> None:
    records = list(register.records)
    random.Random(seed).shuffle(records)
    other = build(records)
    for field in fields(Register):
        mine, theirs = getattr(register, field.name), getattr(other, field.name)
        # The subjects are made with the register, in the order of their statements.
        if isinstance(mine, Mapping) and field.name != "said":
            assert list(mine) == list(theirs), field.name
    assert tuple(other.said.values()) == other.statements
    assert [(s.record.id, s.anchor) for s in register.statements] == [
        (s.record.id, s.anchor) for s in other.statements
    ]


def test_nothing_can_be_changed(register: Register) -> None:
    with pytest.raises(FrozenInstanceError):
        register.parts = {}  # type: ignore[misc]
    with pytest.raises(TypeError):
        register.assemblies["x"] = register.assemblies["edge-strainer"]  # type: ignore[index]
    with pytest.raises(FrozenInstanceError):
        register.assemblies["edge-strainer"].title = "x"  # type: ignore[misc]


def test_statements_have_addresses_of_their_own(register: Register) -> None:
    spans = [s for s in register.statements if isinstance(s.subject, Fitting)]
    assert len({(s.record.id, s.anchor) for s in spans}) == len(spans)
    assert ("cartridge-filter", "span-hk-field") in {(s.record.id, s.anchor) for s in spans}


def test_the_demonstration_is_as_rich_as_it_should_be(register: Register) -> None:
    assert len(register.machines) >= 2
    assert len(register.series) >= 4
    assert sum(p.holds for p in register.positions.values()) >= 12
    assert len(register.assemblies) >= 50
    assert len(register.parts) >= 200
    assert len(register.sources) >= 10
    assert len(register.supersessions) >= 30
    assert len([r for r in register.records if isinstance(r, Conversion)]) >= 8
    assert len([r for r in register.records if isinstance(r, Teardown)]) >= 25
