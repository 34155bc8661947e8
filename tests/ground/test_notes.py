"""Notes tell what has to be worked out again: all that goes back to what has changed, and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.memo import Followed, Memo, kept
from spanbook.ground.notes import Name, Noted, Notes, taking

CELLS = 5
ASKED = st.lists(st.integers(0, 7), min_size=1)


@dataclass
class World:
    """Sums of cells and of sums before them: `adds` says of each what it adds up, by its place among all."""

    cells: list[int]
    adds: list[list[int]]
    notes: Notes | None = None

    def __post_init__(self) -> None:
        self.numbers: dict[int, int] = {}
        with taking(self.notes):
            self.sums = Memo(self._sum)

    def cell(self, at: int) -> int:
        if self.notes is not None:
            if at not in self.numbers:
                self.numbers[at] = self.notes.cell(("cells", at))
            self.notes.saw(self.numbers[at])
        return self.cells[at]

    def _sum(self, at: int) -> int:
        return sum(self.cell(one) if one < CELLS else self.sums(one - CELLS) for one in self.adds[at])


@st.composite
def worlds(draw: st.DrawFn) -> tuple[list[int], list[list[int]]]:
    cells = draw(st.lists(st.integers(0, 3), min_size=CELLS, max_size=CELLS))
    many = draw(st.integers(1, 8))
    return cells, [draw(st.lists(st.integers(0, CELLS + at - 1), max_size=4)) for at in range(many)]


def asked(world: World, order: list[int]) -> dict[int, int]:
    """The step of each thing that is asked for, as a part of a site is."""
    steps: dict[int, int] = {}
    assert world.notes is not None
    for at in order:
        world.notes.begin()
        world.sums(at % len(world.adds))
        steps[at % len(world.adds)] = world.notes.done()
    return steps


@given(worlds(), ASKED, st.lists(st.integers(0, 3), min_size=5, max_size=5))
def test_what_is_not_stale_is_as_it_was(
    world: tuple[list[int], list[list[int]]], order: list[int], later: list[int]
) -> None:
    cells, adds = world
    was, now, notes = World(cells, adds), World(later, adds), Notes()
    steps = asked(World(cells, adds, notes), order)
    stale = notes.since(0).stale(lambda name: cells[name[1]] != later[name[1]])  # type: ignore[call-overload]
    for at, step in steps.items():
        if not stale[step]:
            assert was.sums(at) == now.sums(at)
        else:  # and stale only for what it goes back to
            assert any(cells[one] != later[one] for one in goes_back(adds, at))


def is_cell(at: int) -> Callable[[Name], bool]:
    return lambda name: name[1] == at


def goes_back(adds: list[list[int]], at: int) -> Iterator[int]:
    for one in adds[at]:
        if one < CELLS:
            yield one
        else:
            yield from goes_back(adds, one - CELLS)


@given(worlds(), ASKED, st.integers(0, CELLS - 1), st.integers(0, 7))
def test_what_some_go_back_to_says_the_same_of_them(
    world: tuple[list[int], list[list[int]]], order: list[int], changed: int, some: int
) -> None:
    notes = Notes()
    steps = asked(World(*world, notes), order)
    few = [step for at, step in steps.items() if at <= some] or list(steps.values())
    noted = notes.since(0)
    less, now = noted.only(few)
    whole, part = (one.stale(is_cell(changed)) for one in (noted, less))
    assert [whole[step] for step in few] == [part[now[step]] for step in few]
    assert len(less.ends) <= len(noted.ends)


@pytest.mark.slow
@given(
    worlds(),
    st.lists(st.integers(0, 7)),
    st.lists(st.lists(st.integers(0, 7), min_size=1), min_size=1, max_size=3),
)
def test_what_several_have_noted_is_put_together(
    world: tuple[list[int], list[list[int]]], before: list[int], each: list[list[int]]
) -> None:
    """As processes that are begun by one have it: all of them know what was noted before."""
    common = Notes()
    asked(World(*world, common), before)
    whole = common.since(0)
    first = len(common)
    for order in each:
        own = Notes()
        twin = World(*world, own)
        asked(twin, before)
        tails: list[Noted] = []
        steps: dict[int, int] = {}
        for at in order:  # one job after another
            begin = len(own)
            steps |= asked(twin, [at])
            tails.append(own.since(begin))
        tail = tails[0]
        for one in tails[1:]:
            tail = tail.then(one)
        moved = len(whole.ends) - first
        whole = whole.beside(tail, first)
        for changed in range(CELLS):
            here, there = (one.stale(is_cell(changed)) for one in (own.since(0), whole))
            assert [here[step] for step in steps.values()] == [there[step + moved] for step in steps.values()]


def test_who_takes_no_notes_pays_nothing() -> None:
    assert type(Memo(abs)) is Memo
    with taking(Notes()):
        assert type(Memo(abs)) is not Memo
    assert type(Memo(abs)) is Memo


class Thing:
    """Its name is kept, and so is what is made of it."""

    def __init__(self, memo: Memo[str, str]) -> None:
        self.memo, self.computed = memo, 0

    @kept
    def name(self) -> str:
        """What it is called."""
        self.computed += 1
        return self.memo("name")


def test_what_is_kept_is_computed_once_and_read_by_whoever_asks() -> None:
    notes = Notes()
    with taking(notes):
        thing = Thing(Memo(str.upper))
        steps = []
        for _ in range(2):
            notes.begin()
            assert thing.name == "NAME"
            steps.append(notes.done())
    assert thing.computed == 1
    noted = notes.since(0)
    stale = bytearray(len(noted.ends))
    stale[0] = True  # the memo's, which was done first of all
    assert Noted((), noted.read, noted.ends).stale(lambda name: False) == bytearray(len(noted.ends))
    assert [list(noted.read[noted.ends[one - 1] : noted.ends[one]]) for one in steps] == [[1], [1]]


def test_what_outlives_its_notes_is_noted_anew() -> None:
    """As the constants of a module do, of which several builds in one process ask."""
    thing = Thing(Memo(str.upper))
    for _ in range(2):
        notes = Notes()
        with taking(notes):
            notes.begin()
            assert thing.name == "NAME"
            step = notes.done()
        noted = notes.since(0)
        assert (len(noted.ends), list(noted.read), step) == (2, [0], 1)
    assert thing.computed == 2


def test_what_is_followed_is_read_by_whoever_asks_afterwards() -> None:
    """One below another: what is found again has read what it was found from, and no more."""
    notes = Notes()
    with taking(notes):
        followed: Followed[str, int] = Followed()
        notes.begin()
        followed.begin()
        notes.saw(notes.cell(("cells", "above")))
        followed.begin()
        notes.saw(notes.cell(("cells", "below")))
        followed.done("below", 1, keep=True)
        followed.done("above", 2, keep=False)
        first = notes.done()
        notes.begin()
        assert (followed.get("below"), followed.get("above")) == (1, None)
        second = notes.done()
    noted = notes.since(0)
    for cell, stale in (("above", [True, False]), ("below", [True, True])):
        found = noted.stale(is_cell_called(cell))
        assert [bool(found[one]) for one in (first, second)] == stale


def is_cell_called(called: str) -> Callable[[Name], bool]:
    return lambda name: name[1] == called


def test_without_notes_a_kept_value_is_the_objects_own() -> None:
    thing = Thing(Memo(str.upper))
    assert (thing.name, thing.name, thing.computed) == ("NAME", "NAME", 1)
    assert vars(thing)["name"] == "NAME"
    assert Thing.name.__doc__ == "What it is called."


def test_what_fails_is_computed_again_and_leaves_nobody_waiting() -> None:
    notes = Notes()
    tries: list[int] = []

    def sometimes(key: int) -> int:
        tries.append(key)
        if len(tries) == 1:
            raise ValueError
        return key

    with taking(notes):
        memo = Memo(sometimes)
        try:
            memo(3)
        except ValueError:
            assert memo(3) == 3
    assert (tries, len(notes.open)) == ([3, 3], 1)
