"""An answer of a sign is worded otherwise, wherever it was seen."""

from __future__ import annotations

from difflib import get_close_matches

from spanbook.editing.plan import CannotChange, Desk, Plan
from spanbook.editing.things import Thing, named
from spanbook.ground.language import gettext as _
from spanbook.reading.edit import Draft
from spanbook.reading.records import Shown, Sign, SignSeen
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Register


def reword(register: Register, desk: Desk, what: str, word: str) -> Plan:
    """Give an answer, called as `signs/lid-held=four nuts`, other words. Raises CannotChange."""
    page, _mark, was = what.partition("=")
    thing = named(register, page)
    if thing.sort != "sign":
        raise CannotChange(_("{}: only a sign has answers, such as signs/lid-held=four nuts").format(what))
    sign = register.signs[thing.id]
    _may_be(sign, was, word)
    with desk.draft(thing.record) as draft:
        draft.replace((*thing.steps, "answers", sign.answers.index(was)), word)
        _worded_before(draft, thing, sign, was, word)
    for record in register.records:
        leaves = [leaf for leaf in walk(record, Role.SIGN) if leaf.value == was]
        places = [leaf.steps for leaf in leaves if _of(leaf.holder) == sign.id]
        if places:
            with desk.draft(record) as draft:
                for steps in places:
                    draft.replace(steps, word)
    return desk.plan()


def _of(holder: object) -> str | None:
    """The sign that something was seen of."""
    return holder.sign if isinstance(holder, Shown | SignSeen) else None


def _may_be(sign: Sign, was: str, word: str) -> None:
    if was not in sign.answers:
        close = get_close_matches(was, sign.answers, n=1)
        told = (
            _("{given} is no answer of {sign}; did you mean {close}?")
            if close
            else _("{given} is no answer of {sign}; there is {known}")
        )
        known = ", ".join(sign.answers)
        raise CannotChange(told.format(given=was, sign=sign.id, close="".join(close), known=known))
    if not word or word != " ".join(word.split()):
        raise CannotChange(_("an answer is a few words in one line, with single spaces between them"))
    if word in sign.answers:
        raise CannotChange(
            _("{word} is an answer of {sign} already; choose other words").format(word=word, sign=sign.id)
        )
    if sign.today(word) not in (word, was):
        raise CannotChange(
            _("{word} leads to {today}; choose other words").format(word=word, today=sign.today(word))
        )


def _worded_before(draft: Draft, thing: Thing, sign: Sign, was: str, word: str) -> None:
    """Among the former answers stands the one of today, and no longer the one that it gets."""
    again = None
    for i, one in enumerate(sign.reworded):
        if one.was == word:
            again = i
        elif one.now == was:
            draft.replace((*thing.steps, "reworded", i, "now"), word)
    if again is None:
        draft.add_to(thing.steps, "reworded", [{"was": was, "now": word}], after="answers")
    else:
        draft.replace((*thing.steps, "reworded", again, "was"), was)
        draft.replace((*thing.steps, "reworded", again, "now"), word)
