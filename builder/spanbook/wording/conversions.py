"""How a machine is converted: the steps, what they take, or why there is no way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.orders import Orders, Supply
from spanbook.answers.plans import NoPlan, Plan, Why
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Judgement
from spanbook.answers.steps import Step
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.basics import Beside
from spanbook.reading.records import Change, Conversion, PartTaken, PartUse, PositionNeed, YearSaid
from spanbook.register.model import Register
from spanbook.wording.grammar import capital, counted, either, listed, plural
from spanbook.wording.orders import sources_words, ways_words
from spanbook.wording.records import inner_title, the_title
from spanbook.wording.standings import reason_title, standing_word
from spanbook.wording.years import year_words

WITHIN = marked("no other has what is worked on")
NOTHING = marked("Nothing to do: it holds that already.")
NO_FURTHER = marked("Nothing to do: no conversion that is recorded takes it further.")
NONE_HERE = marked("No conversion is recorded for the machines of this series.")
NOT_FOR_IT = marked("No conversion that is recorded is for this machine.")
STEPS = marked_forms("{} step", "{} steps")
NEW_PARTS = marked_forms("{} new part", "{} new parts")
THEN = marked(", then ")
# `{}` stands for the steps, of a position for what that is called and for the part.
AS_CHEAP = marked("As few parts and steps: {}.")
MORE = marked("There may be more plans of as few parts and steps.")
ENDS_WITHOUT = marked("Mind: {} ends without: {}")
BACK = marked("The way back:")
BACK_WHOLE = marked("The way back, when what was taken off elsewhere is there again:")
TO_FIND = marked("These parts would have to be found:")
# What is said before a part, the part, and what is said after it.
PartSaid = tuple[str, str, str]


def plan_words(plan: Plan) -> str:
    """How much there is to do."""
    if not plan.steps:
        return _(NOTHING)
    return f"{plural(len(plan.steps), *STEPS)}, {plural(plan.new_parts, *NEW_PARTS)}."


def no_further_words(titles: Sequence[str]) -> str:
    """That no conversion leads on; `titles` are the positions where one may begin from what nobody knows."""
    told = _("What it holds there is not known, and a conversion may begin from it: {positions}.")
    unknown = told.format(positions=listed(titles)) if titles else ""
    return " ".join(filter(None, (_(NO_FURTHER), unknown)))


def in_year(year: int | None, told: str) -> str:
    """A plan with the year that it was asked for in."""
    return told if year is None else _("As in {year}: {told}").format(year=year, told=told)


def step_words(step: Step) -> str:
    maybe = f" ({_('this machine may be one that it is for')})" if step.maybe else ""
    perhaps = f" ({_('whether it was offered then is not known')})" if step.perhaps else ""
    return f"{step.conversion.title}{maybe}{perhaps}"


def offered_words(conversion: Conversion) -> str:
    """When it was offered: `from 1936 to somewhere between 1938 and 1940`; empty where nobody knows."""
    first, until = conversion.year, conversion.until
    if until == "open":
        return _("still is") if first is None else _("from {year}, and still is").format(year=_end(first))
    if first is None:
        return "" if until is None else _("to {year}").format(year=_end(until))
    if until is None:
        return _("from {year}").format(year=_end(first))
    return _("from {first} to {last}").format(first=_end(first), last=_end(until))


def _end(year: YearSaid) -> str:
    if isinstance(year, tuple):
        return _("somewhere {years}").format(years=year_words(year))
    if isinstance(year, Beside):
        return _("some year {years}").format(years=year_words(year))
    return year_words(year)


def word_words(judged: Judgement) -> str:
    """How far a step is to be trusted, on whose word, and what speaks against it."""
    against = [reason_title(reason) for reason in judged.reasons if reason.weight is Weight.AGAINST]
    told = _("{said}, on the word of {sources}").format(
        said=standing_word(judged.standing), sources=sources_words(judged)
    )
    return parted(told, _("against it: {acts}").format(acts=", ".join(against))) if against else told


def advised_words(register: Register, plan: Plan) -> Iterator[str]:
    """What the records advise and the plan ends without."""
    for conversion, need in plan.advised:
        yield advice_words(register, conversion, need, need.position)


def advice_words(register: Register, conversion: Conversion, need: PositionNeed, at: str) -> str:
    """What a record advises and a plan ends without; `at` is what the position is called."""
    held = assemblies_words(register, need)
    message = _("Mind: {conversion} is better with {held} at {position}, and this ends without: {why}.")
    return message.format(conversion=conversion.title, held=held, position=at, why=need.why)


def others_words(plan: Plan) -> Iterator[str]:
    """The other plans that are as cheap, by their steps."""
    for other in plan.others:
        yield _(AS_CHEAP).format(_(THEN).join(map(step_words, other.steps)))
    if plan.more:
        yield _(MORE)


def get_words(register: Register, conversion: Conversion, use: PartUse, found: Orders) -> PartSaid:
    """A part that a step takes, and what is ordered for it today where that is not the number itself."""
    key = register.key_of(conversion, use)
    part = part_words(register, key, use.quantity)
    if _as_named(found):
        return _around(_("get {part}"), part)
    return _around(_("get {part} (order today: {ways})"), part, ways=ways_words(register, found.alternatives))


def _around(message: str, part: str, **values: str) -> PartSaid:
    before, after = message.split("{part}")
    return before.format(**values), part, after.format(**values)


def to_order_words(register: Register, key: PartKey, quantity: int, found: Orders) -> str:
    """A line of a shopping list: what is ordered today for so many of a number."""
    part = part_words(register, key, quantity)
    if _as_named(found):
        return part
    return _("{ways}, for {part}").format(ways=ways_words(register, found.alternatives), part=part)


def _as_named(found: Orders) -> bool:
    """Whether a number is ordered under itself, as far as anybody knows."""
    return all(
        way.own and way.simple and way.leaves[0].supply is not Supply.GIVEN_UP for way in found.alternatives
    )


def keep_words(register: Register, conversion: Conversion, use: PartUse) -> PartSaid:
    """A part that comes off."""
    part = part_words(register, register.key_of(conversion, use), use.quantity)
    return _around(_("comes off, keep it: {part}"), part)


def also_words(register: Register, change: Change, at: str) -> str:
    """What a step makes of another position; `at` is what that is called."""
    held = register.assemblies[change.to]
    return _("also: {position} then has {held}").format(position=at, held=inner_title(held))


def take_words(register: Register, conversion: Conversion, taken: PartTaken, at: str) -> str:
    """A part that a step uses of what another position holds; `at` is what that is called."""
    part = part_words(register, register.key_of(conversion, taken.use), taken.quantity)
    return _("comes off {position}, which is then without it: {part}").format(position=at, part=part)


def left_out_words(register: Register, plan: Plan) -> Iterator[str]:
    """What a plan leaves positions without."""
    for position, key, quantity in plan.left:
        yield _(ENDS_WITHOUT).format(position, part_words(register, key, quantity))


def why_words(need: PositionNeed) -> str:
    """Why another position has to hold something."""
    return need.why or _(WITHIN)


def first_words(need: PositionNeed) -> str:
    """What another position has to hold before a step."""
    told = _holds_words(need, need.position, either(need.assemblies))
    return told if need.why else labelled(told, _(WITHIN))


def _holds_words(need: PositionNeed, position: str, held: str) -> str:
    message = (
        _("better with: {position} holds {held}") if need.advice else _("first: {position} holds {held}")
    )
    return message.format(position=position, held=held)


def need_words(register: Register, need: PositionNeed, at: str) -> str:
    """The same for a reader, with the reason; `at` is what the position is called."""
    told = _holds_words(need, at, assemblies_words(register, need))
    return f"{told}. {capital(why_words(need))}."


# `{}` stands for what is wanted, of the first for a number of states too.
REFUSED = {
    Why.GAVE_UP: marked("Gave up after {} states: whether there is a way to {} is not known."),
    Why.BROKEN: marked("No recorded way ends well: the one by {} would break a need of its own."),
    Why.NOT_TOGETHER: marked("There is no recorded way to {}: what it needs cannot be had in any order."),
    Why.NO_PLACE: marked("This machine has no place for {}, and no recorded way brings one."),
    Why.NONE: marked("There is no recorded way to {}."),
    Why.UNMET: marked("There is no recorded way to {}."),
}
NOT_KNOWN = marked("What this machine holds at {} is not known: say so if you know.")


def refusal_words(register: Register, found: NoPlan) -> Iterator[str]:
    """That there is no way, or that nobody can tell, and what is in the way of it."""
    title = the_title(register.assemblies[found.wanted])
    yield _(REFUSED[found.why]).format(*([found.states] if found.why is Why.GAVE_UP else []), title)
    if found.need:
        conversion, need = found.need
        held = either(need.assemblies)
        at_end = found.why is Why.BROKEN
        yield in_the_way_words(conversion.id, held, need.position, need, at_end=at_end)
    for conversion in found.other_years:
        yield _("{conversion} does it, and was offered {years}.").format(
            conversion=conversion.title, years=offered_words(conversion)
        )
    if found.unknown:
        yield _(NOT_KNOWN).format(found.unknown)


def in_the_way_words(conversion: str, held: str, position: str, need: PositionNeed, *, at_end: bool) -> str:
    """A need that cannot be met, or not be kept: `cartridge-kit needs gear-pump at the pump first: …`."""
    message = (
        _("{conversion} needs {held} at {position} at the end too: {why}.")
        if at_end
        else _("{conversion} needs {held} at {position} first: {why}.")
    )
    return message.format(conversion=conversion, held=held, position=position, why=why_words(need))


def back_words(register: Register, plan: Plan) -> str:
    """The way back from where a plan ends, or that there is none; empty where nothing goes back."""
    if plan.back is None:
        return ""
    before = _(BACK_WHOLE) if plan.left else _(BACK)
    if isinstance(plan.back, NoPlan):
        return f"{before} {' '.join(refusal_words(register, plan.back))}"
    return f"{before} {plan_words(plan.back)} {_(THEN).join(map(step_words, plan.back.steps))}."


def must_words(need: PositionNeed) -> str:
    """How much a need is one, between the position and what it is to hold."""
    return _("ought to hold") if need.advice else _("must hold")


def assemblies_words(register: Register, need: PositionNeed) -> str:
    return listed([register.assemblies[id_].title for id_ in need.assemblies], "or")


def part_words(register: Register, key: PartKey, quantity: int) -> str:
    """So many of a part, by number and name."""
    return counted(quantity, named_words(register, key))


def named_words(register: Register, key: PartKey) -> str:
    """A part by number and name."""
    part = register.parts[key]
    return f"{part.number} {part.name}".strip()


def from_words(register: Register, change: Change) -> str:
    """What another position may start from; empty for whatever is there."""
    return listed([register.assemblies[id_].title for id_ in change.start], "or")


def start_words(register: Register, conversion: Conversion) -> str:
    """What a conversion may start from."""
    return listed([register.assemblies[id_].title for id_ in conversion.start], "or")


def change_words(before: int, after: int) -> str:
    """What becomes of a part number, of which there were so many and will be so many."""
    return _("added") if after > before else _("taken off") if before > after else _("kept")
