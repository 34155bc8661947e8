"""A community that is started in another language than English."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from spanbook.cli import main
from spanbook.faces.program import STARTER, source_of
from spanbook.faces.remarks import has_remarks, remarks_of, told
from spanbook.faces.scaffold import NotStarted, start
from spanbook.ground.language import ENGLISH, FOLDER, gettext, languages, speaking
from spanbook.reading.language import language_of
from spanbook.rules.checking import check_folder

OTHERS = [language for language in languages() if language != ENGLISH]
# What a record says in words; all else in it, ids and numbers and choices, is the same in every language.
WORDS = (
    *(
        "title",
        "name",
        "maker",
        "term",
        "meaning",
        "text",
        "words",
        "tell",
        "where",
        "note",
        "at",
        "copy",
        "plate",
    ),
    *("asks", "answers", "seen", "do", "why", "seen-by"),
)
# And in these kinds: what is measured, where a circuit chooses from a list.
MEASURED = ("part", "strip-down")
# Words that French has too, and where in a book.
ALIKE = re.compile(r"six|p\. \d+")
# A line of the settings that only waits to be taken in.
SETTING = re.compile(r"# (?:repo_url|edit_uri|contact|licence|exports): \S|# /\S+ +@you$")
# The files that are told by their remarks, where they are laid.
REMARKED = [
    path.replace("dot-", ".")
    for path in (
        file.relative_to(STARTER).as_posix() for file in sorted(STARTER.rglob("*")) if file.is_file()
    )
    if has_remarks(path)
]


@pytest.fixture(scope="module", params=OTHERS)
def language(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def laid(language: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("laid") / "motors"
    start(folder, "Motors", None, language=language)
    return folder


@pytest.fixture(scope="module")
def english(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("english") / "motors"
    start(folder, "Motors", None)
    return folder


def files_of(folder: Path) -> dict[str, str]:
    return {
        file.relative_to(folder).as_posix(): file.read_text(encoding="utf-8")
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


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


def test_its_records_are_checked_without_a_finding(language: str, laid: Path) -> None:
    with speaking(language):
        assert check_folder(laid).problems == ()


@pytest.mark.slow
def test_it_builds_without_a_warning(laid: Path, tmp_path: Path) -> None:
    built = CliRunner().invoke(main, ["build", str(laid), "--strict", "--site", str(tmp_path / "site")])
    assert built.exit_code == 0, built.output


def test_the_same_files_are_laid_in_every_language(english: Path, laid: Path) -> None:
    assert files_of(laid).keys() == files_of(english).keys()


def test_every_record_and_guide_is_written_in_every_language(language: str) -> None:
    over = files_of(FOLDER / language / "starter")
    whole = {path for path in files_of(STARTER) if not has_remarks(path)}
    assert over.keys() == whole - {"dot-github/ISSUE_TEMPLATE/config.yml", "program/dependencies.txt"}
    for path, theirs in over.items():
        for sign in (r"\]\(([^)]*)\)", r"`(spanbook \w+)", r"^ *id: (\w+)", r"(@NAME@)"):
            english = (STARTER / path).read_text(encoding="utf-8")
            assert set(re.findall(sign, theirs, re.M)) == set(re.findall(sign, english, re.M)), path


def test_records_differ_by_their_words_alone(language: str) -> None:
    for file in sorted((STARTER / "content").rglob("*.yml")):
        path = file.relative_to(STARTER).as_posix()
        theirs = yaml.safe_load((FOLDER / language / "starter" / path).read_text(encoding="utf-8"))
        english = yaml.safe_load(file.read_text(encoding="utf-8"))
        keys = (*WORDS, "what") if english["kind"] in MEASURED else WORDS
        assert list(told_apart(theirs, keys)) == list(told_apart(english, keys)), path
        left = {*said(theirs, keys)} & {*said(english, keys)}
        assert {text for text in left if not ALIKE.fullmatch(text)} == set(), path


def told_apart(node: object, keys: tuple[str, ...], at: str = "") -> Iterator[str]:
    """Every value of a record with where it stands; of words only that some are there."""
    if isinstance(node, dict):
        for key, below in node.items():
            worded = key in keys and "follows" not in at
            yield from [f"{at}/{key}"] if worded else told_apart(below, keys, f"{at}/{key}")
    elif isinstance(node, list):
        for i, below in enumerate(node):
            yield from told_apart(below, keys, f"{at}/{i}")
    else:
        yield f"{at}: {node}"


def said(node: object, keys: tuple[str, ...]) -> Iterator[str]:
    """The words of a record; what is published elsewhere has the title that it has there."""
    if isinstance(node, dict):
        for key, below in node.items():
            if key in keys:
                yield from [below] if isinstance(below, str) else map(str, below)
            elif key != "follows":
                yield from said(below, keys)
    elif isinstance(node, list):
        for below in node:
            yield from said(below, keys)


def test_settings_and_workflows_differ_by_what_they_say_alone(
    language: str, english: Path, laid: Path
) -> None:
    theirs, ours = files_of(laid), files_of(english)
    for path in REMARKED:
        text = ours[path]
        with speaking(language):
            words = {gettext(said): said for said in remarks_of(text)}
        if path.endswith((".yml", ".yaml", ".json")):
            asked = theirs[path].replace(f"language: {language}\n", "language: en\n")
            assert in_english(yaml.safe_load(asked), words) == yaml.safe_load(text), path
        else:
            assert run_by(theirs[path]) == run_by(text), path


def in_english(node: object, words: dict[str, str]) -> object:
    if isinstance(node, dict):
        return {in_english(key, words): in_english(below, words) for key, below in node.items()}
    if isinstance(node, list):
        return [in_english(below, words) for below in node]
    return words.get(node, node) if isinstance(node, str) else node


def run_by(text: str) -> list[str]:
    """The lines of a file that are no remarks; of what a shell is to print only that it is a plain text."""
    return [re.sub(r'echo "[^"$`\\]+"', "echo", line) for line in text.splitlines() if line[:2] != "# "]


def test_no_remark_is_left_in_english(english: Path, laid: Path) -> None:
    def remarks(text: str) -> set[str]:
        return {line.strip() for line in text.splitlines() if line.strip().startswith("# ")}

    theirs, ours = files_of(laid), files_of(english)
    for path in REMARKED:
        both = remarks(theirs[path]) & remarks(ours[path])
        assert [line for line in both if not SETTING.match(line)] == [], path


def test_what_is_said_in_english_is_laid_as_it_is_written() -> None:
    for path, text in files_of(STARTER).items():
        if has_remarks(path):
            assert told(text) == text


def test_paragraphs_are_told_each_and_wrapped_anew() -> None:
    text = "a:\n  # What editors and systems leave\n  # behind; the check passes it over.\n  # licence: X\n"
    assert [*remarks_of(text)] == ["What editors and systems leave behind; the check passes it over."]
    with speaking("de"):
        assert told(text) == (
            "a:\n  # Was Editoren und Systeme zurücklassen; die Prüfung übergeht es.\n  # licence: X\n"
        )


def test_a_licence_and_a_source_are_said_in_another_language_too(tmp_path: Path) -> None:
    commit = f"git+https://forge.example.org/us/spanbook@{'a' * 40}"
    start(tmp_path / "neu", "N", source_of(commit), "CC0-1.0", "de")
    assert "\n      licence: CC0-1.0\n" in (tmp_path / "neu/mkdocs.yml").read_text(encoding="utf-8")
    assert (tmp_path / "neu/program/source.txt").read_text(encoding="utf-8") == (
        f"# Woher das Programm kommt; `spanbook program SOURCE` schreibt diese Datei.\nspanbook @ {commit}\n"
    )
