"""Machines of several numbers: one machine, whichever number it was seen, asked or ordered for by.

Held against the same world told plainly: every teardown under the number that the machine was built under.
Common practice of those who keep lists of engines, no source.
"""

from __future__ import annotations

import random
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from typing import cast

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fits, State
from spanbook.answers.applying import Applying
from spanbook.answers.breaks import NotCounted, Unused, breaks_at, numbers_seen
from spanbook.answers.changepoint import Rates
from spanbook.answers.condition import Applies, Asked, covered_by, may_concern
from spanbook.answers.questions import About
from spanbook.answers.readings import Reading, read_serial
from spanbook.answers.story import Kind
from spanbook.answers.this_machine import ThisMachine
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Record, SeriesSpan, Supersession, Teardown
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.register.statements import Fitting
from tests.support.machines import BOOK, kit, random_world, seen
from tests.support.registers import lid, record, register, unit
from tests.support.tries import tries

# An engine with numbers of its own, on a frame with others; the box may be numbered as well.
MACHINE = """\
kind: machine
id: x
title: X
maker: Example Works
series:
- {id: xa, stamped: "XA {number}", plate: engine, first: 1, last: 20, years: {1931: 1, 1932: 11}}
- {id: xf, stamped: "F {number}", plate: Frame, first: 100, last: 140, years: {1934: 100}}
- {id: xm, stamped: "M {number}", plate: box, first: 1, last: 9}
"""
POSITIONS = """\
kind: positions
positions:
- id: engine
  title: Engine
  follows: engine
  positions:
  - {id: cover, title: Cover}
  - {id: rail, title: Rail, follows: frame}
- {id: box, title: Box, follows: box}
- {id: any, title: Any}
"""


def world(*records: Record) -> Register:
    return build([record(MACHINE, "machine", "x"), record(POSITIONS, "positions", "positions"), *records])


def held(id_: str, position: str, series: str, span: str = "first: 1, last: open") -> Record:
    text = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: {position}\nserials:\n"
    return record(f"{text}- {{series: {series}, {span}}}\n", "assembly", id_)


def asked(made: Register, serial: str) -> Reading:
    (found,) = (one for one in read_serial(made, serial) if one.issued)
    return found


def told(made: Register, serial: str) -> dict[str, tuple[State, str, list[str]]]:
    """By position the state, the number that tells, and what the machine left the works with."""
    card = Fits(made).card(asked(made, serial))
    return {
        place.position: (
            place.state,
            place.reading.own.shown,
            [fit.assembly.id for fit in place.segment.fits],
        )
        for place in card.positions
    }


ENGINE, RAIL = held("lid", "engine/cover", "xa"), held("bar", "engine/rail", "xf", "first: 100, last: open")


def test_a_number_of_one_plate_leads_on_to_that_of_the_plate_that_is_followed() -> None:
    made = world(ENGINE, RAIL)
    assert told(made, "F 118") == {
        "engine/cover": (State.OTHER_PLATE, "F 118", []),
        "engine/rail": (State.SETTLED, "F 118", ["bar"]),
        "box": (State.OTHER_PLATE, "F 118", []),
        "any": (State.BLANK, "F 118", []),
    }
    assert told(made, "XA 5")["engine/cover"] == (State.SETTLED, "XA 5", ["lid"])
    assert told(made, "XA 5")["engine/rail"] == (State.OTHER_PLATE, "XA 5", [])
    at = Fits(made).at(asked(made, "F 118"), "engine/cover")
    assert at.segment.ask_by == "engine"


def test_with_both_numbers_each_tells_of_what_follows_its_plate() -> None:
    made = world(ENGINE, RAIL, held("gear", "box", "xm"), unit("XA 5", "F 118", "M 3"))
    for serial in ("XA 5", "F 118", "M 3"):
        assert told(made, serial) == {
            "engine/cover": (State.SETTLED, "XA 5", ["lid"]),
            "engine/rail": (State.SETTLED, "F 118", ["bar"]),
            "box": (State.SETTLED, "M 3", ["gear"]),
            "any": (State.BLANK, "XA 5", []),
        }
    assert asked(made, "F 118").years == asked(made, "XA 5").years


def test_what_follows_no_plate_is_told_by_the_first_number_that_has_anything_recorded() -> None:
    made = world(held("thing", "any", "xf", "first: 100, last: 120"), unit("XA 5", "F 118", "M 3"))
    assert told(made, "M 3")["any"] == (State.SETTLED, "F 118", ["thing"])


