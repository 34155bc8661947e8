"""Parts that belong together: left and right, and what is sold only in sets."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.pairs import mirrors_of
from spanbook.answers.sets import contents
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import PartRecord
from spanbook.register.model import Register
from spanbook.rules.check import Check


def _part(id_: str, number: str, more: str = "") -> str:
    head = f"# file: content/parts/{id_}.yml\nkind: part\nid: {id_}\n"
    return f"{head}number: {number}\nname: {id_.capitalize()}\nevidence: [{{source: book}}]\n{more}"


HANDS_DISAGREE = Rule(
    "hands-disagree",
    Severity.ERROR,
    "Of two parts that mirror one another one is the left-hand one and the other the right-hand one.",
    bad=_part("left", "P-1", "hand: left\nmirrors: [{number: P-2}]\n")
    + _part("right", "P-2", "hand: left\n"),
    good=_part("left", "P-1", "hand: left\nmirrors: [{number: P-2}]\n")
    + _part("right", "P-2", "hand: right\n"),
)
SET_WITHOUT_PART = Rule(
    "set-without-part",
    Severity.WARNING,
    "What is sold only in a set stands in that set's list: without it nobody knows how many sets to order.",
    bad=_part("bolt", "P-1", "only-in: [{number: P-9}]\n"),
    good=_part("bolt", "P-1", "only-in: [{number: P-9}]\n") + _part("set", "P-9", "holds: [{number: P-1}]\n"),
)
SET_IN_ITSELF = Rule(
    "set-in-itself",
    Severity.ERROR,
    "A set that holds itself, by itself or by way of other sets, cannot be.",
    bad=_part("set", "P-9", "holds: [{number: P-8}]\n") + _part("other", "P-8", "holds: [{number: P-9}]\n"),
    good=_part("set", "P-9", "holds: [{number: P-8}]\n") + _part("other", "P-8", "holds: [{number: P-1}]\n"),
)


def _parts(register: Register) -> Iterator[PartRecord]:
    return (record for record in register.records if isinstance(record, PartRecord))


def _hands(register: Register) -> Iterator[Finding]:
    for part in _parts(register):
        own = register.parts[register.key_of_record(part)]
        place = part.origin.place("mirrors", 0, "number")
        for one in part.mirrors:
            other = register.parts[register.key_of(part, one)]
            if other is own:
                yield Finding(
                    place, _("{} as its own mirror image").format(one.number), _("correct the number")
                )
            elif part.hand and other.record and other.record.hand == part.hand:
                read = _("{number} and its mirror image {mirror} are both {hand}").format(
                    number=part.number, mirror=one.number, hand=part.hand
                )
                yield Finding(place, read, _("correct the hand of one of them"))
            elif any(further is not own for further in mirrors_of(register, other)):
                read = _("{}, of which another part is the mirror image already").format(one.number)
                yield Finding(place, read, _("correct the number in one of them"))


def _without(register: Register) -> Iterator[Finding]:
    for part in _parts(register):
        key = register.key_of_record(part)
        for i, one in enumerate(part.only_in):
            set_ = register.key_of(part, one)
            if key not in contents(register, set_) and not register.unread.may_number(one.number):
                read = _("{number} sold only in {set}, whose record does not say that it holds it").format(
                    number=part.number, set=one.number
                )
                todo = _("list it under holds in the record of {}").format(one.number)
                yield Finding(part.origin.place("only-in", i), read, todo)


def _in_itself(register: Register) -> Iterator[Finding]:
    for part in _parts(register):
        key = register.key_of_record(part)
        waiting, seen = list(contents(register, key)), set[PartKey]()
        while waiting:
            if (inside := waiting.pop()) not in seen:
                seen.add(inside)
                waiting.extend(contents(register, inside))
        if key in seen:
            yield Finding(
                part.origin.place("holds"),
                _("the set {} holds itself").format(part.number),
                _("correct the numbers"),
            )


CHECKS = (
    Check(HANDS_DISAGREE, _hands),
    Check(SET_WITHOUT_PART, _without),
    Check(SET_IN_ITSELF, _in_itself),
)
