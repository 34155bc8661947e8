"""What to order now, and what else would do, as a page shows it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.standing import Judgement, Standing, weakest
from spanbook.answers.supersession import Instead, Need, order_now, steps_of, would_do
from spanbook.register.model import Part
from spanbook.site.common import Site, Trust, part_link
from spanbook.site.page import Link
from spanbook.site.trust import trust
from spanbook.wording.orders import further_words, gives_words, hop_title, order_words, terms
from spanbook.wording.standings import STANDINGS


@dataclass(frozen=True, slots=True)
class StepRow:
    """One act of the tree: how deep it stands, what it gives, and on what terms and whose word."""

    depth: int
    act: Link
    gives: str
    terms: tuple[str, ...]
    trust: Trust


@dataclass(frozen=True, slots=True)
class InsteadRow:
    """Numbers usable instead; the standing of the way there is that of its weakest act."""

    links: tuple[Link, ...]
    together: bool
    way: tuple[Link, ...]
    standing: Standing
    word: str


@dataclass(frozen=True, slots=True)
class Ordered:
    """The answer, the acts it goes by, what else would do, and in words whether there is more of that."""

    answer: str
    steps: tuple[StepRow, ...]
    instead: tuple[InsteadRow, ...]
    further: str | None


def of_part(site: Site, part: Part) -> Ordered:
    register = site.register
    need = order_now(register, part.key)
    would = would_do(register, part.key)
    return Ordered(
        answer=order_words(register, site.answers.ordering.of(part.key), need),
        steps=tuple(_step_rows(site, need)),
        instead=tuple(_instead(site, one) for one in would.each),
        further=further_words(would),
    )


def _step_rows(site: Site, need: Need) -> Iterator[StepRow]:
    register = site.register
    for depth, step in steps_of(need):
        yield StepRow(
            depth,
            site.record_link(step.act),
            gives_words(register, step),
            tuple(terms(register, step)),
            trust(site, step.act),
        )


def _instead(site: Site, one: Instead) -> InsteadRow:
    links = tuple(part_link(site.register.parts[key]) for key in one.keys)
    way = tuple(Link(hop_title(hop), site.record_link(hop.act).address) for hop in one.path)
    standing = weakest(judged.standing for judged in _judged(site, one))
    return InsteadRow(links, one.together, way, standing, STANDINGS[standing])


def _judged(site: Site, one: Instead) -> Iterator[Judgement]:
    return (site.answers.standing(hop.act) for hop in one.path)
