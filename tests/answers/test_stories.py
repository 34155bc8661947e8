"""What may have happened to a machine, worked out by hand in small worlds, and what holds in every world."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.assumed import Assumed, StoryOdds
from spanbook.answers.changepoint import Rates
from spanbook.answers.readings import reading_of
from spanbook.answers.standing import Standing
from spanbook.answers.stories import Explained, Explanation, weights_of
from spanbook.answers.story import STORIES, Kind, Story
from spanbook.reading.records import Condition, Record
from tests.support.registers import assembly, lid, record, register
from tests.support.rows import each_row
from tests.support.tries import tries

BOOK = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")
TALE = record("kind: source\nid: tale\ntitle: T\nclass: recollection\n", "source", "tale")
PRINTED = "{source: book}"
# The numbers are 1 to 7 and 10 to 20 of one series, eighteen, and 15 to 40 of another: forty-four machines.
EARLY, LATE = lid("early", "first: 1, last: 7", PRINTED), lid("late", "first: 10, last: 20", PRINTED)
F, R, ALL = Fraction(1, 10), Fraction(3, 100), 44
SWAPPED = Fraction(1, 200)


def explained(
    *records: Record,
    number: int = 15,
    found: Mapping[str, str] | None = None,
    condition: Condition = "unknown",
    assumed: Assumed | None = None,
) -> Explanation:
    made = register(BOOK, TALE, *records)
    answers = Answers(made, lambda: assumed or Assumed())
    reading = reading_of(made.series["xa"], number)
    held = {position: made.assemblies[id_] for position, id_ in (found or {"cover": "early"}).items()}
    return answers.explainer.explain(reading, held, condition)


def stories(*records: Record, number: int = 15, found: str = "early", **more: object) -> dict[Kind, Story]:
    told = explained(*records, number=number, found={"cover": found}, **more)  # type: ignore[arg-type]
    return by_kind(told.positions[0])


def by_kind(one: Explained) -> dict[Kind, Story]:
    assert [story.kind for story in one.stories if story.probability] == [s.kind for s in one.possible]
    return {story.kind: story for story in one.stories}


def conversion(
    id_: str, start: str, to: str, span: str = "first: 1, last: 20", position: str = "cover"
) -> Record:
    return record(
        f"kind: conversion\nid: {id_}\ntitle: {id_}\nposition: {position}\nfrom: [{start}]\nto: {to}\n"
        f"serials:\n- {{series: xa, {span}}}\n",
        "conversion",
        id_,
    )


def seen(number: int, held: str, condition: str = "untouched") -> Record:
    text = (
        f"kind: teardown\nid: t{number}\ndate: 2024\nseen-by: m\nserial: XA {number}\nseries: xa\n"
        f"condition: {condition}\nfound: [{{position: cover, assembly: {held}}}]\n"
    )
    return record(text, "teardown", f"t{number}")


def test_every_story_of_a_small_world_by_hand() -> None:
    """The early one on 15, where the book has the late one; seven of forty-four left the works with it."""
    told = explained(EARLY, LATE)
    found = by_kind(told.positions[0])
    parts = {
        Kind.RECORD: Fraction(1, 50) * Fraction(1, 2),  # of what is not recorded there: early, or unknown
        Kind.EXCHANGE: R * Fraction(7, ALL),
        Kind.UNRECORDED: F / 5 * Fraction(1, 3),  # early, late, or unknown
    }
    own = sum(parts.values()) / (1 + F + F + R + F / 5)
    this, other = (1 - SWAPPED) * own, SWAPPED * Fraction(7, ALL)
    whole = this + other
    wanted = {kind: this / whole * part / sum(parts.values()) for kind, part in parts.items()}
    wanted[Kind.SWAPPED] = other / whole
    assert {kind: story.probability for kind, story in found.items() if story.probability} == wanted
    assert sum(wanted.values()) == 1
    impossible = {story.kind for story in told.positions[0].impossible}
    assert impossible == {Kind.WORKS, Kind.BREAK, Kind.CONVERSION, Kind.SOLD_LATER}
    ranked = [story.probability for story in told.positions[0].stories]
    assert ranked == sorted(ranked, reverse=True)
    assert [fit.assembly.id for fit in found[Kind.RECORD].fits] == ["late"]
    assert found[Kind.RECORD].standing is Standing.PRINTED


def test_what_is_recorded_needs_no_story() -> None:
    found = stories(EARLY, LATE, found="late")
    assert (found[Kind.WORKS].odds, found[Kind.WORKS].likelihood) == (Fraction(1), Fraction(1))
    assert [fit.assembly.id for fit in found[Kind.WORKS].fits] == ["late"]
    assert (found[Kind.RECORD].odds, found[Kind.RECORD].likelihood) == (Fraction(0), Fraction(0))
    assert found[Kind.WORKS].probability > Fraction(9, 10)


def test_conversions_are_followed_to_their_end() -> None:
    middle = lid("middle", "first: 3, last: 3, option: true", PRINTED)
    kit = conversion("kit", "late", "early")
    assert stories(EARLY, LATE, kit)[Kind.CONVERSION].likelihood == 1
    assert [c.id for c in stories(EARLY, LATE, kit)[Kind.CONVERSION].through] == ["kit"]
    # Led to middle and from there to early: one of two.
    steps = conversion("second", "middle", "early"), conversion("first", "late", "middle")
    found = stories(EARLY, LATE, middle, *steps)[Kind.CONVERSION]
    assert (found.likelihood, [c.id for c in found.through]) == (Fraction(1, 2), ["first", "second"])
    # What leads elsewhere, starts elsewhere, is of other numbers or of another position leads to nothing.
    for other in (
        conversion("kit", "late", "middle"),
        conversion("kit", "middle", "early"),
        conversion("kit", "late", "early", "first: 16, last: 20"),
    ):
        assert stories(EARLY, LATE, middle, other)[Kind.CONVERSION].likelihood == 0
    drain = assembly("a", "first: 1, last: 20", "drain"), assembly("b", "first: 1, last: 2", "drain")
    also = conversion("other", "a", "b", position="drain")
    assert stories(EARLY, LATE, *drain, kit, also)[Kind.CONVERSION].likelihood == 1


def test_of_several_starts_the_conversion_from_the_first_that_can_be_is_told() -> None:
    option = lid("extra", "first: 10, last: 20, option: true", PRINTED)
    kits = conversion("b", "late", "early"), conversion("a", "extra", "early")
    found = stories(EARLY, LATE, option, *kits)[Kind.CONVERSION]
    assert (found.likelihood, [c.id for c in found.through]) == (Fraction(1), ["b"])
    # 7 is past the break, so nothing was converted from what was before it.
    early = lid("early", "first: 1, last: [4, 7]", PRINTED)
    late = lid("late", "first: [5, 8], last: 20", PRINTED)
    kits = conversion("a", "early", "extra"), conversion("b", "late", "extra")
    found = stories(early, late, option, *kits, number=7, found="extra")[Kind.CONVERSION]
    assert (found.likelihood, [c.id for c in found.through]) == (Fraction(1), ["b"])


def test_what_only_possibly_applies_counts_half() -> None:
    kit = conversion("kit", "late", "early", "first: [12, 18], last: 20")
    assert stories(EARLY, LATE, kit)[Kind.CONVERSION].likelihood == Fraction(1, 2)
    sold = [item("early", "first: 1, last: 7", "first: [12, 18], last: 20, fitted: service")]
    assert stories(*sold, LATE)[Kind.SOLD_LATER].likelihood == Fraction(1, 2)


def item(id_: str, *spans: str) -> Record:
    told = "".join(f"- {{series: xa, {span}, anchor: a{i}}}\n" for i, span in enumerate(spans))
    text = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n{told}"
    return record(text, "assembly", id_)


def test_a_span_of_the_field_is_a_conversion_too() -> None:
    early = item("early", "first: 1, last: 7", "first: 12, last: 20, fitted: field")
    found = stories(early, LATE)[Kind.CONVERSION]
    assert (found.likelihood, found.through, len(found.fits)) == (Fraction(1), (), 1)
    maybe = item("early", "first: 1, last: 7", "first: [12, 18], last: 20, fitted: field")
    assert stories(maybe, LATE)[Kind.CONVERSION].likelihood == Fraction(1, 2)
    # A sure conversion decides where the span is unsure, and the other way round.
    assert stories(maybe, LATE, conversion("kit", "late", "early"))[Kind.CONVERSION].likelihood == 1
    unsure = conversion("kit", "late", "early", "first: [12, 18], last: 20")
    assert stories(early, LATE, unsure)[Kind.CONVERSION].likelihood == 1
    # On the machine from the works already: nothing was converted to it.
    assert stories(early, LATE, number=5)[Kind.CONVERSION].likelihood == 0
    # Of two, what was found.
    other = lid("other", "first: 12, last: 20, fitted: field")
    found = stories(early, other, LATE)[Kind.CONVERSION]
    assert (found.likelihood, [fit.assembly.id for fit in found.fits]) == (Fraction(1, 2), ["early"])
    assert stories(maybe, other, LATE)[Kind.CONVERSION].likelihood == Fraction(1, 4)


def test_one_of_all_that_were_sold_later() -> None:
    early = item("early", "first: 1, last: 7", "first: 12, last: 20, fitted: service")
    found = stories(early, LATE)[Kind.SOLD_LATER]
    assert (found.likelihood, found.odds, len(found.fits)) == (Fraction(1), F, 1)
    other = lid("other", "first: 1, last: 20, fitted: service")
    assert stories(early, LATE, other)[Kind.SOLD_LATER].likelihood == Fraction(1, 2)
    assert stories(EARLY, LATE, other)[Kind.SOLD_LATER].likelihood == 0


def test_what_no_machine_left_the_works_with_comes_from_none() -> None:
    kit = lid("kit-lid", "first: 1, last: 20, fitted: field")
    found = stories(EARLY, LATE, kit, found="kit-lid")
    assert found[Kind.EXCHANGE].likelihood == found[Kind.SWAPPED].likelihood == 0
    assert found[Kind.CONVERSION].likelihood == 1


def test_a_series_without_an_end_is_a_hundred_machines() -> None:
    made = register(BOOK, EARLY, lid("late", "first: 10, last: open", PRINTED), last="unknown")
    told = Answers(made).explainer.explain(
        reading_of(made.series["xa"], 15), {"cover": made.assemblies["late"]}, "unknown"
    )
    # 1 to 7, the run from 10 on, and twenty-six of the other series.
    assert by_kind(told.positions[0])[Kind.EXCHANGE].likelihood == Fraction(100, 133)


@pytest.mark.slow
def test_several_finds_out_of_place_speak_for_a_swapped_plate() -> None:
    """Twelve and more have a late plug, so no early machine has; 1 to 7 have both of the early ones."""
    plugs = (
        assembly("old-plug", "first: 1, last: 11", "drain"),
        assembly("new-plug", "first: 12, last: 20", "drain"),
    )
    alone = explained(EARLY, LATE, *plugs)
    both = explained(EARLY, LATE, *plugs, found={"cover": "early", "drain": "old-plug"})
    at = [by_kind(one)[Kind.SWAPPED] for one in (*alone.positions, *both.positions)]
    assert at[0].likelihood == at[1].likelihood == at[2].likelihood == Fraction(7, ALL)
    assert at[1] == at[2]
    assert at[1].probability > at[0].probability
    # Found on 15 as recorded: that speaks against it.
    kept = explained(EARLY, LATE, *plugs, found={"cover": "early", "drain": "new-plug"})
    assert by_kind(kept.positions[0])[Kind.SWAPPED].likelihood == 0
    mixed = explained(EARLY, LATE, *plugs, found={"cover": "late", "drain": "old-plug"})
    assert by_kind(mixed.positions[0])[Kind.SWAPPED].likelihood == Fraction(2, ALL)  # 10 and 11


def test_the_break_decides_where_it_may_lie_on_either_side() -> None:
    """From 5 to 8, of which 8 was never issued: 5 is past it in one case of three, and 6 in two."""
    early = lid("early", "first: 1, last: [4, 7]", PRINTED)
    late = lid("late", "first: [5, 8], last: 20", PRINTED)
    for number, share in ((4, 1), (5, Fraction(2, 3)), (6, Fraction(1, 3)), (7, 0)):
        found = stories(early, late, number=number)
        assert found[Kind.WORKS].likelihood == share
        assert [b.later.id for b in found[Kind.WORKS].breaks] == (["late"] if number > 4 else [])
    # What was seen on another machine counts, what was seen on this one does not.
    assert stories(early, late, seen(6, "early"), number=6)[Kind.WORKS].likelihood == Fraction(1, 3)
    assert stories(early, late, seen(6, "early"), number=5)[Kind.WORKS].likelihood > Fraction(9, 10)


def test_the_last_number_at_which_a_break_may_lie_is_told_by_it() -> None:
    early, late = lid("early", "first: 1, last: [4, 10]"), lid("late", "first: [5, 11], last: 20")
    for number, breaks in ((4, 0), (5, 1), (11, 1), (12, 0)):
        found = stories(early, late, number=number, found="early" if number == 4 else "late")[Kind.WORKS]
        assert (found.likelihood > 0, len(found.breaks)) == (True, breaks)


def test_a_break_elsewhere_than_recorded() -> None:
    """Two books: the first late is 6, or 13. One in twenty is left for 2 to 20, seventeen numbers."""
    early = [("first: 1, last: 5", "book"), ("first: 1, last: 12", "tale")]
    late = [("first: 6, last: 20", "book"), ("first: 13, last: 20", "tale")]
    pair = [
        record(
            f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n"
            + "".join(f"- {{series: xa, {e}, anchor: {s}, evidence: [{{source: {s}}}]}}\n" for e, s in spans),
            "assembly",
            id_,
        )
        for id_, spans in (("early", early), ("late", late))
    ]
    found = stories(*pair, number=15)
    beyond = Fraction(1, 20) * Fraction(5, 17)  # at 16 to 20
    assert (found[Kind.BREAK].likelihood, found[Kind.WORKS].likelihood) == (beyond, Fraction(0))
    assert [(b.earlier.id, b.later.id) for b in found[Kind.BREAK].breaks] == [("early", "late")]
    # Where one of them has it the word of the records is told, with what it weighs.
    assert stories(*pair, number=7)[Kind.BREAK].likelihood == 0
    assert stories(*pair, number=7)[Kind.WORKS].likelihood > beyond
    third = lid("third", "first: 2, last: 2, option: true", PRINTED)
    assert stories(*pair, third, number=15, found="third")[Kind.BREAK].likelihood == 0


def test_looks_that_cannot_all_be_true_leave_it_to_the_records() -> None:
    """No machine is ever changed, and one before another has the late one: early, late or unknown."""
    pair = lid("early", "first: 1, last: [3, 13]", PRINTED), lid("late", "first: [4, 14], last: 20", PRINTED)
    never = Assumed(rates=Rates(*[Fraction(0)] * 4))
    looks = seen(5, "late"), seen(7, "early")
    assert stories(*pair, *looks, number=10, assumed=never)[Kind.WORKS].likelihood == Fraction(1, 3)


def test_nothing_is_converted_to_what_it_is() -> None:
    early = item("early", "first: 1, last: 7", "first: 1, last: 20, fitted: field")
    none = stories(early, LATE, number=5)[Kind.CONVERSION]
    assert (none.likelihood, none.fits) == (Fraction(0), ())
    assert stories(early, LATE, number=15)[Kind.CONVERSION].likelihood == 1


def test_a_hole_between_two_is_the_break_s() -> None:
    early, late = lid("early", "first: 1, last: 4", PRINTED), lid("late", "first: 12, last: 20", PRINTED)
    found = stories(early, late, number=10)
    assert (found[Kind.WORKS].likelihood, found[Kind.BREAK].likelihood) == (Fraction(0), Fraction(2, 6))
    assert found[Kind.RECORD].likelihood == 0  # nothing is recorded of it


def test_two_breaks_one_after_the_other() -> None:
    """a to b at 3 to 6, b to c at 5 to 7, each number alike: 5 is c's where both are past."""
    made = (
        lid("a", "first: 1, last: [2, 5]", PRINTED),
        lid("b", "first: [3, 6], last: [4, 6]", PRINTED),
        lid("c", "first: [5, 7], last: 20", PRINTED),
    )
    found = {id_: stories(*made, number=5, found=id_)[Kind.WORKS] for id_ in "abc"}
    lying = {id_: [(b.earlier.id, b.later.id) for b in one.breaks] for id_, one in found.items()}
    assert lying == {"a": [("a", "b")], "b": [("a", "b"), ("b", "c")], "c": [("b", "c")]}
    shares = {id_: one.likelihood for id_, one in found.items()}
    assert shares == {"a": Fraction(1, 4), "b": Fraction(3, 4) * Fraction(2, 3), "c": Fraction(1, 4)}


