"""What a proposal changes: against brute force over every number, and on the demonstration."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from jsonschema_rs import Draft202012Validator

from spanbook.answers.applicability import Fits
from spanbook.answers.assumed import Assumed
from spanbook.answers.bounds import reach_of
from spanbook.answers.diff.compute import compare
from spanbook.answers.diff.model import Answer, Comparison, Held
from spanbook.answers.readings import reading_of
from spanbook.faces import diff
from spanbook.outputs.json.diff import as_object
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import diff as diff_text
from spanbook.reading.record_cache import Known
from spanbook.reading.records import Record
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from spanbook.rules.checking import open_folder
from spanbook.site import permanent
from spanbook.wording.diff import sections
from tests.support.changed import copied, drop_a_teardown, narrow, split
from tests.support.command import PROJECT, lid_moved, project
from tests.support.registers import lid, register

ENDS = st.one_of(st.integers(1, 20), st.just("unknown"), st.just("open"))


def compared(old: Register, new: Register) -> Comparison:
    return compare(old, new, (permanent.public(old), permanent.public(new)), Assumed())


@st.composite
def lids(draw: st.DrawFn) -> tuple[Record, ...]:
    """One to three assemblies at the same position of the small world, with spans of any sort."""
    made = []
    for id_ in ("a", "b", "c")[: draw(st.integers(1, 3))]:
        low, high = sorted((draw(st.integers(1, 20)), draw(st.integers(1, 20))))
        first = draw(st.sampled_from([str(low), f"[{low}, {high}]", "unknown"]))
        last = draw(st.sampled_from([str(high), f"[{low}, {high}]", "unknown", "open"]))
        fitted = draw(st.sampled_from(["", ", fitted: field", ", option: true"]))
        made.append(lid(id_, f"first: {first}, last: {last}{fitted}"))
    return tuple(made)


@given(lids(), lids())
def test_answers_change_where_brute_force_says_so(old: tuple[Record, ...], new: tuple[Record, ...]) -> None:
    before, after = register(*old), register(*new)
    for held in (before, after):
        # The check refuses a span that holds no issued number.
        for fitting in (f for fittings in held.fittings.values() for f in fittings):
            assume(reach_of(fitting.span, held.series[fitting.span.series]).possibly)
    told = {
        (one.series, one.position, n): (one.change.before, one.change.after)
        for one in compared(before, after).answers
        for n in range(one.change.first, (one.change.last or 60) + 1)
    }
    sides = Fits(before), Fits(after)
    for series in after.series.values():
        for number in range(series.first, 40):
            for position in sides[1].positions(after.machines[series.machine]):
                pair = tuple(_at(side, series.id, position, number) for side in sides)
                assert told.get((series.id, position, number)) == (pair if pair[0] != pair[1] else None)


def _at(side: Fits, series_id: str, position: str, number: int) -> Answer | None:
    series = side.register.series[series_id]
    if number not in series.issued:
        return None
    at = side.at(reading_of(series, number), position)
    fits = (Held(f.assembly.id, str(f.covers), f.span.fitted, f.span.option) for f in at.fits)
    return Answer(str(at.state), tuple(dict.fromkeys(fits)))


@cache
def of_demo() -> tuple[Known, diff.Before]:
    """The demonstration as it is, which every change is held against; its files are read once for both."""
    known = Known()
    return known, diff.Before(PROJECT, open_folder(PROJECT, known))


def told(tmp_path: Path, change: Callable[[Path], None]) -> Comparison:
    known, before = of_demo()
    return before.compared(open_folder(Path(copied(tmp_path, "new", change)), known))


@pytest.mark.slow
def test_a_narrower_bound_on_the_demonstration(tmp_path: Path) -> None:
    found = told(tmp_path, narrow)
    assert [(one.sort, one.id) for one in found.records] == [("changed", "edge-strainer")]
    (answer,) = found.answers
    assert (answer.position, answer.change.first, answer.change.last) == ("lubrication/oil-filter", 601, 612)
    assert {held.assembly for held in (answer.change.before or Answer("", ())).held} >= {"edge-strainer"}
    assert "edge-strainer" not in {held.assembly for held in (answer.change.after or Answer("", ())).held}
    assert not found.orders
    assert not found.born
    assert not found.dead


def _remark(content: Path) -> None:
    file = content / "assemblies/lubrication/edge-strainer.yml"
    file.write_text(f"# looked at again\n{file.read_text()}\n\n")


@pytest.mark.slow
@pytest.mark.parametrize(
    "change",
    [
        pytest.param(lambda _: None, id="the same"),
        pytest.param(_remark, id="a comment"),
    ],
)
def test_nothing_changes_for_readers(tmp_path: Path, change: Callable[[Path], None]) -> None:
    found = told(tmp_path, change)
    assert found.nothing
    assert diff_text.as_text(sections(found)) == "Nothing changes for readers."
    assert "Nothing changes for readers." in diff_text.as_markdown(sections(found))


@pytest.fixture(scope="module")
def of_several(tmp_path_factory: pytest.TempPathFactory) -> Comparison:
    """What several changes change together."""

    def change(content: Path) -> None:
        for one in (narrow, split, drop_a_teardown):
            one(content)
        strainer = content / "assemblies/lubrication/edge-strainer.yml"
        strange = strainer.read_text().replace(
            "title: Metal-edge strainer", "title: '<b>@all</b> [x](http://y)'"
        )
        strainer.write_text(strange)
        machine = content / "machines/wexmoor-h.yml"
        machine.write_text(machine.read_text().replace("1932: 118", "1932: 120"))

    return told(tmp_path_factory.mktemp("several"), change)


@pytest.mark.slow
def test_what_is_ordered_otherwise_is_told(of_several: Comparison) -> None:
    text = diff_text.as_text(sections(of_several))
    before, after = (
        f"WH-2241 Pack without end discs (still supplied) and {n} × WH-2242 End disc" for n in (2, 3)
    )
    assert f"WH-1181: {before} → {after}" in text


@pytest.mark.slow
def test_a_standing_changes_with_what_was_seen(of_several: Comparison) -> None:
    text = diff_text.as_text(sections(of_several))
    assert "assembly edge-strainer#span-hk: disputed → confirmed" in text
    assert "teardowns/hk-701-osk/" in text.split("Addresses that would die (1)")[1]
    closed = text.split("Questions closed")[1]
    assert "is it really the Waste-packed bypass filter?" in closed


@pytest.mark.slow
def test_json_keeps_to_its_schema(of_several: Comparison) -> None:
    made = json.loads(json_text(as_object(of_several)))
    schema = Draft202012Validator(json.loads((folder() / "answer-compare.json").read_text()))
    assert list(schema.iter_errors(made)) == []
    for key in ("records", "answers", "years", "orders", "standings", "headline", "unbacked", "breaks"):
        assert made[key], key
    assert {line["about"] for line in made["headline"]} >= {"unbacked", "gone"}
    assert {one["record"] for one in made["unbacked"]} == {"edge-strainer", "pack-2240-split", "wexmoor-h"}


def _other_source(content: Path) -> None:
    file = content / "sources/parts-book-1934.yml"
    file.write_text(file.read_text().replace("class: parts-book", "class: recollection"))


def _another_teardown(content: Path) -> None:
    file = content / "teardowns/hk-701-osk.yml"
    file.write_text(file.read_text().replace("condition: untouched", "condition: altered"))


@pytest.mark.slow
@pytest.mark.parametrize(
    "change", [narrow, split, drop_a_teardown, _other_source, _another_teardown], ids=lambda c: c.__name__
)
def test_what_cannot_differ_is_left_out_without_a_difference(
    tmp_path: Path, change: Callable[[Path], None]
) -> None:
    """Records read once for both sides narrow the work; read apart, everything is worked out."""
    old, new = (Path(copied(tmp_path, *each)) for each in (("old",), ("new", change)))
    known = Known()
    shared = compared(*(open_folder(folder, known).register for folder in (old, new)))
    apart = compared(*(open_folder(folder).register for folder in (old, new)))
    assert diff_text.as_text(sections(shared)) == diff_text.as_text(sections(apart))
    assert not shared.nothing


def test_a_renamed_record_is_the_same_record(tmp_path: Path) -> None:
    old, new = project(tmp_path / "old"), lid_moved(project(tmp_path / "new"))
    found = diff.compare(str(old), str(new), tmp_path)
    assert [(one.sort, one.before, one.id) for one in found.records] == [("renamed", "lid", "cover-plate")]
    assert not found.answers
    assert not found.standings
    assert not found.dead
    assert "assemblies/cover-plate/" in found.born


@pytest.mark.slow
def test_markdown_is_cut_with_a_count_and_strangers_text_stays_text(of_several: Comparison) -> None:
    found = of_several
    whole = diff_text.as_markdown(sections(found))
    assert r"\<b\>\@all\</b\> \[x\]\(http\://y\)" in whole
    assert not re.search(r"(?<!\\)[<@\[]", whole)
    short = diff_text.as_markdown(sections(found), limit=900)
    assert len(short.encode()) <= 900
    (count,) = re.findall(r"(\d+) more lines do not fit", short)
    kept = sum(line.startswith("- ") for line in short.splitlines())
    assert int(count) + kept == sum(line.startswith("- ") for line in whole.splitlines())


def test_records_with_errors_are_not_compared(tmp_path: Path) -> None:
    old, new = project(tmp_path / "old"), project(tmp_path / "new")
    (new / "content/sources/bad.yml").write_text("kind: sauce\n")
    with pytest.raises(diff.NotComparable, match=r"mend them first:\n.*bad\.yml:1:7: error kind-wrong"):
        diff.compare(str(old), str(new), tmp_path)


@pytest.mark.slow
def test_unchanged_records_are_read_once() -> None:
    known = Known()
    one, other = (open_folder(PROJECT, known).register for _ in range(2))
    assert one.records == other.records  # told apart by identity
