"""One very machine: what it left the works with, what was seen on it, what it may have been changed to."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answered import answered
from spanbook.answers.answers import Answers
from spanbook.answers.applicability import State
from spanbook.answers.assumed import Assumed
from spanbook.answers.changepoint import Rates
from spanbook.answers.meaning import Means
from spanbook.answers.named import GOOD
from spanbook.answers.questions import About, Question
from spanbook.answers.readings import read_serial
from spanbook.answers.shortfalls import NeverHad
from spanbook.answers.standing import Standing
from spanbook.answers.this_machine import ThisMachine, ThisPosition
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Teardown
from tests.support.demo import demo
from tests.support.machines import ELSEWHERE, KIT, answers, kit, machine, machine_of, seen
from tests.support.registers import lid, record
from tests.support.rows import each_row

PROJECT = Path(__file__).parents[2]
DEMO = demo()
FILTER = "lubrication/oil-filter"


def on_demo(serial: str, position: str = FILTER) -> ThisPosition:
    (found,) = DEMO.this_machine(serial)
    return next(place for place in found.positions if place.position == position)


def cover(found: ThisMachine) -> ThisPosition:
    return next(place for place in found.positions if place.position == "cover")


def test_what_was_seen_stands_apart_from_what_is_recorded() -> None:
    """HK 701 had the strainer, untouched, where the records have the next filter."""
    place = on_demo("HK 701")
    (here,) = place.seen
    assert (here.teardown.id, here.find.assembly, here.exact) == ("hk-701-osk", "edge-strainer", True)
    assert here.meaning.means is Means.CONTRADICTION
    assert [one.assembly.id for one in here.meaning.against] == ["edge-strainer", "waste-packed-filter"]
    assert [left.fit.assembly.id for left in place.left] == ["waste-packed-filter"]
    assert place.left[0].judgement.standing is Standing.DISPUTED
    assert place.known is Standing.DISPUTED
    assert [changed.assembly.id for changed in place.changed] == ["cartridge-filter"]
    assert not on_demo("HK 701", "lubrication/oil-pump").seen


def test_the_odds_of_a_number_are_the_break_s_own() -> None:
    """Four numbers before those where the break is looked for have three parts in a thousand between them."""
    (first, *_) = DEMO.breaks(FILTER, "hk")
    runs = first.report.posterior
    assert 0 < runs.mass(589, 592) < Fraction(4, 1000)
    for number in range(585, 616):
        odds = on_demo(f"HK {number}").odds
        if 589 <= number < 613:
            (one,) = odds
            assert (one.at.earlier.id, one.at.later.id) == ("edge-strainer", "waste-packed-filter")
            assert one.before == runs.mass(number + 1, 613)
        else:
            assert odds == ()


def test_a_break_of_which_only_the_printed_range_speaks_has_no_odds() -> None:
    assert cover(machine("XA 5")).odds == ()
    # One machine within the range tells; one before it cannot tell its numbers apart.
    assert cover(machine("XA 5", seen("t", "XA 2", "early"))).odds == ()
    (odds,) = cover(machine("XA 5", seen("t", "XA 6", "early"))).odds
    assert odds.before > Fraction(1, 2)
    assert cover(machine("XA 4", seen("t", "XA 6", "early"))).odds == ()


def test_what_cannot_all_be_true_has_no_odds() -> None:
    """Where no machine is ever changed, the later before the earlier leaves no place for the break."""
    looks = seen("t", "XA 5", "late"), seen("u", "XA 6", "early")
    none = Rates(*(Fraction(0),) * 4)
    made = Answers(answers(*looks).register, lambda: Assumed(none))
    assert made.breaks[0].report.posterior.contradiction
    assert cover(machine_of(made, "XA 5")).odds == ()


WHAT = [
    ("XA 2", "early", Means.AS_RECORDED, (), ()),
    ("XA 5", "late", Means.AS_RECORDED, (), ()),
    ("XA 2", "spare", Means.REPLACEMENT, (), ()),
    ("XA 2", "made", Means.CONVERSION, ("kit",), ()),
    ("XA 5", "made", Means.CONVERSION, ("kit",), ()),
    ("XA 2", "remade", Means.CONVERSION, ("kit", "second"), ()),
    ("XA 12", "remade", Means.CONVERSION, (), ()),
    ("XA 2", "far", Means.CONTRADICTION, (), ("early", "far")),
    ("XA 12", "early", Means.CONTRADICTION, (), ("early", "late")),
    ("XA 17", "late", Means.CONTRADICTION, (), ("late",)),
    ("XA 2", None, Means.NOT_RECORDED, (), ()),
    ("XA 17", "other", Means.NOT_RECORDED, (), ()),
    ("XA 17", "free", Means.CONVERSION, ("loose",), ()),
    ("XA 2", "other", Means.CONVERSION, ("first-of-two", "second-of-two"), ()),
]


@each_row(("serial", "found", "means", "through", "against"), WHAT)
@each_row("condition", ["untouched", "altered"])
def test_what_a_find_means(
    serial: str,
    found: str | None,
    means: Means,
    through: tuple[str, ...],
    against: tuple[str, ...],
    condition: str,
) -> None:
    kits = [kit("loose", "other", "free", 16, 20), kit("loose-too", "other", "free", 16, 20)]
    kits += [kit("first-of-two", "early", "free", 1, 3), kit("second-of-two", "free", "other", 1, 3)]
    (here,) = cover(machine(serial, *ELSEWHERE, *kits, seen("t", serial, found, condition))).seen
    assert here.meaning.means is means
    assert tuple(one.id for one in here.meaning.through) == through
    assert tuple(fitting.assembly.id for fitting in here.meaning.against) == against
    assert (here.find.condition in GOOD) is (condition == "untouched")


def test_two_on_one_number_speak_against_each_other() -> None:
    """What was found is one of two that are recorded: as recorded, and against the other."""
    both = lid("both", "first: 1, last: 3")
    (here,) = cover(machine("XA 2", both, seen("t", "XA 2", "early"))).seen
    assert here.meaning.means is Means.AS_RECORDED
    assert [fitting.assembly.id for fitting in here.meaning.against] == ["both"]
    place = cover(machine("XA 2", both))
    assert {left.judgement.standing for left in place.left} == {Standing.DISPUTED}
    assert place.known is State.CONFLICT


def test_what_may_have_come_later_is_told_once_for_each_assembly() -> None:
    told = {one.assembly.id: one for one in cover(machine("XA 5")).changed}
    assert list(told) == ["spare", "made", "remade"]  # the sure spans before the possible, then by name
    assert [fit.span.fitted for fit, _ in told["spare"].fits] == ["service"]
    assert [fit.covers for fit, _ in told["made"].fits] == [Covers.MAYBE]
    assert [(step.conversion.id, step.maybe) for step, _ in told["made"].steps] == [("kit", True)]
    assert [(step.conversion.id, step.maybe) for step, _ in told["remade"].steps] == [("second", False)]
    assert [one.assembly.id for one in cover(machine("XA 17")).changed] == ["remade"]


def test_only_conversions_of_the_position_and_the_series_are_told() -> None:
    assert all(not place.changed for place in machine("XA 2").positions if place.position != "cover")
    made = answers()
    reading = next(r for r in read_serial(made.register, "XA 30") if r.series.id == "xb")
    assert cover(made.machines.of(reading)).changed == ()
    elsewhere = KIT.replace("series: xa", "series: xb").format("xb-kit", "xb-kit", "early", "far", 15, 20)
    found = cover(machine("XA 17", record(elsewhere, "conversion", "xb-kit")))
    assert [one.assembly.id for one in found.changed] == ["remade"]


def test_a_worn_number_is_told_of_each_machine_that_it_may_be() -> None:
    worn, own = seen("worn", "XA 1?", "late"), seen("own", "XA 12", "late")
    found = machine("XA 12", worn, own)
    assert [teardown.id for teardown in found.teardowns] == ["own"]
    assert [teardown.id for teardown in found.perhaps] == ["worn"]
    assert [(here.teardown.id, here.exact) for here in cover(found).seen] == [("own", True), ("worn", False)]
    assert machine("XA 2", worn, own).perhaps == ()
    # What it means is what it would mean if it were this one.
    means = {n: cover(machine(f"XA {n}", worn)).seen[0].meaning.means for n in (12, 17)}
    assert means == {12: Means.AS_RECORDED, 17: Means.CONTRADICTION}


def test_a_number_never_issued_has_no_machine() -> None:
    found = machine("XA 8", seen("t", "XA 8", "early"))
    assert (found.positions, found.teardowns, found.perhaps, found.questions) == ((), (), (), ())


def test_nobody_is_asked_what_a_teardown_of_the_machine_has_told() -> None:
    (before,), (after,) = DEMO.this_machine("HK 700"), DEMO.this_machine("HK 701")
    asked = {(q.about, q.position) for q in before.questions}
    assert (About.DISPUTED, FILTER) in asked
    assert not any(q.position == FILTER and q.about is not About.MEASURE for q in after.questions)
    # Those that stood behind come up in their place.
    assert len(after.questions) == len(before.questions)


def test_numbers_that_nobody_read_are_asked_of_who_has_the_assembly() -> None:
    made = answers(seen("t", "XA 2", "early"))
    question = next(
        q for q in DEMO.questions() if q.about is About.PARTS and q.assemblies[0].id == "waste-packed-filter"
    )
    finds = {one.id: one.found for one in DEMO.teardowns.values()}
    assert answered(question, finds["hk-701-osk"])  # it has the strainer
    assert not answered(question, finds["hk-606-tolland"])  # it has the filter itself
    assert not answered(question, made.register.teardowns["t"].found)  # it is about another place
    assert not answered(question, ())


LOOKS = [
    (About.BREAK, {"assembly": "any"}, True),
    (About.UNREACHED, {"assembly": "any"}, True),
    (About.NEED_UNMET, {"assembly": None}, True),
    (About.PAST_BASE, {"assembly": "any", "condition": "altered"}, False),
    (About.PAST_BASE, {"assembly": "any", "condition": "untouched"}, True),
    (About.PAST_BASE, {"assembly": "asked", "condition": "altered"}, True),
    (About.NEVER_HAD, {"assembly": "asked"}, False),
    (About.NEVER_HAD, {"assembly": "any"}, True),
    (About.NEVER_HAD, {"assembly": "asked", "parts": "other"}, False),
    (About.NEVER_HAD, {"assembly": "asked", "parts": "asked"}, True),
]


def asked_of_all() -> tuple[Question, ...]:
    """The questions of the demonstration, and of a kit and an act for what never had what they change."""
    with_part = (
        "kind: assembly\nid: parted\ntitle: P\nposition: cover\nserials: [{series: xa, first: 1, last: 2}]\n"
        'parts: [{number: "11-2", name: Hinge}]\n'
    )
    act = 'kind: supersession\nid: act\nold: [{number: "11-2"}]\nnew: [{number: "11-3"}]\ninterchange: both\n'
    act += "serials: [{series: xa, first: 1, last: 7}]\n"
    made = answers(
        kit("past", "far", "made", 1, 20),
        record(with_part, "assembly", "parted"),
        record(act, "supersession", "act"),
    )
    return (*DEMO.questions(), *made.questions)


@each_row(("about", "look", "told"), LOOKS)
def test_what_answers_which_question(about: About, look: dict[str, str | None], told: bool) -> None:
    question = next(q for q in asked_of_all() if q.about is about and q.assemblies)
    held = question.assemblies[0].id if look["assembly"] == "asked" else look["assembly"]
    condition = look.get("condition") or "untouched"
    text = f"{{position: {question.position}, condition: {condition}"
    text += f", assembly: {held}" if held else ""
    if look.get("parts"):
        short = question.shortfall
        assert isinstance(short, NeverHad)
        number = short.part.number if look["parts"] == "asked" else "X-1"
        text += f', parts: [{{number: "{number}"}}]'
    made = record(
        f"kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: S\ncondition: unknown\nfound: [{text}}}]\n",
        "teardown",
        "t",
    )
    assert isinstance(made, Teardown)
    assert answered(question, made.found) is told
    assert not answered(replace(question, position="elsewhere"), made.found)
    if about is About.NEVER_HAD:  # where nobody knows what should have it, only reading it answers
        assert answered(replace(question, assemblies=()), made.found) is (look.get("parts") == "asked")


def test_worn_and_distant_teardowns_answer_nothing() -> None:
    asked = len(machine("XA 17").questions)
    assert asked
    assert len(machine("XA 17", seen("t", "XA 1?", "late", "altered")).questions) == asked
    assert len(machine("XA 17", seen("t", "XA 17", "late", "altered")).questions) < asked


PLACES = st.tuples(
    st.integers(1, 20),
    st.sampled_from(["early", "late", "spare", "made", "far"]),
    st.sampled_from(["untouched", "likely-original", "altered", "unknown"]),
)


@given(st.lists(PLACES, max_size=5), st.integers(1, 20))
def test_the_three_are_what_the_records_say_and_hold_together(
    looks: list[tuple[int, str, str]], number: int
) -> None:
    looks = [look for look in looks if look[0] not in (8, 9)]
    records = [seen(f"t{i}", f"XA {n}", what, how) for i, (n, what, how) in enumerate(looks)]
    found = machine(f"XA {number}", *records)
    if not found.positions:
        assert number in (8, 9)
        return
    place = cover(found)
    card = answers(*records).fits.at(found.reading, "cover")
    factory = [fit.assembly.id for fit in card.fits if fit.span.fitted == "factory"]
    later = [fit.assembly.id for fit in card.fits if fit.span.fitted != "factory"]
    assert [left.fit.assembly.id for left in place.left] == factory
    assert set(later) <= {one.assembly.id for one in place.changed}
    assert [here.find.assembly for here in place.seen] == [what for n, what, _ in looks if n == number]
    for here in place.seen:
        assert here.exact
        disputes = {fitting.assembly.id for fitting in here.meaning.against}
        if here.find.condition in GOOD:
            # Whatever speaks against a span makes it disputed, on every page alike.
            standings = {left.fit.assembly.id: left.judgement.standing for left in place.left}
            assert all(standings[one] is Standing.DISPUTED for one in disputes if one in standings)
    for odds in place.odds:
        assert 0 <= odds.before <= 1
