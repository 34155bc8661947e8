"""What a statement says otherwise, field by field, and whether what it rests on changed as well."""

from __future__ import annotations

import pytest

from spanbook.reading import nodes
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.support.comparisons import SOURCES, compared, seen
from tests.support.registers import POSITIONS, assembly, record, register
from tests.support.rows import each_row

HAT = assembly("hat", "first: 15, last: 20")
Told = list[tuple[str, str, list[tuple[object, ...]], bool]]


def told(old: Register, new: Register) -> Told:
    """Each statement that says anything else: its sort and record, the fields, whether it is backed."""
    return [
        (
            type(one.after.subject).__name__,
            one.after.record.id,
            [field.steps for field in one.fields],
            one.backed,
        )
        for one in compared(old, new).statements
    ]


def held(*records: Record) -> Register:
    return register(*SOURCES, seen(3, "lid"), seen(5, "lid"), HAT, *records)


def lid(last: int = 10, evidence: str = "{source: book}", more: str = "") -> Record:
    span = f"{{series: xa, first: 1, last: {last}, evidence: [{evidence}]}}"
    text = f"kind: assembly\nid: lid\ntitle: Lid\nposition: cover\nserials:\n- {span}\n{more}"
    return record(text, "assembly", "lid")


Field = tuple[tuple[object, ...], str | None, str | None]


def text(node: nodes.Node | None) -> str | None:
    return None if node is None else str(nodes.plain(node))


def stood(old: Register, new: Register) -> list[tuple[str, list[Field]]]:
    """Each statement that says anything else: its sort, and what stood in its fields and what does."""
    return [
        (
            type(one.after.subject).__name__,
            [(field.steps, text(field.before), text(field.after)) for field in one.fields],
        )
        for one in compared(old, new).statements
    ]


# What it rests on


@each_row(
    ("before", "after", "backed"),
    [
        ("{source: book}", "{source: book}", False),
        ("{source: book}", "{source: letter}", True),
        ("{source: book}", "{source: book, at: p. 2}", True),
        ("{source: book}", "{source: book, against: true}", True),
        ("{source: book}", "{source: book}, {teardown: x-3-osk}", True),
        ("{teardown: x-3-osk}", "{teardown: x-3-osk}", False),
        ("{teardown: x-3-osk}", "{teardown: x-5-osk}", True),
        ("{source: book}, {source: letter}", "{source: letter}, {source: book}", False),
    ],
)
def test_a_bound_that_moved_is_backed_where_its_evidence_did(before: str, after: str, backed: bool) -> None:
    old, new = held(lid(10, before)), held(lid(12, after))
    assert told(old, new) == [("Fitting", "lid", [("last",)], backed)]
    assert bool(compared(old, new).unbacked) is not backed


def test_a_source_by_another_name_is_the_same_evidence() -> None:
    tome = "kind: source\nid: tome\ntitle: The book\nclass: parts-book\nformerly: [book]\n"
    new = register(record(tome, "source", "tome"), lid(12, "{source: tome}"))
    old = register(SOURCES[0], lid(10))
    assert told(old, new) == [("Fitting", "lid", [("last",)], False)]


def listed(quantity: int, evidence: str = "", of_span: str = "{source: book}", more: str = "") -> Record:
    own = f", evidence: [{evidence}]" if evidence else ""
    return lid(
        evidence=of_span, more=f"parts:\n- {{number: P, name: Bolt, quantity: {quantity}{own}{more}}}\n"
    )


@pytest.mark.parametrize(
    ("before", "after", "backed"),
    [
        (listed(1), listed(2), False),
        (listed(1), listed(2, of_span="{source: letter}"), True),
        (listed(1, "{source: book}"), listed(2, "{source: letter}"), True),
        # What names its own rests on that alone.
        (listed(1, "{source: book}"), listed(2, "{source: book}", "{source: letter}"), False),
    ],
)
def test_a_part_rests_on_its_own_evidence_or_on_that_of_its_assembly(
    before: Record, after: Record, backed: bool
) -> None:
    found = told(held(before), held(after))
    assert [one for one in found if one[0] == "Use"] == [("Use", "lid", [("quantity",)], backed)]


@pytest.mark.parametrize(
    ("before", "after", "backed"),
    [
        ("{source: book}", "{source: book}", False),
        ("{source: book}", "{source: letter}", True),
    ],
)
def test_what_a_line_is_limited_to_rests_on_what_the_line_does(before: str, after: str, backed: bool) -> None:
    made = [
        held(listed(1, evidence, more=f", serials: [{{series: xa, first: 1, last: {last}}}]"))
        for last, evidence in ((5, before), (6, after))
    ]
    assert ("Limit", "lid", [("last",)], backed) in told(*made)


# What it says


def dated(years: str) -> Register:
    text = (
        'kind: machine\nid: x\ntitle: X\nmaker: Example Works\nseries:\n- {id: xa, stamped: "XA {number}", '
    )
    series = f"plate: p, first: 1, last: 20{', years: ' + years}, years-evidence: [{{source: book}}]}}\n"
    return build(
        [*SOURCES, record(text + series, "machine", "x"), record(POSITIONS, "positions", "positions")]
    )


