"""What pages of no single record are called, and what they are for."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading.records import Machine, Series
from spanbook.wording.grammar import plural


@dataclass(frozen=True, slots=True)
class PageWords:
    title: str
    summary: str


CARD = PageWords(
    "Machine card",
    "One machine by its serial number: what was seen on it and what it left the works with, place by place.",
)
FIND = PageWords(
    "Find",
    "What is found for a serial number as stamped, for a part number or mark (worn ones too, with ? for what "
    "cannot be read) and for words.",
)
FORMS = PageWords(
    "Add what you found",
    "Fill in a form, read what it made, and hand it to the maintainers. Writing it takes no account and no "
    "program.",
)
TO_RULES = "what is checked"
CAUTIONS = PageWords(
    "Cautions",
    "The usual dangers of this work and what to do about them. They are reminders, not instructions: local "
    "rules and people licensed for the work come first.",
)
GLOSSARY = PageWords("Glossary", "The words of the trade as they are used here.")
_WORTHIEST = "the worthiest first: how many machines an answer would settle, times how unsure it is."
QUESTIONS = PageWords("Open questions", f"What is not known, {_WORTHIEST}")
PART_NUMBER = "Part number"


def questions_of(machine: Machine, series: Series) -> PageWords:
    """The open questions of one series."""
    about = f"What is not known about the {series.name} of the {machine.title}, {_WORTHIEST}"
    return PageWords(f"{QUESTIONS.title}, {series.name}", about)


def open_questions(count: int) -> str:
    return plural(count, "{} open question", "{} open questions")


def rules(count: int) -> PageWords:
    """The page of what is checked."""
    return PageWords(
        "What is checked",
        f"What a record is held to before readers see it: {count} rules, each with its reason and an example "
        "of what is refused and of what is accepted.",
    )


def form_title(kind: str) -> str:
    """The form of a kind, by the kind's title."""
    return f"{kind}: add or correct"


def moved(title: str) -> PageWords:
    """A page that leads on to where something stands now."""
    return PageWords(f"{title} has moved", f"This page has moved to {title}.")


def gone(address: str) -> PageWords:
    """The page at an address where something stood once."""
    return PageWords(f"Gone: {address}", "What stood at this address is gone. This is why:")


def assembly_sort(position: str) -> str:
    """What sort of page an assembly's is, where many are listed."""
    return f"Assembly, {position}"


def release_name(digest: str) -> str:
    """A state of the records by its digest."""
    return f"records {digest}"
