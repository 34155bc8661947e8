"""A record that exists and is broken is told, and what only comes of that is not."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import LID, TWO, act, assembly, conversion, parts, teardown

BOOK = (
    "# file: content/sources/book.yml\nkind: source\nid: book\n"
    "title: The book\nclass: parts-book\nyear: 1934\n"
)
BROKEN_BOOK = "content/sources/book.yml"
LINKED = LID + "notes: See [it](/sources/book/).\n"
SHOWN = teardown("XA 7").replace(
    "note: A lid}", "note: A lid, photographs: [{file: t/lid.jpg, shows: A lid}]}"
)
SHORT = assembly(
    "lid", "xa, first: 1, last: 20", more=parts("L-1").replace("number", "by: w, number")
) + assembly(
    "hat",
    "xa, first: 21, last: 99",
    "xa, first: 1, last: 20, fitted: field, anchor: later",
    more=parts("H-1"),
)
BROKEN = {
    "a source": (LINKED + BOOK.replace("year: 1934", "yaer: 1934"), {BROKEN_BOOK}),
    "a source that is no YAML": (
        LINKED + BOOK.replace("The book", '"The book'),
        {BROKEN_BOOK},
    ),
    "a source by another name": (
        LINKED + BOOK.replace("id: book", "id: boook"),
        {BROKEN_BOOK},
    ),
    "an assembly": (
        TWO.replace("title: hat", "titel: hat") + conversion("lid", "hat"),
        {"content/assemblies/hat.yml"},
    ),
    "a machine": (
        LID + worlds.read("base").replace("title: X One", "title: X: One"),
        {"content/machines/x-one.yml"},
    ),
    "the positions": (
        LID + worlds.read("base").replace("{id: drain, title: Drain}", "{id: drain}"),
        {"content/positions.yml"},
    ),
    "the cautions": (
        LID + "cautions: [used-oil]\n" + worlds.read("base").replace("words: [sump]", "words: []"),
        {"content/cautions.yml"},
    ),
    "an assembly that fills a hole": (
        LID + assembly("hat", "xa, first: 31, last: 99") + assembly("cap", "xa, first: 21, last: 30, no: 1"),
        {"content/assemblies/cap.yml"},
    ),
    "the standard beside an option": (
        assembly("hat", "xa, first: 1, last: 9, option: true") + LID.replace("title: lid", "titel: lid"),
        {"content/assemblies/lid.yml"},
    ),
    "what alone uses the parts of a split": (
        act("a", "P-1", "R-1 R-2", "year: 1934\n")
        + (LID + parts("r-1").replace("number", "by: w, number")).replace("title: lid", "titel: lid"),
        {"content/assemblies/lid.yml"},
    ),
    "a conversion that reaches the rest": (
        TWO
        + conversion("lid", "hat").replace("last: 20", "last: 15")
        + conversion("lid", "hat").replace("kit", "rest").replace("title: Kit", "titel: Kit"),
        {"content/conversions/rest.yml"},
    ),
    "a conversion that makes what another starts from": (
        SHORT
        + conversion("lid", "hat").replace("last: 20", "last: 25")
        + conversion("hat", "lid").replace("kit", "back").replace("title: Kit", "titel: Kit"),
        {"content/conversions/back.yml"},
    ),
    "an assembly that another position needs": (
        SHORT
        + conversion("lid", "hat", "needs: [{position: pump, assemblies: [wide], why: Oil}]\n")
        + assembly("narrow", "xa, first: 1, last: 20", position="pump")
        + assembly("wide", "xa, first: 21, last: 99", position="pump")
        + conversion("narrow", "wide").replace("kit", "widened").replace("title: Kit", "titel: Kit"),
        {"content/conversions/widened.yml"},
    ),
    "an assembly that had the old part": (
        SHORT
        + act("a", "L-1", "L-9", "serials: [{series: xa, first: 21, last: 30}]\n")
        + assembly("tin", "xa, first: 1, last: 30, no: 1", more=parts("L-1")),
        {"content/assemblies/tin.yml"},
    ),
    "what alone names a source and shows a photograph": (
        BOOK.replace("book.yml", "tale.yml").replace("id: book", "id: tale")
        + "# picture: content/photographs/t/lid.jpg\n"
        + SHOWN.replace("date: 2024", "date: 2024\nevidence: [{source: tale}]"),
        {"content/teardowns/t.yml"},
    ),
}


@each_row(("world", "paths"), BROKEN.values())
def test_only_what_is_broken_is_told(world: str, paths: set[str], tmp_path: Path) -> None:
    told = worlds.check(tmp_path, world).problems
    assert {problem.place.path for problem in told} == paths, "\n".join(map(str, told))


def test_what_is_in_no_broken_record_is_still_told(tmp_path: Path) -> None:
    broken = BOOK.replace("year: 1934", "yaer: 1934") + assembly("hat", "xa, first: 21, last: 30")
    lost = broken + LID.replace("source: book", "source: tale").replace("series: xa", "series: xc")
    told = worlds.check(tmp_path, lost).problems
    assert {problem.read for problem in told} == {
        "the key “yaer” is not known here",
        "there is no source tale",
        "there is no series xc",
    }


def test_what_a_broken_record_does_not_name_is_still_missing(tmp_path: Path) -> None:
    """The broken cap is elsewhere on the machine, and has other parts."""
    cap = assembly("cap", "xa, first: 21, last: 30, no: 1", position="pump", more=parts("S-1"))
    apart = LID + assembly("hat", "xa, first: 31, last: 99") + assembly("pot", "xb, first: 100, last: 120")
    option = assembly("jug", "xb, first: 130, last: 140, option: true") + act("a", "P-1", "R-1 R-2")
    told = worlds.check(tmp_path, cap, apart, option).problems
    assert {problem.name for problem in told} == {
        "key-unknown",
        "span-hole",
        "option-without-standard",
        "split-unused",
    }


def test_of_a_former_id_the_present_one_is_told(tmp_path: Path) -> None:
    renamed = LID.replace("title: lid", "title: lid\nformerly: [cover, lip]") + conversion("lip", "lid")
    told = [problem for problem in worlds.check(tmp_path, renamed).problems if problem.name[:3] == "ref"]
    (problem,) = told
    assert problem.read == "lip is what the assembly lid was called formerly"
    assert problem.todo == "write lid"