def test_where_nothing_is_recorded_anything_known_is_as_likely() -> None:
    early = lid("early", "first: 1, last: 4", PRINTED)
    found = stories(early, lid("other", "first: 2, last: 3, option: true", PRINTED), number=15)
    assert found[Kind.WORKS].likelihood == Fraction(1, 3)
    assert found[Kind.RECORD].likelihood == 0


def test_options_share_with_the_standard() -> None:
    option = lid("extra", "first: 10, last: 20, option: true", PRINTED)
    shares = [
        stories(EARLY, LATE, option, found=f)[Kind.WORKS].likelihood for f in ("late", "extra", "early")
    ]
    assert shares == [Fraction(1, 2), Fraction(1, 2), 0]
    # So half of eleven machines of forty-four could have given a late one.
    assert stories(EARLY, LATE, option, found="late")[Kind.EXCHANGE].likelihood == Fraction(11, 2 * ALL)
    alone = [lid(id_, "first: 10, last: 20, option: true", PRINTED) for id_ in ("one", "two")]
    assert stories(*alone, found="one")[Kind.WORKS].likelihood == Fraction(1, 2)


def test_what_is_only_possibly_there_leaves_room_for_something_unknown() -> None:
    vague = lid("early", "first: unknown, last: unknown", PRINTED)
    assert stories(vague)[Kind.WORKS].likelihood == Fraction(1, 2)


