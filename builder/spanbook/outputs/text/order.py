"""What to order, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.answers import Answers
from spanbook.answers.instead import Instead, Substitutes
from spanbook.answers.listed import Listed
from spanbook.answers.orders import Alternative, Orders, orders
from spanbook.answers.standing import weakest
from spanbook.answers.supersession import End, Need, Step, acts_of
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import labelled
from spanbook.wording import order_here
from spanbook.wording.instead import WOULD_DO, further_words, instead_words
from spanbook.wording.leaves import leaf_words
from spanbook.wording.numbers import asked_words
from spanbook.wording.orders import (
    dropped_words,
    end_words,
    grounds_words,
    step_words,
    unanswered_words,
)

INDENT = "  "


def as_text(
    answers: Answers, number: str, need: Need, found: Orders, would: Substitutes, lists: Sequence[Listed]
) -> str:
    """The answer first, then every way with what it rests on, act by act on what terms, and what would do."""
    register = answers.register
    machine = next((one.machine for one in lists if one.machine), None)

    def ordered(key: PartKey) -> Orders:
        return found if key == need.key else orders(register, key, need.quantity, machine, found.year)

    said = order_here.lines(register, need.key, lists, ordered, lambda act: answers.standing(act).standing)
    lines = [f"{INDENT * depth}{words}" for depth, words in said]
    if asked := asked_words(register, number, need.key):
        lines[0] = f"{asked} {lines[0]}"
    if len(found.alternatives) > 1 or not all(way.simple for way in found.alternatives):
        lines += (INDENT + line for way in found.alternatives for line in _way(answers, way))
    for depth, one in acts_of(need):
        lines.append(INDENT * (depth + 1) + _act(answers, one))
    lines += [INDENT + dropped_words(dropped) for dropped in need.dropped]
    if would.each:
        lines.append(_(WOULD_DO))
        lines += (INDENT + _instead(answers, one) for one in would.each)
    if further := further_words(would):
        lines.append(INDENT + further)
    return "\n".join(lines)


def unanswered(why: str, suggestions: Sequence[str]) -> str:
    """That a query cannot be answered, why, and what to try."""
    return unanswered_words(why, suggestions)


def _way(answers: Answers, way: Alternative) -> Iterator[str]:
    """Each of its numbers with what it comes to, and what that rests on."""
    for leaf, grounds in zip(way.leaves, way.of_leaf, strict=True):
        judged = [answers.standing(act) for act in grounds.acts]
        yield labelled(
            leaf_words(answers.register, leaf), f"{grounds_words(answers.register, grounds, judged)}."
        )


def _act(answers: Answers, one: Step | End) -> str:
    if isinstance(one, Step):
        return step_words(answers.register, one, answers.standing(one.act))
    return end_words(answers.register, one, answers.standing(one.act) if one.act else None)


def _instead(answers: Answers, one: Instead) -> str:
    standings = (weakest(answers.standing(hop.act).standing for hop in way.hops) for way in one.ways)
    return instead_words(answers.register, one, tuple(standings))
