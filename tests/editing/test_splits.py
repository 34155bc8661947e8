"""One assembly told apart into several: sound, at the same addresses, and whoever saw it saw one of them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import spanbook
from spanbook import Correction
from spanbook.answers.applicability import Fits
from spanbook.answers.standing import Judge, Standing
from spanbook.editing import splits
from spanbook.reading.records import Absence, Assembly, StripDown
from spanbook.register.model import Register
from spanbook.site import permanent
from tests.support import worlds
from tests.support.command import LID, PROJECT, SEEN
from tests.support.demo import demo
from tests.support.rows import each_row

KITS = {"made": "one-of-two"}
ON_THE_COVER = SEEN.replace("30", "7")


def ids() -> list[str]:
    return [a.id for a in demo().assemblies.values() if not a.retired and not isinstance(a, Absence)]


def apart(what: str, **how: Any) -> Correction:
    return spanbook.split(PROJECT, f"assemblies/{what}", ["one-of-two", "two-of-two"], **{**KITS, **how})


def runs(assembly: Assembly) -> list[tuple[str, object, object]]:
    return [(span.series, span.first, span.last) for span in assembly.serials]


def disputed(register: Register) -> set[tuple[str, str]]:
    judge = Judge(Fits(register))
    return {(s.record.id, s.anchor) for s in register.statements if judge.of(s).standing is Standing.DISPUTED}


def holds(correction: Correction, what: str) -> None:
    """No address dies; nobody but an account of taking it apart names it; nothing new is disputed."""
    was, now = correction.was, correction.now
    assert set(permanent.public(was)) <= set(permanent.public(now))
    assert (now.assemblies[what].retired, now.assemblies[what].now) != (None, ())
    for before, after in zip(was.teardowns.values(), now.teardowns.values(), strict=True):
        for was_found, found in zip(before.found, after.found, strict=True):
            said = {"one-of-two", "two-of-two"} if what in was_found.named else set()
            assert set(found.named) == (set(was_found.named) - {what}) | said
    assert not any(what in c.start or c.to == what for c in now.conversions.values())
    accounts = [one.assembly for one in now.of(StripDown).values()]
    assert accounts == [one.assembly for one in was.of(StripDown).values()]
    new = {(id_, anchor) for id_, anchor in disputed(now) - disputed(was)}
    assert {id_ for id_, _ in new} <= {"one-of-two", "two-of-two"}
    mine = {anchor for id_, anchor in disputed(was) if id_ == what}
    assert {anchor for _, anchor in new} <= mine, "a teardown of the unsplit one contradicts neither"


@pytest.mark.slow
@pytest.mark.parametrize("what", ["edge-strainer", "plain-coupling"])
def test_an_assembly_told_apart(what: str) -> None:
    holds(apart(what), what)


def test_a_lid_told_apart(tmp_path: Path) -> None:
    """Without a number that tells them apart each is possibly on all of them."""
    folder = worlds.lay(tmp_path, LID, ON_THE_COVER)
    found = spanbook.split(folder, "assemblies/lid", ["one-of-two", "two-of-two"])
    holds(found, "lid")
    assert [runs(found.now.assemblies[id_]) for id_ in ("one-of-two", "two-of-two")] == [
        [("xa", (1, 20), (1, 20))]
    ] * 2
    assert found.now.teardowns["xa-7-merrin"].found[0].one_of == ("one-of-two", "two-of-two")


def test_a_lid_told_apart_by_a_number(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, LID + "parts: [{number: K-1, name: Knob}]\n", ON_THE_COVER)
    found = spanbook.split(
        folder, "assemblies/lid", ["one-of-two", "two-of-two"], second_from={"xa": (9, 12)}, why="The knobs."
    )
    holds(found, "lid")
    one, two = (found.now.assemblies[id_] for id_ in ("one-of-two", "two-of-two"))
    assert (runs(one), runs(two)) == ([("xa", 1, (8, 11))], [("xa", (9, 12), 20)])
    assert found.now.assemblies["lid"].retired == "The knobs."
    assert [use.number for use in (*one.parts, *two.parts)] == ["K-1", "K-1"]


@pytest.mark.slow
@settings(max_examples=10)
@given(st.sampled_from(ids()))
def test_any_assembly_told_apart(what: str) -> None:
    holds(apart(what), what)


@pytest.mark.slow
def test_by_a_number_each_gets_its_share() -> None:
    found = apart("edge-strainer", second_from={"hk": (300, 310), "hm": (50, 50)}, why="The knobs differ.")
    one, two = (found.now.assemblies[id_] for id_ in ("one-of-two", "two-of-two"))
    assert [(s.series, s.first, s.last) for s in one.serials] == [("hk", 1, (299, 309)), ("hm", 1, 49)]
    assert [(s.series, s.first, s.last) for s in two.serials] == [
        ("hk", (300, 310), (588, 612)),
        ("hm", 50, (96, 110)),
    ]
    assert found.now.assemblies["edge-strainer"].retired == "The knobs differ."
    assert [use.number for use in one.parts] == [
        use.number for use in demo().assemblies["edge-strainer"].parts
    ]


@pytest.mark.slow
def test_without_one_each_is_possibly_on_all_of_them() -> None:
    found = apart("edge-strainer")
    for id_ in ("one-of-two", "two-of-two"):
        spans = found.now.assemblies[id_].serials
        assert [(s.series, s.first, s.last) for s in spans] == [
            ("hk", (1, 612), (1, 612)),
            ("hm", (1, 110), (1, 110)),
        ]


@each_row(
    ("how", "told"),
    [
        ({"into": ["a"]}, "two new ids or more"),
        ({"into": ["a", "a"]}, "two new ids or more"),
        ({"into": ["a", "duplex-strainer"]}, "assemblies/duplex-strainer is there already"),
        ({"into": ["a", "b", "c"], "second_from": {"hk": (3, 3)}}, "a number tells two apart"),
        ({"second_from": {"dt": (3, 3)}}, "no span in the series dt"),
        ({"second_from": {"hk": (1, 1), "hm": (1, 1)}}, "a would have no numbers at all"),
        ({"made": "c"}, "c is none of a, b"),
        ({}, "content/conversions/strainer-restored.yml makes it: say with --made which of a, b that is"),
        ({"what": "sources/parts-book-1934"}, "only an assembly that is not retired"),
        ({"what": "assemblies/capless-breather"}, "only an assembly that is not retired"),
    ],
)
def test_what_cannot_be_told_apart_is_told(how: dict[str, Any], told: str) -> None:
    what, into = how.pop("what", "assemblies/edge-strainer"), how.pop("into", ["a", "b"])
    with pytest.raises(spanbook.CannotChange, match=told):
        splits.split(demo(), {}, what, into, **how)
