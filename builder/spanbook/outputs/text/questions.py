"""The open questions as a person reads them in a terminal."""

from __future__ import annotations

from collections.abc import Iterable

from spanbook.answers.questions import Question
from spanbook.register.model import Register
from spanbook.wording.questions import question_words


def as_text(register: Register, found: Iterable[Question]) -> str:
    """A question a line, with what an answer is worth."""
    return "\n".join(f"{one.worth:6.0f}  {question_words(register, one)}" for one in found)
