"""Orders held against a plain reading of the acts, over hundreds of worlds drawn at random."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from spanbook.answers.circles import circles_of_needs, cycles
from spanbook.answers.condition import Applies, Condition
from spanbook.answers.instead import Way, would_do
from spanbook.answers.orders import Alternative, Ordering, Supply
from spanbook.answers.readings import reading_of
from spanbook.ground.intervals import Covers
from spanbook.register.model import Register
from tests.support.acts import key
from tests.support.plain_orders import (
    ISSUED,
    SOURCES,
    Leaf,
    Machine,
    Order,
    PlainAct,
    PlainSpan,
    Year,
    brings_back,
    circles,
    instead,
    read,
)
from tests.support.registers import record, register

pytestmark = pytest.mark.slow

WORLDS = 400
NUMBERS = "abcde"
ENDINGS = {
    Supply.UNKNOWN: "current",
    Supply.GIVEN_UP: "given up",
    Supply.CIRCLE: "circle",
    Supply.NEEDS_CIRCLE: "circle of needs",
}
YEARS: tuple[Year, ...] = (
    *(None, 1934, 1936, 1938, 1934, 1936, 1938),
    *((1934, 1936), "about 1936 ± 1", "before 1935", "after 1936"),
)
LOOKED_AT = [("xa", n) for n in (1, 4, 6, 7, 10, 13, 16, 20)] + [("xb", n) for n in (15, 18, 27, 40)]


def world(seed: int) -> list[PlainAct]:
    """A few acts on five numbers: limits with pairs as bounds, needs, give-ups, sources that differ."""
    chance = random.Random(seed)
    return [_act(f"act-{i}", chance) for i in range(chance.randint(1, 6))]


def _act(id_: str, chance: random.Random) -> PlainAct:
    def some(most: int) -> tuple[tuple[str, int], ...]:
        numbers = chance.sample(NUMBERS, chance.choices(range(1, most + 1), [8, 2, 1][:most])[0])
        return tuple((n, chance.choice((1, 1, 1, 2, 3))) for n in numbers)

    sort = chance.choices(("gives", "given up", "current", "again"), (7, 2, 1, 1))[0]
    spans = tuple(_span(chance) for _ in range(chance.choices((0, 1, 2), (5, 4, 1))[0]))
    return PlainAct(
        id_,
        old=some(2),
        new=some(2) if sort == "gives" else (),
        current=sort == "current",
        again=sort == "again",
        alternative=chance.random() < 0.15,
        both=chance.random() < 0.4,
        needs=some(1) if sort == "gives" and chance.random() < 0.25 else (),
        spans=spans,
        sources=tuple(chance.sample(("book", "letter", "list"), chance.choices((0, 1, 2), (2, 6, 1))[0])),
        year=chance.choice(YEARS),
    )


def _span(chance: random.Random) -> PlainSpan:
    series = chance.choice(("xa", "xa", "xb"))
    a, b, c, d = sorted(chance.choices(ISSUED[series], k=4))
    firm = chance.random() < 0.5
    return PlainSpan(series, (a, a if firm else b), (d if firm else c, d))


def built(acts: list[PlainAct]) -> Register:
    sources = [
        record(
            f"kind: source\nid: {id_}\ntitle: {id_}\nclass: parts-book\n"
            + (f"year: {year}\n" if year else ""),
            "source",
            id_,
        )
        for id_, year in SOURCES.items()
    ]
    return register(*sources, *(record(act.yaml(), "supersession", act.id) for act in acts))


def order_of(way: Alternative) -> Order:
    return frozenset(((leaf.key.number, ENDINGS[leaf.supply]), leaf.quantity) for leaf in way.leaves)


def at(conditions: tuple[Condition, ...], machine: Machine) -> str | None:
    """What conditions told of every machine come to for one."""
    values = set()
    for one in conditions:
        covers = Covers.YES if one.machines is None else one.machines.in_series(machine[0]).covers(machine[1])
        values.add(Covers.MAYBE if covers is Covers.YES and (one.made or one.unmade) else covers)
    return next((str(value) for value in (Covers.YES, Covers.MAYBE) if value in values), None)


def held(acts: list[PlainAct], machines: list[Machine], quantity: int, year: int | None, seed: int) -> int:
    """Holds the orders of a world against the plain reading; gives how many were."""
    told = 0
    made = built(acts)
    everybody = {number: Ordering(made, year=year).of(key(number), quantity) for number in NUMBERS}
    for machine in machines:
        ordering = Ordering(made, reading_of(made.series[machine[0]], machine[1]), year)
        for number in NUMBERS:
            wanted = read(acts, machine, number, quantity, year)
            found = ordering.of(key(number), quantity)
            if found.more or everybody[number].more:
                continue
            where = (seed, machine, number, year)
            mine = {order_of(way): way for way in found.alternatives}
            assert len(mine) == len(found.alternatives), where
            values = {order: str(way.grounds.applies) for order, way in mine.items()}
            assert values == {order: word for order, (word, _) in wanted.items()}, where
            for order, way in mine.items():
                led: dict[Leaf, set[str]] = {
                    (leaf.key.number, ENDINGS[leaf.supply]): {act.id for act in grounds.acts}
                    for leaf, grounds in zip(way.leaves, way.of_leaf, strict=True)
                }
                assert led == wanted[order][1].led, where
            of_all = {
                order_of(way): word
                for way in everybody[number].alternatives
                if (word := at(way.conditions, machine))
            }
            assert of_all == values, where
            told += 1
    return told


@pytest.mark.parametrize("block", range(8))
def test_orders_are_what_a_plain_reading_gives(block: int) -> None:
    told = 0
    for seed in range(block * WORLDS // 8, (block + 1) * WORLDS // 8):
        told += held(world(seed), LOOKED_AT, 1 + seed % 3, None, seed)
    assert told > WORLDS // 8 * len(LOOKED_AT) * len(NUMBERS) * 0.9


ROUGHLY: tuple[Year, ...] = ((1931, 1932), "before 1932", "about 1939 ± 1", "after 1937")


def timed(seed: int) -> list[PlainAct]:
    """Acts that go to and fro between a few numbers, most of them with years."""
    chance = random.Random(seed)

    def one(id_: str) -> PlainAct:
        act = _act(id_, chance)
        old, new = chance.sample("abc", 2)
        gives = chance.random() < 0.75
        return replace(
            act,
            old=((old, 1),) if gives else act.old,
            new=((new, 1),) if gives else act.new,
            current=act.current and not gives,
            again=act.again and not gives,
            needs=(),
            spans=act.spans[:1] if chance.random() < 0.3 else (),
            sources=act.sources if chance.random() < 0.5 else ("book",),
            year=chance.choice((None, *range(1931, 1940), *ROUGHLY)),
        )

    return [one(f"act-{i}") for i in range(chance.randint(2, 6))]


TIMED_AT = [("xa", 4), ("xa", 13), ("xb", 27)]


@pytest.mark.parametrize("block", range(8))
def test_orders_with_years_are_what_a_plain_reading_gives(block: int) -> None:
    told = back = 0
    for seed in range(block * WORLDS // 8, (block + 1) * WORLDS // 8):
        acts = timed(seed)
        back += any(brings_back(acts, act, number) for act in acts for number in NUMBERS)
        for year in (None, 1930, 1934, 1936, 1938):
            told += held(acts, TIMED_AT, 1, year, seed)
    assert told > WORLDS // 8 * 5 * len(TIMED_AT) * len(NUMBERS) * 0.9
    assert back > WORLDS // 8 * 0.3, "many worlds have numbers that came back"


def held_instead(acts: list[PlainAct], machines: list[Machine], year: int | None, seed: int) -> None:
    """Holds what would do in a world against the plain reading."""
    made = built(acts)
    everybody = {number: would_do(made, key(number), year=year) for number in NUMBERS}
    for machine in machines:
        reading = reading_of(made.series[machine[0]], machine[1])
        for number in NUMBERS:
            plain = instead(acts, machine, number, year)
            wanted = {frozenset(keys): word for keys, word in plain.items()}
            found = would_do(made, key(number), reading, year)
            mine = {frozenset(k.number for k in one.keys): best(one.ways) for one in found.each}
            assert mine == wanted, (seed, machine, number, year)
            of_all = {
                frozenset(k.number for k in one.keys): word
                for one in everybody[number].each
                if (word := at(tuple(way.condition for way in one.ways), machine))
            }
            assert of_all == wanted, (seed, machine, number, year)


@pytest.mark.parametrize("block", range(8))
def test_what_would_do_is_what_a_plain_reading_gives(block: int) -> None:
    for seed in range(block * WORLDS // 8, (block + 1) * WORLDS // 8):
        held_instead(world(seed), LOOKED_AT, None, seed)
        held_instead(timed(seed), TIMED_AT, 1930 + seed % 10, seed)


def best(ways: tuple[Way, ...]) -> str:
    return next(str(value) for value in Applies if any(way.condition.applies is value for way in ways))


@pytest.mark.parametrize("block", range(4))
def test_circles_are_what_a_plain_reading_finds(block: int) -> None:
    told = [0, 0]
    for seed in range(block * WORLDS // 4, (block + 1) * WORLDS // 4):
        for acts in (world(seed), timed(seed)):
            made = built(acts)
            found = bool(cycles(made)), bool(circles_of_needs(made))
            assert found == circles(acts), seed
            told = [n + one for n, one in zip(told, found, strict=True)]
    assert all(told), "some worlds have circles"
