"""What was seen past the last number that is recorded, and which numbers a disputed span is in doubt on."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.beyond import found_on
from spanbook.answers.questions import About, Question
from spanbook.reading.records import Record
from tests.answers.test_questions import seen
from tests.answers.test_shortfalls import BOOK, HAT, LID, assembly, kit, runs
from tests.support import machines
from tests.support.comparisons import compared
from tests.support.registers import lid, record, register

Told = tuple[str, bool, int, list[tuple[int, str, list[str]]]]


def found(*records: Record) -> list[Told]:
    """Of each: what it is past, on which side, its edge, and the machines with what explains them.

    Each is of what was found on the machines of its series.
    """
    answers = Answers(register(BOOK, *records))
    every = answers.beyond
    assert all(one.assembly.id in found_on(answers.register, one.series) for one in every)
    return [
        (
            one.of.id,
            one.past,
            one.edge,
            [(s.number, s.find.condition, [kit.id for kit in s.through]) for s in one.seen],
        )
        for one in every
    ]


def asked(*records: Record) -> list[Question]:
    return [
        q
        for q in Answers(register(BOOK, *records)).questions
        if q.series.id == "xa" and q.position == "cover"
    ]


def doubts(*records: Record) -> list[tuple[About, str, list[tuple[int, int | None]], list[int]]]:
    """What is disputed, or was seen beyond: of which assembly, of which numbers, with which machines told."""
    return [
        (q.about, q.assemblies[0].id, runs(q.numbers), [s.number for one in q.beyond for s in one.seen])
        for q in asked(*records)
        if q.about in (About.DISPUTED, About.BEYOND)
    ]


def test_past_the_last_and_before_the_first() -> None:
    mid = assembly("mid", "first: 5, last: 12")
    looks = (
        seen("XA 3", "mid"),
        seen("XA 15", "mid", "", "altered"),
        seen("XA 18", "mid"),
        seen("XA 6", "mid"),
    )
    assert found(mid, *looks) == [
        ("mid", False, 5, [(3, "untouched", [])]),
        ("mid", True, 12, [(15, "altered", []), (18, "untouched", [])]),
    ]


def test_between_two_runs_it_is_past_the_nearer() -> None:
    apart = assembly("mid", "first: 1, last: 3", "first: 14, last: 20, anchor: late")
    assert found(apart, seen("XA 5", "mid"), seen("XA 12", "mid")) == [
        ("mid", True, 3, [(5, "untouched", [])]),
        ("mid", False, 14, [(12, "untouched", [])]),
    ]


def test_within_what_is_possible_and_worn_numbers_are_no_sighting() -> None:
    mid = assembly("mid", "first: 5, last: [10, 15]")
    assert found(mid, seen("XA 15", "mid"), machines.seen("w", "XA 1?", "mid")) == []
    assert found(assembly("mid", "first: unknown, last: unknown"), seen("XA 20", "mid")) == []


def test_what_was_never_recorded_in_the_series_has_no_edge() -> None:
    elsewhere = assembly("mid", "first: 1, last: 3", position="drain")
    assert found(elsewhere, seen("XA 5", "lid"), LID) == []


def test_a_conversion_explains_what_it_makes() -> None:
    to_hat = kit("k", "lid", "hat", "first: 1, last: 12")
    assert found(LID, HAT, to_hat, seen("XA 4", "hat")) == [("hat", False, 13, [(4, "untouched", ["k"])])]
    # Two steps: the second begins with what the first makes.
    mid = assembly("mid", "first: 18, last: 20")
    steps = kit("k", "lid", "mid", "first: 1, last: 5"), kit("l", "mid", "hat", "first: 1, last: 5")
    assert ("hat", False, 13, [(4, "untouched", ["k", "l"])]) in found(
        LID, HAT, mid, *steps, seen("XA 4", "hat")
    )


def test_what_makes_it_is_named_where_nothing_leads_to_what_it_starts_from() -> None:
    """Of two letters that make it, from what no machine here is known to have had, the first."""
    gone = assembly("gone", "first: 18, last: 20"), assembly("mid", "first: 18, last: 20")
    kits = [kit(id_, "gone", "mid", "first: 1, last: 9") for id_ in "kl"]
    assert ("mid", False, 18, [(4, "untouched", ["k"])]) in found(LID, *gone, *kits, seen("XA 4", "mid"))


def test_what_is_found_of_no_assembly_here_is_beyond_nothing() -> None:
    assert found(LID, seen("XA 15", "nobody")) == []


def test_what_has_no_known_end_may_be_seen_before_its_first() -> None:
    made = register(BOOK, assembly("mid", "first: 5, last: open"), seen("XA 3", "mid"), last="unknown")
    assert [(one.past, one.edge) for one in Answers(made).beyond] == [(False, 5)]


def test_only_what_makes_it_explains_it() -> None:
    """A letter that changes the hat of 15 into a tin says nothing of a lid on 15."""
    tin = assembly("tin", "first: 13, last: 20, fitted: field")
    letter = kit("k", "hat", "tin", "first: 13, last: 20")
    assert found(LID, HAT, tin, letter, seen("XA 15", "lid")) == [("lid", True, 12, [(15, "untouched", [])])]


def test_of_one_machine_each_find_counts_for_its_own() -> None:
    plug = assembly("plug", "first: 1, last: 5", position="drain")
    more = "}\n- {position: drain, assembly: plug, condition: altered"
    assert found(LID, plug, seen("XA 15", "lid", more)) == [
        ("lid", True, 12, [(15, "untouched", [])]),
        ("plug", True, 5, [(15, "altered", [])]),
    ]


def test_each_series_has_its_own() -> None:
    text = "kind: assembly\nid: lid\ntitle: lid\nposition: cover\nserials:\n"
    spans = "- {series: xa, first: 1, last: 12}\n- {series: xb, first: 15, last: 18}\n"
    both = record(text + spans, "assembly", "lid")
    other = seen("XA 30", "lid").origin.data.decode().replace("series: xa", "series: xb")
    assert found(both, seen("XA 15", "lid"), record(other, "teardown", "xa-30")) == [
        ("lid", True, 12, [(15, "untouched", [])]),
        ("lid", True, 18, [(30, "untouched", [])]),
    ]


def test_seen_past_the_last_number_of_the_letter() -> None:
    """Converted machines of the same arrangement, where the letter ends at 7; 14 never had the lid."""
    tin = assembly("tin", "first: 1, last: 20, fitted: field")
    letter = kit("k", "lid", "tin", "first: 2, last: 7")
    looks = (
        seen("XA 11", "tin", "", "altered"),
        seen("XA 14", "tin"),
        seen("XA 1", "tin"),
        seen("XA 5", "tin"),
    )
    assert found(LID, HAT, tin, letter, *looks) == [
        ("k", False, 2, [(1, "untouched", [])]),
        ("k", True, 7, [(11, "altered", [])]),
    ]
    unreached = [q for q in asked(LID, HAT, tin, letter, *looks) if q.about is About.UNREACHED]
    assert [
        (runs(q.numbers), q.unsure, [s.number for one in q.beyond for s in one.seen]) for q in unreached
    ] == [([(1, 1), (10, 12)], 0.5, [1, 11])]
    unseen = [q for q in asked(LID, HAT, tin, letter) if q.about is About.UNREACHED]
    assert [(q.unsure, q.beyond) for q in unseen] == [(0.25, ())]


def test_what_only_undoes_has_no_last_number_to_be_past() -> None:
    there = kit("k", "lid", "hat", "first: 1, last: 20", more="year: 1936\n")
    back = kit("r", "hat", "lid", "first: 1, last: 5", more="year: 1979\n")
    assert [one[0] for one in found(LID, HAT, there, back, seen("XA 15", "lid"))] == ["lid"]


def test_of_several_letters_the_one_that_ends_there_is_named() -> None:
    tin = assembly("tin", "first: 1, last: 2, fitted: field")
    letters = kit("k", "lid", "tin", "first: 1, last: 3"), kit("l", "lid", "tin", "first: 5, last: 7")
    assert [one for one in found(LID, HAT, tin, *letters, seen("XA 11", "tin")) if one[0] != "tin"] == [
        ("l", True, 7, [(11, "untouched", [])])
    ]


def test_a_sighting_that_disputes_another_is_told_where_that_is_asked() -> None:
    """A lid on 15: the hat is in doubt from 13, where it begins, to there; the lid is not asked by itself."""
    assert doubts(LID, HAT, seen("XA 15", "lid")) == [(About.DISPUTED, "hat", [(13, 15)], [15])]
    assert doubts(LID, HAT, seen("XA 4", "hat")) == [(About.DISPUTED, "lid", [(4, 7), (10, 12)], [4])]


def test_an_altered_machine_is_not_told_where_another_disputes() -> None:
    looks = seen("XA 15", "lid", "", "altered"), seen("XA 17", "lid")
    assert doubts(LID, HAT, *looks) == [(About.DISPUTED, "hat", [(13, 17)], [17])]


def test_a_sighting_where_nothing_is_recorded_is_asked_by_itself() -> None:
    """Between the last number recorded and the machine that was seen, not of those looked at."""
    assert doubts(LID, seen("XA 15", "lid"), seen("XA 18", "lid")) == [
        (About.BEYOND, "lid", [(13, 14), (16, 17)], [15, 18])
    ]
    late = assembly("lid", "first: 13, last: 20")
    assert doubts(late, seen("XA 10", "lid")) == [(About.BEYOND, "lid", [(11, 12)], [10])]
    assert doubts(LID, seen("XA 13", "lid")) == []  # nobody is left to be asked
    assert doubts(LID, seen("XA 15", "lid", "", "altered")) == []
    assert doubts(LID, seen("XA 15", "lid", "", "altered"), seen("XA 17", "lid")) == [
        (About.BEYOND, "lid", [(13, 14), (16, 16)], [17])
    ]


def test_what_a_conversion_explains_is_not_asked() -> None:
    to_lid = kit("k", "hat", "lid", "first: 13, last: 20")
    assert doubts(LID, HAT, to_lid, seen("XA 15", "lid")) == []


@pytest.mark.parametrize(
    ("others", "look", "numbers"),
    [
        ("first: 13, last: 20", "XA 4", [(4, 7), (10, 12)]),  # it stands after
        ("first: 1, last: 2, option: true", "XA 10", [(3, 7), (10, 10)]),  # it stands before
        ("first: 1, last: 20, fitted: service, anchor: all", "XA 4", None),  # explained
        ("first: [5, 13], last: 20", "XA 5", [(3, 7), (10, 12)]),  # it may stand there
        ("first: 1, last: [2, 5]", "XA 5", [(3, 7), (10, 12)]),
    ],
)
def test_a_disputed_span_is_in_doubt_to_the_end_where_the_other_stands(
    others: str, look: str, numbers: list[tuple[int, int]] | None
) -> None:
    early = assembly("lid", "first: 3, last: 12")
    told = [one for one in doubts(early, assembly("other", others), seen(look, "other")) if one[1] == "lid"]
    assert [one[2] for one in told] == ([numbers] if numbers else [])


def test_what_stands_on_both_sides_or_nowhere_puts_all_in_doubt() -> None:
    early = assembly("lid", "first: 3, last: 12")
    both = assembly("other", "first: 1, last: 2", "first: 13, last: 20, anchor: late")
    nowhere = lid("other", "first: 15, last: 20", series="xb")
    for other in (both, nowhere):
        told = [one for one in doubts(early, other, seen("XA 5", "other")) if one[1] == "lid"]
        assert [one[2] for one in told] == [[(3, 7), (10, 12)]]


def test_what_may_stand_there_and_has_no_known_end_puts_all_in_doubt() -> None:
    early, other = assembly("lid", "first: 3, last: 12"), assembly("other", "first: [5, 13], last: open")
    made = register(BOOK, early, other, seen("XA 5", "other"), last="unknown")
    told = [q for q in Answers(made).questions if q.about is About.DISPUTED]
    assert [runs(q.numbers) for q in told] == [[(3, 7), (10, 12)]]


def test_what_was_seen_past_the_other_end_too_is_another_question() -> None:
    mid, past, before = assembly("mid", "first: 5, last: 12"), seen("XA 15", "mid"), seen("XA 3", "mid")
    found = compared(register(BOOK, mid, past), register(BOOK, mid, past, before))
    opened, closed = ([q for q in each if q.about is About.BEYOND] for each in (found.opened, found.closed))
    assert ([runs(q.numbers) for q in opened], closed) == ([[(4, 4)]], [])


def test_a_machine_that_is_named_against_it_and_was_not_seen_with_another_puts_all_in_doubt() -> None:
    text = assembly("lid", "first: 3, last: 12").origin.data.decode()
    early = record(
        text.replace("{source: book}", "{source: book}, {teardown: xa-5, against: true}"), "assembly", "lid"
    )
    bare = seen("XA 5", "lid").origin.data.decode().replace("cover, assembly: lid", "drain")
    told = doubts(early, record(bare, "teardown", "xa-5"))
    assert told == [(About.DISPUTED, "lid", [(3, 7), (10, 12)], [])]


def test_a_worn_number_puts_all_in_doubt() -> None:
    told = [one for one in doubts(LID, HAT, machines.seen("w", "XA ?", "hat")) if one[1] == "lid"]
    assert [one[2] for one in told] == [[(1, 7), (10, 12)]]


def test_two_standards_on_the_same_numbers_are_asked_about_once() -> None:
    cap = assembly("cap", "first: 10, last: 20")
    assert doubts(LID, cap) == []
    assert [runs(q.numbers) for q in asked(LID, cap) if q.about is About.CONFLICT] == [[(10, 12)]]


def test_claims_that_differ_put_in_doubt_where_they_do() -> None:
    """One book has the lid to 12, another to 10; somebody saw the hat on 4, which is in doubt to the end."""
    other = record("kind: source\nid: tale\ntitle: Tale\nclass: manual\n", "source", "tale")
    claims = "first: 1, last: 12, anchor: a", "first: 1, last: 10, anchor: b"
    lid_ = assembly("lid", *claims)
    text = lid_.origin.data.decode().replace(
        "anchor: b, evidence: [{source: book}]", "anchor: b, evidence: [{source: tale}]"
    )
    lid_ = record(text, "assembly", "lid")
    assert {tuple(one[2]) for one in doubts(other, lid_)} == {((11, 12),)}
    shifted = record(text.replace("first: 1, last: 12", "first: 3, last: 12"), "assembly", "lid")
    assert {tuple(one[2]) for one in doubts(other, shifted)} == {((1, 2), (11, 12))}
    both = [one for one in doubts(other, lid_, HAT, seen("XA 4", "hat")) if one[1] == "lid"]
    assert {tuple(one[2]) for one in both} == {((4, 7), (10, 12))}


@given(
    st.lists(st.tuples(st.integers(1, 20), st.integers(0, 5)), min_size=1, max_size=3),
    st.lists(st.integers(1, 20), unique=True, max_size=6),
)
def test_every_machine_outside_is_told_once(spans: list[tuple[int, int]], looks: list[int]) -> None:
    typed = [f"first: {a}, last: {min(a + more, 20)}, anchor: a{i}" for i, (a, more) in enumerate(spans)]
    inside = {n for a, more in spans for n in range(a, min(a + more, 20) + 1)} - {8, 9}
    if inside:
        numbers = [n for n in looks if n not in (8, 9)]
        told = found(assembly("mid", *typed), *(seen(f"XA {n}", "mid") for n in numbers))
        assert sorted(s[0] for one in told for s in one[3]) == sorted(set(numbers) - inside)
        for _, past, edge, sightings in told:
            for number, *_ in sightings:
                assert edge in inside
                assert (edge < number) == past
                assert abs(number - edge) == min(abs(number - n) for n in inside)
