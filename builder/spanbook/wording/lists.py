"""The pages that list everything of a kind: what they are called, what they are for, and their columns."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ListWords:
    title: str
    lead: str
    columns: tuple[str, ...]


MACHINES = ListWords(
    "Machines",
    "Every machine, with the runs of its serial numbers.",
    ("Machine", "Maker", "Serial numbers"),
)
SERIES = ListWords(
    "Series",
    "Every run of serial numbers. Find yours by how the number on the plate is stamped.",
    ("Series", "Machine", "Numbers", "Plate"),
)
POSITIONS = ListWords(
    "Positions",
    "The places on a machine that an assembly occupies.",
    ("Position", "Assemblies recorded"),
)
ASSEMBLIES = ListWords(
    "Assemblies",
    "Every assembly by its position, with the machines it was on.",
    ("Assembly", "Number", "Serial numbers"),
)
ABSENCES = ListWords(
    "Nothing fitted",
    "Where nothing is fitted at a position, and on which machines that is so.",
    ("What is not there", "Position", "Serial numbers"),
)
PARTS = ListWords(
    "Part numbers",
    "Every part number, by whose number it is. Two firms may use the same one for different parts.",
    ("Maker or supplier", "Numbers"),
)
SUPERSESSIONS = ListWords(
    "Supersessions",
    "Every replacement of a number by another, and every number given up.",
    ("Replacement", "Year", "On what terms"),
)
CONVERSIONS = ListWords(
    "Conversions",
    "What was changed on machines after they left the works.",
    ("Conversion", "From", "To", "Year"),
)
SOURCES = ListWords(
    "Sources",
    "The printed and written things that statements rest on.",
    ("Source", "Class", "Year", "Statements"),
)
TEARDOWNS = ListWords(
    "Teardowns",
    "What somebody saw on one machine, on one day.",
    ("Teardown", "Seen by", "Condition", "Looked at"),
)
PIECES = ("From and to", "How many")  # of a list too long for one page
NONE_YET = "none yet"
LIMITED = "limited to some machines"


def parts_of(owner: str) -> ListWords:
    """The part numbers of a maker or supplier."""
    lead = f"Every part number of {owner} that a record mentions."
    return ListWords(f"Part numbers of {owner}", lead, ("Number", "Name", "Goes in"))


def piece_words(first: str, last: str) -> str:
    """A piece of a long list, by its first and last."""
    return f"{first} to {last}"
