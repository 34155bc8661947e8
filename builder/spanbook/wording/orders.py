"""What to order now, and on what terms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.condition import Applies
from spanbook.answers.onward import Dropped, Ending, Why
from spanbook.answers.orders import Alternative, Grounds, Orders, Supply
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Judgement
from spanbook.answers.supersession import End, Need, Step
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import SeriesSpan, Supersession
from spanbook.register.model import Register
from spanbook.wording.conditions import condition_words
from spanbook.wording.grammar import capital, counted, listed, plural, stopped, times
from spanbook.wording.leaves import leaf_words, number_words, sets_words, supply_words
from spanbook.wording.numbers import UNCLEAR, part_title
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import act_title
from spanbook.wording.spans import span_words
from spanbook.wording.standings import reason_title, word_of
from spanbook.wording.years import when_words, year_words

ENDINGS = {
    Ending.CURRENT: "still current",
    Ending.GIVEN_UP: "no longer supplied",
    Ending.CIRCLE: "leads back to itself",
    Ending.NEEDS_CIRCLE: "part of a circle of needs",
    Ending.TOO_MANY: "too many to follow",
    Ending.GOES_ON: "goes on under that number",
}
MOST_ACTS = 12  # named in a sentence


def order_words(register: Register, found: Orders, key: PartKey) -> str:
    """What to order for a number, in a sentence: `Order WH-2241 and 2 × WH-2242.`"""
    ways = found.alternatives
    if found.year is not None:
        return _in_year(register, found, key, found.year)
    only = ways[0] if len(ways) == 1 and ways[0].conditions[0].plain else None
    alone = only.leaves[0] if only and len(only.leaves) == 1 and only.leaves[0].key == key else None
    if only and alone and alone.followed and not only.grounds.against:
        told = _alone(alone.supply, by_act=not only.own, back=_brought_back(only))
        return f"{told}{_sets(register, ways)}"
    told = _clauses(register, ways, key, quiet=_all_unknown(ways))
    differ = "Sources differ, and nothing is picked: " if any(w.grounds.against for w in ways) else ""
    more = " There are more ways than these." if found.more else ""
    return (
        f"{stopped(differ + told if differ else capital(told))}{_unknown(ways)}{_sets(register, ways)}{more}"
    )


def _in_year(register: Register, found: Orders, key: PartKey, year: int) -> str:
    """What was ordered in a year, by what had been done by then."""
    told = stopped(f"As in {year}: {then_words(register, found, key)}")
    first = found.first_named
    unnamed = f" It is first named in {first}: whether it was there before is not known." if first else ""
    return told + unnamed + (" There are more ways than these." if found.more else "")


def then_words(register: Register, found: Orders, key: PartKey) -> str:
    """What was ordered in a year: `order WH-2240`."""
    ways = found.alternatives
    differ = "sources differ, and nothing is picked: " if any(w.grounds.against for w in ways) else ""
    return differ + _clauses(register, ways, key, quiet=True)


def years_of(first: int | None, last: int | None) -> str:
    """From a year to another, as a row of a table begins."""
    if first is None:
        return f"to {last}"
    return f"from {first}" if last is None else f"{first}" if first == last else f"{first} to {last}"


def past_words(act: Supersession, back: Supersession) -> Pieces:
    """An act that is past, and by which the number was brought back: for a page."""
    begun, when = (f" ({year_words(one.year)})" if one.year else "" for one in (act, back))
    past = f"{begun} is past: the number was brought back by "
    return Ref(act_title(act), act), past, Ref(act_title(back), back), f"{when}."


def _brought_back(way: Alternative) -> Supersession | None:
    """The act that brought a number back, where it is ordered under its own number."""
    return next((act for act in reversed(way.grounds.acts) if act.new or act.again), None)


def _alone(supply: Supply, *, by_act: bool, back: Supersession | None) -> str:
    """A number that is ordered itself, or cannot be."""
    if supply is Supply.GIVEN_UP:
        return (
            f"It is no longer supplied, and {'nothing replaces it' if by_act else 'nobody has replaced it'}."
        )
    if supply is Supply.UNCLEAR:
        return f"{capital(UNCLEAR)}: ask for a machine by its serial number."
    if supply is Supply.IN_SET:
        return f"{'It is still current' if by_act else 'Nobody has replaced it'}: it is sold only in a set."
    sure = "it is still supplied" if supply is Supply.SUPPLIED else "whether it is supplied is not known"
    if back:
        when = f" {when_words(back.year)}" if back.year else ""
        return f"It was withdrawn, and brought back{when}: order it under its own number; {sure}."
    return f"Nobody has replaced it: order it under its own number; {sure}."


def _sets(register: Register, ways: Sequence[Alternative]) -> str:
    """Which sets to order for what is sold only in them, after the sentence of the ways."""
    told = dict.fromkeys(words for way in ways if (words := sets_words(register, way)))
    return "".join(f" {words}" for words in told)


def _unknown(ways: Sequence[Alternative]) -> str:
    """That nothing is known of the supply, said once where it is so of every number."""
    if not _all_unknown(ways):
        return ""
    numbers = {leaf.key for way in ways for leaf in way.leaves}
    return plural(
        len(numbers), " Whether it is supplied is not known.", " Whether they are supplied is not known."
    )


def _all_unknown(ways: Sequence[Alternative]) -> bool:
    return all(leaf.supply is Supply.UNKNOWN for way in ways for leaf in way.leaves)


def _clauses(register: Register, ways: Sequence[Alternative], key: PartKey, *, quiet: bool) -> str:
    """Every way with its condition: `on HK 50 to HK 60: order WH-2; on other machines: order WH-1 itself`."""
    told: dict[str, list[str]] = {}
    for way in ways:
        when = condition_words(register, way.conditions)
        told.setdefault(when, []).append(_what(register, way, key, quiet=quiet))
    return "; ".join(f"{when}: {_any(each)}" if when else _any(each) for when, each in told.items())


def _any(whats: Sequence[str]) -> str:
    """Of several the reader takes any one: `order WH-2; or WH-3`."""
    return "; or ".join(
        what if what.startswith("it ") else f"order {what}" if at == 0 else what
        for at, what in enumerate(whats)
    )


def _what(register: Register, way: Alternative, key: PartKey, *, quiet: bool) -> str:
    if [leaf.key for leaf in way.leaves] == [key] and way.leaves[0].followed:
        (leaf,) = way.leaves
        if leaf.supply is Supply.GIVEN_UP:
            return "it is no longer supplied, and nothing replaces it"
        supply = "" if quiet else f" ({supply_words(register, leaf)})"
        return f"{times(leaf.quantity, part_title(register.parts[key]))} itself{supply}"
    return listed([leaf_words(register, leaf, quiet=quiet) for leaf in way.leaves])


def ways_words(register: Register, ways: Sequence[Alternative]) -> str:
    """Every complete way to order: `WH-2241 and 2 × WH-2242; or WH-2250 (on HK 1 to HK 20)`."""
    return "; or ".join(way_words(register, way) for way in ways)


def way_words(register: Register, way: Alternative) -> str:
    """One complete way to order, with its condition in brackets."""
    when = condition_words(register, way.conditions)
    told = listed([leaf_words(register, leaf, quiet=leaf.supply is Supply.UNKNOWN) for leaf in way.leaves])
    return f"{told} ({when})" if when else told


def grounds_words(register: Register, grounds: Grounds, judged: Sequence[Judgement]) -> str:
    """For whom something holds, by which acts, on whose word, and what speaks against it."""
    when = condition_words(register, grounds.conditions)
    acts = [
        f"{act_title(act)}, on the word of {sources_words(judgement)}"
        for act, judgement in zip(grounds.acts[:MOST_ACTS], judged, strict=False)
    ]
    acts += [further] if (further := further_acts(grounds)) else []
    by = f"by {'; '.join(acts)}" if acts else "no act says otherwise"
    against = listed([act_title(act) for act in grounds.against])
    told = [*([when] if when else []), by, *([f"against it: {against}"] if against else [])]
    return "; ".join(told)


def further_acts(grounds: Grounds) -> str:
    """How many acts something rests on beside those that are named."""
    more = len(grounds.acts) - MOST_ACTS
    return plural(more, "{} more act", "{} more acts") if more > 0 else ""


def sources_words(judged: Judgement) -> str:
    """Who says so: everything named that does not speak against it."""
    said = [reason for reason in judged.reasons if reason.weight is not Weight.AGAINST]
    return ", ".join(map(reason_title, said)) or "no evidence named"


def step_words(register: Register, step: Step, judged: Judgement) -> str:
    """An act of the tree in a line: what it gives, on what terms, and on whose word."""
    told = list(terms(register, step))
    limits = f" ({'; '.join(told)})" if told else ""
    return f"{stopped(f'{act_title(step.act)}: {gives_words(register, step)}{limits}')} {word_of(judged)}"


def end_words(register: Register, end: End, judged: Judgement | None) -> str:
    """An act that ends a number, in a line: for whom, and on whose word."""
    told = list(terms(register, end))
    limits = f" ({'; '.join(told)})" if told else ""
    title = act_title(end.act) if end.act else ENDINGS[end.ending]
    title += f": {BROUGHT_BACK}" if end.back else ""
    return f"{title}{limits}. {word_of(judged)}" if judged else f"{title}{limits}."


def gives_words(register: Register, step: Step) -> str:
    """What stands for the old number after an act."""
    return _needs(register, step.gives)


def _needs(register: Register, needs: tuple[Need, ...]) -> str:
    return listed([_need(register, need) for need in needs])


def _need(register: Register, need: Need) -> str:
    how = ENDINGS[need.ending] if need.ending and need.ending is not Ending.CURRENT else None
    return times(need.quantity, number_words(register, need.key)) + (f" ({how})" if how else "")


def terms(register: Register, one: Step | End) -> Iterator[str]:
    """On what terms an act of the tree holds, a phrase each."""
    if one.condition.meant is Applies.MAYBE:
        yield "may apply to this machine: its number is in the uncertain part"
    if one.act and one.act.id in one.condition.made:
        yield "may have been done by then: its year is not sure"
    if isinstance(one, Step):
        yield from _step_terms(register, one)
    if one.act and one.act.serials:
        yield limit_words(register, one.act.serials)
    if one.act and one.act.interchange == "both":
        yield "the old may also serve for the new"
    if one.against:
        yield f"disputed: {listed([act_title(act) for act in one.against])}"


def _step_terms(register: Register, step: Step) -> Iterator[str]:
    if step.together:
        others = listed([counted(n, number_words(register, key)) for key, n in step.together])
        yield f"replaces it together with {others}"
    if step.spare:
        yield f"{step.spare} of the old number to spare"
    if step.besides:
        yield f"needs {_needs(register, step.besides)} with it"
    for need in step.conversions:
        yield f"needs the conversion {register.conversions[need.conversion or ''].title}"


def given_up_words(*, limited: bool) -> str:
    """What a picture says of a number that an act gives up."""
    return "no longer supplied for some machines" if limited else "no longer supplied"


def limit_words(register: Register, spans: tuple[SeriesSpan, ...]) -> str:
    """To which machines an act is limited."""
    return f"only {'; '.join(span_words(span, register.series[span.series]) for span in spans)}"


def dropped_words(dropped: Dropped) -> str:
    """An act that does not apply, and why."""
    why, back = DROPPED[dropped.why], dropped.back
    if back is None:
        return f"{dropped.act.id} does not apply: {why}."
    when = f" {when_words(back.year)}" if back.year else ""
    return f"{dropped.act.id} is past: {why}{when} by {back.id}."


def unanswered_words(why: str, suggestions: Sequence[str]) -> str:
    """That a query cannot be answered, and what to try."""
    tried = f" Try {'; '.join(suggestions)}." if suggestions else ""
    return f"{capital(why)}.{tried}"


BROUGHT_BACK = "brought back"
WITH_IT = "with it"  # in a picture, on the line from an act to what must go with what it gives
DROPPED = {
    Why.OTHER_MACHINES: "it is limited to other machines",
    Why.NOT_YET: "it was done later",
    Why.PAST: "the number was brought back",
}