def test_a_series_tells_for_another_plate_where_records_give_it_spans_there() -> None:
    """Engines that were numbered on the box: those of the box tell of the whole engine."""
    made = world(ENGINE, held("other", "engine/cover", "xm", "first: 1, last: 4"))
    assert told(made, "M 3")["engine/cover"] == (State.SETTLED, "M 3", ["other"])
    assert told(made, "M 7")["engine/cover"] == (State.BLANK, "M 7", [])
    both = world(ENGINE, held("other", "engine/cover", "xm", "first: 1, last: 4"), unit("M 3", "XA 5"))
    assert told(both, "M 3")["engine/cover"] == (State.SETTLED, "XA 5", ["lid"])  # its own plate comes first
    (place,) = (p for p in _machine(both, "M 3").positions if p.position == "engine/cover")
    assert [(one.shown, [f.assembly.id for f in segment.fits]) for one, segment in place.others] == [
        ("M 3", ["other"])
    ]


def test_what_was_sold_later_does_not_make_a_series_tell() -> None:
    made = world(ENGINE, held("later", "engine/cover", "xm", "first: 1, last: 4, fitted: service"))
    assert told(made, "M 3")["engine/cover"] == (State.OTHER_PLATE, "M 3", [])


def test_where_a_machine_has_no_such_plate_every_number_tells() -> None:
    other = MACHINE.replace("id: x\n", "id: y\n").replace("xa", "ya").replace("XA", "YA")
    alone = "\n".join(line for line in other.splitlines() if "xf" not in line and "xm" not in line)
    made = world(record(alone + "\n", "machine", "y"))
    assert told(made, "YA 3")["box"] == (State.BLANK, "YA 3", [])


def _machine(made: Register, serial: str) -> ThisMachine:
    return Answers(made).machines.of(asked(made, serial))


def test_a_machine_numbered_anew_is_told_by_the_number_it_was_built_under() -> None:
    early, late = (
        held("early", "engine/cover", "xa", "first: 1, last: 9"),
        held("late", "engine/cover", "xa", "first: 10, last: 20"),
    )
    made = world(early, late, unit("XA 5", "XA 15"), kit("k", "early", "late", 1, 9))
    assert told(made, "XA 15")["engine/cover"] == (State.SETTLED, "XA 5", ["early"])
    assert asked(made, "XA 15").years == asked(made, "XA 5").years
    assert [step.id for step in Applying(made).to(asked(made, "XA 15"))] == ["k"]
    assert may_concern(_spans("xa", 1, 9), asked(made, "XA 15"))
    assert not may_concern(_spans("xa", 10, 20), asked(made, "XA 15"))


def _spans(series: str, first: object, last: object) -> tuple[SeriesSpan, ...]:
    text = (
        "kind: supersession\nid: a\nold: [{number: A-1}]\nnew: [{number: A-2}]\ninterchange: both\n"
        f"serials: [{{series: {series}, first: {first}, last: {last}}}]\n"
    )
    return cast(Supersession, record(text, "supersession", "a")).serials


@pytest.mark.parametrize(
    ("series", "first", "last", "covers", "applies"),
    [
        ("xa", 1, 9, Covers.YES, Applies.YES),
        ("xm", 3, 3, Covers.YES, Applies.YES),  # any plate's number will do
        ("xm", 1, "[2, 4]", Covers.MAYBE, Applies.MAYBE),
        ("xa", 10, 20, Covers.NO, Applies.NO),
    ],
)
def test_what_is_limited_to_numbers_holds_by_any_that_the_machine_was_built_under(
    series: str, first: int, last: object, covers: Covers, applies: Applies
) -> None:
    made = world(unit("XA 5", "M 3", "XA 15"))
    spans = _spans(series, first, last)
    for serial in ("XA 5", "M 3", "XA 15"):
        reading = asked(made, serial)
        assert covered_by(spans, reading) is covers
        limited = Asked(made, reading)
        assert limited.applies(limited.meant(spans)) is applies


def _renamed(made: Record, serial: str) -> Record:
    assert isinstance(made, Teardown)
    return replace(made, serial=serial)


@pytest.mark.parametrize("seed", range(tries(120)))
def test_what_was_seen_under_a_later_number_is_seen_on_the_machine(seed: int) -> None:
    """A random world with a machine numbered anew says of every span, break and card what the same world does
    in which nobody ever read the later number, and the teardowns under it are under the first."""
    chance = random.Random(seed)
    plain = [one for one in random_world(chance).register.records if one.kind not in ("machine", "positions")]
    first, later = chance.sample([n for n in range(1, 21) if n not in (8, 9)], 2)
    worn = {t for t in plain if isinstance(t, Teardown) and "?" in t.serial}
    records = [one for one in plain if one not in worn]
    records += [
        seen(
            f"more-{i}",
            f"XA {chance.choice((first, later))}",
            chance.choice(("a0", "a1", "a2")),
            date=f"20{i}1",
        )
        for i in range(1, 4)
    ]
    under = {
        t: _renamed(t, f"XA {first}")
        for t in records
        if isinstance(t, Teardown) and t.serial == f"XA {later}"
    }
    told = Answers(register(*records, unit(f"XA {first}", f"XA {later}", series="xa")))
    wanted = Answers(register(*(under.get(cast(Teardown, one), one) for one in records)))
    assert _standings(told) == _standings(wanted)
    assert _breaks(told) == _breaks(wanted)
    one = told.machines.of(asked_in(told, f"XA {first}"))
    same = told.machines.of(asked_in(told, f"XA {later}"))
    alone = wanted.machines.of(asked_in(wanted, f"XA {first}"))
    assert _card(one) == _card(same) == _card(alone)
    assert one.questions == same.questions
    assert _explained(told, later, seed) == _explained(wanted, first, seed)