@each_row(
    ("evidence", "teardowns", "standing"),
    [
        (PRINTED, [], Standing.PRINTED),
        ("{source: tale}", [], Standing.RECALLED),
        ("", [], Standing.UNSUPPORTED),
        ("", [seen(12, "late")], Standing.SEEN),
        (PRINTED, [seen(12, "late")], Standing.CONFIRMED),
        (PRINTED, [seen(12, "early")], Standing.DISPUTED),
        (PRINTED, [seen(15, "early")], Standing.PRINTED),  # this very machine is what is asked about
    ],
)
def test_a_record_is_wrong_as_often_as_one_that_stands_so(
    evidence: str, teardowns: list[Record], standing: Standing
) -> None:
    found = stories(EARLY, lid("late", "first: 10, last: 20", evidence), *teardowns)[Kind.RECORD]
    assert (found.standing, found.odds) == (standing, StoryOdds().wrong[standing])
    assert found.likelihood == Fraction(1, 2)


def test_of_several_records_the_best_would_have_to_be_wrong() -> None:
    option = lid("extra", "first: 10, last: 20, option: true")
    found = stories(EARLY, LATE, option)[Kind.RECORD]
    assert (found.standing, found.likelihood) == (Standing.PRINTED, Fraction(1, 2))
    assert [fit.assembly.id for fit in found.fits] == ["late", "extra"]


