"""What to order, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.answers import Answers
from spanbook.answers.instead import Instead, Substitutes
from spanbook.answers.listed import Listed
from spanbook.answers.orders import Alternative, Orders, orders
from spanbook.answers.standing import weakest
from spanbook.answers.supersession import End, Need, Step, acts_of
from spanbook.ground.intervals import Covers
from spanbook.ground.part_numbers import PartKey
from spanbook.wording.instead import WOULD_DO, further_words, instead_words
from spanbook.wording.leaves import leaf_words
from spanbook.wording.lines import listed_words, number_words
from spanbook.wording.numbers import asked_words
from spanbook.wording.orders import (
    dropped_words,
    end_words,
    grounds_words,
    order_words,
    step_words,
    unanswered_words,
)

INDENT = "  "


def as_text(
    answers: Answers, number: str, need: Need, found: Orders, would: Substitutes, lists: Sequence[Listed]
) -> str:
    """The answer first, then every way with what it rests on, act by act on what terms, and what would do."""
    register = answers.register
    lines = [words for one in lists for words in _listed(answers, need, one, found.year)]
    asked = asked_words(register, number, need.key)
    if lists and all(one.covers is Covers.NO for one in lists):
        # That the machine does not have it, and what it has, comes before what is ordered for it.
        lines.append(_of(answers, need.key, found))
        lines[:0] = [asked] if asked else []
    else:
        lines.insert(0, " ".join(filter(None, (asked, order_words(register, found, need.key)))))
    if len(found.alternatives) > 1 or not all(way.simple for way in found.alternatives):
        lines += (INDENT + line for way in found.alternatives for line in _way(answers, way))
    for depth, one in acts_of(need):
        lines.append(INDENT * (depth + 1) + _act(answers, one))
    lines += [INDENT + dropped_words(dropped) for dropped in need.dropped]
    if would.each:
        lines.append(WOULD_DO)
        lines += (INDENT + _instead(answers, one) for one in would.each)
    if further := further_words(would):
        lines.append(INDENT + further)
    return "\n".join(lines)


def _listed(answers: Answers, need: Need, one: Listed, year: int | None) -> Iterator[str]:
    """What a list says of the number, and what is ordered of that which the machine has in its place."""
    if words := listed_words(answers.register, one):
        yield words
    if one.machine and one.covers is Covers.NO:
        for key in dict.fromkeys(key for other in one.instead for key in other.line.keys):
            yield _of(answers, key, orders(answers.register, key, need.quantity, one.machine, year))


def _of(answers: Answers, key: PartKey, found: Orders) -> str:
    """What is ordered for a number, with the number before it."""
    return f"{INDENT}{number_words(answers.register, key)}: {order_words(answers.register, found, key)}"


def unanswered(why: str, suggestions: Sequence[str]) -> str:
    """That a query cannot be answered, why, and what to try."""
    return unanswered_words(why, suggestions)


def _way(answers: Answers, way: Alternative) -> Iterator[str]:
    """Each of its numbers with what it comes to, and what that rests on."""
    for leaf, grounds in zip(way.leaves, way.of_leaf, strict=True):
        judged = [answers.standing(act) for act in grounds.acts]
        yield f"{leaf_words(answers.register, leaf)}: {grounds_words(answers.register, grounds, judged)}."


def _act(answers: Answers, one: Step | End) -> str:
    if isinstance(one, Step):
        return step_words(answers.register, one, answers.standing(one.act))
    return end_words(answers.register, one, answers.standing(one.act) if one.act else None)


def _instead(answers: Answers, one: Instead) -> str:
    standings = (weakest(answers.standing(hop.act).standing for hop in way.hops) for way in one.ways)
    return instead_words(answers.register, one, tuple(standings))