def _explained(made: Answers, number: int, seed: int) -> list[tuple[str, object]]:
    """What may have happened to the machine if an assembly is found on it, whatever was seen on itself."""
    found = made.register.assemblies[f"a{seed % 3}"]
    explained = made.explainer.explain(
        asked_in(made, f"XA {number}"), {found.position: found}, "likely-original"
    )
    return [(story.kind, story.probability) for story in explained.positions[0].stories]


def asked_in(made: Answers, serial: str) -> Reading:
    return next(one for one in read_serial(made.register, serial) if one.issued and one.series.id == "xa")


def _standings(made: Answers) -> dict[tuple[str, str], tuple[str, list[tuple[str, str]]]]:
    return {
        (said.record.id, said.anchor): (
            str(judged.standing),
            sorted((str(reason.weight), reason.by.id) for reason in judged.reasons),
        )
        for said, judged in made.standings.items()
        if isinstance(said.subject, Fitting)
    }


def _breaks(made: Answers) -> list[tuple[object, ...]]:
    return [
        (one.earlier.id, one.later.id, one.report.posterior, one.report.observations, _unused(one.unused))
        for one in made.breaks
    ]


def _unused(unused: Iterable[Unused]) -> list[tuple[str, str]]:
    return sorted((one.teardown.id, str(one.why)) for one in unused)


def _card(machine: ThisMachine) -> list[tuple[object, ...]]:
    return [
        (
            place.position,
            place.state,
            [(left.fit.assembly.id, left.judgement.standing) for left in place.left],
            [odds.before for odds in place.odds],
            sorted((here.teardown.id, here.meaning.means) for here in place.seen if here.exact),
            [changed.assembly.id for changed in place.changed],
        )
        for place in machine.positions
    ]


def test_several_looks_at_one_machine_count_once_for_a_break() -> None:
    spans = lid("early", "first: 1, last: [4, 7]"), lid("late", "first: [5, 8], last: 20")
    looks = (
        seen("a", "XA 6", "late", "likely-original", date="1990"),
        seen("b", "XA 15", "early", "untouched", date="2020"),
        seen("c", "XA 15", "late", "untouched", date="2021"),
    )
    made = register(*spans, *looks, unit("XA 6", "XA 15", series="xa"))
    (found,) = breaks_at(Fits(made), "cover", made.series["xa"], Rates())
    assert [(look.number, look.later, look.untouched) for look in found.report.observations] == [
        (6, False, True)
    ]
    assert [(one.teardown.id, one.why) for one in found.unused] == [
        ("a", NotCounted.SAME_MACHINE),
        ("c", NotCounted.SAME_MACHINE),
    ]
    assert numbers_seen(Fits(made), made.series["xa"]) == (15,)


def test_a_worn_number_that_may_be_a_later_one_may_be_the_machine() -> None:
    made = Answers(
        register(
            lid("early", "first: 1, last: 7"),
            lid("late", "first: 10, last: 20"),
            seen("w", "XA 1?", "early"),
            unit("XA 5", *(f"XA 1{digit}" for digit in range(10)), series="xa"),
        )
    )
    (may_be,) = made.fits.possible_at((made.register.teardowns["w"], "cover"))
    assert (may_be.lowest(), may_be.lowest(6)) == (5, None)
    for serial in ("XA 5", "XA 17"):
        machine = made.machines.of(asked_in(made, serial))
        assert [teardown.id for teardown in machine.perhaps] == ["w"]
    fitting = next(made.register.fittings_of(made.register.assemblies["early"]))
    assert str(made.standing(fitting).standing) == "seen"


def test_what_is_asked_of_one_plate_is_not_asked_of_another() -> None:
    made = Answers(world(BOOK, ENGINE, RAIL))
    asked_of = {(question.series.id, question.position) for question in made.questions}
    assert ("xf", "engine/cover") not in asked_of
    assert ("xf", "any") in asked_of