@pytest.mark.parametrize(
    ("condition", "f", "r"),
    [
        ("untouched", Fraction(1, 100), Fraction(1, 100)),
        ("likely-original", F, R),
        ("unknown", F, R),
        ("altered", Fraction(1, 2), Fraction(1, 2)),
    ],
)
def test_the_condition_says_how_often_machines_were_changed(
    condition: Condition, f: Fraction, r: Fraction
) -> None:
    found = stories(EARLY, LATE, condition=condition)
    odds = [found[kind].odds for kind in (Kind.CONVERSION, Kind.SOLD_LATER, Kind.EXCHANGE, Kind.UNRECORDED)]
    assert odds == [f, f, r, f / 5]


def test_a_community_sets_its_own() -> None:
    odds = StoryOdds(Fraction(2), Fraction(3), Fraction(1, 4), dict.fromkeys(Standing, Fraction(1, 3)))
    found = stories(EARLY, LATE, assumed=Assumed(odds=odds))
    kinds = Kind.SOLD_LATER, Kind.UNRECORDED, Kind.SWAPPED, Kind.RECORD, Kind.WORKS
    assert [found[kind].odds for kind in kinds] == [
        2 * F,
        3 * F,
        Fraction(1, 4),
        Fraction(1, 3),
        Fraction(2, 3),
    ]


