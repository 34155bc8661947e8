"""Everything that is renewed on one machine, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.readings import Reading
from spanbook.answers.renewing import Holding
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import headed
from spanbook.register.model import Register
from spanbook.wording.renewing import EVERYTHING, NOTHING_RENEWED, head_words, renewed_words, silent_words
from spanbook.wording.strip_down import LOCAL_RULES
from spanbook.wording.which_machine import this_machine_words

INDENT = "   "


def as_text(register: Register, machine: Reading, holdings: Sequence[Holding]) -> str:
    """Position by position each assembly that may be there, with what is renewed and ordered for it today."""
    return "\n".join(_lines(register, machine, holdings))


def _lines(register: Register, machine: Reading, holdings: Sequence[Holding]) -> Iterator[str]:
    yield this_machine_words(register, machine)
    yield headed(_(EVERYTHING))
    yield _(LOCAL_RULES)
    for one in holdings:
        told = [held for held in one.held if held.sheet]
        if told:
            yield register.positions[one.position].title
        for held in told:
            assert held.sheet
            yield f"{INDENT}{held.assembly.title}. {head_words(held)}"
            lines = renewed_words(register, held.sheet) or (_(NOTHING_RENEWED),)
            yield from (INDENT * 2 + line for line in lines)
    yield from silent_words(register, holdings)
