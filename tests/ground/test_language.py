"""Speaking another language: what it has words for is told in them, the rest in English."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from spanbook.ground import language
from spanbook.ground.language import (
    UnknownLanguage,
    counted_forms,
    gettext,
    languages,
    ngettext,
    pgettext,
    speak,
    speaking,
    spoken,
    translations,
)

POLISH = """
msgid ""
msgstr "Plural-Forms: nplurals=3; plural=(n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<12 || n%100>14) ? 1 : 2);"

msgid "part"
msgstr "część"

msgctxt "of a play"
msgid "part"
msgstr "rola"

msgid "{} part"
msgid_plural "{} parts"
msgstr[0] "{} część"
msgstr[1] "{} części"
msgstr[2] "{} części wiele"

#, fuzzy
msgid "span"
msgstr "most"
"""


@pytest.fixture
def polish(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    (tmp_path / "pl").mkdir()
    (tmp_path / "pl/words.po").write_text(POLISH, encoding="utf-8")
    monkeypatch.setattr(language, "FOLDER", tmp_path)
    translations.cache_clear()
    yield
    translations.cache_clear()


def test_words_forms_and_contexts_come_from_the_catalogue(polish: None) -> None:
    with speaking("pl"):
        assert spoken() == "pl"
        assert (gettext("part"), pgettext("of a play", "part")) == ("część", "rola")
        assert [ngettext("{} part", "{} parts", n) for n in (1, 2, 5)] == [
            "{} część",
            "{} części",
            "{} części wiele",
        ]
        forms = counted_forms("{} part", "{} parts")
        assert forms == {"one": "{} część", "few": "{} części", "many": "{} części wiele"}
    assert (spoken(), gettext("part")) == ("en", "part")


def test_what_is_counted_may_be_said_alone(polish: None) -> None:
    """One message of both is enough, and a catalogue can hold no more."""
    with speaking("pl"):
        assert gettext("{} part") == "{} część"


def test_what_has_no_words_or_doubtful_ones_is_told_in_english(polish: None) -> None:
    with speaking("pl"):
        assert [gettext(text) for text in ("span", "serial", "")] == ["span", "serial", ""]


def test_english_is_its_own(polish: None) -> None:
    assert counted_forms("{} part", "{} parts") == {"one": "{} part", "other": "{} parts"}
    assert ngettext("{} part", "{} parts", 2) == "{} parts"


def test_a_language_that_nobody_has_is_refused(polish: None) -> None:
    assert languages() == ("en", "pl")
    with pytest.raises(UnknownLanguage, match="language: xx is none of those told here: en, pl"):
        speak("xx")
    speak("pl")
    assert spoken() == "pl"
    speak("en")
    assert gettext("part") == "part"