@pytest.mark.parametrize("condition", ["untouched", "unknown", "altered"])
def test_stories_of_one_find_alone_have_the_same_shares(condition: Condition) -> None:
    made = register(BOOK, EARLY, LATE, conversion("back", "late", "early"))
    explainer = Answers(made).explainer
    reading = reading_of(made.series["xa"], 15)
    held = [made.assemblies[id_] for id_ in ("early", "late")]
    for found, alone in zip(held, explainer.alone(reading, held), strict=True):
        told = explainer.explain(reading, {"cover": found}, condition).positions[0]
        shares = dict(
            zip([story.kind for story in alone], explainer.shares(weights_of(alone), condition), strict=True)
        )
        assert shares == pytest.approx({story.kind: float(story.probability) for story in told.stories})


def test_where_no_story_can_be_none_has_a_share() -> None:
    none = (0.0,) * (len(STORIES) + 1)
    assert Answers(register()).explainer.shares((none, none), "unknown") == [*none]


def test_where_nothing_ever_happens_there_is_no_story() -> None:
    odds = StoryOdds(Fraction(0), Fraction(0), Fraction(0), dict.fromkeys(Standing, Fraction(0)))
    never = Assumed(rates=Rates(*[Fraction(0)] * 4), odds=odds)
    told = explained(EARLY, LATE, assumed=never).positions[0]
    assert (told.possible, {story.kind for story in told.impossible}) == ((), OF_ASSEMBLIES)
    # Only the plate can have been: all else is ruled out.
    found = stories(EARLY, LATE, assumed=replace(never, odds=replace(odds, swapped=SWAPPED)))
    assert found[Kind.SWAPPED].probability == 1


