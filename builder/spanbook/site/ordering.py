"""What to order now, and what else would do, as a page shows it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from spanbook.answers.condition import Condition
from spanbook.answers.instead import Instead, Way, substitutes
from spanbook.answers.orders import Alternative, Orders
from spanbook.answers.standing import Standing, weakest
from spanbook.answers.supersession import End, Need, Step, acts_of, tree
from spanbook.answers.then import then
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Supersession
from spanbook.register.model import Part
from spanbook.site.common import Linked, Site, Trust, linked, part_link
from spanbook.site.page import Link
from spanbook.site.trust import trust
from spanbook.wording.conditions import condition_words
from spanbook.wording.instead import fate_words, further_words, hop_title
from spanbook.wording.leaves import supply_words
from spanbook.wording.order_here import answer_words
from spanbook.wording.orders import (
    BROUGHT_BACK,
    ENDINGS,
    MOST_ACTS,
    further_acts,
    gives_words,
    past_words,
    sources_words,
    terms,
    then_words,
    years_of,
)
from spanbook.wording.standings import standing_word


@dataclass(frozen=True, slots=True)
class ActLine:
    """An act that something rests on, on whose word, with its standing."""

    link: Link
    sources: str
    standing: Standing
    word: str


@dataclass(frozen=True, slots=True)
class OrderLine:
    """A number of an order: how many, what that comes to, for whom, and by which acts (not all of many)."""

    quantity: int
    link: Link
    name: str
    supply: str
    when: str
    acts: tuple[ActLine, ...]
    further: str


@dataclass(frozen=True, slots=True)
class WayRow:
    """One complete way to order: for whom, all its numbers together, and the acts against it."""

    when: str
    lines: tuple[OrderLine, ...]
    against: tuple[ActLine, ...]


@dataclass(frozen=True, slots=True)
class StepRow:
    """One act of the tree: how deep it stands, what it gives, and on what terms and whose word."""

    depth: int
    act: Link
    gives: str
    terms: tuple[str, ...]
    trust: Trust


@dataclass(frozen=True, slots=True)
class InsteadWay:
    """Acts that lead to what would do: for whom, and the standing of the weakest of them."""

    when: str
    acts: tuple[Link, ...]
    standing: Standing
    word: str


@dataclass(frozen=True, slots=True)
class InsteadRow:
    """Numbers usable instead, each with its name and what became of it, by any of the ways."""

    numbers: tuple[tuple[Link, str, str], ...]
    together: bool
    ways: tuple[InsteadWay, ...]


@dataclass(frozen=True, slots=True)
class Ordered:
    """The answer, its ways where there is more to tell of them, the acts it goes by, those on the number that
    are past and what was ordered when, what else would do, and in words whether there is more of that."""

    answer: str
    ways: tuple[WayRow, ...]
    steps: tuple[StepRow, ...]
    past: tuple[Linked, ...]
    then: tuple[tuple[str, str], ...]
    instead: tuple[InsteadRow, ...]
    further: str | None


def of_part(site: Site, part: Part) -> Ordered:
    register = site.register
    following = site.answers.ordering.following
    found = site.answers.ordering.of(part.key)
    answer = answer_words(register, found, part.key, lambda act: site.answers.standing(act).standing)
    if not part.acted:
        return Ordered(answer, tuple(_ways(site, found)), (), (), (), (), None)
    would = substitutes(following, part.key)
    need = tree(following, part.key)
    return Ordered(
        answer=answer,
        ways=tuple(_ways(site, found)),
        steps=tuple(_step_rows(site, need)),
        past=tuple(linked(past_words(one.act, one.back)) for one in need.dropped if one.back),
        then=tuple(_then(site, part)),
        instead=tuple(_instead(site, one) for one in would.each),
        further=further_words(would),
    )


def _then(site: Site, part: Part) -> Iterator[tuple[str, str]]:
    """What was ordered when, years and words; those that say the same in one row."""
    rows = then(site.register, site.answers.ordering.following.years, part.key)
    said = ((one, then_words(site.register, one.orders, part.key)) for one in rows)
    for words, alike in groupby(said, key=lambda row: row[1]):
        each = [one for one, _same in alike]
        yield years_of(each[0].first, each[-1].last), words


def _ways(site: Site, found: Orders) -> Iterator[WayRow]:
    if len(found.alternatives) > 1 or not all(way.simple for way in found.alternatives):
        yield from (_way(site, way) for way in found.alternatives)


def _way(site: Site, way: Alternative) -> WayRow:
    lines = (
        OrderLine(
            leaf.quantity,
            part_link(site.register.parts[leaf.key]),
            site.register.parts[leaf.key].name,
            supply_words(site.register, leaf),
            "" if grounds.conditions == way.conditions else _when(site, grounds.conditions),
            _acts(site, grounds.acts),
            further_acts(grounds),
        )
        for leaf, grounds in zip(way.leaves, way.of_leaf, strict=True)
    )
    return WayRow(_when(site, way.conditions), tuple(lines), _acts(site, way.grounds.against))


def _when(site: Site, conditions: Sequence[Condition]) -> str:
    return condition_words(site.register, conditions)


def _acts(site: Site, acts: Sequence[Supersession]) -> tuple[ActLine, ...]:
    return tuple(_act(site, act) for act in acts[:MOST_ACTS])


def _act(site: Site, act: Supersession) -> ActLine:
    judged = site.answers.standing(act)
    word = standing_word(judged.standing)
    return ActLine(site.record_link(act), sources_words(judged), judged.standing, word)


def _step_rows(site: Site, need: Need) -> Iterator[StepRow]:
    for depth, one in acts_of(need):
        if one.act:
            limits = tuple(terms(site.register, one))
            yield StepRow(depth, site.record_link(one.act), _gives(site, one), limits, trust(site, one.act))


def _gives(site: Site, one: Step | End) -> str:
    if isinstance(one, End):
        return _(BROUGHT_BACK) if one.back else _(ENDINGS[one.ending])
    return gives_words(site.register, one)


def _instead(site: Site, one: Instead) -> InsteadRow:
    parts = (site.register.parts[key] for key in one.keys)
    numbers = zip(parts, one.fates, strict=True)
    named = tuple((part_link(part), part.name, fate_words(fates)) for part, fates in numbers)
    return InsteadRow(named, one.together, tuple(_instead_way(site, way) for way in one.ways))


def _instead_way(site: Site, way: Way) -> InsteadWay:
    acts = tuple(Link(hop_title(hop), site.record_link(hop.act).address) for hop in way.hops)
    standing = weakest(site.answers.standing(hop.act).standing for hop in way.hops)
    return InsteadWay(_when(site, [way.condition]), acts, standing, standing_word(standing))
