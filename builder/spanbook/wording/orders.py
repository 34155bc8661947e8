"""What to order now, and on what terms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.condition import Applies
from spanbook.answers.onward import Dropped, Ending, Why
from spanbook.answers.orders import Alternative, Grounds, Orders, Supply
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Judgement
from spanbook.answers.supersession import End, Need, Step
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.records import SeriesSpan, Supersession
from spanbook.register.model import Register
from spanbook.wording.conditions import condition_words
from spanbook.wording.grammar import capital, chained, counted, listed, plural, span_of, stopped, times
from spanbook.wording.leaves import leaf_words, number_words, sets_words, supply_words
from spanbook.wording.numbers import UNCLEAR, part_title
from spanbook.wording.pieces import Pieces, Ref, filled
from spanbook.wording.records import act_title
from spanbook.wording.spans import span_words
from spanbook.wording.standings import reason_title, word_of
from spanbook.wording.years import when_words, year_words

ENDINGS = {
    Ending.CURRENT: marked("still current"),
    Ending.GIVEN_UP: marked("no longer supplied"),
    Ending.CIRCLE: marked("leads back to itself"),
    Ending.NEEDS_CIRCLE: marked("part of a circle of needs"),
    Ending.TOO_MANY: marked("too many to follow"),
    Ending.GOES_ON: marked("goes on under that number"),
}
MORE_WAYS = marked("There are more ways than these.")
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
    if any(way.grounds.against for way in ways):
        told = _("Sources differ, and nothing is picked: {ways}").format(ways=told)
    more = f" {_(MORE_WAYS)}" if found.more else ""
    return f"{stopped(capital(told))}{_unknown(ways)}{_sets(register, ways)}{more}"


def _in_year(register: Register, found: Orders, key: PartKey, year: int) -> str:
    """What was ordered in a year, by what had been done by then."""
    told = [stopped(_("As in {year}: {told}").format(year=year, told=then_words(register, found, key)))]
    if first := found.first_named:
        unnamed = _("It is first named in {year}: whether it was there before is not known.")
        told.append(unnamed.format(year=first))
    return " ".join([*told, *([_(MORE_WAYS)] if found.more else [])])


def then_words(register: Register, found: Orders, key: PartKey) -> str:
    """What was ordered in a year: `order WH-2240`."""
    ways = found.alternatives
    told = _clauses(register, ways, key, quiet=True)
    if any(way.grounds.against for way in ways):
        return _("sources differ, and nothing is picked: {ways}").format(ways=told)
    return told


def years_of(first: int | None, last: int | None) -> str:
    """From a year to another, as a row of a table begins."""
    if first is None:
        return _("to {year}").format(year=last)
    if last is None:
        return _("from {year}").format(year=first)
    return span_of([f"{first}"] if first == last else [f"{first}", f"{last}"])


def past_words(act: Supersession, back: Supersession) -> Pieces:
    """An act that is past, and by which the number was brought back: for a page."""
    old, new = (
        (Ref(act_title(one), one), f" ({year_words(one.year)})" if one.year else "") for one in (act, back)
    )
    return filled(_("{act} is past: the number was brought back by {back}."), act=old, back=new)


def _brought_back(way: Alternative) -> Supersession | None:
    """The act that brought a number back, where it is ordered under its own number."""
    return next((act for act in reversed(way.grounds.acts) if act.new or act.again), None)


def _alone(supply: Supply, *, by_act: bool, back: Supersession | None) -> str:
    """A number that is ordered itself, or cannot be."""
    if supply is Supply.GIVEN_UP:
        if by_act:
            return _("It is no longer supplied, and nothing replaces it.")
        return _("It is no longer supplied, and nobody has replaced it.")
    if supply is Supply.UNCLEAR:
        return _("{unclear}: ask for a machine by its serial number.").format(unclear=capital(_(UNCLEAR)))
    if supply is Supply.IN_SET:
        if by_act:
            return _("It is still current: it is sold only in a set.")
        return _("Nobody has replaced it: it is sold only in a set.")
    known = supply is Supply.SUPPLIED
    sure = _("it is still supplied") if known else _("whether it is supplied is not known")
    if back and back.year:
        message = _("It was withdrawn, and brought back {when}: order it under its own number; {supply}.")
        return message.format(when=when_words(back.year), supply=sure)
    if back:
        message = _("It was withdrawn, and brought back: order it under its own number; {supply}.")
    else:
        message = _("Nobody has replaced it: order it under its own number; {supply}.")
    return message.format(supply=sure)


def _sets(register: Register, ways: Sequence[Alternative]) -> str:
    """Which sets to order for what is sold only in them, after the sentence of the ways."""
    told = dict.fromkeys(words for way in ways if (words := sets_words(register, way)))
    return "".join(f" {words}" for words in told)


def _unknown(ways: Sequence[Alternative]) -> str:
    """That nothing is known of the supply, said once where it is so of every number."""
    if not _all_unknown(ways):
        return ""
    numbers = {leaf.key for way in ways for leaf in way.leaves}
    told = plural(
        len(numbers), "Whether it is supplied is not known.", "Whether they are supplied is not known."
    )
    return f" {told}"


def _all_unknown(ways: Sequence[Alternative]) -> bool:
    return all(leaf.supply is Supply.UNKNOWN for way in ways for leaf in way.leaves)


def _clauses(register: Register, ways: Sequence[Alternative], key: PartKey, *, quiet: bool) -> str:
    """Every way with its condition: `on HK 50 to HK 60: order WH-2; on other machines: order WH-1 itself`."""
    told: dict[str, list[str]] = {}
    for way in ways:
        each = told.setdefault(condition_words(register, way.conditions), [])
        each.append(_what(register, way, key, quiet=quiet, first=not each))
    each_told = ((when, chained(each, "or")) for when, each in told.items())
    return parted(*(labelled(when, words) if when else words for when, words in each_told))


def _what(register: Register, way: Alternative, key: PartKey, *, quiet: bool, first: bool) -> str:
    """What is ordered; of several the reader takes any one: `order WH-2; or WH-3`."""
    if [leaf.key for leaf in way.leaves] == [key] and way.leaves[0].followed:
        (leaf,) = way.leaves
        if leaf.supply is Supply.GIVEN_UP:
            return _("it is no longer supplied, and nothing replaces it")
        supply = "" if quiet else f" ({supply_words(register, leaf)})"
        own = times(leaf.quantity, part_title(register.parts[key]))
        told = _("{number} itself").format(number=own) + supply
    else:
        told = listed([leaf_words(register, leaf, quiet=quiet) for leaf in way.leaves])
    return _("order {numbers}").format(numbers=told) if first else told


def ways_words(register: Register, ways: Sequence[Alternative]) -> str:
    """Every complete way to order: `WH-2241 and 2 × WH-2242; or WH-2250 (on HK 1 to HK 20)`."""
    return chained([way_words(register, way) for way in ways], "or")


def way_words(register: Register, way: Alternative) -> str:
    """One complete way to order, with its condition in brackets."""
    when = condition_words(register, way.conditions)
    told = listed([leaf_words(register, leaf, quiet=leaf.supply is Supply.UNKNOWN) for leaf in way.leaves])
    return f"{told} ({when})" if when else told


def grounds_words(register: Register, grounds: Grounds, judged: Sequence[Judgement]) -> str:
    """For whom something holds, by which acts, on whose word, and what speaks against it."""
    when = condition_words(register, grounds.conditions)
    acts = [
        _("{said}, on the word of {sources}").format(said=act_title(act), sources=sources_words(judgement))
        for act, judgement in zip(grounds.acts[:MOST_ACTS], judged, strict=False)
    ]
    acts += [further] if (further := further_acts(grounds)) else []
    by = _("by {acts}").format(acts=parted(*acts)) if acts else _("no act says otherwise")
    told = [*([when] if when else []), by]
    if against := listed([act_title(act) for act in grounds.against]):
        told.append(_("against it: {acts}").format(acts=against))
    return parted(*told)


def further_acts(grounds: Grounds) -> str:
    """How many acts something rests on beside those that are named."""
    more = len(grounds.acts) - MOST_ACTS
    return plural(more, "{} more act", "{} more acts") if more > 0 else ""


def sources_words(judged: Judgement) -> str:
    """Who says so: everything named that does not speak against it."""
    said = [reason for reason in judged.reasons if reason.weight is not Weight.AGAINST]
    return ", ".join(map(reason_title, said)) or _("no evidence named")


def step_words(register: Register, step: Step, judged: Judgement) -> str:
    """An act of the tree in a line: what it gives, on what terms, and on whose word."""
    limits = f" ({parted(*on)})" if (on := list(terms(register, step))) else ""
    told = labelled(act_title(step.act), f"{gives_words(register, step)}{limits}")
    return f"{stopped(told)} {word_of(judged)}"


def end_words(register: Register, end: End, judged: Judgement | None) -> str:
    """An act that ends a number, in a line: for whom, and on whose word."""
    told = list(terms(register, end))
    limits = f" ({parted(*told)})" if told else ""
    title = act_title(end.act) if end.act else _(ENDINGS[end.ending])
    title += f"{_(': ')}{_(BROUGHT_BACK)}" if end.back else ""
    return f"{title}{limits}. {word_of(judged)}" if judged else f"{title}{limits}."


def gives_words(register: Register, step: Step) -> str:
    """What stands for the old number after an act."""
    return _needs(register, step.gives)


def _needs(register: Register, needs: tuple[Need, ...]) -> str:
    return listed([_need(register, need) for need in needs])


def _need(register: Register, need: Need) -> str:
    how = _(ENDINGS[need.ending]) if need.ending and need.ending is not Ending.CURRENT else None
    return times(need.quantity, number_words(register, need.key)) + (f" ({how})" if how else "")


def terms(register: Register, one: Step | End) -> Iterator[str]:
    """On what terms an act of the tree holds, a phrase each."""
    if one.condition.meant is Applies.MAYBE:
        yield _("may apply to this machine: its number is in the uncertain part")
    if one.act and one.act.id in one.condition.made:
        yield _("may have been done by then: its year is not sure")
    if isinstance(one, Step):
        yield from _step_terms(register, one)
    if one.act and one.act.serials:
        yield limit_words(register, one.act.serials)
    if one.act and one.act.interchange == "both":
        yield _("the old may also serve for the new")
    if one.against:
        yield _("disputed: {acts}").format(acts=listed([act_title(act) for act in one.against]))


def _step_terms(register: Register, step: Step) -> Iterator[str]:
    if step.together:
        others = listed([counted(n, number_words(register, key)) for key, n in step.together])
        yield _("replaces it together with {numbers}").format(numbers=others)
    if step.spare:
        yield _("{quantity} of the old number to spare").format(quantity=step.spare)
    if step.besides:
        yield _("needs {numbers} with it").format(numbers=_needs(register, step.besides))
    for need in step.conversions:
        conversion = register.conversions[need.conversion or ""]
        yield _("needs the conversion {title}").format(title=conversion.title)


def given_up_words(*, limited: bool) -> str:
    """What a picture says of a number that an act gives up."""
    return _("no longer supplied for some machines") if limited else _("no longer supplied")


def limit_words(register: Register, spans: tuple[SeriesSpan, ...]) -> str:
    """To which machines an act is limited."""
    told = [span_words(span, register.series[span.series]) for span in spans]
    return _("only {spans}").format(spans=parted(*told))


def dropped_words(dropped: Dropped) -> str:
    """An act that does not apply, and why."""
    act, back = dropped.act.id, dropped.back
    if back is None:
        return _("{act} does not apply: {why}.").format(act=act, why=_(DROPPED[dropped.why]))
    if not back.year:
        return _("{act} is past: the number was brought back by {back}.").format(act=act, back=back.id)
    return _("{act} is past: the number was brought back {when} by {back}.").format(
        act=act, when=when_words(back.year), back=back.id
    )


def unanswered_words(why: str, suggestions: Sequence[str]) -> str:
    """That a query cannot be answered, and what to try."""
    tried = _("Try {suggestions}.").format(suggestions=parted(*suggestions)) if suggestions else ""
    return f"{capital(why)}. {tried}".rstrip()


BROUGHT_BACK = marked("brought back")
WITH_IT = marked("with it")  # in a picture, on the line from an act to what must go with what it gives
DROPPED = {
    Why.OTHER_MACHINES: marked("it is limited to other machines"),
    Why.NOT_YET: marked("it was done later"),
    Why.PAST: marked("the number was brought back"),
}
