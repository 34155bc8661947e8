"""Worn serial numbers: one number stands for all that the records tell alike, and tells the same as all."""

from __future__ import annotations

import random

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.bounds import bounds_of
from spanbook.answers.breaks import Break, NotCounted, all_breaks, numbers_seen
from spanbook.answers.changepoint import Rates
from spanbook.answers.readings import Reading, may_be
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import standings
from spanbook.ground.serials import Worn
from spanbook.reading.records import Assembly, FittedSpan, Record, Series, Teardown
from spanbook.register.model import Register
from tests.support.registers import lid, record, register
from tests.support.tries import tries


class Every(Fits):
    """Every number that a worn one may be, for itself."""

    def _samples(self, asked: tuple[Teardown, str]) -> tuple[Reading, ...]:
        teardown, _ = asked
        found = may_be(self.register, teardown.serial)
        return tuple(r for r in found if teardown.series in (None, r.series.id))


def _world(chance: random.Random) -> Register:
    def end(low: int) -> str:
        return chance.choice([str(low), f"[{low}, {low + chance.randrange(1, 30)}]", "unknown"])

    def span() -> str:
        first = chance.randrange(1, 150)
        fitted = chance.choice(["", ", fitted: field", ", fitted: service", ", option: true"])
        return f"first: {end(first)}, last: {chance.choice([end(first + 40), 'open'])}{fitted}"

    records: list[Record] = [lid(id_, span()) for id_ in "abcd"]
    for i in range(3):
        start, to = chance.sample("abcd", 2)
        text = (
            f"kind: conversion\nid: c-{i}\ntitle: C\nposition: cover\nfrom: [{start}]\nto: {to}\n"
            f"serials: [{{series: xa, first: {chance.randrange(1, 150)}, last: open}}]\n"
        )
        records.append(record(text, "conversion", f"c-{i}"))
    for i in range(12):
        serial = "".join(chance.choice("0123456789"[: 2 if at == 0 else 10] + "??") for at in range(3))
        text = (
            f"kind: teardown\nid: t-{i}\ndate: 2024\nseen-by: me\nserial: XA {serial}\n"
            f"condition: {chance.choice(['untouched', 'likely-original', 'altered'])}\n"
            f"found: [{{position: cover, assembly: {chance.choice('abcd')}}}]\n"
        )
        records.append(record(text, "teardown", f"t-{i}"))
    return register(*records, last="190")


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(tries(40)))
def test_one_number_of_each_piece_tells_as_much_as_all(seed: int) -> None:
    made = _world(random.Random(seed))
    assert standings(Fits(made)) == standings(Every(made))


def _told(one: Break, fits: Fits) -> tuple[list[int], list[str]]:
    """By every number that each may be: the lowest of those that count, and those that lie on either side."""
    counted, either = [], []
    series = one.series
    first = bounds_of(_span(one.earlier, series), series)[0].low
    last = bounds_of(_span(one.later, series), series)[1].high
    for teardown, find in fits.finds(series, one.position):
        readings = fits.samples((teardown, one.position))
        numbers = [reading.number for reading in readings]
        if any(reading.series is not series for reading in readings):
            continue
        if find.assembly not in (one.earlier.id, one.later.id) or find.condition == "altered":
            continue
        if numbers and all(first <= number <= last for number in numbers):
            sides = {(n < one.report.claim.first, n >= one.report.claim.last) for n in numbers}
            clear = len(numbers) == 1 or (len(sides) == 1 and sides != {(False, False)})
            either += [] if clear else [teardown.id]
            counted += [min(numbers)] if clear else []
    return sorted(counted), sorted(either)


def _span(assembly: Assembly, series: Series) -> FittedSpan:
    return next(span for span in assembly.serials if span.series == series.id)


@pytest.mark.parametrize("seed", range(tries(40)))
def test_a_worn_number_tells_of_a_break_when_all_it_may_be_tell_the_same(seed: int) -> None:
    made = _world(random.Random(seed))
    for one in all_breaks(Fits(made), Rates()):
        counted = sorted(observation.number for observation in one.report.observations)
        either = sorted(u.teardown.id for u in one.unused if u.why is NotCounted.EITHER_SIDE)
        assert (counted, either) == _told(one, Every(made))


def test_the_worlds_have_what_matters() -> None:
    wanted = {Weight.SEEN, Weight.AGAINST, Weight.EXPLAINED, Weight.SET_ASIDE}
    told: set[Weight] = set()
    for seed in range(40):
        judged = standings(Fits(_world(random.Random(seed)))).values()
        told |= {reason.weight for judgement in judged for reason in judgement.reasons}
        if told >= wanted:
            break
    assert told == wanted


def _worn(count: int) -> Register:
    lids = [
        lid(f"l-{i}", f"first: {1 + 600 * i}, last: [{590 + 600 * i}, {600 + 600 * i}]") for i in range(16)
    ]
    seen = [
        record(
            f"kind: teardown\nid: t-{i}\ndate: 2024\nseen-by: me\nserial: XA ????\nseries: xa\n"
            f"condition: untouched\nfound: [{{position: cover, assembly: l-{i % 16}}}]\n",
            "teardown",
            f"t-{i}",
        )
        for i in range(count)
    ]
    return register(*lids, *seen, last="9999")


@pytest.mark.slow
def test_three_hundred_numbers_of_four_worn_digits_cost_what_the_records_cut(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Not the ten thousand numbers that each may be: those took 0.7 seconds for every teardown."""
    asked = [0]
    plain = Worn.first_from

    def counted(worn: Worn, number: int) -> int | None:
        asked[0] += 1
        return plain(worn, number)

    monkeypatch.setattr(Worn, "first_from", counted)
    fits = Fits(_worn(300))
    assert len(standings(fits)) == 18
    assert list(all_breaks(fits, Rates()))
    assert numbers_seen(fits, fits.register.series["xa"]) == ()
    assert 300 < asked[0] < 300 * 200


def test_a_worn_number_that_can_be_one_only_is_that_one() -> None:
    text = (
        "kind: teardown\nid: t\ndate: 2024\nseen-by: me\nserial: XA 2?\nseries: xa\n"
        "condition: untouched\nfound: [{position: cover, note: x}]\n"
    )
    fits = Fits(register(record(text, "teardown", "t")))  # the series ends with 20
    assert numbers_seen(fits, fits.register.series["xa"]) == (20,)
