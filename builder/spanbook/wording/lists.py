"""The pages that list everything of a kind: what they are called, what they are for, and their columns."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked


@dataclass(frozen=True, slots=True)
class ListWords:
    """As they are marked: `told` looks them up."""

    title: str
    lead: str
    columns: tuple[str, ...]

    def told(self) -> ListWords:
        """The same in the language that is spoken."""
        return ListWords(_(self.title), _(self.lead), tuple(map(_, self.columns)))


MACHINES = ListWords(
    marked("Machines"),
    marked("Every machine, with the runs of its serial numbers."),
    (marked("Machine"), marked("Maker"), marked("Serial numbers")),
)
SERIES = ListWords(
    marked("Series"),
    marked("Every run of serial numbers. Find yours by how the number on the plate is stamped."),
    (marked("Series"), marked("Machine"), marked("Numbers"), marked("Plate")),
)
POSITIONS = ListWords(
    marked("Positions"),
    marked("The places on a machine that an assembly occupies."),
    (marked("Position"), marked("Assemblies recorded")),
)
ASSEMBLIES = ListWords(
    marked("Assemblies"),
    marked("Every assembly by its position, with the machines it was on."),
    (marked("Assembly"), marked("Number"), marked("Serial numbers")),
)
ABSENCES = ListWords(
    marked("Nothing fitted"),
    marked("Where nothing is fitted at a position, and on which machines that is so."),
    (marked("What is not there"), marked("Position"), marked("Serial numbers")),
)
PARTS = ListWords(
    marked("Part numbers"),
    marked("Every part number, by whose number it is. Two firms may use the same one for different parts."),
    (marked("Maker or supplier"), marked("Numbers")),
)
SUPERSESSIONS = ListWords(
    marked("Supersessions"),
    marked("Every replacement of a number by another, and every number given up."),
    (marked("Replacement"), marked("Year"), marked("On what terms")),
)
CONVERSIONS = ListWords(
    marked("Conversions"),
    marked("What was changed on machines after they left the works."),
    (marked("Conversion"), marked("From"), marked("To"), marked("Year")),
)
SOURCES = ListWords(
    marked("Sources"),
    marked("The printed and written things that statements rest on."),
    (marked("Source"), marked("Class"), marked("Year"), marked("Statements")),
)
TEARDOWNS = ListWords(
    marked("Teardowns"),
    marked("What somebody saw on one machine, on one day."),
    (marked("Teardown"), marked("Seen by"), marked("Condition"), marked("Looked at")),
)
_PIECES = (marked("From and to"), marked("How many"))


def piece_columns() -> tuple[str, ...]:
    """The columns of a list of pieces: what is too long for one page."""
    return tuple(map(_, _PIECES))


def none_yet() -> str:
    return _("none yet")


def limited() -> str:
    """That an act holds for some machines only."""
    return _("limited to some machines")


def parts_of(owner: str) -> ListWords:
    """The part numbers of a maker or supplier, told."""
    lead = _("Every part number of {} that a record mentions.").format(owner)
    columns = (_("Number"), _("Name"), _("Goes in"))
    return ListWords(_("Part numbers of {}").format(owner), lead, columns)


def piece_words(first: str, last: str) -> str:
    """A piece of a long list, by its first and last."""
    return _("{first} to {last}").format(first=first, last=last)
