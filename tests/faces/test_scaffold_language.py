"""A community that is started in another language than English."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from spanbook.faces.program import STARTER
from spanbook.faces.scaffold import NotStarted, start
from spanbook.ground.language import FOLDER, languages
from spanbook.reading.language import language_of


def test_a_community_is_started_in_another_language(tmp_path: Path) -> None:
    start(tmp_path / "neu", "Unsere Motoren", None, language="de")
    settings = (tmp_path / "neu/mkdocs.yml").read_text(encoding="utf-8")
    assert settings.count("language: de") == 2
    assert "      - Maschinen: machines/index.md\n" in settings
    assert "  - Anleitungen:\n" in settings
    assert "\nsite_description: Womit jede Maschine das Werk verließ, und woher man es weiß.\n" in settings
    assert "name: Dunkel}" in settings
    assert language_of(tmp_path / "neu") == "de"
    index = (tmp_path / "neu/content/index.md").read_text(encoding="utf-8")
    assert index.startswith("# Unsere Motoren\n\nIn das Feld oben schreiben")
    assert {path.name for path in (tmp_path / "neu").rglob("*.md")} >= {"CONTRIBUTING.md", "found.md"}


def test_a_community_is_not_started_in_a_language_that_is_not_told(tmp_path: Path) -> None:
    with pytest.raises(NotStarted, match="read the language xx; it is one of en, de"):
        start(tmp_path / "neu", "N", None, language="xx")
    assert not (tmp_path / "neu").exists()


@pytest.mark.parametrize("language", [one for one in languages() if one != "en"])
def test_what_is_laid_over_the_starter_is_there_in_english_and_leads_to_the_same(language: str) -> None:
    over = FOLDER / language / "starter"
    files = [file for file in over.rglob("*") if file.is_file()]
    assert files
    for file in files:
        english, theirs = (STARTER / file.relative_to(over)).read_text(), file.read_text(encoding="utf-8")
        for sign in (r"\]\(([^)]*)\)", r"`(spanbook \w+)", r"^ *id: (\w+)", r"(@NAME@)"):
            assert set(re.findall(sign, theirs, re.M)) == set(re.findall(sign, english, re.M)), file.name


def test_every_language_has_the_texts_that_a_community_reads() -> None:
    laid = {
        one: {
            file.relative_to(FOLDER / one / "starter").as_posix()
            for file in (FOLDER / one).rglob("starter/**/*.*")
        }
        for one in languages()
        if one != "en"
    }
    for language, files in laid.items():
        assert files >= {"CONTRIBUTING.md", "content/index.md"}, language
        assert files == laid["de"], language