@pytest.mark.parametrize(
    ("before", "after", "fields"),
    [
        ("{1931: 1, 1932: 12}", "{1931: 1, 1932: 10}", [(("years", "1932"), "12", "10")]),
        ("{1931: 1}", "{1931: 1, 1932: 10}", [(("years", "1932"), None, "10")]),
        ("{1931: 1, 1932: 12}", "{1932: 12}", [(("years", "1931"), "1", None)]),
    ],
)
def test_of_years_only_those_are_told_that_differ_and_once(
    before: str, after: str, fields: list[Field]
) -> None:
    assert stood(dated(before), dated(after)) == [("Dating", fields)]


def kit(adds: str, start: str = "lid", id_: str = "kit", more: str = "") -> Record:
    text = (
        f"kind: conversion\nid: {id_}\ntitle: K\nposition: cover\nfrom: [{start}]\nto: hat\nadds: [{adds}]\n"
    )
    return record(f"{text}serials: [{{series: xa, first: 1, last: 9}}]\n{more}", "conversion", id_)


@pytest.mark.parametrize(
    ("adds", "fields"),
    [
        ("{number: P, quantity: 1}", []),
        ("{number: P, quantity: 2}", [("adds", 0, "quantity")]),
        ("{number: Q, quantity: 2}", [("adds", 0, "number"), ("adds", 0, "quantity")]),
        ("{number: P, quantity: 1}, {number: Q, quantity: 1}", [("adds",)]),
    ],
)
def test_of_a_list_what_differs_in_it_or_all_of_it_where_it_grew(
    adds: str, fields: list[tuple[object, ...]]
) -> None:
    found = told(held(lid(), kit("{number: P, quantity: 1}")), held(lid(), kit(adds)))
    assert [one[2] for one in found if one[0] == "Conversion"] == ([fields] if fields else [])


def test_what_was_renamed_is_said_by_its_name_of_today() -> None:
    def world(start: str, more: str = "") -> Register:
        return register(
            *SOURCES,
            HAT,
            assembly("cap", "first: 1, last: 10"),
            renamed(start, more),
            kit("{number: P}", start),
        )

    def renamed(id_: str, more: str) -> Record:
        head = f"kind: assembly\nid: {id_}\ntitle: Lid\nposition: cover\n"
        text = f"{head}serials: [{{series: xa, first: 1, last: 9}}]\n"
        return record(text + more, "assembly", id_)

    def of_kits(old: Register, new: Register) -> list[list[tuple[object, ...]]]:
        return [fields for sort, _, fields, _ in told(old, new) if sort == "Conversion"]

    assert of_kits(world("lid"), world("top", "formerly: [lid]\n")) == []
    assert of_kits(world("lid"), world("top")) == [[("from",)]]


def either(quantity: int) -> Record:
    return lid(more=f"parts:\n- {{number: P, name: Bolt, quantity: {quantity}, or: [{{number: Q}}]}}\n")


def test_how_many_is_said_of_the_line_and_not_of_each_number_on_it() -> None:
    found = told(held(either(1)), held(either(2)))
    assert found == [("Use", "lid", [("quantity",)], False)]


def test_how_a_thing_is_told_by_eye() -> None:
    one, other = (
        lid(more=f"tell: [{text}]\ntell-evidence: [{{source: book}}]\n") for text in ("A knob", "Two knobs")
    )
    fields = [(("tell",), "['A knob']", "['Two knobs']")]
    assert stood(held(one), held(other)) == [("Telling", fields)]


def supplied(said: str, evidence: str = "", more: str = "") -> Record:
    own = f"supply-evidence: [{evidence}]\n" if evidence else ""
    text = "kind: part\nid: bolt\nnumber: P\nname: Bolt\nevidence: [{source: book}]\n"
    return record(f"{text}supplied: {said}\n{own}{more}", "part", "bolt")


@pytest.mark.parametrize(
    ("before", "after", "sort", "backed"),
    [
        ("", "", "PartRecord", False),
        ("{source: book}", "{source: letter}", "Supply", True),
        ("{source: book}", "{source: book}", "Supply", False),
        ("", "{source: letter}", "PartRecord", False),
    ],
)
def test_whether_it_is_supplied_is_told_once_by_what_has_evidence_of_it(
    before: str, after: str, sort: str, backed: bool
) -> None:
    old, new = held(listed(1), supplied("yes", before)), held(listed(1), supplied("no", after))
    assert told(old, new) == [(sort, "bolt", [("supplied",)], backed)]
    assert stood(old, new) == [(sort, [(("supplied",), "yes", "no")])]


def test_what_a_series_says_besides_is_nothing_of_its_years() -> None:
    longer = dated("{1931: 1}").machines["x"].origin.data.decode().replace("last: 20", "last: 21")
    new = build([*SOURCES, record(longer, "machine", "x"), record(POSITIONS, "positions", "positions")])
    assert stood(dated("{1931: 1}"), new) == [("Series", [(("last",), "20", "21")])]


def test_a_size_is_a_statement_of_its_own_and_no_field_of_its_part() -> None:
    def part(bore: str) -> Record:
        text = "kind: part\nid: bolt\nnumber: P\nname: Bolt\n"
        return record(f'{text}sizes: [{{what: bore, value: "{bore}", unit: mm}}]\n', "part", "bolt")

    found = told(held(listed(1), part("5")), held(listed(1), part("6")))
    assert found == [("Measurement", "bolt", [("value",)], False)]
