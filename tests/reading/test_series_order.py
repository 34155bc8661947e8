"""The running order of a series, whatever its stamps have, held to a ledger written out plainly."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.ground.matching import UNREADABLE
from spanbook.ground.serials import Stamp, fold
from spanbook.ground.stamped import What
from tests.support.stamps import Entry, World, worlds
from tests.support.tries import tries


def matches(pattern: str, text: str) -> bool:
    """Whether a text is what a pattern with ? for any character may be."""
    return len(pattern) == len(text) and all(p in (c, UNREADABLE) for p, c in zip(pattern, text, strict=True))


@given(worlds(), st.data())
def test_a_place_prints_what_is_stamped_and_that_reads_as_the_place(made: World, data: st.DataObject) -> None:
    stamp = made.order.stamp
    text = made.text(data.draw(st.sampled_from(made.ledger)))
    places = stamp.readings(text)
    assert places
    for place in places:
        assert place in stamp.readings(stamp.show(place))
        assert matches(fold(stamp.show(place)), fold(text))


def place_of(entry: Entry) -> tuple[object, ...]:
    """What orders an entry: all but the plant."""
    return *(entry.values.get(what) for what in What if what is not What.PLANT), entry.number, entry.mark


@given(worlds())
@settings(max_examples=tries(30))
def test_places_rise_as_the_ledger_was_written(made: World) -> None:
    before = -1
    for _, group in groupby(made.ledger, key=lambda entry: place_of(entry)):
        places = set.intersection(*(set(made.order.stamp.readings(made.text(entry))) for entry in group))
        before = min(place for place in places if place > before)
        assert before in made.order.issued


@given(worlds(), st.data())
@settings(max_examples=tries(30))
def test_a_worn_plate_may_be_all_that_it_may_be_and_nothing_else(made: World, data: st.DataObject) -> None:
    stamp = made.order.stamp
    text = fold(made.text(data.draw(st.sampled_from(made.ledger))))
    worn = data.draw(st.sets(st.integers(0, len(text) - 1), min_size=1, max_size=3))
    asked = "".join(UNREADABLE if i in worn else c for i, c in enumerate(text))
    listed = list(stamp.may_be(asked))
    assert listed == list(stepped(stamp, asked))
    known, wanted = set(), set()
    for entry in made.ledger:
        places = set(stamp.readings(made.text(entry)))
        known |= places
        if any(matches(asked, fold(one)) for one in made.spellings(entry)):
            wanted |= places
    assert set(listed) & known == wanted


def stepped(stamp: Stamp, asked: str) -> Iterator[int]:
    """The same without listing them: each the lowest after the one before."""
    place = -1
    while found := [at for one in stamp.worn(asked) if (at := one.first_from(place + 1)) is not None]:
        place = min(found)
        yield place
