"""Where a conversion or supersession falls short of what it is for, or goes past it: lines and questions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.shortfalls import NeedUnmet, NeverHad, PastBase, Shortfall, Unreached
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms, ngettext
from spanbook.reading.records import Absence, Record
from spanbook.wording.grammar import listed
from spanbook.wording.pieces import Pieces, Ref, filled, joined, plain
from spanbook.wording.records import inner_title
from spanbook.wording.spans import runs_words

# Of each sort what is said of the numbers that surely fall short, and of those that may.
_UNREACHED = {
    True: marked_forms(
        "{numbers} had {held} and nothing recorded converts it there: {kits} is for other numbers only.",
        "{numbers} had {held} and nothing recorded converts it there: {kits} are for other numbers only.",
    ),
    False: marked_forms(
        "{numbers} had {held} and nothing recorded converts it there: "
        "{kits} is perhaps for other numbers only.",
        "{numbers} had {held} and nothing recorded converts it there: "
        "{kits} are perhaps for other numbers only.",
    ),
}
_PAST_BASE = {
    True: marked("{kit} starts from {held}, which {numbers} never had."),
    False: marked("{kit} starts from {held}, which {numbers} are not recorded to have had."),
}
_NEED_UNMET = {
    True: marked("{kit} needs {held}, and nothing recorded brings it to {numbers}."),
    False: marked("{kit} needs {held}, and nothing recorded says whether {numbers} can have it."),
}
_NEVER_HAD = {
    True: marked("It replaces {part}, and by what is recorded {numbers} never had it."),
    False: marked("It replaces {part}, and by what is recorded {numbers} are not recorded to have had it."),
}
# What is asked of each.
_IS_UNREACHED = {
    True: marked(
        "is your {place} still {held}, or was it converted? By what is recorded {kits} is not for these "
        "machines."
    ),
    False: marked(
        "is your {place} still {held}, or was it converted? By what is recorded {kits} may not be for these "
        "machines."
    ),
}
_IS_PAST_BASE = {
    True: marked(
        "was your {place} ever {held}? {kit}, which starts from it, is for these machines, and nothing "
        "recorded says that they had it."
    ),
    False: marked(
        "was your {place} ever {held}? {kit}, which starts from it, may be for these machines, and nothing "
        "recorded says that they had it."
    ),
}
_IS_NEED_UNMET = {
    True: marked(
        "is your {place} {held}, or could it be? {kit} needs it, and nothing recorded brings it there."
    ),
    False: marked(
        "is your {place} {held}, or could it be? {kit} may be for these machines and needs it, and nothing "
        "recorded brings it there."
    ),
}
_WAS_NEVER_HAD = {
    True: marked(
        "can {part} be read in your {place}? Its replacement is for these machines, and nothing recorded "
        "says that they had it."
    ),
    False: marked(
        "can {part} be read in your {place}? Its replacement may be for these machines, and nothing recorded "
        "says that they had it."
    ),
}


def shortfall_lines(one: Shortfall, here: Record) -> Iterator[Pieces]:
    """A line for the numbers that surely fall short, and one for those that may, on the page of `here`."""
    sure = one.numbers.surely
    for numbers, surely in ((sure, True), (one.numbers.possibly - sure, False)):
        if numbers:
            yield _line(one, runs_words(numbers.over(one.series.issued), one.series), here, surely=surely)


def _line(one: Shortfall, numbers: str, here: Record, *, surely: bool) -> Pieces:
    held = _held(one, [_named(record, here) for record in one.assemblies])
    match one:
        case Unreached():
            kits = joined([_named(kit, here) for kit in one.conversions])
            told = ngettext(*_UNREACHED[surely], len(one.conversions))
            return filled(told, numbers=numbers, held=held, kits=kits)
        case PastBase():
            kit = _named(one.conversion, here)
            return filled(_(_PAST_BASE[surely]), kit=kit, held=held, numbers=numbers)
        case NeedUnmet():
            kit = _named(one.conversion, here)
            return filled(_(_NEED_UNMET[surely]), kit=kit, held=held, numbers=numbers)
        case NeverHad():
            return filled(_(_NEVER_HAD[surely]), part=one.part.number, numbers=numbers)


def _named(record: Record, here: Record) -> Ref | Pieces:
    """A record by name; what the page is about leads nowhere."""
    title = inner_title(record)
    return (title,) if record is here else Ref(title, record)


def _held(one: Shortfall, named: Sequence[Ref | Pieces]) -> Pieces:
    """What they had, as one of several: `the lid or hat`, or `no cooler` where nothing is fitted."""
    held = joined(named, "or")
    plainly = not one.assemblies or isinstance(one.assemblies[0], Absence)
    return held if plainly else filled(_("the {title}"), title=held)


def shortfall_asked(one: Shortfall, place: str, *, surely: bool) -> str:
    """What the owners of those numbers are asked; `place` is the position inside a sentence."""
    held = plain(_held(one, [(inner_title(assembly),) for assembly in one.assemblies]))
    match one:
        case Unreached():
            kits = listed([kit.title for kit in one.conversions], "or")
            return _(_IS_UNREACHED[surely]).format(place=place, held=held, kits=kits)
        case PastBase():
            return _(_IS_PAST_BASE[surely]).format(place=place, held=held, kit=one.conversion.title)
        case NeedUnmet():
            return _(_IS_NEED_UNMET[surely]).format(place=place, held=held, kit=one.conversion.title)
        case NeverHad():
            return _(_WAS_NEVER_HAD[surely]).format(part=one.part.number, place=place)