OF_ASSEMBLIES = set(Kind) - {Kind.TAKEN_OFF}
IDS = ["a", "b", "c"]
ends = st.tuples(st.integers(1, 20), st.integers(1, 20)).map(sorted)
bounds = st.one_of(st.integers(1, 20).map(str), ends.map(str))
spans = st.tuples(
    bounds, bounds, st.sampled_from(["", ", fitted: service", ", fitted: field", ", option: true"])
)
kits = st.lists(st.tuples(st.sampled_from(IDS), st.sampled_from(IDS), ends), max_size=3)
conditions = st.sampled_from(["untouched", "likely-original", "altered", "unknown"])


@settings(max_examples=tries(80))
@given(
    st.tuples(*[st.lists(spans, min_size=1, max_size=2) for _ in IDS]),
    kits,
    st.lists(
        st.tuples(st.sampled_from([3, 6, 12, 15]), st.sampled_from(IDS)), max_size=2, unique_by=lambda t: t[0]
    ),
    st.sampled_from([1, 5, 7, 10, 15, 20]),
    conditions,
)
def test_probabilities_sum_to_one_in_every_world(
    drawn: tuple[list[tuple[str, str, str]], ...],
    converted: list[tuple[str, str, list[int]]],
    looks: list[tuple[int, str]],
    number: int,
    condition: Condition,
) -> None:
    """And each story is a distribution: over all that may be found its likelihoods are one at most."""
    made = [
        item(id_, *(f"first: {first}, last: {last}{how}" for first, last, how in each))
        for id_, each in zip(IDS, drawn, strict=True)
    ]
    made += [assembly("p", "first: 1, last: 9", "drain"), assembly("q", "first: 10, last: 20", "drain")]
    made += [
        conversion(f"k{i}", start, to, f"first: {first}, last: {last}")
        for i, (start, to, (first, last)) in enumerate(converted)
    ]
    made += [seen(at, held) for at, held in looks]
    whole: dict[Kind, Fraction] = dict.fromkeys(Kind, Fraction(0))
    for id_ in IDS:
        told = explained(*made, number=number, found={"cover": id_, "drain": "p"}, condition=condition)
        for one in told.positions:
            assert sum(story.probability for story in one.stories) == 1
            assert {story.kind for story in one.stories} == OF_ASSEMBLIES
            for story in one.stories:
                assert (story.probability == 0) == (story.odds * story.likelihood == 0)
        alone = explained(*made, number=number, found={"cover": id_}, condition=condition).positions[0]
        for story in alone.stories:
            whole[story.kind] += story.likelihood
        turned = made[::-1]
        again = explained(*turned, number=number, found={"drain": "p", "cover": id_}, condition=condition)
        assert probabilities(again.positions[1]) == probabilities(told.positions[0])
    assert whole[Kind.WORKS] + whole[Kind.BREAK] <= 1
    assert all(likelihood <= 1 for likelihood in whole.values())


def probabilities(one: Explained) -> list[tuple[Kind, Fraction]]:
    return [(story.kind, story.probability) for story in one.stories]
