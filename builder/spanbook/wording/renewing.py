"""What a machine may hold of what comes apart, and everything that is renewed on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.renewing import Holding, MayHold
from spanbook.answers.strip_down import Sheet, renewals
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import parted
from spanbook.register.model import Register
from spanbook.wording.fits import ask_by_words
from spanbook.wording.grammar import capital, plural
from spanbook.wording.strip_down import renew_words

EVERYTHING = marked("To renew, if everything is taken apart, as far as anybody has told")
NOTHING_RENEWED = marked("Nothing is renewed, as far as anybody has told.")
UNTOLD = marked("Nobody has told of taking apart: {}.")
UNKNOWN = marked("Nobody knows what is here: {}.")
NO_SUCH_PLACE = marked("its model has no such position")
_LEFT = {
    Covers.YES: marked("this machine left the works with it"),
    Covers.MAYBE: marked("this machine may have left the works with it"),
}
# What the page of a sheet says of a number that is typed there; `{}` stands for it.
_FOR = marked("For {}: {}.")
_ON_SHEET = {
    "not-here": marked("no record puts it on a machine of that series"),
    "none": marked("{} reads as no serial number known here. Below is the sheet for any machine."),
    "never": marked("{} was never issued. Below is the sheet for any machine."),
    "several": marked("{} may be several machines. Below is the sheet for any machine."),
}


def sheet_says() -> dict[str, str]:
    """What the page of a sheet says of a number that is typed there."""
    return {"for": _(_FOR), **{name: _(text) for name, text in _ON_SHEET.items()}}


def card_says() -> dict[str, str]:
    """What the card says where it cannot look everything up."""
    return {
        "nothing": _(NOTHING_RENEWED),
        "beside": _("; "),
        "together": _("It is told for one number at a time: ask for each of them."),
    }


def for_words(shown: str, one: MayHold | None) -> str:
    """That a sheet is one machine's: `For HK 588: this machine left the works with it.`"""
    return _(_FOR).format(shown, how_words(one) if one else _(NO_SUCH_PLACE))


def how_words(one: MayHold) -> str:
    """Whether and how a machine may hold an assembly."""
    told = [_("it was seen on this machine")] if one.seen else []
    if one.left is not Covers.NO:
        left = _(_LEFT[one.left])
        told.append(_("{told}, which is disputed").format(told=left) if one.disputed else left)
    if one.changed:
        told.append(_("it may have been fitted later"))
    if told:
        return parted(*told)
    return ask_by_words(one.ask_by) if one.ask_by else _("no record puts it on this machine")


def head_words(one: MayHold) -> str:
    """The same under the assembly's name, with how many have told how it comes apart."""
    accounts = len(one.sheet.accounts) if one.sheet else 0
    told = plural(accounts, "by one account", "by {} accounts")
    return parted(capital(how_words(one)), f"{told}.")


def renewed_words(register: Register, sheet: Sheet) -> tuple[str, ...]:
    """Each thing that is renewed, with what is ordered for it today."""
    return tuple(renew_words(register, sheet, freed, renewals(register, freed)) for freed in sheet.renewed)


def silences(register: Register, one: Holding) -> Iterator[tuple[str, str]]:
    """What the list is silent about at a position: a sentence, and what stands in it for `{}`, with others of
    which the same is said."""
    yield from ((_(UNTOLD), held.assembly.title) for held in one.held if held.sheet is None)
    title = register.positions[one.position].title
    if one.unknown:
        yield _(UNKNOWN), title
    elif one.ask_by and not one.held:
        yield f"{{}}: {ask_by_words(one.ask_by)}.", title


def silent_words(register: Register, holdings: Sequence[Holding]) -> Iterator[str]:
    """What the list is silent about, a sentence a reason."""
    told: dict[str, dict[str, None]] = {}
    for holding in holdings:
        for sentence, what in silences(register, holding):
            told.setdefault(sentence, {})[what] = None
    yield from (sentence.replace("{}", parted(*what), 1) for sentence, what in told.items())
