"""Other languages: every message is gathered, and what is told in its place can take the same values."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from spanbook.ground.language import ENGLISH, FOLDER, languages
from tests.support import catalogues
from tests.support.catalogues import CALLS, gathered, places, said_of, translated, written
from tests.support.code import nodes, trees

OTHERS = [language for language in languages() if language != ENGLISH]


@pytest.mark.slow
@pytest.mark.parametrize("language", OTHERS)
def test_the_catalogues_are_as_they_would_be_written(language: str) -> None:
    """All messages of today and no other, alike wherever one stands twice."""
    known, folder = translated(language), FOLDER / language
    made = {f"{name}.po": written(language, messages, known) for name, messages in gathered().items()}
    kept = {file.name: file.read_bytes() for file in folder.glob("*.po")}
    other = sorted(name for name in {*made, *kept} if made.get(name) != kept.get(name))
    assert other == [], f"run: .venv/bin/python -m {catalogues.__name__}"


@pytest.mark.parametrize("language", OTHERS)
def test_words_have_the_places_of_their_message(language: str) -> None:
    for (context, text), message in translated(language).items():
        said = message.string if isinstance(message.string, tuple | list) else (message.string,)
        for one in said:
            assert places(str(one)) == places(text[-1]), (context, text)


@pytest.mark.slow
@pytest.mark.parametrize("language", OTHERS)
def test_nothing_is_told_in_english_for_want_of_words(language: str) -> None:
    known = translated(language)
    assert [said for messages in gathered().values() for said in messages if said not in known] == []


def test_one_message_has_one_translation() -> None:
    for language in OTHERS:
        found: dict[object, object] = {}
        for file in sorted((FOLDER / language).glob("*.po")):
            with file.open("rb") as text:
                for message in read_po(text, locale=language):
                    if message.id:
                        assert found.setdefault(said_of(message), message.string) == message.string, file.name


def put_together(tree: ast.Module) -> Iterator[int]:
    """The lines on which a text is looked up that does not stand there."""
    for node in nodes(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            for i in CALLS.get(node.func.id, ()):
                if i < len(node.args) and isinstance(node.args[i], ast.JoinedStr | ast.BinOp):
                    yield node.lineno


@pytest.mark.slow
def test_what_is_looked_up_is_found_by_whoever_gathers() -> None:
    """A text is written out where it is looked up, or marked where it stands: never put together first."""
    assert [f"{module}:{line}" for module, tree in trees().items() for line in put_together(tree)] == []
    spoilt = '_("a {b}").format(b=f"{n}")\n_(f"{n} seen")\n_("a" + b)'
    assert list(put_together(ast.parse(spoilt))) == [2, 3]


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ('_("a {b}").format(b=1)', [("", ("a {b}",))]),
        ('X = {1: marked("one"), 2: marked("two")}', [("", ("one",)), ("", ("two",))]),
        ('plural(n, "{} part", "{} parts")', [("", ("{} part", "{} parts"))]),
        ('pgettext("of a plate", "stamp")', [("of a plate", ("stamp",))]),
        ('plural(n, *STEPS); _(WORDS[state]); f("x")', []),
    ],
)
def test_messages_are_gathered_from_code(code: str, said: list[catalogues.Said]) -> None:
    assert sorted(catalogues.of_python(ast.parse(code))) == sorted(said)


def test_messages_are_gathered_from_templates(tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    file.write_text('<p>{{ _("Built by {maker}.", maker=m) }}{{ _n(n, "{} part", "{} parts") }}</p>')
    assert list(catalogues.of_template(file)) == [("Built by {maker}.",), ("{} part", "{} parts")]
