"""What to order for a number, in a few lines: for one machine on a page, and as the command begins."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from spanbook.answers.listed import Listed
from spanbook.answers.orders import Orders
from spanbook.answers.standing import Standing, weakest
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Supersession
from spanbook.register.model import Register
from spanbook.wording.lines import listed_words, number_words
from spanbook.wording.orders import order_words

RESTS = {
    Standing.DISPUTED: (marked("It is disputed."), marked("A part of it is disputed.")),
    Standing.UNSUPPORTED: (
        marked("Nobody has named evidence for it."),
        marked("For a part of it nobody has named evidence."),
    ),
    Standing.RECALLED: (
        marked("It rests on recollections, and on nothing printed or seen."),
        marked("A part of it rests on recollections, and on nothing printed or seen."),
    ),
}
THIS = marked("this machine")
# On a part's page, where it goes by the machine; `{}` stands for its number.
ASK = marked("Which machine is it for? What to order goes by its serial number.")
SERIAL = marked("Serial number, as stamped")
USE = marked("Say what to order")
_WORDS = {
    "for": marked("For {}:"),
    "unread": marked(
        "{} reads as no serial number known here, or as several: below is what goes for any machine."
    ),
}
Ordered = Callable[[PartKey], Orders]
Judged = Callable[[Supersession], Standing]
Line = tuple[int, str]  # how far it stands in, and its words


def words() -> dict[str, str]:
    """What the page says of a number that is typed there."""
    return {name: _(text) for name, text in _WORDS.items()}


def lines(
    register: Register,
    key: PartKey,
    lists: Sequence[Listed],
    ordered: Ordered,
    judged: Judged,
    called: str | None = None,
) -> Iterator[Line]:
    """The order, and what parts lists say of the number; where the machine has another in its place, that
    comes first, with what is ordered for it. It is `called` by its number where nothing else is said."""

    def of(each: PartKey) -> Line:
        return 1, labelled(number_words(register, each), answer_words(register, ordered(each), each, judged))

    said = [line for one in lists for line in _listed(register, one, called, of)]
    if lists and all(one.covers is Covers.NO for one in lists):
        yield from (*said, of(key))
    else:
        yield 0, answer_words(register, ordered(key), key, judged)
        yield from said


def _listed(
    register: Register, one: Listed, called: str | None, of: Callable[[PartKey], Line]
) -> Iterator[Line]:
    """What a list says of the number, and what is ordered of that which the machine has in its place."""
    if words := listed_words(register, one, called):
        yield 0, words
    if one.machine and one.covers is Covers.NO:
        yield from map(of, dict.fromkeys(key for other in one.instead for key in other.line.keys))


def answer_words(register: Register, found: Orders, key: PartKey, judged: Judged) -> str:
    """What to order, and what that rests on where it is little."""
    return f"{order_words(register, found, key)}{rests_words(found, judged)}"


def rests_words(found: Orders, judged: Judged) -> str:
    """That an order rests on recollections, on no evidence or on what is disputed, all of it or a part; empty
    where it rests on more, or where no act says anything."""
    if any(way.grounds.against for way in found.alternatives):
        return ""  # that sources differ is said already
    each = [act for way in found.alternatives for act in way.grounds.acts]
    ways = [weakest(map(judged, way.grounds.acts)) for way in found.alternatives if way.grounds.acts]
    weak = weakest(ways) if ways else None
    if weak not in RESTS:
        return ""
    whole, part = RESTS[weak]
    alike = len(ways) == len(found.alternatives) and {judged(act) for act in each} == {weak}
    return f" {_(whole if alike else part)}"
