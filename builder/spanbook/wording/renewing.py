"""What a machine may hold of what comes apart, and everything that is renewed on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.renewing import Holding, MayHold
from spanbook.answers.strip_down import Sheet, renewals
from spanbook.ground.intervals import Covers
from spanbook.register.model import Register
from spanbook.wording.fits import ask_by_words
from spanbook.wording.grammar import capital, plural
from spanbook.wording.strip_down import renew_words

EVERYTHING = "To renew, if everything is taken apart, as far as anybody has told"
NOTHING_RENEWED = "Nothing is renewed, as far as anybody has told."
UNTOLD = "Nobody has told of taking apart: {}."
UNKNOWN = "Nobody knows what is here: {}."
BESIDE = "; "  # between several things of a sentence, whose names have commas
NO_SUCH_PLACE = "its model has no such position"
_LEFT = {
    Covers.YES: "this machine left the works with it",
    Covers.MAYBE: "this machine may have left the works with it",
}
# What the page of a sheet says of a number that is typed there; `{}` stands for it.
SHEET = {
    "for": "For {}: {}.",
    "not-here": "no record puts it on a machine of that series",
    "none": "{} reads as no serial number known here. Below is the sheet for any machine.",
    "never": "{} was never issued. Below is the sheet for any machine.",
    "several": "{} may be several machines. Below is the sheet for any machine.",
}
# What the card says where it cannot look everything up.
CARD = {
    "nothing": NOTHING_RENEWED,
    "beside": BESIDE,
    "together": "It is told for one number at a time: ask for each of them.",
}


def for_words(shown: str, one: MayHold | None) -> str:
    """That a sheet is one machine's: `For HK 588: this machine left the works with it.`"""
    return SHEET["for"].replace("{}", shown, 1).replace("{}", how_words(one) if one else NO_SUCH_PLACE, 1)


def how_words(one: MayHold) -> str:
    """Whether and how a machine may hold an assembly."""
    told = ["it was seen on this machine"] if one.seen else []
    if one.left is not Covers.NO:
        told.append(f"{_LEFT[one.left]}{', which is disputed' if one.disputed else ''}")
    if one.changed:
        told.append("it may have been fitted later")
    if told:
        return "; ".join(told)
    return ask_by_words(one.ask_by) if one.ask_by else "no record puts it on this machine"


def head_words(one: MayHold) -> str:
    """The same under the assembly's name, with how many have told how it comes apart."""
    accounts = len(one.sheet.accounts) if one.sheet else 0
    told = plural(accounts, "by one account", "by {} accounts")
    return f"{capital(how_words(one))}; {told}."


def renewed_words(register: Register, sheet: Sheet) -> tuple[str, ...]:
    """Each thing that is renewed, with what is ordered for it today."""
    return tuple(renew_words(register, sheet, freed, renewals(register, freed)) for freed in sheet.renewed)


def silences(register: Register, one: Holding) -> Iterator[tuple[str, str]]:
    """What the list is silent about at a position: a sentence, and what stands in it for `{}`, with others of
    which the same is said."""
    yield from ((UNTOLD, held.assembly.title) for held in one.held if held.sheet is None)
    title = register.positions[one.position].title
    if one.unknown:
        yield UNKNOWN, title
    elif one.ask_by and not one.held:
        yield f"{{}}: {ask_by_words(one.ask_by)}.", title


def silent_words(register: Register, holdings: Sequence[Holding]) -> Iterator[str]:
    """What the list is silent about, a sentence a reason."""
    told: dict[str, dict[str, None]] = {}
    for holding in holdings:
        for sentence, what in silences(register, holding):
            told.setdefault(sentence, {})[what] = None
    yield from (sentence.replace("{}", BESIDE.join(what), 1) for sentence, what in told.items())
