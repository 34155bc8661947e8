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
from spanbook.wording.grammar import counted, listed, plural
from spanbook.wording.orders import sources_words, ways_words
from spanbook.wording.records import inner_title, the_title
from spanbook.wording.standings import STANDINGS, reason_title
from spanbook.wording.years import year_words

WITHIN = "no other has what is worked on"
TO_FIND = "These parts would have to be found:"
# Before a conversion that a machine only may be able to take.
POSSIBLY = "possibly: "


def plan_words(plan: Plan) -> str:
    """How much there is to do."""
    if not plan.steps:
        return "Nothing to do: it holds that already."
    steps = plural(len(plan.steps), "{} step", "{} steps")
    return f"{steps}, {plural(plan.new_parts, '{} new part', '{} new parts')}."


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
        held = assemblies_words(register, need)
        yield (
            f"Mind: {conversion.title} is better with {held} at {need.position}, "
            f"and this ends without: {need.why}."
        )


def others_words(plan: Plan) -> Iterator[str]:
    """The other plans that are as cheap, by their steps."""
    for other in plan.others:
        yield f"As few parts and steps: {', then '.join(map(step_words, other.steps))}."
    if plan.more:
        yield "There may be more plans of as few parts and steps."


def get_words(register: Register, conversion: Conversion, use: PartUse, found: Orders) -> str:
    """A part that a step takes, and what is ordered for it today where that is not the number itself."""
    key = register.key_of(conversion, use)
    today = f" (order today: {ways_words(register, found.alternatives)})"
    if all(
        way.own and way.simple and way.leaves[0].supply is not Supply.GIVEN_UP for way in found.alternatives
    ):
        today = ""
    return f"get {part_words(register, key, use.quantity)}{today}"


def keep_words(register: Register, conversion: Conversion, use: PartUse) -> str:
    return f"comes off, keep it: {part_words(register, register.key_of(conversion, use), use.quantity)}"


def also_words(register: Register, change: Change) -> str:
    """What a step makes of another position."""
    held = register.assemblies[change.to]
    return f"also: {change.position} then has {inner_title(held)}"


def take_words(register: Register, conversion: Conversion, taken: PartTaken) -> str:
    """A part that a step uses of what another position holds."""
    part = part_words(register, register.key_of(conversion, taken.use), taken.quantity)
    return f"comes off {taken.position}, which is then without it: {part}"


def left_out_words(register: Register, plan: Plan) -> Iterator[str]:
    """What a plan leaves positions without."""
    for position, key, quantity in plan.left:
        yield f"Mind: {position} ends without: {part_words(register, key, quantity)}"


def why_words(need: PositionNeed) -> str:
    """Why another position has to hold something."""
    return need.why or WITHIN


def first_words(need: PositionNeed) -> str:
    """What another position has to hold before a step."""
    how = "better with" if need.advice else "first"
    because = "" if need.why else f": {WITHIN}"
    return f"{how}: {need.position} holds {' or '.join(need.assemblies)}{because}"


def refusal_words(register: Register, found: NoPlan) -> Iterator[str]:
    """That there is no way, or that nobody can tell, and what is in the way of it."""
    title = the_title(register.assemblies[found.wanted])
    match found.why:
        case Why.GAVE_UP:
            yield f"Gave up after {found.states} states: whether there is a way to {title} is not known."
        case Why.BROKEN:
            yield f"No recorded way ends well: the one by {title} would break a need of its own."
        case Why.NOT_TOGETHER:
            yield f"There is no recorded way to {title}: what it needs cannot be had in any order."
        case Why.NO_PLACE:
            yield f"This machine has no place for {title}, and no recorded way brings one."
        case Why.NONE | Why.UNMET:
            yield f"There is no recorded way to {title}."
    if found.need:
        conversion, need = found.need
        when = "at the end too" if found.why is Why.BROKEN else "first"
        held = " or ".join(need.assemblies)
        yield f"{conversion.id} needs {held} at {need.position} {when}: {why_words(need)}."
    for conversion in found.other_years:
        yield f"{conversion.title} does it, and was offered {offered_words(conversion)}."
    if found.unknown:
        yield f"What this machine holds at {found.unknown} is not known: say so if you know."


def must_words(need: PositionNeed) -> str:
    """How much a need is one, between the position and what it is to hold."""
    return "ought to hold" if need.advice else "must hold"


def assemblies_words(register: Register, need: PositionNeed) -> str:
    return listed([register.assemblies[id_].title for id_ in need.assemblies], "or")


def part_words(register: Register, key: PartKey, quantity: int) -> str:
    """So many of a part, by number and name."""
    part = register.parts[key]
    return counted(quantity, f"{part.number} {part.name}".strip())


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
