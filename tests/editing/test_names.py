"""Whatever of the demonstration is called otherwise: it is sound, addresses lead on, no answer changes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import spanbook
from spanbook import Correction
from spanbook.answers.assumed import Assumed
from spanbook.answers.diff.compute import compare
from spanbook.answers.diff.model import Comparison
from spanbook.editing import moves
from spanbook.reading.edit import comments
from spanbook.reading.kinds import KINDS
from spanbook.site import permanent
from tests.support import worlds
from tests.support.command import PROJECT
from tests.support.demo import demo


def things() -> Iterator[str]:
    """The address of everything that has an id."""
    for kind in KINDS.values():
        if kind.folder:
            yield from (f"{kind.folder}/{id_}" for id_ in demo().things[kind.name])
    yield from (f"series/{id_}" for id_ in demo().series)
    yield from (f"positions/{path}" for path in demo().positions)
    yield from (f"signs/{id_}" for id_ in demo().signs)
    yield from (f"signs/{one.id}={answer}" for one in demo().signs.values() for answer in one.answers)


def compared(correction: Correction) -> Comparison:
    addresses = permanent.public(correction.was), permanent.public(correction.now)
    return compare(correction.was, correction.now, addresses, Assumed())


def only_names_changed(correction: Correction, told: Collection[str] = ()) -> None:
    found = compared(correction)
    assert found.dead == ()
    # A part that gets a record says nothing in it but what it was numbered.
    made = {change.id for change in found.records if change.sort == "added" and change.kind == "part"}
    standings = [one for one in found.standings if not (one.kind == "part" and one.record in made)]
    others = (found.answers, found.years, found.orders, found.opened, found.closed)
    assert (others, standings) == (((),) * 5, [])
    assert (found.against, found.looks, found.statements, found.breaks) == ((),) * 4
    assert {problem.name for problem in correction.problems} <= set(told)
    assert {change.sort for change in found.records if change.id not in made} <= {"renamed", "changed"}
    said = [Counter[str](), Counter[str]()]
    for change in correction.files:
        for count, path, data in zip(
            said, (change.before, change.after), (change.was, change.now), strict=True
        ):
            count.update(comments(data) if path and path.endswith(".yml") else ())
    assert said[0] == said[1]


@pytest.mark.slow
@settings(max_examples=15)
@given(st.sampled_from(list(things())))
def test_a_new_name_changes_nothing_else(what: str) -> None:
    only_names_changed(spanbook.rename(PROJECT, what, "quite-another"))


# What a correction changes is judged on both sides of all records: every day those of a small community.
@pytest.mark.slow
@pytest.mark.parametrize(
    "what",
    [
        "parts/wide-pump-body",
        "signs/lid-held=four nuts",
        "signs/lid-held",
        "positions/lubrication/oil-filter/relief-valve",
        "series/hk",
        "machines/wexmoor-h",
        "supersessions/pack-2240-split",
        "conversions/cartridge-kit",
        "absences/no-oil-cooler",
        "assemblies/edge-strainer",
        "assemblies/ball-relief-valve",
        "positions/lubrication",
        "positions/lubrication/oil-filter",
    ],
)
def test_a_new_name_of_each_sort(what: str) -> None:
    only_names_changed(spanbook.rename(PROJECT, what, "quite-another"))


SMALL = """\
# file: content/assemblies/lid.yml
kind: assembly
id: lid
title: Lid
position: body/cover
serials:
# from the book
- {series: xa, first: 1, last: 20, evidence: [{source: book}]}
signs: [{sign: lid-held, seen: four nuts}]
parts: [{number: K-1, name: Knob}]
# file: content/signs.yml
kind: signs
signs:
- {id: lid-held, asks: How the lid is held, answers: [four nuts, one long bolt]}
# file: content/parts/knob.yml
kind: part
id: knob
number: K-1
name: Knob
# file: content/teardowns/xa-7-merrin.yml
kind: teardown
id: xa-7-merrin
date: 2024-05-11
seen-by: merrin
serial: XA 7
condition: untouched
found:
- {position: body/cover, assembly: lid, note: "[The lid](/assemblies/lid/#span-xa)"}
# file: content/supersessions/k-1-on.yml
kind: supersession
id: k-1-on
old: [{number: K-1}]
new: [{number: K-2}]
evidence: [{source: book}]
"""


@pytest.mark.parametrize(
    "what",
    [
        "assemblies/lid",
        "machines/x-one",
        "parts/knob",
        "positions/body",
        "positions/body/cover",
        "series/xa",
        "signs/lid-held",
        "signs/lid-held=four nuts",
        "sources/book",
        "supersessions/k-1-on",
        "teardowns/xa-7-merrin",
    ],
)
def test_a_new_name_of_each_sort_in_a_small_community(what: str, tmp_path: Path) -> None:
    only_names_changed(spanbook.rename(worlds.lay(tmp_path, SMALL), what, "quite-another"))


@pytest.mark.slow
@settings(max_examples=15)
@given(st.sampled_from([(key.by, part.number) for key, part in demo().parts.items()]))
def test_another_number_changes_nothing_else(part: tuple[str, str]) -> None:
    by, number = part
    try:
        found = spanbook.renumber(PROJECT, number, "XX-77770 B", by=by)
    except spanbook.CannotChange as why:
        assert "has meant several things: say which with --means" in str(why)  # noqa: PT017 - the others are judged
        return
    only_names_changed(found)


@pytest.mark.slow
@settings(max_examples=15)
@given(st.sampled_from([(key.by, part.number) for key, part in demo().parts.items()]))
def test_another_firm_changes_nothing_else(part: tuple[str, str]) -> None:
    by, number = part
    try:
        found = spanbook.renumber(PROJECT, number, number, by=by, new_by="quite-another")
    except spanbook.CannotChange as why:
        reasons = ("stands where nobody can say whose it is", "has meant several things")
        assert any(reason in str(why) for reason in reasons)  # noqa: PT017 - the others are judged
        return
    only_names_changed(found)


@pytest.mark.slow
@pytest.mark.parametrize("means", ["seal-wire", "valve-cap"])
def test_another_number_of_one_that_has_meant_several(means: str) -> None:
    only_names_changed(spanbook.renumber(PROJECT, "WH-1505", "WH-1599", means=means))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("what", "where"),
    [
        ("positions/drive/clutch", "positions"),
        ("positions/cooling/thermostat", "positions/lubrication"),
        ("positions/lubrication/sump-strainer", "positions/crankcase"),
        ("positions/lubrication/oil-filter", "positions/crankcase"),
        ("positions/ignition", "positions/fuel"),
    ],
)
def test_another_group_changes_nothing_else(what: str, where: str) -> None:
    only_names_changed(spanbook.move(PROJECT, what, where), ["caution-missing"])  # of the other group


@pytest.mark.parametrize(
    ("what", "where"), [("positions/body/cover", "positions"), ("positions/pump", "positions/body")]
)
def test_another_group_of_a_small_community_changes_nothing_else(
    what: str, where: str, tmp_path: Path
) -> None:
    only_names_changed(spanbook.move(worlds.lay(tmp_path, SMALL), what, where), ["caution-missing"])


KIT = """\
# file: content/positions.yml
kind: positions
positions:
- id: body
  title: Body
  positions:
  - id: cover
    title: Cover
  - id: drain
    title: Drain
