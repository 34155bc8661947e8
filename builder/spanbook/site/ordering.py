"""What to order now, and what else would do, in the words of a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.standing import Judgement, weakest
from spanbook.answers.supersession import (
    Ending,
    Instead,
    Leaf,
    Need,
    Orders,
    Step,
    order_now,
    orders,
    would_do,
)
from spanbook.register.model import Part, Register
from spanbook.site.common import Site, act_title, part_link
from spanbook.site.page import Link
from spanbook.site.trust import Trust, trust
from spanbook.wording.spans import listed, span_words


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
    standing: str


def answer(register: Register, found: Orders, need: Need) -> str:
    """What to order, in a sentence: `Order 4H-2241 and 2 × 4H-2242.`"""
    if need.ending is Ending.CURRENT:
        return "Nobody has replaced it: order it under its own number."
    if need.ending is Ending.GIVEN_UP:
        return "It is no longer supplied, and nothing replaces it."
    ways = [_way(register, way) for way in found.alternatives]
    more = " There are more ways than these." if found.more else ""
    return f"Order {'; or '.join(ways)}.{more}"


def _way(register: Register, way: tuple[Leaf, ...]) -> str:
    return listed([_leaf(register, leaf) for leaf in way])


def _leaf(register: Register, leaf: Leaf) -> str:
    number = register.parts[leaf.key].number
    counted = number if leaf.quantity == 1 else f"{leaf.quantity} × {number}"
    return counted + (" (no longer supplied)" if leaf.supplied == "no" else "")


def of_part(site: Site, part: Part) -> tuple[str, tuple[StepRow, ...], tuple[InsteadRow, ...]]:
    """The answer, the acts it goes by, and what else would do."""
    register = site.register
    need = order_now(register, part.key)
    instead = tuple(_instead(site, one) for one in would_do(register, part.key))
    return answer(register, orders(register, need), need), tuple(step_rows(site, need)), instead


def step_rows(site: Site, need: Need, depth: int = 0) -> Iterator[StepRow]:
    """Every act of a tree in order, each below what it follows from."""
    for step in need.steps:
        gives = listed([_counted(site, child) for child in step.gives])
        yield StepRow(
            depth,
            site.record_link(step.act),
            gives,
            tuple(_terms(site, step)),
            trust(site, site.register.statements_of[step.act][0]),
        )
        for child in (*step.gives, *step.besides):
            yield from step_rows(site, child, depth + 1)


def _counted(site: Site, need: Need) -> str:
    number = site.register.parts[need.key].number
    counted = number if need.quantity == 1 else f"{need.quantity} × {number}"
    return f"{counted} ({need.ending})" if need.ending and need.ending is not Ending.CURRENT else counted


def _terms(site: Site, step: Step) -> Iterator[str]:
    parts, series = site.register.parts, site.register.series
    if step.maybe:
        yield "may apply to this machine: its number is in the uncertain part"
    if step.together:
        yield f"replaces it together with {listed([f'{n} × {parts[k].number}' for k, n in step.together])}"
    if step.spare:
        yield f"{step.spare} of the old number to spare"
    if step.besides:
        yield f"needs {listed([_counted(site, need) for need in step.besides])} with it"
    for need in step.conversions:
        title = site.register.conversions[need.conversion or ""].title
        yield f"needs the conversion {title}"
    if step.act.serials:
        spans = "; ".join(span_words(s, series[s.series]) for s in step.act.serials)
        yield f"only {spans}"
    if step.act.interchange == "both":
        yield "the old may also serve for the new"


def _instead(site: Site, one: Instead) -> InsteadRow:
    links = tuple(part_link(site.register.parts[key]) for key in one.keys)
    way = tuple(
        Link(f"{act_title(hop.act)}{', back' if hop.back else ''}", site.record_link(hop.act).address)
        for hop in one.path
    )
    standing = weakest(judged.standing for judged in _judged(site, one))
    return InsteadRow(links, one.together, way, str(standing))


def _judged(site: Site, one: Instead) -> Iterator[Judgement]:
    return (site.judged[s] for hop in one.path for s in site.register.statements_of[hop.act])
