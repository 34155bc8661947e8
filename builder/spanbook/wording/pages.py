"""What pages of no single record are called, and what they are for."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.records import Machine, Series
from spanbook.wording.grammar import plural


@dataclass(frozen=True, slots=True)
class PageWords:
    """A constant is marked, and `told` looks it up; what a function gives is told already."""

    title: str
    summary: str

    def told(self) -> PageWords:
        """The same in the language that is spoken."""
        return PageWords(_(self.title), _(self.summary))


CARD = PageWords(
    marked("Machine card"),
    marked(
        "One machine by its serial number: what was seen on it and what it left the works with, "
        "place by place."
    ),
)
FIND = PageWords(
    marked("Find"),
    marked(
        "What is found for a serial number as stamped, for a part number or mark (worn ones too, "
        "with ? for what "
        "cannot be read) and for words."
    ),
)
FORMS = PageWords(
    marked("Add what you found"),
    marked(
        "Fill in a form, read what it made, and hand it to the maintainers. Writing it takes no "
        "account and no "
        "program."
    ),
)
CAUTIONS = PageWords(
    marked("Cautions"),
    marked(
        "The usual dangers of this work and what to do about them. They are reminders, not "
        "instructions: local "
        "rules and people licensed for the work come first."
    ),
)
GLOSSARY = PageWords(marked("Glossary"), marked("The words of the trade as they are used here."))
QUESTIONS = PageWords(
    marked("Open questions"),
    marked(
        "What is not known, the worthiest first: how many machines an answer would settle, times how "
        "unsure it is."
    ),
)


def to_rules() -> str:
    """What leads to the page of the rules."""
    return _("what is checked")


def part_number() -> str:
    """What sort of page a part number's is."""
    return _("Part number")


def questions_of(machine: Machine, series: Series) -> PageWords:
    """The open questions of one series."""
    about = _(
        "What is not known about the {series} of the {machine}, the worthiest first: how many machines an "
        "answer would settle, times how unsure it is."
    )
    return PageWords(
        _("Open questions, {}").format(series.name), about.format(series=series.name, machine=machine.title)
    )


def open_questions(count: int) -> str:
    return plural(count, "{} open question", "{} open questions")


def rules(count: int) -> PageWords:
    """The page of what is checked."""
    about = _(
        "What a record is held to before readers see it: {} rules, each with its reason and an example "
        "of what is refused and of what is accepted."
    )
    return PageWords(_("What is checked"), about.format(count))


def form_title(kind: str) -> str:
    """The form of a kind, by the kind's title."""
    return _("{}: add or correct").format(kind)


def moved(title: str) -> PageWords:
    """A page that leads on to where something stands now."""
    return PageWords(_("{} has moved").format(title), _("This page has moved to {}.").format(title))


def gone(address: str) -> PageWords:
    """The page at an address where something stood once."""
    return PageWords(_("Gone: {}").format(address), _("What stood at this address is gone. This is why:"))


def assembly_sort(position: str) -> str:
    """What sort of page an assembly's is, where many are listed."""
    return _("Assembly, {}").format(position)


def release_name(digest: str) -> str:
    """A state of the records by its digest; programs read it, so it is alike in every language."""
    return f"records {digest}"
