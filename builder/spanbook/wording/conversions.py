"""How a machine is converted: the steps, what they take, or why there is no way."""

from __future__ import annotations

from spanbook.answers.conversions import NoPlan, Plan, Step
from spanbook.answers.orders import Orders
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Conversion, PartUse, PositionNeed
from spanbook.register.model import Register
from spanbook.wording.grammar import counted, listed, plural

TO_FIND = "These parts would have to be found:"
# Before a conversion that a machine only may be able to take.
POSSIBLY = "possibly: "


def plan_words(plan: Plan) -> str:
    """How much there is to do."""
    if not plan.steps:
        return "Nothing to do: it holds that already."
    steps = plural(len(plan.steps), "{} step", "{} steps")
    return f"{steps}, {plural(plan.new_parts, '{} new part', '{} new parts')}."


def step_words(step: Step) -> str:
    maybe = " (this machine may be one that it is for)" if step.maybe else ""
    return f"{step.conversion.title}{maybe}"


def get_words(register: Register, conversion: Conversion, use: PartUse, found: Orders) -> str:
    """A part that a step takes, and what is ordered for it today where that is not the number itself."""
    key = register.key_of(conversion, use)
    own = counted(use.quantity, register.parts[key].number)
    ways = [
        ", ".join(counted(leaf.quantity, register.parts[leaf.key].number) for leaf in way)
        for way in found.alternatives
    ]
    today = f" (order today: {' or '.join(ways)})" if ways != [own] else ""
    return f"get {part_words(register, key, use.quantity)}{today}"


def keep_words(register: Register, conversion: Conversion, use: PartUse) -> str:
    return f"comes off, keep it: {part_words(register, register.key_of(conversion, use), use.quantity)}"


def first_words(need: PositionNeed) -> str:
    """What another position has to hold before a step."""
    return f"first: {need.position} holds {' or '.join(need.assemblies)}"


def refusal_words(register: Register, found: NoPlan) -> tuple[str, ...]:
    """That there is no way, and the need in the way of it."""
    none = f"There is no recorded way to the {register.assemblies[found.wanted].title}."
    if found.unmet is None:
        return (none,)
    conversion, need = found.unmet
    held = " or ".join(need.assemblies)
    return none, f"{conversion.id} needs {held} at {need.position} first: {need.why}."


def part_words(register: Register, key: PartKey, quantity: int) -> str:
    """So many of a part, by number and name."""
    part = register.parts[key]
    return counted(quantity, f"{part.number} {part.name}".strip())


def turns_words(register: Register, conversion: Conversion) -> str:
    """What a conversion makes of what: `Metal-edge strainer or Gauze strainer to Cartridge filter`."""
    return f"{start_words(register, conversion)} to {register.assemblies[conversion.to].title}"


def start_words(register: Register, conversion: Conversion) -> str:
    """What a conversion may start from."""
    return listed([register.assemblies[id_].title for id_ in conversion.start], "or")


def change_words(before: int, after: int) -> str:
    """What becomes of a part number, of which there were so many and will be so many."""
    return "added" if after > before else "taken off" if before > after else "kept"
