"""What exactly is told, and what is not, at the edges of each rule: one list of problems a world."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds


def assembly(id_: str, *spans: str, position: str = "body/cover", more: str = "") -> str:
    lines = "".join(f"- {{series: {span}, evidence: [{{source: book}}]}}\n" for span in spans)
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_}\n"
        f"position: {position}\nserials:\n{lines}{more}"
    )


def machine(**fields: str) -> str:
    held = {"first": "1", "last": "90", "stamped": '"Z {number}"'} | fields
    lines = ", ".join(f"{key}: {value}" for key, value in held.items())
    return (
        "# file: content/machines/z-one.yml\nkind: machine\nid: z-one\ntitle: Z\nmaker: Z Works\nseries:\n"
        f"- {{id: za, plate: machine, evidence: [{{source: book}}], {lines}}}\n"
    )


def act(id_: str, old: str, new: str, more: str = "") -> str:
    sides = [", ".join(f'{{number: "{n}", by: w}}' for n in side.split()) for side in (old, new)]
    return (
        f"# file: content/supersessions/{id_}.yml\nkind: supersession\nid: {id_}\n"
        f"old: [{sides[0]}]\nnew: [{sides[1]}]\nevidence: [{{source: book}}]\n{more}"
    )


def conversion(start: str, to: str, more: str = "") -> str:
    return (
        "# file: content/conversions/kit.yml\nkind: conversion\nid: kit\ntitle: Kit\nposition: body/cover\n"
        f"from: [{start}]\nto: {to}\nevidence: [{{source: book}}]\nserials:\n"
        f"- {{series: xa, first: 1, last: 20}}\n{more}"
    )


def parts(*numbers: str) -> str:
    return "parts:\n" + "".join(f'- {{number: "{n}", name: Part {n}}}\n' for n in numbers)


def teardown(serial: str, more: str = "") -> str:
    return (
        "# file: content/teardowns/t.yml\nkind: teardown\nid: t\ndate: 2024\nseen-by: m\n"
        f"serial: {serial}\ncondition: untouched\nfound:\n- {{position: body/cover, note: A lid}}\n{more}"
    )


LID = assembly("lid", "xa, first: 1, last: 20")
SPANS = {
    "in order": (LID, []),
    "one number": (assembly("lid", "xa, first: 7, last: 7"), []),
    "the whole series": (assembly("lid", "xa, first: 1, last: 99"), []),
    "its first reversed": (
        assembly("lid", "xa, first: [9, 3], last: 20"),
        [("span-reversed", 6, "a span that runs from 9 back to 3")],
    ),
    "its last reversed": (
        assembly("lid", "xa, first: 1, last: [20, 12]"),
        [("span-reversed", 6, "a span that runs from 20 back to 12")],
    ),
    "reversed is told once, and not as skipped too": (
        assembly("lid", "xa, first: [20, 9], last: [8, 5]"),
        [("span-reversed", 6, "a span that runs from 20 back to 9")],
    ),
    "last before first": (
        assembly("lid", "xa, first: 20, last: [5, 10]"),
        [("span-reversed", 6, "a span that runs from 20 back to 10")],
    ),
    "beyond the series": (
        assembly("lid", "xa, first: 0, last: 20"),
        [("span-out-of-series", 6, "first 0, and the series xa has 1 to 99")],
    ),
    "beyond its end": (
        assembly("lid", "xa, first: 1, last: [99, 100]"),
        [("span-out-of-series", 6, "last 100, and the series xa has 1 to 99")],
    ),
    "before a series without an end": (
        assembly("lid", "xb, first: [99, 105], last: 10000"),
        [("span-out-of-series", 6, "first 99, and the series xb has 100 and up")],
    ),
    "skipped numbers alone": (
        assembly("lid", "xa, first: 41, last: 45"),
        [("span-skipped", 6, "a span over numbers of the series xa that were never issued")],
    ),
    "one skipped number": (
        assembly("lid", "xa, first: 43, last: 43"),
        [("span-skipped", 6, "a span over numbers of the series xa that were never issued")],
    ),
    "one issued number among them": (assembly("lid", "xa, first: 41, last: 46"), []),
    "a series that is not there": (
        assembly("lid", "zz, first: 9, last: 1"),
        [("reference-unknown", 6, "there is no series zz")],
    ),
}
SERIES = {
    "a sound one": (machine(skipped="[[1, 2], [80, 90]]", years="{1931: 1, 1932: 1, 1933: 90}"), []),
    "one number": (machine(first="5", last="5"), []),
    "reversed": (machine(first="91"), [("series-reversed", 6, "a series from 91 back to 90")]),
    "skipped before it": (
        machine(first="2", skipped="[[1, 3]]"),
        [("skipped-out-of-series", 6, "skipped 1 to 3 in a series of 2 to 90")],
    ),
    "skipped past it": (
        machine(skipped="[[3, 4], [88, 91]]"),
        [("skipped-out-of-series", 6, "skipped 88 to 91 in a series of 1 to 90")],
    ),
    "skipped far on in one without an end": (machine(last="unknown", skipped="[[900, 901]]"), []),
    "skipped backwards in one without an end": (
        machine(last="unknown", skipped="[[9, 8]]"),
        [("skipped-out-of-series", 6, "skipped 9 to 8 in a series of 1 to unknown")],
    ),
    "a year before the one before": (
        machine(years="{1931: 5, 1932: 4, 1933: 4}"),
        [("years-out-of-order", 6, "1932 begins at 4, and the year before it at 5")],
    ),
    "a year below the series": (
        machine(first="2", years="{1931: 1, 1932: 2}"),
        [("year-out-of-series", 6, "1931 begins at 1, outside the series")],
    ),
    "a year above it": (
        machine(years="{1931: 90, 1932: 91}"),
        [("year-out-of-series", 6, "1932 begins at 91, outside the series")],
    ),
    "a year far on in one without an end": (machine(last="unknown", years="{1931: 900}"), []),
    "stamped alike with numbers in common": (
        machine(stamped='"x-A {number}"', first="90", last="100"),
        [("stamp-clash", 6, "za is stamped like xa and has numbers in common with it")],
    ),
    "stamped alike without": (machine(stamped='"XA {number}"', first="100", last="200"), []),
    "stamped alike, in common only what was never issued": (
        machine(stamped='"XA {number}"', first="41", last="45"),
        [],
    ),
    "another suffix": (machine(stamped='"XA {number} B"'), []),
}
COVERAGE = {
    "one after the other": (LID + assembly("hat", "xa, first: 21, last: 99"), []),
    "two standards on one number": (
        LID
        + assembly("hat", "xa, first: 20, last: 99")
        + assembly("zinc-lid", "xa, first: 1, last: 99, option: true"),
        [("standards-conflict", 6, "hat and lid are both surely on XA 20 to XA 20 at body/cover")],
    ),
    "two standards, and a third that may be there": (
        LID
        + assembly("hat", "xa, first: 20, last: 99")
        + assembly("cap", "xa, first: [19, 21], last: [19, 21]"),
        [("standards-conflict", 6, "hat and lid are both surely on XA 20 to XA 20 at body/cover")],
    ),
    "two standards without an end": (
        assembly("lid", "xb, first: 100, last: open") + assembly("hat", "xb, first: 150, last: open"),
        [("standards-conflict", 6, "hat and lid are both surely on 0150B on at body/cover")],
    ),
    "possibly both": (LID + assembly("hat", "xa, first: [15, 21], last: 99"), []),
    "an option beside it, and one fitted later": (
        LID
        + assembly("hat", "xa, first: 5, last: 20, option: true")
        + assembly("cap", "xa, first: 1, last: 20, fitted: field"),
        [],
    ),
    "a hole": (
        LID + assembly("hat", "xa, first: 31, last: 99"),
        [("span-hole", 6, "nothing is recorded for XA 21 to XA 30, between lid and hat")],
    ),
    "a hole that nothing was issued in": (
        assembly("lid", "xa, first: 1, last: 40") + assembly("hat", "xa, first: 46, last: 99"),
        [],
    ),
    "nothing before and after is no hole": (assembly("lid", "xa, first: 30, last: 31"), []),
    "an option alone": (
        assembly("lid", "xa, first: 6, last: 20, option: true"),
        [("option-without-standard", 6, "an option, and no standard assembly is recorded from XA 6")],
    ),
    "an option beside one that was fitted later": (
        assembly("lid", "xa, first: 6, last: 20, option: true")
        + assembly("cap", "xa, first: 1, last: 20, fitted: field"),
        [("option-without-standard", 6, "an option, and no standard assembly is recorded from XA 6")],
    ),
    "an option longer than the standard": (
        LID + assembly("hat", "xa, first: 5, last: 21, option: true"),
        [("option-without-standard", 6, "an option, and no standard assembly is recorded from XA 21")],
    ),
    "an option beside what is possibly there": (
        assembly("lid", "xa, first: 1, last: [10, 20]")
        + assembly("hat", "xa, first: 5, last: 20, option: true"),
        [],
    ),
}
ACTS = {
    "a chain": (act("a", "P", "Q", "year: 1931\n") + act("b", "Q", "R", "year: 1931\n"), []),
    "replaced by what it replaces": (
        act("a", "P", "Q") + act("b", "Q", "P"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3, Q by content/supersessions/b.yml:3, and so back to P",
            )
        ],
    ),
    "replaced in the end by what began it": (
        act("a", "P", "Q") + act("b", "Q", "R") + act("c", "R", "P"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3, Q by content/supersessions/b.yml:3, "
                "R by content/supersessions/c.yml:3, and so back to P",
            )
        ],
    ),
    "replaced by itself and another": (
        act("a", "P S", "Q P") + assembly("lid", "xa, first: 1, last: 20", more=""),
        [("supersession-same", 4, "P replaced by itself")],
    ),
    "replaced by what was replaced before": (
        act("a", "P", "Q", "year: 1933\n") + act("b", "Q", "R", "year: 1931\n"),
        [("superseded-by-older", 4, "in 1933 replaced by Q, which was itself replaced in 1931")],
    ),
    "in years that nobody knows": (act("a", "P", "Q") + act("b", "Q", "R", "year: 1931\n"), []),
    "in a later year that nobody knows": (act("a", "P", "Q", "year: 1933\n") + act("b", "Q", "R"), []),
    "split into what nobody uses": (
        act("a", "P", "Q R"),
        [("split-unused", 4, "a split into Q and R, which nothing uses")],
    ),
    "split, one of them in a parts list": (
        act("a", "P", "Q R")
        + assembly("lid", "xa, first: 1, last: 20", more='parts:\n- {number: "R", by: w, name: R}\n'),
        [],
    ),
    "split, one of them replaced again": (act("a", "P", "Q R") + act("b", "R", "S"), []),
    "no longer supplied": (act("a", "P", ""), []),
}
TWO = assembly("lid", "xa, first: 1, last: 20", more=parts("L-1", "L-2")) + assembly(
    "hat", "xa, first: 1, last: 20, fitted: field", more=parts("H-1", "H-2")
)
CONVERSIONS = {
    "sound": (TWO + conversion("lid", "hat", "adds: [{number: H-2}]\nremoves: [{number: L-2}]\n"), []),
    "into itself": (TWO + conversion("hat, lid", "lid"), [("conversion-same", 6, "from lid to itself")]),
    "to what is never on those machines": (
        LID + assembly("hat", "xa, first: 21, last: 40, fitted: field") + conversion("lid", "hat"),
        [("conversion-never-fits", 6, "hat, which has no span on the machines that may take it")],
    ),
    "from what never was": (
        LID
        + assembly("cap", "xa, first: 21, last: 60", "xb, first: 100, last: 200")
        + assembly("hat", "xa, first: 20, last: 40, fitted: field")
        + conversion("lid, cap", "hat"),
        [("conversion-never-fits", 5, "cap, which has no span on the machines that may take it")],
    ),
    "what it puts on is not in there": (
        TWO + conversion("lid", "hat", "adds: [{number: H-1}, {number: H-3}]\n"),
        [("conversion-adds-stray", 10, "H-3 is put on, and hat does not contain it")],
    ),
    "what comes off was not in there": (
        TWO + conversion("lid", "hat", "removes: [{number: L-1}, {number: L-3}]\n"),
        [("conversion-removes-stray", 10, "L-3 comes off, and lid does not contain it")],
    ),
    "nothing is known of their parts": (
        LID
        + assembly("hat", "xa, first: 1, last: 20, fitted: field")
        + conversion("lid", "hat", "adds: [{number: H-3}]\nremoves: [{number: L-3}]\n"),
        [],
    ),
}
TEARDOWNS = {
    "one series": (teardown("XA 7"), []),
    "a number never issued": (
        teardown("XA 43"),
        [("serial-unread", 5, "the serial number XA 43, which was issued in no series")],
    ),
    "not in the series named": (
        teardown("XA 7", "series: xb\n"),
        [("serial-unread", 5, "the serial number XA 7, which was issued in no series xb")],
    ),
    "in two series": (
        teardown("XA 7") + machine(stamped='"XA {number}"', first="7", last="7"),
        [
            ("stamp-clash", 6, "za is stamped like xa and has numbers in common with it"),
            ("serial-unclear", 5, "XA 7 reads in xa and za"),
        ],
    ),
    "in two series, and it says which": (
        teardown("XA 7", "series: za\n") + machine(stamped='"XA {number}"', first="7", last="7"),
        [("stamp-clash", 6, "za is stamped like xa and has numbers in common with it")],
    ),
}
DRAIN = "position: body/drain"
CAUTIONS = {
    "called for by its place": (
        LID.replace("position: body/cover", DRAIN),
        [("caution-missing", 1, "“body/drain” calls for the caution used-oil")],
    ),
    "called for by a word in any case": (
        LID.replace("title: lid", "title: Lid of the SUMP"),
        [("caution-missing", 1, "“sump” calls for the caution used-oil")],
    ),
    "a part of a word calls for nothing": (LID.replace("title: lid", "title: Sumpter's lid"), []),
    "a place that begins alike": (LID, []),
    "it is declined": (
        LID.replace("title: lid", "title: Lid of the sump")
        + "declined: [{caution: used-oil, why: The sump is dry}]\n",
        [],
    ),
    "it is there and declined": (
        LID.replace("position: body/cover", f"{DRAIN}\ncautions: [used-oil]")
        + "declined: [{caution: used-oil, why: It is dry}]\n",
        [("caution-declined", 8, "used-oil declined, and it stands under cautions too")],
    ),
    "declined, and nothing calls for it": (
        LID + "declined: [{caution: used-oil, why: It is dry}]\n",
        [("caution-declined", 7, "used-oil declined, and nothing here calls for it")],
    ),
    "declined, and there is none": (
        LID + "declined: [{caution: dust, why: It is wet}]\n",
        [("reference-unknown", 7, "there is no caution dust")],
    ),
    "it is there": (LID.replace("position: body/cover", f"{DRAIN}\ncautions: [used-oil]"), []),
}
NAMES = {
    "a number under two names": (
        assembly("lid", "xa, first: 1, last: 20", more='parts:\n- {number: "X", name: Bolt}\n')
        + assembly("hat", "xa, first: 21, last: 99", more='parts:\n- {number: "X", name: Screw}\n'),
        [("part-two-names", 8, "X is called Bolt here and Screw elsewhere")],
    ),
    "a number misread": (
        assembly("lid", "xa, first: 1, last: 20", more=parts("X-18", "X-IB", "X-14")),
        [
            ("names-worn-alike", 9, "the numbers X-18 and X-IB differ only in worn twins"),
            ("names-worn-alike", 9, "the names Part X-18 and Part X-IB differ only in worn twins"),
        ],
    ),
    "two digits are no misreading": (
        assembly("lid", "xa, first: 1, last: 20", more=parts("WH-1130", "WH-1180")),
        [],
    ),
}
EVIDENCE = {
    "a span without": (
        LID.replace(", evidence: [{source: book}]", ""),
        [("statement-without-evidence", 6, "a span without evidence")],
    ),
    "an act without": (
        act("a", "P", "Q").replace("evidence: [{source: book}]\n", ""),
        [("statement-without-evidence", 1, "a supersession without evidence")],
    ),
    "a source that nobody names": (
        "# file: content/sources/tale.yml\nkind: source\nid: tale\ntitle: T\nclass: recollection\n",
        [("source-unused", 2, "no statement names the source tale")],
    ),
}
FAMILIES = (SPANS, SERIES, COVERAGE, ACTS, CONVERSIONS, TEARDOWNS, CAUTIONS, NAMES, EVIDENCE)
CASES = [(name, *case) for family in FAMILIES for name, case in family.items()]


@pytest.mark.parametrize(("world", "told"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    found = worlds.check(tmp_path, world).problems
    assert sorted((p.name, p.place.line, p.read) for p in found) == sorted(told)


def test_of_three_standards_the_last_is_where_a_conflict_is_told(tmp_path: Path) -> None:
    three = "".join(assembly(id_, "xa, first: 1, last: 20") for id_ in ("lid", "hat", "cap"))
    (problem,) = worlds.check(tmp_path, three).problems
    assert problem.read.startswith("cap and hat and lid are both surely on XA 1 to XA 20")
    assert problem.place.path == "content/assemblies/lid.yml"


@pytest.mark.parametrize(
    ("world", "name", "todo"),
    [
        (LID + "notes: See [it](/sources/boook/).\n", "link-dead", "did you mean /sources/book/?"),
        (
            LID + "notes: See [it](/sources/tale-of-old/).\n",
            "link-dead",
            "correct it; addresses end in what the page is about, as in /sources/book/",
        ),
        (
            teardown("XA 7") + machine(stamped='"XA {number}"', first="7", last="7"),
            "serial-unclear",
            "add series with the one it is, for example series: xa",
        ),
        (
            machine() + act("a", "P", "Q").replace(", by: w", ""),
            "maker-unclear",
            "add by with the maker's id, for example by: example-works",
        ),
    ],
)
def test_what_to_do_is_shown_by_the_communitys_own(world: str, name: str, todo: str, tmp_path: Path) -> None:
    found = {problem.todo for problem in worlds.check(tmp_path, world).problems if problem.name == name}
    assert found == {todo}
