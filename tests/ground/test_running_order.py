"""Running orders worked by hand: second issues, blocks with an end, cuts."""

from __future__ import annotations

import pytest

from spanbook.ground import running_order
from spanbook.ground.running_order import Block, Layout, Restarts
from spanbook.ground.stamped import Stamped, Value, What
from tests.support.rows import each_row

Run = tuple[int, int | None, int, list[str]]  # first, last, the place of the first, how the first reads
LAYOUT = Layout(Stamped.of("XA {number}{issue}"))


def runs(layout: Layout, *blocks: Block, cuts: tuple[int, ...] = ()) -> list[Run]:
    stamp = layout.stamp(blocks, cuts=cuts)
    return [
        (one.first, one.last, one.at, [form.show(one.first) for form in one.forms]) for one in stamp.stretches
    ]


@each_row(
    ("seconds", "room", "found"),
    [
        ((), None, [(0, None, 100, ["XA 0"])]),
        ((), 10, [(0, 9, 100, ["XA 0"])]),
        (((3, "B"),), None, [(0, 3, 100, ["XA 0"]), (3, 3, 104, ["XA 3B"]), (4, None, 105, ["XA 4"])]),
        (
            ((3, "B"), (3, "C"), (4, "B")),
            10,
            [
                (0, 3, 100, ["XA 0"]),
                (3, 3, 104, ["XA 3B"]),
                (3, 3, 105, ["XA 3C"]),
                (4, 4, 106, ["XA 4"]),
                (4, 4, 107, ["XA 4B"]),
                (5, 6, 108, ["XA 5"]),
            ],
        ),
    ],
)
def test_a_second_issue_stands_after_the_first(
    seconds: tuple[tuple[int, str], ...], room: int | None, found: list[Run]
) -> None:
    block = Block({}, 100, room, seconds)
    assert runs(LAYOUT, block) == found
    assert [block.place(number) for number in (3, 4)] == [
        next(at + n - first for first, last, at, _ in found if first <= n and (last is None or n <= last))
        for n in (3, 4)
    ]


@each_row(
    ("cuts", "found"),
    [
        ((), [(0, 9, 100)]),
        ((100, 99, 110), [(0, 9, 100)]),
        ((109, 103, 103), [(0, 2, 100), (3, 8, 103), (9, 9, 109)]),
    ],
)
def test_a_block_is_cut_at_places_inside_of_it(
    cuts: tuple[int, ...], found: list[tuple[int, int, int]]
) -> None:
    assert [one[:3] for one in runs(LAYOUT, Block({}, 100, 10), cuts=cuts)] == found


def test_what_lies_past_the_end_of_a_block_cuts_nothing_in_it() -> None:
    block = Block({}, 100, 10, ((3, "B"),))
    assert runs(LAYOUT, block, cuts=(112,)) == runs(LAYOUT, block)


def test_what_never_ends_is_cut_as_well() -> None:
    found = runs(LAYOUT, Block({}, 0, None), cuts=(7, 3))
    assert [one[:3] for one in found] == [(0, 2, 0), (3, 6, 3), (7, None, 7)]


def test_what_never_begins_again_is_one_block_without_an_end() -> None:
    assert LAYOUT.blocks() == (Block({}, 0, None),)


def test_a_part_of_which_nothing_is_typed_says_nothing() -> None:
    assert runs(Layout(Stamped.of("{plant}{number}")), Block({}, 0, None)) == [(0, None, 0, ["0"])]


WEEKS = Layout(Stamped.of("{year}-{week}-{number}"), (1931, 1932), Restarts.WEEK, most=99)


def test_each_week_of_a_year_is_a_block_with_room_for_a_digit_more() -> None:
    """1931 had 53 weeks and 1932 had 52 by ISO 8601."""
    blocks = WEEKS.blocks()
    assert len(blocks) == 53 + 52
    assert [(one.at, one.room) for one in blocks[:2]] == [(0, 1000), (1000, 1000)]
    assert blocks[-1].values == {What.YEAR: 1932, What.WEEK: 52}


def test_of_more_forms_than_a_browser_reads_there_is_one(monkeypatch: pytest.MonkeyPatch) -> None:
    plants = Layout(Stamped.of("{plant}{number}"), plants=("A", "B"))

    def said(what: What, place: int, every: object) -> tuple[Value, ...]:
        return ("A", "B")

    assert (plants.size(1), plants.size(3)) == (2, 6)
    monkeypatch.setattr(running_order, "MOST_FORMS", 6)
    assert len(plants.stamp(allowed=said, cuts=(5, 9)).stretches) == 3
    monkeypatch.setattr(running_order, "MOST_FORMS", 5)
    (one,) = plants.stamp(allowed=said, cuts=(5, 9)).stretches
    assert [form.show(1) for form in one.forms] == ["A1"]
    assert len(WEEKS.stamp().stretches) == 1


def test_more_blocks_than_may_be_are_not_made(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(running_order, "MOST_FORMS", 5)
    assert len(WEEKS.blocks()) == 6  # one more, so that a rule sees it
