"""The finder's list: every sentence in it, for the builder and for the script in the pages alike."""

from __future__ import annotations

from collections.abc import Collection
from functools import reduce

from spanbook.ground.standards import Standard
from spanbook.register.model import Part, Register

MOST_TAKEN = 3  # words that one word was taken for
# `{}` stands for what the row is about.
WORDS = {
    "card": "{}: its machine card",
    "together": "{}: its machine card, by these numbers together",
    "models": "numbers of different models: a card for each",
    "retired": "{}: a number of a series that is retired, and what it is now",
    "never": "{}: never issued; the nearest are {}",
    "worn": "may be any of {} numbers: what they have in common",
    "worn-title": "If {}",
    "worn-too": "it may be {} too: its card leads to them",
    "worn-card": "{}: its machine card, if {}",
    "loose-card": "{}: its machine card, if its plate reads so",
    "place": "{}: {}",
    "at-place": "{} ({})",
    "is-worn": "the stamp is worn",
    "was-read": "{} was read as {}",
    "and-was": "{} and {} as {}",
    "taken": "Nothing has {} as it is written",
    "taken-for": "this is for {}",
    "and-more": "{} and more",
    "exact": "{} ({})",
    "spacing": "{} ({}), spelt otherwise",
    "begins": "{} ({})",
    "as-worn": "{} ({}), if {}",
    "also-exact": "another number of {}: {} ({})",
    "also-spacing": "another number of {}: {} ({}), spelt otherwise",
    "also-begins": "another number of {}: {} ({})",
    "also-as-worn": "another number of {}: {} ({}), if {}",
    "misprint-exact": "a misprint for {}: {} ({})",
    "misprint-spacing": "a misprint for {}: {} ({}), spelt otherwise",
    "misprint-begins": "a misprint for {}: {} ({})",
    "misprint-as-worn": "a misprint for {}: {} ({}), if {}",
    "former-exact": "the number recorded before for {}: {} ({})",
    "former-spacing": "the number recorded before for {}: {} ({}), spelt otherwise",
    "former-begins": "the number recorded before for {}: {} ({})",
    "former-as-worn": "the number recorded before for {}: {} ({}), if {}",
    "mark-exact": "a mark on {}: {} ({})",
    "mark-spacing": "a mark on {}: {} ({}), spelt otherwise",
    "mark-begins": "a mark on {}: {} ({})",
    "mark-as-worn": "a mark on {}: {} ({}), if {}",
    "of-size": "{} ({}), recorded as {}",
    "up": "{} and up",
    "to": "{} to {}",
    # What a screen reader says of the list, and what stands above the page of results.
    "found": "{} results. Enter opens {}.",
    "found-one": "One result. Enter opens {}.",
    "found-unsure": "{} results; the first is {}. Enter lists them all.",
    "all": "All results on one page",
    "results": "{} results for {}",
    "results-one": "One result for {}",
    "more-numbers": "More numbers exist: type more of it.",
    "more-pages": "More pages exist: type another word.",
    "none": "Nothing found. Type it as stamped, with ? for a character that cannot be read, or words.",
}


def read_words(pairs: Collection[tuple[str, str]]) -> str:
    """Which characters were read as which others: `8 was read as B and 1 as l`."""
    if not pairs:
        return WORDS["is-worn"]
    first, *others = pairs
    return reduce(lambda told, pair: say("and-was", told, *pair), others, say("was-read", *first))


def of_size_words(register: Register, standard: Standard, part: Part) -> str:
    """A part that is recorded to be of a standard size."""
    return say("of-size", part.name, register.makers.get(part.key.by, part.key.by), standard.name)


def say(name: str, *values: str) -> str:
    """A sentence with its values in their places, in order."""
    text = WORDS[name]
    for value in values:
        text = text.replace("{}", value, 1)
    return text


# What a browser says of the box when it offers it beside its own.
SEARCH_IN = "Serial numbers, part numbers and words: {}"
