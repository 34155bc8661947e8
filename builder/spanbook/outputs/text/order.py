"""What to order, as a person reads it in a terminal."""

from __future__ import annotations

from spanbook.answers.answers import Answers
from spanbook.answers.orders import Orders
from spanbook.answers.supersession import Need, steps_of
from spanbook.wording.orders import dropped_words, order_words, step_words

INDENT = "  "


def as_text(answers: Answers, need: Need, found: Orders) -> str:
    """The answer first, then act by act on what terms, then the acts that do not apply."""
    register = answers.register
    lines = [order_words(register, found, need)]
    for depth, step in steps_of(need):
        judged = answers.standing(step.act)
        lines.append(INDENT * (depth + 1) + step_words(register, step, judged))
    lines += [INDENT + dropped_words(dropped) for dropped in need.dropped]
    return "\n".join(lines)
