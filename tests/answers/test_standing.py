"""Standing, breaks from teardowns, and open questions: worked on the demonstration and in small worlds."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from jsonschema_rs import Draft202012Validator

from spanbook.answers.applicability import Fits, State
from spanbook.answers.breaks import NotCounted, breaks_at, numbers_seen, total_of
from spanbook.answers.changepoint import Rates
from spanbook.answers.claims import claimed
from spanbook.answers.questions import About
from spanbook.answers.reasons import Measured, Weight
from spanbook.answers.standing import Judgement, Standing, standings, weakest
from spanbook.cli import main
from spanbook.ground.intervals import Run, SpanSet
from spanbook.reading.records import Record
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from spanbook.register.statements import Statement
from spanbook.site.card.tables import first_few
from tests.support.demo import demo
from tests.support.registers import lid, record, register
from tests.support.rows import each_row

PROJECT = Path(__file__).parents[2]
DEMO = Fits(demo())
JUDGED = standings(DEMO)


FILTER = "lubrication/oil-filter"


def judged(record_id: str, anchor: str, fits: Fits = DEMO) -> Judgement:
    found = JUDGED if fits is DEMO else standings(fits)
    return found[statement(record_id, anchor, fits)]


def statement(record_id: str, anchor: str, fits: Fits = DEMO) -> Statement:
    return next(s for s in fits.register.statements if (s.record.id, s.anchor) == (record_id, anchor))


def weights(found: Judgement) -> dict[str, str]:
    return {reason.by.id: str(reason.weight) for reason in found.reasons}


def test_the_six_standings_on_the_demonstration() -> None:
    assert judged("edge-strainer", "span-hm").standing is Standing.CONFIRMED
    assert judged("edge-strainer", "span-hk").standing is Standing.DISPUTED
    assert judged("six-nut-door", "span-hk").standing is Standing.PRINTED
    assert judged("reduction-box", "span-hk").standing is Standing.RECALLED
    assert judged("raised-hand-start", "span-hm").standing is Standing.UNSUPPORTED


def test_why_it_is_disputed() -> None:
    """HK 701 had the strainer, untouched, 89 numbers after the last that can have left the works with it."""
    found = weights(judged("waste-packed-filter", "span-hk"))
    assert found["hk-701-osk"] == "against"
    assert found["hk-640-merrin"] == "explained"  # the kit of service letter 23
    assert found["hk-618-merrin"] == "seen"
    assert found["service-letter-17"] == "printed"
    assert weights(judged("edge-strainer", "span-hk"))["hk-5x8-brindle"] == "set-aside"


def test_a_conversion_is_seen_by_its_result() -> None:
    found = judged("cartridge-kit", "")
    assert (found.standing, weights(found)["hk-377-osk"]) == (Standing.CONFIRMED, "seen")


SOURCE = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")
TALE = record("kind: source\nid: tale\ntitle: T\nclass: recollection\n", "source", "tale")


def teardown(id_: str, serial: str, assembly: str, condition: str = "untouched") -> Record:
    text = (
        f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: {serial}\nseries: xa\n"
        f"condition: {condition}\nfound:\n- {{position: cover, assembly: {assembly}}}\n"
    )
    return record(text, "teardown", id_)


def world(*records: Record) -> Fits:
    return Fits(register(SOURCE, TALE, *records))


@each_row(
    ("evidence", "seen", "wanted"),
    [
        ("", [], Standing.UNSUPPORTED),
        ("{source: tale}", [], Standing.RECALLED),
        ("{source: book}", [], Standing.PRINTED),
        ("{source: tale}, {source: book}", [], Standing.PRINTED),
        ("", [("XA 3", "a", "untouched")], Standing.SEEN),
        ("{source: book}", [("XA 3", "a", "likely-original")], Standing.CONFIRMED),
        ("{source: book}", [("XA 3", "b", "untouched")], Standing.DISPUTED),
        ("{source: book}", [("XA 3", "b", "altered")], Standing.PRINTED),
        ("{source: book}", [("XA 3", "b", "unknown")], Standing.PRINTED),
        ("{source: book}", [("XA 12", "b", "untouched")], Standing.PRINTED),  # only possibly in it
        ("{source: book}", [("XA 12", "a", "untouched")], Standing.CONFIRMED),
        ("{source: book}", [("XA 18", "a", "untouched")], Standing.DISPUTED),
        ("{source: book}", [("XA ?", "a", "untouched")], Standing.CONFIRMED),  # 1 to 7: all of them in it
        ("{source: book}", [("XA 1?", "b", "untouched")], Standing.PRINTED),  # readings that do not agree
    ],
)
def test_what_evidence_and_teardowns_make(
    evidence: str, seen: list[tuple[str, str, str]], wanted: Standing
) -> None:
    finds = [teardown(f"t{i}", *what) for i, what in enumerate(seen)]
    fits = world(lid("a", "first: 1, last: [11, 13]", evidence), lid("b", "first: unknown, last: 20"), *finds)
    assert judged("a", "span-xa", fits).standing is wanted


def test_what_a_conversion_explains_is_no_contradiction() -> None:
    kit = (
        "kind: conversion\nid: kit\ntitle: Kit\nposition: cover\nfrom: [a]\nto: c\n"
        "serials: [{series: xa, first: 1, last: 10}]\n"
    )
    more = kit.replace("id: kit", "id: more").replace("[a]", "[c]").replace("to: c", "to: b")
    base = [lid("a", "first: 1, last: 20", "{source: book}"), lid("c", "first: unknown, last: unknown")]
    base += [lid("b", "first: unknown, last: unknown"), record(kit, "conversion", "kit")]
    base += [record(more, "conversion", "more")]
    near = world(*base, teardown("t", "XA 5", "b"))
    assert weights(judged("a", "span-xa", near))["t"] == "explained"


def told(fits: Fits) -> list[tuple[str, str, Standing, int]]:
    return [(s.record.id, s.anchor, j.standing, len(j.reasons)) for s, j in standings(fits).items()]


conditions = st.sampled_from(["untouched", "likely-original", "altered", "unknown"])
finds = st.lists(st.tuples(st.integers(1, 7), st.sampled_from("ab"), conditions), max_size=6)


@given(finds, st.integers(0, 99))
def test_the_order_of_records_never_matters(seen: list[tuple[int, str, str]], seed: int) -> None:
    records = [teardown(f"t{i}", f"XA {n}", a, c) for i, (n, a, c) in enumerate(seen)]
    records += [lid("a", "first: 1, last: 5", "{source: book}"), lid("b", "first: 6, last: 20")]
    plain = [
        (s.record.id, s.anchor, j.standing, len(j.reasons)) for s, j in standings(world(*records)).items()
    ]
    random.Random(seed).shuffle(records)
    other = [
        (s.record.id, s.anchor, j.standing, len(j.reasons)) for s, j in standings(world(*records)).items()
    ]
    assert other == plain


@given(finds)
def test_an_agreeing_untouched_teardown_never_lowers_a_standing(seen: list[tuple[int, str, str]]) -> None:
    rank = [Standing.UNSUPPORTED, Standing.RECALLED, Standing.PRINTED, Standing.SEEN, Standing.CONFIRMED]
    records = [teardown(f"t{i}", f"XA {n}", a, c) for i, (n, a, c) in enumerate(seen)]
    records += [lid("a", "first: 1, last: 5", "{source: book}"), lid("b", "first: 6, last: 20")]
    before = judged("a", "span-xa", world(*records)).standing
    after = judged("a", "span-xa", world(*records, teardown("more", "XA 2", "a"))).standing
    if before is Standing.DISPUTED:
        assert after is Standing.DISPUTED
    else:
        assert rank.index(after) >= rank.index(before)


def test_the_break_of_the_demonstration() -> None:
    """Printed: 589 to 613. HK 592 still had the strainer, HK 606 the next filter: 593 to 606 is left."""
    series = DEMO.register.series["hk"]
    first, second = breaks_at(DEMO, FILTER, series, Rates())
    assert (first.earlier.id, first.later.id) == ("edge-strainer", "waste-packed-filter")
    assert first.report.claim == Run(589, 613)
    assert first.report.posterior.interval() == Run(593, 606)
    assert first.report.look is not None
    assert 593 <= first.report.look.numbers.first <= 606
    assert [(one.teardown.serial, one.why) for one in first.unused] == [("HK 5?8", NotCounted.EITHER_SIDE)]
    assert second.report.claim == Run(1181, 1205)


def test_a_break_that_comes_back_is_two_breaks() -> None:
    found = breaks_at(DEMO, "ignition/magneto", DEMO.register.series["hk"], Rates())
    assert [(b.earlier.id, b.later.id) for b in found][-2:] == [
        ("flange-magneto", "base-magneto"),
        ("base-magneto", "flange-magneto"),
    ]


def test_where_two_printed_bounds_do_not_meet_the_break_lies_between() -> None:
    fits = world(lid("a", "first: 1, last: 5"), lid("b", "first: 12, last: open"))
    series = fits.register.series["xa"]
    earlier, later = fits.register.fittings["xa", "cover"]
    assert claimed(earlier, later, series) == Run(6, 12)


def test_totals_count_only_what_was_read_beyond_doubt() -> None:
    series = DEMO.register.series["hk"]
    assert 592 in numbers_seen(DEMO, series)
    found = total_of(DEMO, series)
    assert found is not None
    assert (found.highest, found.interval.first) == (2003, 2004)
    assert total_of(DEMO, DEMO.register.series["dx"]) is not None


def test_questions_come_by_worth_and_cover_what_is_open() -> None:
    found = demo().questions()
    assert [q.worth for q in found] == sorted((q.worth for q in found), reverse=True)
    # No conversion or act of the demonstration is surely for machines that never had what it starts from,
    # and what was seen past its numbers was seen where another is recorded, which is disputed for that.
    assert {q.about for q in found} == set(About) - {About.PAST_BASE, About.NEVER_HAD, About.BEYOND}
    blanks = {(q.series.id, q.position, q.first) for q in found if q.about is About.BLANK}
    for machine in DEMO.register.machines.values():
        for series in machine.series:
            for position in DEMO.positions(machine):
                for segment in DEMO.segments(series, position):
                    assert (segment.state is State.BLANK) == ((series.id, position, segment.first) in blanks)
    wide = next(q for q in found if q.about is About.BREAK and q.position == FILTER and q.series.id == "hk")
    assert [assembly.id for assembly in wide.assemblies] == ["edge-strainer", "waste-packed-filter"]
    assert (wide.first, wide.last) == (593, 606)


RUNS = st.lists(st.tuples(st.integers(1, 20), st.integers(0, 9) | st.none()))


@given(RUNS, st.integers(1, 4))
def test_a_card_keeps_the_first_few_of_every_number(runs: list[tuple[int, int | None]], most: int) -> None:
    every = [
        replace(demo().questions()[0], numbers=SpanSet.run(first, None if more is None else first + more))
        for first, more in runs
    ]
    kept = list(first_few(every, most))
    wanted = set()
    for number in range(1, 40):
        covering = [i for i, q in enumerate(every) if number in q.numbers]
        wanted |= set(covering[:most])
    assert kept == [every[i] for i in sorted(wanted)]


def test_questions_as_json_keep_to_their_schema() -> None:
    result = CliRunner().invoke(main, ["questions", "--json", "--folder", str(PROJECT)])
    schema = Draft202012Validator(json.loads((folder() / "answer-questions.json").read_text()))
    made = json.loads(result.output)
    assert list(schema.iter_errors(made)) == []
    assert len(made["questions"]) == len(demo().questions())
    words = CliRunner().invoke(main, ["questions", "--folder", str(PROJECT)]).output
    assert "Owners of HK 593 to HK 606" in words


def test_reasons_are_weights_that_a_page_can_name(tmp_path: Path) -> None:
    named = {reason.weight for judgement in JUDGED.values() for reason in judgement.reasons}
    assert named == set(Weight)
    assert isinstance(DEMO.register, Register)


def test_a_measurement_is_seen_where_machines_measure_the_same() -> None:
    """0.875 in of the record beside 0.874 and 0.876 read with a micrometer: the same to the last place."""
    found = judged("narrow-pump-body", "size-depth-over-the-joint-faces")
    assert found.standing is Standing.SEEN
    measured = [reason.shown for reason in found.reasons if isinstance(reason.shown, Measured)]
    assert {(one.size.value, one.size.unit, one.same) for one in measured} == {
        ("0.874", "in", True),
        ("0.876", "in", True),
    }
    assert judged("clutch-plate", "size-thickness").standing is Standing.UNSUPPORTED


def test_a_measurement_that_differs_may_be_wear() -> None:
    part = record(
        "kind: part\nid: body\nnumber: P-1\nname: Body\nsizes:\n- {what: Depth, value: 7/8, unit: in}\n",
        "part",
        "body",
    )
    worn = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 3\nseries: xa\ncondition: untouched\n"
        "found:\n- position: cover\n  measurements:\n"
        '  - {what: depth, number: P-1, value: "18.5", unit: mm}\n',
        "teardown",
        "t",
    )
    found = judged("body", "size-depth", world(part, worn))
    assert found.standing is Standing.UNSUPPORTED
    (reason,) = found.reasons
    assert reason.weight is Weight.SET_ASIDE
    assert isinstance(reason.shown, Measured)
    assert (reason.shown.size.value, reason.shown.same) == ("18.5", False)


def test_the_weakest_step_is_the_standing_of_a_way() -> None:
    assert weakest([Standing.CONFIRMED, Standing.PRINTED, Standing.SEEN]) is Standing.PRINTED
    assert weakest([Standing.UNSUPPORTED, Standing.DISPUTED]) is Standing.DISPUTED
    assert weakest([]) is Standing.UNSUPPORTED


def test_breaks_are_asked_of_an_open_register() -> None:
    register = demo()
    (wide, *_) = register.breaks(FILTER, "hk")
    assert wide.report.posterior.interval() == Run(593, 606)
    with pytest.raises(LookupError, match="no-such-place"):
        register.breaks("no-such-place", "hk")


def test_parts_never_read_are_asked_only_of_what_was_seen() -> None:
    asked = [q for q in demo().questions() if q.about is About.PARTS]
    assert asked
    for question in asked:
        (assembly,) = question.assemblies
        assert DEMO.register.found[assembly.id]
