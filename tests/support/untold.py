"""What is told in English whatever language is spoken, because it was never looked up.

Everything is told in a language that puts each message into brackets; what reads like words outside of them
and stands in no record is found. By hand: `.venv/bin/python -m tests.support.untold [PART OF AN ADDRESS …]`
tells it of the demonstration's pages, `… --command ARGUMENTS …` of what a command says.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache
from gettext import NullTranslations
from html.parser import HTMLParser
from unittest.mock import patch

from click.testing import CliRunner

from spanbook.answers.answers import Answers
from spanbook.cli import main as command
from spanbook.ground.language import speaking
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.support.command import PROJECT
from tests.support.demo import demo

_SHOWN = {"title", "aria-label", "placeholder", "alt", "data-say", "content", "label"}
_INSIDE = re.compile(r"⟦[^⟦⟧]*⟧")
_WORDS = re.compile(r"[A-Za-z]{2,}")
_STAMPS = re.compile(r"\b(?:[A-Z]{1,3} )?\d+[A-Z]?\b")
_PROGRAMS = {"script", "style", "code", "pre"}  # for no reader, or as typed


class Bracketed(NullTranslations):
    """A language in which each message is itself, in brackets."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def pgettext(self, context: str, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"


class _Texts(HTMLParser):
    """What a reader meets in a page, in its texts and in its attributes."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._within: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _PROGRAMS:
            self._within.append(tag)
        self.found += [value for name, value in attrs if name in _SHOWN and value]

    def handle_endtag(self, tag: str) -> None:
        if tag in self._within:
            self._within.remove(tag)

    def handle_data(self, data: str) -> None:
        if not self._within:
            self.found.append(data)


def outside(text: str) -> Iterator[str]:
    """What of a text is in no brackets and reads like words."""
    while _INSIDE.search(text):
        text = _INSIDE.sub("\0", text)
    yield from (one.strip() for one in re.split("[\0⟦⟧]", text) if _WORDS.search(_STAMPS.sub("", one)))


@cache
def recorded() -> str:
    """All that the demonstration's records and settings say, in one text."""
    files = [f for f in (PROJECT / "content").rglob("*") if f.suffix in {".yml", ".md"}]
    return _plain("\n".join(f.read_text(encoding="utf-8") for f in [*files, PROJECT / "mkdocs.yml"]))


def _plain(text: str) -> str:
    return " ".join(re.findall(r"\w+", text)).casefold()


def untold(text: str) -> Iterator[str]:
    """What of a text is no message and stands in no record."""
    for one in outside(text):
        # Two pieces of a record may stand side by side; each is known by itself.
        pieces = re.split(r"[;:,.()/·→×=–\n]+", one)
        if any(
            _WORDS.search(_STAMPS.sub("", piece)) and f" {_plain(piece)} " not in f" {recorded()} "
            for piece in pieces
        ):
            yield one


def on_pages(asked: tuple[str, ...] = ()) -> dict[str, Counter[str]]:
    """Of each template what its pages leave untold; only of pages whose address has one of these in it."""
    found: dict[str, Counter[str]] = {}
    with speaking("en", Bracketed()):
        for page in views.all_pages(Site(Answers(demo()))):
            if asked and not any(part in page.address for part in asked):
                continue
            texts = _Texts()
            texts.feed(page.to_html(Around()))
            for text in (page.title, page.summary, *(crumb.text for crumb in page.crumbs), *texts.found):
                found.setdefault(page.template, Counter()).update(untold(text))
    return found


def of_command(arguments: list[str]) -> list[str]:
    """The lines of a command in brackets, whatever language the project asks for."""
    with speaking("en", Bracketed()), patch("spanbook.faces.language.speak"):
        return CliRunner().invoke(command, arguments).output.splitlines()


def main() -> None:
    asked = sys.argv[1:]
    if asked[:1] == ["--command"]:
        print("\n".join(of_command(asked[1:])))
        return
    for template, texts in sorted(on_pages(tuple(asked)).items()):
        print(template)
        for text, count in texts.most_common(80):
            print(f"  {count:5} {' '.join(text.split())[:160]}")


if __name__ == "__main__":
    main()