- id: pump
  title: Pump
# file: content/assemblies/hat.yml
kind: assembly
id: hat
title: Hat
position: body/cover
serials:
- {series: xa, first: 21, last: 30, evidence: [{source: book}]}
# file: content/conversions/kit.yml
kind: conversion
id: kit
title: Kit
position: body/cover
from: [lid]
to: hat
serials:
- {series: xa, first: 1, last: 9}
"""


@pytest.mark.parametrize(
    ("what", "where", "told"),
    [
        ("positions/pump", "positions/body/cover", "position-not-a-leaf"),
        ("assemblies/lid", "positions/body/drain", "position-differs"),
    ],
)
def test_what_would_spoil_a_small_community_is_told(what: str, where: str, told: str, tmp_path: Path) -> None:
    with pytest.raises(spanbook.CannotChange, match=told):
        spanbook.move(worlds.lay(tmp_path, SMALL, KIT), what, where)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("what", "where", "told"),
    [
        ("positions/governing/governor", "positions/exhaust/manifold", "position-not-a-leaf"),
        ("assemblies/edge-strainer", "positions/lubrication/sump-strainer", "position-differs"),
    ],
)
def test_what_would_spoil_the_records_is_told(what: str, where: str, told: str) -> None:
    with pytest.raises(spanbook.CannotChange, match=told):
        spanbook.move(PROJECT, what, where)


@pytest.mark.parametrize(
    ("what", "where", "told"),
    [
        ("positions/lubrication", "positions/lubrication/oil-filter", "cannot be moved into"),
        ("positions/lubrication/oil-filter", "positions/lubrication", "is what it is called"),
        ("positions/starting/electric-start", "positions/drive", "it has drive and would get"),
        ("assemblies/edge-strainer", "sources/parts-book-1934", "an assembly is moved to a position"),
        ("sources/parts-book-1934", "positions/drive", "only a position or an assembly is moved"),
    ],
)
def test_what_cannot_be_moved_is_told(what: str, where: str, told: str) -> None:
    with pytest.raises(spanbook.CannotChange, match=told):
        moves.move(demo(), {}, what, where)
