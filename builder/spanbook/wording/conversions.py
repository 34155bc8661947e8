"""How a machine is converted: the steps, what they take, or why there is no way."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.orders import Orders, Supply
from spanbook.answers.plans import NoPlan, Plan, Why
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Judgement
from spanbook.answers.steps import Step
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.basics import Beside
from spanbook.reading.records import Change, Conversion, PartTaken, PartUse, PositionNeed, YearSaid
from spanbook.register.model import Register
from spanbook.wording.grammar import capital, counted, listed, plural
from spanbook.wording.orders import sources_words, ways_words
from spanbook.wording.records import inner_title, the_title
from spanbook.wording.standings import STANDINGS, reason_title
from spanbook.wording.years import year_words

WITHIN = "no other has what is worked on"
NOTHING = "Nothing to do: it holds that already."
STEPS = "{} step", "{} steps"
NEW_PARTS = "{} new part", "{} new parts"
THEN = ", then "
# `{}` stands for the steps, of a position for what that is called and for the part.
AS_CHEAP = "As few parts and steps: {}."
MORE = "There may be more plans of as few parts and steps."
ENDS_WITHOUT = "Mind: {} ends without: {}"
BACK = "The way back:"
BACK_WHOLE = "The way back, when what was taken off elsewhere is there again:"
TO_FIND = "These parts would have to be found:"
# What is said before a part, the part, and what is said after it.
PartSaid = tuple[str, str, str]
# Before a conversion that a machine only may be able to take.
POSSIBLY = "possibly: "


def plan_words(plan: Plan) -> str:
    """How much there is to do."""
    if not plan.steps:
        return NOTHING
    return f"{plural(len(plan.steps), *STEPS)}, {plural(plan.new_parts, *NEW_PARTS)}."


def in_year(year: int | None) -> str:
    """Before a plan that was asked for in a year."""
    return "" if year is None else f"As in {year}: "


def step_words(step: Step) -> str:
    maybe = " (this machine may be one that it is for)" if step.maybe else ""
    perhaps = " (whether it was offered then is not known)" if step.perhaps else ""
    return f"{step.conversion.title}{maybe}{perhaps}"


def offered_words(conversion: Conversion) -> str:
    """When it was offered: `from 1936 to somewhere between 1938 and 1940`; empty where nobody knows."""
    told = f"from {_end(conversion.year)}" if conversion.year is not None else ""
    if conversion.until == "open":
        return f"{told}, and still is" if told else "still is"
    return f"{told} to {_end(conversion.until)}".strip() if conversion.until is not None else told


def _end(year: YearSaid) -> str:
    if isinstance(year, tuple):
        return f"somewhere {year_words(year)}"
    return f"some year {year_words(year)}" if isinstance(year, Beside) else year_words(year)


def word_words(judged: Judgement) -> str:
    """How far a step is to be trusted, on whose word, and what speaks against it."""
    against = [reason_title(reason) for reason in judged.reasons if reason.weight is Weight.AGAINST]
    told = f"{STANDINGS[judged.standing]}, on the word of {sources_words(judged)}"
    return f"{told}; against it: {', '.join(against)}" if against else told


def advised_words(register: Register, plan: Plan) -> Iterator[str]:
    """What the records advise and the plan ends without."""
    for conversion, need in plan.advised:
        yield advice_words(register, conversion, need, need.position)


def advice_words(register: Register, conversion: Conversion, need: PositionNeed, at: str) -> str:
    """What a record advises and a plan ends without; `at` is what the position is called."""
    held = assemblies_words(register, need)
    return f"Mind: {conversion.title} is better with {held} at {at}, and this ends without: {need.why}."


def others_words(plan: Plan) -> Iterator[str]:
    """The other plans that are as cheap, by their steps."""
    for other in plan.others:
        yield AS_CHEAP.format(THEN.join(map(step_words, other.steps)))
    if plan.more:
        yield MORE


def get_words(register: Register, conversion: Conversion, use: PartUse, found: Orders) -> PartSaid:
    """A part that a step takes, and what is ordered for it today where that is not the number itself."""
    key = register.key_of(conversion, use)
    today = "" if _as_named(found) else f" (order today: {ways_words(register, found.alternatives)})"
    return "get ", part_words(register, key, use.quantity), today


def to_order_words(register: Register, key: PartKey, quantity: int, found: Orders) -> str:
    """A line of a shopping list: what is ordered today for so many of a number."""
    part = part_words(register, key, quantity)
    return part if _as_named(found) else f"{ways_words(register, found.alternatives)}, for {part}"


def _as_named(found: Orders) -> bool:
    """Whether a number is ordered under itself, as far as anybody knows."""
    return all(
        way.own and way.simple and way.leaves[0].supply is not Supply.GIVEN_UP for way in found.alternatives
    )


def keep_words(register: Register, conversion: Conversion, use: PartUse) -> PartSaid:
    """A part that comes off."""
    return "comes off, keep it: ", part_words(register, register.key_of(conversion, use), use.quantity), ""


def also_words(register: Register, change: Change, at: str) -> str:
    """What a step makes of another position; `at` is what that is called."""
    held = register.assemblies[change.to]
    return f"also: {at} then has {inner_title(held)}"


def take_words(register: Register, conversion: Conversion, taken: PartTaken, at: str) -> str:
    """A part that a step uses of what another position holds; `at` is what that is called."""
    part = part_words(register, register.key_of(conversion, taken.use), taken.quantity)
    return f"comes off {at}, which is then without it: {part}"


def left_out_words(register: Register, plan: Plan) -> Iterator[str]:
    """What a plan leaves positions without."""
    for position, key, quantity in plan.left:
        yield ENDS_WITHOUT.format(position, part_words(register, key, quantity))


def why_words(need: PositionNeed) -> str:
    """Why another position has to hold something."""
    return need.why or WITHIN


def first_words(need: PositionNeed) -> str:
    """What another position has to hold before a step."""
    how = "better with" if need.advice else "first"
    because = "" if need.why else f": {WITHIN}"
    return f"{how}: {need.position} holds {' or '.join(need.assemblies)}{because}"


def need_words(register: Register, need: PositionNeed, at: str) -> str:
    """The same for a reader, with the reason; `at` is what the position is called."""
    how = "better with" if need.advice else "first"
    return f"{how}: {at} holds {assemblies_words(register, need)}. {capital(why_words(need))}."


# `{}` stands for what is wanted, of the first for a number of states too.
REFUSED = {
    Why.GAVE_UP: "Gave up after {} states: whether there is a way to {} is not known.",
    Why.BROKEN: "No recorded way ends well: the one by {} would break a need of its own.",
    Why.NOT_TOGETHER: "There is no recorded way to {}: what it needs cannot be had in any order.",
    Why.NO_PLACE: "This machine has no place for {}, and no recorded way brings one.",
    Why.NONE: "There is no recorded way to {}.",
    Why.UNMET: "There is no recorded way to {}.",
}
NOT_KNOWN = "What this machine holds at {} is not known: say so if you know."


def refusal_words(register: Register, found: NoPlan) -> Iterator[str]:
    """That there is no way, or that nobody can tell, and what is in the way of it."""
    title = the_title(register.assemblies[found.wanted])
    yield REFUSED[found.why].format(*([found.states] if found.why is Why.GAVE_UP else []), title)
    if found.need:
        conversion, need = found.need
        held = " or ".join(need.assemblies)
        at_end = found.why is Why.BROKEN
        yield in_the_way_words(conversion.id, held, need.position, need, at_end=at_end)
    for conversion in found.other_years:
        yield f"{conversion.title} does it, and was offered {offered_words(conversion)}."
    if found.unknown:
        yield NOT_KNOWN.format(found.unknown)


def in_the_way_words(conversion: str, held: str, position: str, need: PositionNeed, *, at_end: bool) -> str:
    """A need that cannot be met, or not be kept: `cartridge-kit needs gear-pump at the pump first: …`."""
    when = "at the end too" if at_end else "first"
    return f"{conversion} needs {held} at {position} {when}: {why_words(need)}."


def back_words(register: Register, plan: Plan) -> str:
    """The way back from where a plan ends, or that there is none; empty where nothing goes back."""
    if plan.back is None:
        return ""
    before = BACK_WHOLE if plan.left else BACK
    if isinstance(plan.back, NoPlan):
        return f"{before} {' '.join(refusal_words(register, plan.back))}"
    return f"{before} {plan_words(plan.back)} {THEN.join(map(step_words, plan.back.steps))}."


def must_words(need: PositionNeed) -> str:
    """How much a need is one, between the position and what it is to hold."""
    return "ought to hold" if need.advice else "must hold"


def assemblies_words(register: Register, need: PositionNeed) -> str:
    return listed([register.assemblies[id_].title for id_ in need.assemblies], "or")


def part_words(register: Register, key: PartKey, quantity: int) -> str:
    """So many of a part, by number and name."""
    return counted(quantity, named_words(register, key))


def named_words(register: Register, key: PartKey) -> str:
    """A part by number and name."""
    part = register.parts[key]
    return f"{part.number} {part.name}".strip()


def turns_words(register: Register, conversion: Conversion) -> str:
    """What a conversion makes of what: `Metal-edge strainer or Gauze strainer to Cartridge filter`."""
    return f"{start_words(register, conversion)} to {register.assemblies[conversion.to].title}"


def from_words(register: Register, change: Change) -> str:
    """What another position may start from; empty for whatever is there."""
    return listed([register.assemblies[id_].title for id_ in change.start], "or")


def start_words(register: Register, conversion: Conversion) -> str:
    """What a conversion may start from."""
    return listed([register.assemblies[id_].title for id_ in conversion.start], "or")


def change_words(before: int, after: int) -> str:
    """What becomes of a part number, of which there were so many and will be so many."""
    return "added" if after > before else "taken off" if before > after else "kept"
