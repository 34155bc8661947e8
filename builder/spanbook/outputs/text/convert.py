"""How a machine is converted, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.answers import Answers
from spanbook.answers.conversions import as_it_left_the_works
from spanbook.answers.orders import Ordering
from spanbook.answers.plans import NoPlan, Plan
from spanbook.answers.readings import Reading
from spanbook.answers.steps import Holds, Step, Steps, there
from spanbook.ground.language import gettext as _
from spanbook.register.model import Register
from spanbook.wording.conversions import (
    NONE_HERE,
    NOT_FOR_IT,
    TO_FIND,
    advised_words,
    also_words,
    back_words,
    first_words,
    get_words,
    in_year,
    keep_words,
    left_out_words,
    no_further_words,
    others_words,
    part_words,
    plan_words,
    refusal_words,
    step_words,
    take_words,
    word_words,
)

INDENT = "   "


def as_text(answers: Answers, reading: Reading, plan: Plan | NoPlan, year: int | None = None) -> str:
    """The steps in order; or why there is no way, with the parts that would have to be found."""
    told = _plan(answers, reading, plan, year) if isinstance(plan, Plan) else _refusal(answers.register, plan)
    return in_year(year, "\n".join(told))


def no_further(answers: Answers, reading: Reading, holds: Holds, year: int | None = None) -> str:
    """That a machine is as late as it can be, and where nobody knows from what a conversion would begin."""
    register = answers.register
    places = [p for p in register.conversions_at if Steps(register, reading).at(p)]
    if not places:
        series = {span.series for conversion in register.conversions.values() for span in conversion.serials}
        return _(NOT_FOR_IT if reading.series.id in series else NONE_HERE)
    steps = Steps(register, reading, year)
    held = {**as_it_left_the_works(answers.fits, reading), **holds}
    begun = (p for p in places if steps.at(p) and p not in held)
    unknown = [register.positions[p].title for p in begun if there(register, held.get, p) is not False]
    return in_year(year, no_further_words(unknown))


def _plan(answers: Answers, reading: Reading, plan: Plan, year: int | None) -> Iterator[str]:
    yield plan_words(plan)
    ordering = Ordering(answers.register, reading, year)
    for number, step in enumerate(plan.steps, 1):
        yield f"{number}. {step_words(step)}"
        yield from (INDENT + line for line in _step(answers, ordering, step))
    yield from advised_words(answers.register, plan)
    yield from left_out_words(answers.register, plan)
    yield from others_words(plan)
    if back := back_words(answers.register, plan):
        yield back


def _step(answers: Answers, ordering: Ordering, step: Step) -> Iterator[str]:
    register, one = answers.register, step.conversion
    yield word_words(answers.standing(one))
    for use in one.adds:
        yield "".join(get_words(register, one, use, ordering.of(register.key_of(one, use), use.quantity)))
    yield from ("".join(keep_words(register, one, use)) for use in one.removes)
    yield from (take_words(register, one, taken, taken.position) for taken in one.takes)
    yield from (also_words(register, change, change.position) for change in one.also)
    yield from (first_words(need) for need in (*one.needs, *step.inside))


def _refusal(register: Register, plan: NoPlan) -> Iterator[str]:
    yield from refusal_words(register, plan)
    if plan.missing:
        yield _(TO_FIND)
        yield from (INDENT + part_words(register, key, quantity) for key, quantity in plan.missing)
