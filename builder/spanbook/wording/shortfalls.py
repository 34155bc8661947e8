"""Where a conversion or supersession falls short of what it is for, or goes past it: lines and questions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.shortfalls import NeedUnmet, NeverHad, PastBase, Shortfall, Unreached
from spanbook.reading.records import Record
from spanbook.wording.grammar import listed
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import article, inner_title
from spanbook.wording.spans import runs_words


def shortfall_lines(one: Shortfall, here: Record) -> Iterator[Pieces]:
    """A line for the numbers that surely fall short, and one for those that may, on the page of `here`."""
    sure = one.numbers.surely
    for numbers, surely in ((sure, True), (one.numbers.possibly - sure, False)):
        if numbers:
            yield _line(one, runs_words(numbers.over(one.series.issued), one.series), here, surely=surely)


def _line(one: Shortfall, numbers: str, here: Record, *, surely: bool) -> Pieces:
    held = _refs(one.assemblies, here, "or")
    the = article(one.assemblies[0]) if one.assemblies else ""
    match one:
        case Unreached():
            kits = _refs(one.conversions, here, "and")
            end = "for other numbers only." if surely else "perhaps for other numbers only."
            are = " is " if len(one.conversions) == 1 else " are "
            return f"{numbers} had {the}", *held, " and nothing recorded converts it there: ", *kits, are, end
        case PastBase():
            end = " never had." if surely else " are not recorded to have had."
            return *_refs([one.conversion], here), f" starts from {the}", *held, f", which {numbers}{end}"
        case NeedUnmet():
            end = f"brings it to {numbers}." if surely else f"says whether {numbers} can have it."
            return *_refs([one.conversion], here), f" needs {the}", *held, f", and nothing recorded {end}"
        case NeverHad():
            end = "never had it" if surely else "are not recorded to have had it"
            return (f"It replaces {one.part.number}, and by what is recorded {numbers} {end}.",)


def _refs(records: Sequence[Record], here: Record, joint: str = "") -> Pieces:
    """Records by name; what the page is about leads nowhere."""
    found: list[str | Ref] = []
    for i, record in enumerate(records):
        if i:
            found.append(f" {joint} " if i == len(records) - 1 else ", ")
        title = inner_title(record)
        found.append(title if record is here else Ref(title, record))
    return tuple(found)


def shortfall_asked(one: Shortfall, place: str, *, surely: bool) -> str:
    """What the owners of those numbers are asked; `place` is the position in small letters."""
    the = article(one.assemblies[0]) if one.assemblies else ""
    held = the + listed([inner_title(assembly) for assembly in one.assemblies], "or")
    match one:
        case Unreached():
            for_ = "is not for these machines" if surely else "may not be for these machines"
            kits = listed([kit.title for kit in one.conversions], "or")
            return f"is your {place} still {held}, or was it converted? By what is recorded {kits} {for_}."
        case PastBase():
            is_ = "is" if surely else "may be"
            return (
                f"was your {place} ever {held}? {one.conversion.title}, which starts from it, {is_} for "
                "these machines, and nothing recorded says that they had it."
            )
        case NeedUnmet():
            may = "" if surely else "may be for these machines and "
            return (
                f"is your {place} {held}, or could it be? {one.conversion.title} {may}needs it, "
                "and nothing recorded brings it there."
            )
        case NeverHad():
            is_ = "is" if surely else "may be"
            return (
                f"can {one.part.number} be read in your {place}? Its replacement {is_} for these machines, "
                "and nothing recorded says that they had it."
            )
