"""Years that are not known exactly, held against every year that they may mean."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from dataclasses import replace

import pytest

from spanbook.answers.act_years import ActYears, Made
from spanbook.answers.orders import Ordering
from spanbook.answers.then import then
from spanbook.reading.dated import between
from spanbook.reading.records import Source, Supersession
from spanbook.register.model import Register
from spanbook.wording.orders import past_words, years_of
from spanbook.wording.pieces import plain
from spanbook.wording.summaries import source_summary
from spanbook.wording.years import when_words, year_words
from tests.answers.test_orders_plain import order_of
from tests.support.acts import key
from tests.support.plain_orders import PlainAct, Year, read, said
from tests.support.registers import record, register
from tests.support.rows import each_row
from tests.support.tries import tries

# The years of the worlds: what is before or after some year is in them, too.
FIRST, LAST = 1933, 1938
KINDS: tuple[Year, ...] = (None, 1935, (1934, 1936), "about 1936 ± 1", "before 1935", "after 1936")


def all_of(year: Year) -> range:
    first, last = said(year)
    return range(max(first, FIRST), min(last, LAST) + 1)


def act(id_: str, year: Year, old: str = "p", new: str = "q") -> PlainAct:
    return PlainAct(id_, ((old, 1),), ((new, 1),), year=year)


def built(*acts: PlainAct) -> Register:
    return register(*(record(one.yaml(), "supersession", one.id) for one in acts))


@pytest.mark.parametrize(
    ("text", "bounds", "words", "when"),
    [
        ("1936", (1936, 1936), "1936", "in 1936"),
        ("[1936, 1938]", (1936, 1938), "between 1936 and 1938", "between 1936 and 1938"),
        ("about 1936 ± 2", (1934, 1938), "about 1936 (1934 to 1938)", "about 1936 (1934 to 1938)"),
        ("about 1936 +- 2", (1934, 1938), "about 1936 (1934 to 1938)", "about 1936 (1934 to 1938)"),
        ("before 1936", (float("-inf"), 1935), "before 1936", "before 1936"),
        ("after 1936", (1937, float("inf")), "after 1936", "after 1936"),
    ],
)
def test_how_a_year_is_typed(text: str, bounds: tuple[float, float], words: str, when: str) -> None:
    for kind, id_, lines in (
        ("supersession", "a", "old: [{number: p}]\nnew: [{number: q}]\n"),
        ("source", "s", "title: The list\nclass: parts-book\n"),
    ):
        one = record(f"kind: {kind}\nid: {id_}\n{lines}year: {text}\n", kind, id_)
        assert isinstance(one, Supersession | Source)
        year = one.year
        assert year is not None
        assert (between(year), year_words(year), when_words(year)) == (bounds, words, when)
    assert isinstance(one, Source)
    assert source_summary(one, 1, 0) == f"Parts book, {words}. 1 statement rests on it."


@each_row(("one", "other"), list(itertools.product(KINDS, KINDS)))
def test_which_was_earlier_is_said_where_every_year_says_so(one: Year, other: Year) -> None:
    made = built(act("one", one), act("other", other))
    years, (a, b) = ActYears(made), (made.supersessions["one"], made.supersessions["other"])
    pairs = list(itertools.product(_far(one), _far(other)))
    assert years.before(a, b) == all(x < y for x, y in pairs)
    assert years.said_before(a, b) == years.before(a, b)
    later = [x >= y for x, y in pairs]
    earlier = [x < y for x, y in pairs]
    assert years.since(a, b) is (False if all(earlier) else True if all(later) else None)


def _far(year: Year) -> range:
    """All the years that may be meant, with some far away where nothing bounds it."""
    first, last = said(year)
    return range(max(first, 1900), min(last, 1990) + 1)


def test_a_source_bounds_what_the_year_leaves_open() -> None:
    book = record(
        "kind: source\nid: book\ntitle: B\nclass: parts-book\nyear: about 1934 ± 1\n", "source", "book"
    )
    for year, wanted in (
        (None, Made(None, 1935)),
        ("after 1933", Made(1934, 1935)),
        ((1934, 1940), Made(1934, 1935)),
        (1936, Made(1936, 1936)),  # a later printing says it
        (1930, Made(1930, 1930)),
    ):
        one = record(replace(act("one", year), sources=("book",)).yaml(), "supersession", "one")
        assert isinstance(one, Supersession)
        assert ActYears(register(book, one)).made(one) == wanted


def worlds_of_years(acts: list[PlainAct]) -> Iterator[list[PlainAct]]:
    for years in itertools.product(*(all_of(one.year) for one in acts)):
        yield [replace(one, year=year) for one, year in zip(acts, years, strict=True)]


def test_orders_in_a_year_are_those_of_every_world_of_years() -> None:
    """Acts that lead only onward, so that nothing comes back: what is sure is so whatever the years were,
    what may be is so for some of them."""
    told = perhaps = 0
    for seed in range(tries(60)):
        chance = random.Random(seed)
        acts = [_onward(f"act-{i}", chance) for i in range(chance.randint(1, 3))]
        made = built(*acts)
        for year, number in itertools.product((FIRST, 1935, LAST - 1), "abc"):
            found = Ordering(made, year=year).of(key(number), 1)
            mine = {order_of(way): str(way.grounds.applies) for way in found.alternatives}
            plain_ = [set(read(world, ("xa", 1), number, 1, year)) for world in worlds_of_years(acts)]
            sure, ever = set.intersection(*plain_), set.union(*plain_)
            assert mine == {order: "yes" if order in sure else "maybe" for order in ever}, (
                seed,
                year,
                number,
            )
            told, perhaps = told + 1, perhaps + (sure != ever)
    assert told >= 9 * tries(60)
    assert perhaps > told / 10


def _onward(id_: str, chance: random.Random) -> PlainAct:
    old, new = sorted(chance.sample("abcd", 2))
    return act(id_, chance.choice(KINDS[1:]), old, new)


def test_what_was_ordered_when_where_the_year_is_not_sure() -> None:
    made = built(act("out", "about 1934 ± 1"), act("back", "after 1936", "q", "p"))
    years = ActYears(made)
    assert [one.id for one in years.returns(key("p"))] == ["back"]
    rows = then(made, years, key("p"))
    assert [years_of(row.first, row.last) for row in rows] == [
        "to 1932",
        "1933 to 1934",
        "1935 to 1936",
        "from 1937",
    ]
    out, back = made.supersessions["out"], made.supersessions["back"]
    assert plain(past_words(out, back)).endswith("q replaced by p (after 1936).")