def test_a_question_counts_a_machine_of_several_numbers_once() -> None:
    spans = held("early", "engine/cover", "xa", "first: 1, last: 15"), BOOK
    for units, machines in (((), 15), ((unit("XA 5", "XA 15"),), 14), ((unit("XA 5", "XA 15", "M 3"),), 14)):
        made = Answers(world(*spans, *units))
        (question,) = (q for q in made.questions if q.about is About.UNSUPPORTED)
        assert (question.machines, question.numbers.count()) == (machines, 15)
    # The box's numbers tell of the box, whatever else the machine bears.
    made = Answers(world(*spans, unit("XA 5", "XA 15", "M 3")))
    assert {q.machines for q in made.questions if q.position == "box" and q.series.id == "xm"} == {9}


def test_of_numbers_that_tell_of_nothing_here_one_that_may_tell_does() -> None:
    """M 7 is of a series that tells of engines, F 118 of one that does not."""
    made = world(held("other", "engine/cover", "xm", "first: 1, last: 4"), unit("F 118", "M 7"))
    assert told(made, "F 118")["engine/cover"] == (State.BLANK, "M 7", [])


def test_a_position_that_no_record_has_follows_nothing() -> None:
    made = world(held("lost", "nowhere", "xf", "first: 100, last: 110"))
    assert Fits(made).speaking.plate_to_ask(made.series["xf"], "nowhere") is None


def test_a_worn_number_is_no_machine_whose_numbers_read_otherwise() -> None:
    made = Answers(
        register(lid("early", "first: 1, last: 7"), seen("w", "XA 1?", "early"), unit("XA 5", "XA 6"))
    )
    found = made.fits.possible_at((made.register.teardowns["w"], "cover"))
    assert [may_be.lowest() for may_be in found] == [10]


def test_a_conversion_by_one_number_explains_what_was_seen_under_another() -> None:
    spans = (
        held("early", "engine/cover", "xa", "first: 1, last: 19"),
        held("late", "engine/cover", "xa", "first: 20, last: 20"),
    )
    seen_there = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: F 118\ncondition: untouched\n"
        "found: [{position: engine/cover, assembly: late}]\n",
        "teardown",
        "t",
    )
    text = (
        "kind: conversion\nid: k\ntitle: K\nposition: engine/cover\nfrom: [early]\nto: late\n"
        "serials: [{series: xm, first: 3, last: 3}]\n"
    )
    converted = record(text, "conversion", "k")
    for records, weight in ((spans, "against"), ((*spans, converted), "explained")):
        made = Answers(world(*records, seen_there, unit("XA 5", "F 118", "M 3")))
        early = next(made.register.fittings_of(made.register.assemblies["early"]))
        assert [str(reason.weight) for reason in made.standing(early).reasons] == [weight]


def test_what_machines_have_is_counted_once_though_they_bear_several_numbers() -> None:
    """Half of the engines have the early cover, a quarter of the frames a bar."""
    made = Answers(
        world(
            held("early", "engine/cover", "xa", "first: 1, last: 10"),
            held("late", "engine/cover", "xa", "first: 11, last: 20"),
            held("bar", "engine/rail", "xf", "first: 100, last: 109"),
            held("rod", "engine/rail", "xf", "first: 110, last: 139"),
            unit("XA 15", "F 120"),
        )
    )
    early, bar = (made.register.assemblies[id_] for id_ in ("early", "bar"))
    alike = made.explainer.likelihoods.alike
    assert alike(("x", (early,))) == Fraction(1, 2)
    assert alike(("x", (bar,))) == Fraction(10, 41)
    # No number tells of both, and nothing of which frames those engines are on.
    found = {early.position: early, bar.position: bar}
    told = made.explainer.explain(asked_in(made, "XA 15"), found, "unknown")
    for one in told.positions:
        (plate,) = (story for story in one.stories if story.kind is Kind.SWAPPED)
        assert plate.likelihood == Fraction(5, 41)
        assert plate.probability > 0


def test_what_was_seen_past_a_number_is_asked_of_the_series_that_tells() -> None:
    """The teardown gives the engine's number; the frame's tells of the rail."""
    rail = held("bar", "engine/rail", "xf", "first: 100, last: 110")
    text = (
        "kind: teardown\nid: look\ndate: 2024\nseen-by: m\nserial: XA 5\n"
        "condition: untouched\nfound: [{position: engine/rail, assembly: bar}]\n"
    )
    made = world(ENGINE, rail, unit("XA 5", "F 118"), record(text, "teardown", "look"))
    assert [(one.series.id, one.edge) for one in Answers(made).beyond] == [("xf", 110)]
    about = {q.series.id for q in Answers(made).questions if q.about is About.BEYOND}
    assert about == {"xf"}
