"""What to order now, and on what terms."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.orders import Leaf, Orders
from spanbook.answers.standing import Judgement
from spanbook.answers.supersession import DEEPEST, Dropped, Ending, Hop, Need, Step, Substitutes
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import SeriesSpan
from spanbook.register.model import Register
from spanbook.wording.grammar import counted, listed, times
from spanbook.wording.records import act_title
from spanbook.wording.spans import span_words
from spanbook.wording.standings import word_of

# A number that nobody has replaced is simply ordered.
ENDINGS = {
    Ending.GIVEN_UP: "no longer supplied",
    Ending.CIRCLE: "leads back to itself",
    Ending.TOO_MANY: "too many to follow",
    Ending.GOES_ON: "goes on under that number",
}


def order_words(register: Register, found: Orders, need: Need) -> str:
    """What to order, in a sentence: `Order WH-2241 and 2 × WH-2242.`"""
    if need.ending is Ending.CURRENT:
        return "Nobody has replaced it: order it under its own number."
    if need.ending is Ending.GIVEN_UP:
        return "It is no longer supplied, and nothing replaces it."
    more = " There are more ways than these." if found.more else ""
    return f"Order {ways_words(register, found.alternatives)}.{more}"


def ways_words(register: Register, ways: tuple[tuple[Leaf, ...], ...]) -> str:
    """Every complete way to order: `WH-2241 and 2 × WH-2242; or WH-2250`."""
    return "; or ".join(listed([_leaf(register, leaf) for leaf in way]) for way in ways)


def _leaf(register: Register, leaf: Leaf) -> str:
    ended = f" ({ENDINGS[Ending.GIVEN_UP]})" if leaf.supplied == "no" else ""
    replaced = "" if leaf.followed else " or what replaces it"
    return times(leaf.quantity, _number(register, leaf.key)) + ended + replaced


def step_words(register: Register, step: Step, judged: Judgement) -> str:
    """An act of the tree in a line: what it gives, on what terms, and on whose word."""
    told = list(terms(register, step))
    limits = f" ({'; '.join(told)})" if told else ""
    return f"{act_title(step.act)}: {gives_words(register, step)}{limits}. {word_of(judged)}"


def gives_words(register: Register, step: Step) -> str:
    """What stands for the old number after an act."""
    return _needs(register, step.gives)


def _needs(register: Register, needs: tuple[Need, ...]) -> str:
    return listed([_need(register, need) for need in needs])


def _need(register: Register, need: Need) -> str:
    how = ENDINGS.get(need.ending) if need.ending else None
    return times(need.quantity, _number(register, need.key)) + (f" ({how})" if how else "")


def terms(register: Register, step: Step) -> Iterator[str]:
    """On what terms an act of the tree holds, a phrase each."""
    if step.maybe:
        yield "may apply to this machine: its number is in the uncertain part"
    if step.together:
        others = listed([counted(n, _number(register, key)) for key, n in step.together])
        yield f"replaces it together with {others}"
    if step.spare:
        yield f"{step.spare} of the old number to spare"
    if step.besides:
        yield f"needs {_needs(register, step.besides)} with it"
    for need in step.conversions:
        yield f"needs the conversion {register.conversions[need.conversion or ''].title}"
    if step.act.serials:
        yield limit_words(register, step.act.serials)
    if step.act.interchange == "both":
        yield "the old may also serve for the new"


def limit_words(register: Register, spans: tuple[SeriesSpan, ...]) -> str:
    """To which machines an act is limited."""
    return f"only {'; '.join(span_words(span, register.series[span.series]) for span in spans)}"


def hop_title(hop: Hop) -> str:
    """An act on the way to what would also do."""
    return f"{act_title(hop.act)}, back" if hop.back else act_title(hop.act)


def further_words(found: Substitutes) -> str | None:
    """That what would do reaches further than it is told."""
    return f"Others are more than {DEEPEST} acts away: see the numbers above." if found.more else None


def dropped_words(dropped: Dropped) -> str:
    return f"{dropped.act.id} does not apply: it is {DROPPED}."


DROPPED = "limited to other machines"


def _number(register: Register, key: PartKey) -> str:
    return register.parts[key].number
