"""The finder's list: every sentence in it, for the builder and for the script in the pages alike."""

from __future__ import annotations

from collections.abc import Collection
from functools import reduce

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.standards import Standard
from spanbook.register.model import Part, Register
from spanbook.wording.grammar import plural

MOST_TAKEN = 3  # words that one word was taken for
# `{}` stands for what the row is about.
WORDS = {
    "card": marked("{}: its machine card"),
    "together": marked("{}: its machine card, by these numbers together"),
    "models": marked("numbers of different models: a card for each"),
    "retired": marked("{}: a number of a series that is retired, and what it is now"),
    "never": marked("{}: never issued; the nearest are {}"),
    "worn-title": marked("If {}"),
    "worn-too": marked("it may be {} too: its card leads to them"),
    "worn-card": marked("{}: its machine card, if {}"),
    "loose-card": marked("{}: its machine card, if its plate reads so"),
    "place": marked("{}: {}"),
    "at-place": marked("{} ({})"),
    "is-worn": marked("the stamp is worn"),
    "was-read": marked("{} was read as {}"),
    "and-was": marked("{} and {} as {}"),
    "taken": marked("Nothing has {} as it is written"),
    "taken-for": marked("this is for {}"),
    "and-more": marked("{} and more"),
    "exact": marked("{} ({})"),
    "spacing": marked("{} ({}), spelt otherwise"),
    "begins": marked("{} ({})"),
    "ends": marked("{} ({}), if what stands before it is gone"),
    "as-worn": marked("{} ({}), if {}"),
    "also-exact": marked("another number of {}: {} ({})"),
    "also-spacing": marked("another number of {}: {} ({}), spelt otherwise"),
    "also-begins": marked("another number of {}: {} ({})"),
    "also-ends": marked("another number of {}: {} ({}), if what stands before it is gone"),
    "also-as-worn": marked("another number of {}: {} ({}), if {}"),
    "misprint-exact": marked("a misprint for {}: {} ({})"),
    "misprint-spacing": marked("a misprint for {}: {} ({}), spelt otherwise"),
    "misprint-begins": marked("a misprint for {}: {} ({})"),
    "misprint-ends": marked("a misprint for {}: {} ({}), if what stands before it is gone"),
    "misprint-as-worn": marked("a misprint for {}: {} ({}), if {}"),
    "former-exact": marked("the number recorded before for {}: {} ({})"),
    "former-spacing": marked("the number recorded before for {}: {} ({}), spelt otherwise"),
    "former-begins": marked("the number recorded before for {}: {} ({})"),
    "former-ends": marked("the number recorded before for {}: {} ({}), if what stands before it is gone"),
    "former-as-worn": marked("the number recorded before for {}: {} ({}), if {}"),
    "mark-exact": marked("a mark on {}: {} ({})"),
    "mark-spacing": marked("a mark on {}: {} ({}), spelt otherwise"),
    "mark-begins": marked("a mark on {}: {} ({})"),
    "mark-ends": marked("a mark on {}: {} ({}), if what stands before it is gone"),
    "mark-as-worn": marked("a mark on {}: {} ({}), if {}"),
    "of-size": marked("{} ({}), recorded as {}"),
    "up": marked("{} and up"),
    "to": marked("{} to {}"),
    # What a screen reader says of the list, and what stands above the page of results.
    "found-one": marked("One result. Enter opens {}."),
    "all": marked("All results on one page"),
    "results-one": marked("One result for {}"),
    "more-numbers": marked("More numbers exist: type more of it."),
    "more-pages": marked("More pages exist: type another word."),
    # Where nothing was found for several words.
    "alone": marked("One of these words alone finds pages"),
    "none": marked(
        "Nothing found. Type it as stamped, with ? for a character that cannot be read, or words."
    ),
}


def words() -> dict[str, str]:
    """Every sentence by its name, for the script in the pages."""
    return {name: _(text) for name, text in WORDS.items()}


def read_words(pairs: Collection[tuple[str, str]]) -> str:
    """Which characters were read as which others: `8 was read as B and 1 as l`."""
    if not pairs:
        return say("is-worn")
    first, *others = pairs
    return reduce(lambda told, pair: say("and-was", told, *pair), others, say("was-read", *first))


def may_be_words(count: int) -> str:
    """That a worn stamp may have been several numbers."""
    return plural(
        count,
        "may be any of {} number: what they have in common",
        "may be any of {} numbers: what they have in common",
    )


def of_size_words(register: Register, standard: Standard, part: Part) -> str:
    """A part that is recorded to be of a standard size."""
    return say("of-size", part.name, register.makers.get(part.key.by, part.key.by), standard.name)


def say(name: str, *values: str) -> str:
    """A sentence with its values in their places, in order."""
    text = _(WORDS[name])
    for value in values:
        text = text.replace("{}", value, 1)
    return text


def search_in(name: str) -> str:
    """What a browser says of the box when it offers it beside its own."""
    return _("Serial numbers, part numbers and words: {}").format(name)
