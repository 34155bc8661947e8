"""What is seen of something held, read from what somebody typed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches

from spanbook.answers.readings import Reading
from spanbook.answers.signs.key import Key, Length, Seen
from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
from spanbook.ground.matching import plain
from spanbook.ground.readings import written
from spanbook.reading.records import Sign
from spanbook.wording.signs import ELSE


def seen_of(
    key: Key,
    signs: Mapping[str, str],
    machine: Reading | None = None,
    sizes: Mapping[str, str] | None = None,
    marks: Sequence[str] = (),
) -> Seen:
    """Answers by the ids of signs, lengths by what they are of (`3 3/4 in`), marks as they read.

    Raises LookupError, saying what there is, for a sign or an answer that nothing at the position has, and
    ValueError for what is no length.
    """
    found = ((_sign(key, id_), given) for id_, given in signs.items())
    answers = {sign.id: _answer(sign, given) for sign, given in found}
    lengths = tuple(Length(what, size) for what, text in (sizes or {}).items() for size in written(text))
    return Seen(answers, machine, lengths, tuple(marks))


def _sign(key: Key, id_: str) -> Sign:
    today = key.fits.register.former.ids.get(("sign", id_), id_)
    found = next((sign for sign in key.signs if sign.id == today), None)
    if found is None:
        known = ", ".join(sign.id for sign in key.signs) or pgettext("to choose from", "none")
        raise LookupError(
            _("nothing at {position} is recorded with the sign {sign}; there is {known}").format(
                position=key.position, sign=id_, known=known
            )
        )
    return found


def _answer(sign: Sign, given: str) -> str | None:
    if plain(given) in (plain(ELSE), plain(_(ELSE))):
        return None
    by_spelling = {plain(one.was): one.now for one in sign.reworded}
    by_spelling |= {plain(answer): answer for answer in sign.answers}
    if plain(given) in by_spelling:
        return by_spelling[plain(given)]
    close = get_close_matches(given, sign.answers, n=1)
    told = (
        _("{given} is no answer of {sign}; did you mean {close}? There is {known}")
        if close
        else _("{given} is no answer of {sign}; There is {known}")
    )
    known = ", ".join((*sign.answers, _(ELSE)))
    raise LookupError(told.format(given=given, sign=sign.id, close="".join(close), known=known))
