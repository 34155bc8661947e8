"""The language in which everything is told: messages stand in English in the code and are looked up.

Never when a module is loaded: what stands in a constant is `marked`, and looked up where it is used. A
process speaks one language at a time. The catalogues are gettext's (PO), in `languages/`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from pathlib import Path

FOLDER = Path(__file__).parents[1] / "languages"
ENGLISH = "en"
_MOST_ASKED = 200  # every language shows all its forms of a whole number below that


class UnknownLanguage(Exception):  # noqa: N818 - it says what is wrong
    """Nothing is told in this language. The message says which there are."""


class _Spoken:
    """What is spoken now, and by what: English needs no looking up."""

    language = ENGLISH
    by: NullTranslations = NullTranslations()


def catalogues() -> NullTranslations:
    """All that is spoken now, as one: what was told by it stays as it is while this is the same."""
    return _Spoken.by


def languages() -> tuple[str, ...]:
    """The languages that there are, by their BCP 47 tags: English, and each that has catalogues."""
    return ENGLISH, *sorted(folder.name for folder in FOLDER.iterdir() if folder.is_dir())


def spoken() -> str:
    """The language that is spoken now, by its BCP 47 tag."""
    return _Spoken.language


def voice() -> str:
    """Names in which words messages are told: the language, and by what they are looked up."""
    return f"{_Spoken.language} {type(_Spoken.by).__name__}"


def speak(language: str) -> None:
    """From here on this language is spoken. Raises UnknownLanguage."""
    if language not in languages():
        raise UnknownLanguage(f"language: {language} is none of those told here: {', '.join(languages())}")
    _Spoken.language = language
    _Spoken.by = translations(language)


@contextmanager
def speaking(language: str, by: NullTranslations | None = None) -> Iterator[None]:
    """Speak a language for a while; by other words than its catalogues' where they are given."""
    before = _Spoken.language, _Spoken.by
    _Spoken.language, _Spoken.by = language, by or translations(language)
    try:
        yield
    finally:
        _Spoken.language, _Spoken.by = before


@cache
def translations(language: str) -> NullTranslations:
    """All catalogues of a language as one. What is not translated, or is in doubt, is told in English."""
    if language == ENGLISH:
        return NullTranslations()
    # English needs none of it.
    from babel.messages.catalog import Catalog
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    whole = Catalog(locale=language.replace("-", "_"))
    for file in sorted((FOLDER / language).glob("*.po")):
        with file.open("rb") as text:
            for message in read_po(text, locale=whole.locale):
                if message.id and not message.fuzzy:
                    whole[message.id] = message
    compiled = BytesIO()
    write_mo(compiled, whole)
    compiled.seek(0)
    return GNUTranslations(compiled)


def gettext(message: str) -> str:
    """A message in the language that is spoken."""
    return _Spoken.by.gettext(message) if message else ""


def pgettext(context: str, message: str) -> str:
    """A message that English says alike and others do not, told apart by a context."""
    return _Spoken.by.pgettext(context, message)


def ngettext(one: str, more: str, count: int) -> str:
    """The form of a message that a count asks for; each language has its own number of forms."""
    return _Spoken.by.ngettext(one, more, count)


def counted_forms(one: str, more: str) -> dict[str, str]:
    """All forms of a message by the categories that Unicode names (`one`, `few`, `other` …), for a script."""
    if _Spoken.language == ENGLISH:
        return {"one": one, "other": more}
    from babel import Locale

    category = Locale.parse(_Spoken.language, sep="-").plural_form
    asking = {category(count): count for count in reversed(range(_MOST_ASKED))}
    return {name: ngettext(one, more, count) for name, count in sorted(asking.items())}


def marked(message: str) -> str:
    """A message that is looked up later, where it is used: for constants."""
    return message


def marked_forms(one: str, more: str) -> tuple[str, str]:
    """The same of a message in the forms of a count."""
    return one, more
