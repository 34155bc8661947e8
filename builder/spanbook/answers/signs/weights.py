"""What is seen of a thing weighs for each that it may be: signs, the machine's number, sizes and marks.

Every weight comes last for what nobody has recorded, which is one thing more. How often people answer
wrong, and the odds below, are our own guess (no source).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from fractions import Fraction
from math import floor

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import Reading
from spanbook.answers.signs.gain import weight
from spanbook.answers.signs.things import Measured, Thing
from spanbook.answers.sizing import SCATTER, TAKEN, Tool, Wear
from spanbook.ground.intervals import Covers
from spanbook.ground.matching import UNREADABLE, words, worn
from spanbook.ground.readings import Written
from spanbook.reading.records import Assembly, Sign

WRONG = 0.07  # how often an answer is wrong
POSSIBLE = 0.5  # what only may be on the machine, went on to order, or was sold for it later
ELSEWHERE = 0.05  # what the records do not put on the machine
# How far off a length may be read, in mm, by a caliper on a thing in use.
OFF = Fraction(TAKEN[Wear.USED]).limit_denominator(1000) + 2 * Fraction(
    SCATTER[Tool.CALIPER]
).limit_denominator(1000)

Row = tuple[int, ...]

_SURE, _POSSIBLE, _ELSEWHERE = weight(1.0), weight(POSSIBLE), weight(ELSEWHERE)


def of_sign(sign: Sign, things: Sequence[Thing]) -> tuple[Row, ...]:
    """A row of weights for each answer of a sign, and a last one for something else than its answers.

    A thing of which the sign is not recorded is taken to show what others do, each answer counted once more:
    so an answer says little of it.
    """
    kinds = len(sign.answers) + 1
    shown = [
        set(one.shows[sign.id].every) & set(sign.answers) if sign.id in one.shows else set() for one in things
    ]
    known = [one for one in shown if one]
    rows = []
    for answer in (*sign.answers, None):
        seen = sum(1 / len(one) for one in known if answer in one)
        usual = _told((seen + 1) / (len(known) + kinds), kinds)
        given = [_given(answer, one, kinds) if one else usual for one in shown]
        rows.append(tuple(weight(one) for one in (*given, usual)))
    return tuple(rows)


def _given(answer: str | None, shown: set[str], kinds: int) -> float:
    """How likely an answer is of a thing that shows some."""
    return (1 - WRONG) / len(shown) if answer in shown else WRONG / (kinds - len(shown))


def _told(share: float, kinds: int) -> float:
    """How likely an answer is that is right in a share of things."""
    return (1 - WRONG) * share + WRONG * (1 - share) / (kinds - 1)


def of_machine(fits: Fits, things: Sequence[Thing], reading: Reading, position: str) -> Row:
    """What the machine with a number tells: what surely left the works on it, and what else may be on it."""
    found = fits.at(reading, position).fits
    held: dict[Assembly, int] = {}
    for fit in found:
        sure = fit.covers is Covers.YES and fit.span.fitted == "factory" and not fit.span.option
        held[fit.assembly] = max(held.get(fit.assembly, _ELSEWHERE), _SURE if sure else _POSSIBLE)
    here = (
        max((held.get(one, _ELSEWHERE) for one in thing.assemblies), default=_ELSEWHERE) for thing in things
    )
    return (*here, _ELSEWHERE)


def of_size(things: Sequence[Thing], what: str, read: Written) -> Row:
    """What a length tells: of things with one of that name that agrees, that does not, and with none.

    The fewer things agree, the more it tells.
    """
    agree = [_agrees(thing, set(words(what)), read) for thing in things]
    known = [one for one in agree if one is not None]
    usual = (sum(known) + 1) / (len(known) + 2)
    each = {True: 1 - WRONG, False: WRONG * usual, None: usual}
    return tuple(weight(each[one]) for one in (*agree, None))


def _agrees(thing: Thing, asked: set[str], read: Written) -> bool | None:
    """Whether one of the lengths of that name agrees; None where none has the name."""
    named = [one for one in thing.sizes if asked <= set(words(one.what))]
    if not named:
        return None
    low, high = whole(read.low - read.step / 2), whole(read.high + read.step / 2)
    return any(least <= high and low <= most for least, most in map(zone, named))


def zone(size: Measured) -> tuple[int, int]:
    """What a recorded length may be read as; whole numbers, since a script compares them too."""
    return whole(size.low - OFF), whole(size.high + OFF)


def whole(mm: Fraction) -> int:
    """A length in whole millionths of a micrometre, where every inch in common use ends."""
    return floor(mm * 10**9 + Fraction(1, 2))


def of_mark(every: Collection[str], things: Sequence[Thing], text: str) -> Row:
    """What a number or a mark tells, read as far as it goes (`?` for what is worn away).

    The fewer of `every` one that is recorded anywhere read so, the more it tells.
    """
    alike = {one for one in every if reads(text, one)}
    chance = (len(alike) + 1) / (len(every) + 2)
    odds = (max(1 - WRONG, chance) if thing.texts & alike else chance for thing in things)
    return tuple(weight(one) for one in (*odds, chance))


def reads(text: str, mark: str) -> bool:
    read = worn(text)
    return len(read) == len(mark) and all(a in (UNREADABLE, b) for a, b in zip(read, mark, strict=True))


def added(rows: Iterable[Row]) -> Row:
    """Weights of several things seen, together."""
    return tuple(map(sum, zip(*rows, strict=True)))
