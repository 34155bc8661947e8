"""How a machine is converted, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.conversions import NoPlan, Plan, Step
from spanbook.answers.orders import orders
from spanbook.register.model import Register
from spanbook.wording.conversions import (
    TO_FIND,
    first_words,
    get_words,
    keep_words,
    part_words,
    plan_words,
    refusal_words,
    step_words,
)

INDENT = "   "


def as_text(register: Register, plan: Plan | NoPlan) -> str:
    """The steps in order; or why there is no way, with the parts that would have to be found."""
    return "\n".join(_steps(register, plan) if isinstance(plan, Plan) else _refusal(register, plan))


def _steps(register: Register, plan: Plan) -> Iterator[str]:
    yield plan_words(plan)
    for number, step in enumerate(plan.steps, 1):
        yield f"{number}. {step_words(step)}"
        yield from (INDENT + line for line in _step(register, step))


def _step(register: Register, step: Step) -> Iterator[str]:
    one = step.conversion
    for use in one.adds:
        today = orders(register, register.key_of(one, use), use.quantity)
        yield get_words(register, one, use, today)
    yield from (keep_words(register, one, use) for use in one.removes)
    yield from (first_words(need) for need in one.needs)


def _refusal(register: Register, plan: NoPlan) -> Iterator[str]:
    yield from refusal_words(register, plan)
    if plan.missing:
        yield TO_FIND
        yield from (INDENT + part_words(register, key, quantity) for key, quantity in plan.missing)
