"""What a command names: anything with an address of its own, called as in that address."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches

from spanbook.editing.plan import CannotChange
from spanbook.ground.language import gettext as _
from spanbook.reading.kinds import BY_FOLDER, KINDS
from spanbook.reading.nodes import Step
from spanbook.reading.phrases import any_of
from spanbook.reading.records import Record
from spanbook.reading.shapes import named_as
from spanbook.register.ids import ids_inside
from spanbook.register.model import Register

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_INSIDE = {"series": "series", "positions": "position", "signs": "sign"}
_LONGEST = 80


@dataclass(frozen=True, slots=True)
class Thing:
    """Something by its sort and id: a record, or a thing inside one, which stands at `steps`.

    `top` begins its address.
    """

    top: str
    sort: str
    id: str
    record: Record
    steps: tuple[Step, ...]

    @property
    def word(self) -> str:
        """The last word of its id: a position's is its full name."""
        return self.id.rpartition("/")[2]


def named(register: Register, text: str) -> Thing:
    """What a text like `assemblies/lid` or `positions/body/cover` names. Raises CannotChange."""
    top, _slash, id_ = text.strip("/").partition("/")
    kind = BY_FOLDER.get(top)
    sort = kind.name if kind else _INSIDE.get(top)
    if (not sort or not id_) and (full := _in_full(register, text.strip("/"))):
        raise CannotChange(
            _("{text}: name it as its address does: {full}").format(text=text, full=any_of(full))
        )
    if not sort or not id_:
        tops = ", ".join([*BY_FOLDER, *_INSIDE])
        raise CannotChange(
            _("{text}: name it as its address does, such as assemblies/lid; begin with {tops}").format(
                text=text, tops=tops
            )
        )
    record = register.things.get(sort, {}).get(id_)
    if record is None:
        raise CannotChange(
            _("{text}: there is no such {sort}; {instead}").format(
                text=text, sort=sort, instead=_instead(register, top, sort, id_)
            )
        )
    inside = (steps for steps, of, one in ids_inside(record) if (of, one) == (sort, id_))
    return Thing(top, sort, id_, record, next(inside, ("id",))[:-1])


def _in_full(register: Register, id_: str) -> list[str]:
    """The names by which those may be named that have an id."""
    sorts = {top: kind.name for top, kind in BY_FOLDER.items()} | _INSIDE
    return [f"{top}/{id_}" for top, sort in sorts.items() if id_ in register.things.get(sort, {})]


def _instead(register: Register, top: str, sort: str, id_: str) -> str:
    if now := register.former.ids.get((sort, id_)):
        return _("it is called {} now").format(f"{top}/{now}")
    close = get_close_matches(id_, register.things.get(sort, {}), n=1)
    if close:
        return _("did you mean {}?").format(f"{top}/{close[0]}")
    return _("write {} and its id").format(f"{top}/")


def new_id(word: str) -> str:
    """An id that may be given. Raises CannotChange."""
    if not _ID.fullmatch(word) or len(word) > _LONGEST:
        raise CannotChange(
            _(
                "{word}: an id is small letters and digits, words joined by hyphens, {most} at the most"
            ).format(word=word, most=_LONGEST)
        )
    return word


def free(register: Register, thing: Thing, id_: str) -> None:
    """Raise CannotChange where another thing of the sort has an id, or had it."""
    if id_ == thing.id:
        raise CannotChange(_("{} is what it is called").format(f"{thing.top}/{id_}"))
    sort = named_as(thing.sort) if thing.sort in KINDS else thing.sort
    if other := register.named(sort).get(id_):
        raise CannotChange(
            _("{address} is there already, in {path}; choose another id").format(
                address=f"{thing.top}/{id_}", path=other.origin.path
            )
        )
    now = register.former.ids.get((thing.sort, id_), thing.id)
    if now != thing.id:
        raise CannotChange(
            _("{before} leads to {now}; choose another id").format(
                before=f"{thing.top}/{id_}", now=f"{thing.top}/{now}"
            )
        )
