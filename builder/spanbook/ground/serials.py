"""How a serial number is stamped: reading it in any spelling, printing it, listing what a worn one may be.

Whatever stands in a stamp beside the running number, a series has one running order. A number's *place* in
it is what everything else counts with: the number itself where it never begins again, and counted on where
it does. A stamp is a list of stretches of that order, each with the forms that its numbers may have; what a
plate's year, letters and the like mean was worked out when the stretches were made (`running_order.py`), so
that reading needs to know only a beginning, digits and an end. The twin of this is in `site/finder/read.js`.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import product

from spanbook.ground.joiners import without
from spanbook.ground.matching import DIGITS, JOINTS, UNREADABLE, as_worn

_DIGITS = "0123456789"
# Figures, or figures in threes with a space (ISO 80000-1, 7.3.1, from memory) or an apostrophe between them.
# A comma or a point is none: 1.250 is a size as well.
_THREES = "[0-9]{1,3}(?:[ \u00a0\u2009\u202f'’][0-9]{3}){1,3}"
_LOOSE = re.compile(f"[#№]?([^0-9?]*)([0-9]{{1,12}}|{_THREES})([^0-9?]*)")
_NO_FIGURE = re.compile("[^0-9]")
# Four unreadable digits are ten thousand machines: more is not a reading.
MOST_UNREADABLE = 4
MOST_EITHER = 6  # digits that may be either of two: 64 numbers
MOST_DIGITS = 12  # as a record's numbers; with more a browser no longer counts right, nor Python at all


@lru_cache(maxsize=4096)
def fold(text: str) -> str:
    """The characters of a serial number that tell: any case, without spaces, dots and dashes."""
    return JOINTS.sub("", without(text)).casefold()


def spelled(text: str) -> str:
    """The same with a space for every space, dot and dash: where they stand may tell two numbers apart."""
    return JOINTS.sub(" ", without(text)).casefold().strip()


@dataclass(frozen=True, slots=True)
class Worn:
    """The numbers that some digits may be, with `?` for each that cannot be read, as places of a stretch.

    The stretch has the numbers `first` to `last` (None: no end), and the first of them is at place `at`.
    """

    digits: str
    first: int = 0
    last: int | None = None
    at: int = 0

    def first_from(self, place: int) -> int | None:
        """The lowest place that one of them has and that is not below a place; None when there is none."""
        number = self._lowest(max(place - self.at, 0) + self.first)
        if number is None or (self.last is not None and number > self.last):
            return None
        return self.at + number - self.first

    def _lowest(self, number: int) -> int | None:
        """The lowest of the numbers that is not below a number."""
        if UNREADABLE not in self.digits:
            return only if (only := int(self.digits)) >= number else None
        wanted = f"{number:0{len(self.digits)}}"
        if len(wanted) > len(self.digits):
            return None
        alike = 0
        while alike < len(wanted) and self.digits[alike] in (wanted[alike], UNREADABLE):
            alike += 1
        if alike == len(wanted):
            return int(wanted)
        # As much of the wanted number as can stand before a higher digit, and the lowest after that.
        for at in range(alike, -1, -1):
            higher = str(int(wanted[at]) + 1) if self.digits[at] == UNREADABLE else self.digits[at]
            if wanted[at] < higher and len(higher) == 1:
                return int(wanted[:at] + higher + self.digits[at + 1 :].replace(UNREADABLE, "0"))
        return None


@dataclass(frozen=True, slots=True)
class Form:
    """One way in which a number is stamped: `prefix`, the digits padded to `width`, `suffix`."""

    prefix: str
    width: int
    suffix: str
    # What tells of the two, worked out once: of every text that is read each form is asked.
    _folded: tuple[str, str] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_folded", (fold(self.prefix), fold(self.suffix)))

    def show(self, number: int) -> str:
        return f"{self.prefix}{number:0{self.width}}{self.suffix}"

    def may_begin(self, folded: str) -> bool:
        """Whether what begins so may be this form: as much of its prefix, then a digit of its number."""
        prefix = self._folded[0]
        if not all(read in (stamped, UNREADABLE) for read, stamped in zip(folded, prefix, strict=False)):
            return False
        return not folded[len(prefix) :][:1].strip(_DIGITS + UNREADABLE)

    def digits(self, folded: str) -> str | None:
        """What stands between prefix and suffix, if those are there (`?` stands for any character)."""
        prefix, suffix = self._folded
        if not folded.startswith(prefix) and UNREADABLE not in folded:
            return None
        end = len(folded) - len(suffix)
        if end <= len(prefix):
            return None
        between = folded[len(prefix) : end]
        if len(between) > MOST_DIGITS or between.strip(_DIGITS + UNREADABLE):
            return None
        return between if _alike(folded[: len(prefix)], prefix) and _alike(folded[end:], suffix) else None

    def has_letters(self, typed: set[str]) -> bool:
        """Whether the letters beside its number are as typed, or none are; never where digits stand there."""
        letters = "".join(self._folded)
        return not any(c.isdecimal() for c in letters) and bool(typed & {"", letters})

    def worn_digits(self, folded: str) -> str | None:
        """The digits, as a worn stamp leaves them, of a text that may be this form worn.

        One character at least has to be a digit: `lid` is a word. None where `?` stands in it, or where
        more than six of its digits may be either of two.
        """
        prefix, suffix = self._folded
        typed = folded[len(prefix) : len(folded) - len(suffix)]
        digits = as_worn(typed)
        if as_worn(folded) != as_worn(prefix) + digits + as_worn(suffix):
            return None
        if not 0 < len(digits) <= MOST_DIGITS or not all(c in DIGITS for c in digits):
            return None
        either = sum(len(DIGITS[c]) > 1 for c in digits)
        return digits if any(c in _DIGITS for c in typed) and either <= MOST_EITHER else None


def _alike(read: str, stamped: str) -> bool:
    if UNREADABLE not in read:
        return read == stamped
    return all(r in (s, UNREADABLE) for r, s in zip(read, stamped, strict=True))


@dataclass(frozen=True, slots=True)
class Stretch:
    """The numbers `first` to `last` (None: no end) in one of some forms; the first of them is at place `at`.

    There are several forms where it is not known which of them a number has.
    """

    forms: tuple[Form, ...]
    first: int
    last: int | None
    at: int

    def places(self, numbers: Iterator[int]) -> Iterator[int]:
        """The places of those numbers that the stretch has."""
        return (
            self.at + number - self.first
            for number in numbers
            if self.first <= number and (self.last is None or number <= self.last)
        )


@dataclass(frozen=True, slots=True)
class Stamp:
    """How the numbers of one series are stamped: stretches of its running order, in that order."""

    stretches: tuple[Stretch, ...]

    def show(self, place: int) -> str:
        """What stands at a place as the plate has it; `?` for what may be one thing or another."""
        at = bisect_right(self.stretches, place, key=lambda stretch: stretch.at) - 1
        stretch = self.stretches[max(at, 0)]
        number = stretch.first + place - stretch.at
        if len(stretch.forms) == 1:
            return stretch.forms[0].show(number)
        each = [form.show(number) for form in stretch.forms]
        alike = (one for one in each if len(one) == len(each[0]))
        columns = map(set, zip(*alike, strict=True))
        return "".join(column.pop() if len(column) == 1 else UNREADABLE for column in columns)

    def may_begin(self, folded: str) -> bool:
        """Whether a folded text that begins so may be one of its numbers: short of reading all of it."""
        return any(form.may_begin(folded) for stretch in self.stretches for form in stretch.forms)

    def read(self, text: str) -> int | None:
        """The one place that a text reads as, leading zeros or not; None when there is none, or several."""
        found = self.readings(text)
        return found[0] if len(found) == 1 else None

    def readings(self, text: str) -> tuple[int, ...]:
        """Every place that a text reads as, in rising order; more than one only where stamps are alike."""
        found = [(stretch, digits) for stretch, digits in self._read(text) if UNREADABLE not in digits]
        return tuple(sorted({place for stretch, one in found for place in stretch.places(iter([int(one)]))}))

    def worn(self, text: str) -> tuple[Worn, ...]:
        """The digits of a number in each stretch where it reads, with `?` for each that cannot be read.

        Nothing when the text is not of this stamp, or has more unreadable digits than are a reading.
        """
        found = ((stretch, digits) for stretch, digits in self._read(text))
        return tuple(dict.fromkeys(Worn(digits, one.first, one.last, one.at) for one, digits in found))

    def may_be(self, text: str) -> Iterator[int]:
        """Every place that a text with `?` for unreadable characters may have, in rising order.

        Nothing when it is not of this stamp or has more than four unreadable digits.
        """
        found = ((stretch, _each(digits)) for stretch, digits in self._read(text))
        yield from sorted({place for stretch, numbers in found for place in stretch.places(numbers)})

    def worn_from(self, text: str) -> Iterator[int]:
        """Every place whose stamp, worn, may read as a text does, its plain reading too, in rising order."""
        folded = fold(text)
        found = (
            (stretch, _either(digits))
            for stretch in self.stretches
            for form in stretch.forms
            if (digits := form.worn_digits(folded)) is not None
        )
        yield from sorted({place for stretch, numbers in found for place in stretch.places(numbers)})

    def loosely(self, text: str) -> tuple[int, ...]:
        """Every place that digits may have whose letters were left out, or stand at the other end (`M402`).

        Only of forms whose numbers have no digits beside them: of any other it would be a guess.
        """
        match = _LOOSE.fullmatch(text.strip())
        if match is None:
            return ()
        before, after = fold(match[1]), fold(match[3])
        number = int(_NO_FIGURE.sub("", match[2]))
        found = (
            stretch
            for stretch in self.stretches
            for form in stretch.forms
            if form.has_letters({before + after, after + before})
        )
        return tuple(sorted({place for stretch in found for place in stretch.places(iter([number]))}))

    def _read(self, text: str) -> list[tuple[Stretch, str]]:
        """The stretches that a text may be of, with the digits of the number.

        Where spaces, dots and dashes alone tell two apart (`1-12` and `11-2`), those that a text has do.
        """
        folded = fold(text)
        found = [
            (stretch, form, digits)
            for stretch in self.stretches
            for form in stretch.forms
            if (digits := form.digits(folded)) is not None and digits.count(UNREADABLE) <= MOST_UNREADABLE
        ]
        if len(found) > 1 and UNREADABLE not in folded:
            asked = spelled(text)
            same = [one for one in found if spelled(one[1].show(int(one[2]))) == asked]
            found = same or found
        return [(stretch, digits) for stretch, _, digits in found]


def _each(digits: str) -> Iterator[int]:
    return (int("".join(choice)) for choice in product(*(_DIGITS if c == UNREADABLE else c for c in digits)))


def _either(digits: str) -> Iterator[int]:
    return (int("".join(choice)) for choice in product(*(DIGITS[c] for c in digits)))
