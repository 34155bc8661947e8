"""Links in guides: as Python-Markdown reads them, but never in half a minute."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown import Markdown
from markdown.inlinepatterns import LinkInlineProcessor

from spanbook.mkdocs.brackets import LONGEST, Brackets

EXTENSIONS = ["toc", "tables", "fenced_code", "footnotes"]
pieces = st.sampled_from(
    [
        "[",
        "]",
        "(",
        ")",
        "[a]",
        "[b]: /b\n",
        "](/x)",
        "![",
        "<",
        ">",
        '"',
        "'",
        "\\",
        "`",
        "*",
        "a",
        " ",
        "\n",
    ]
)


def made(text: str) -> str:
    return str(Markdown(extensions=[*EXTENSIONS, Brackets()]).convert(text))


@pytest.mark.slow
@given(st.lists(pieces, max_size=40).map("".join))
@example("[[a](/x) [b][a] ![c](/y 't') [\n\n[a]: /a")
@example("[a](b 'c) d")
@example("[[b](/b)[[c](/c)")
def test_every_text_becomes_what_it_would_without(text: str) -> None:
    assert made(text) == Markdown(extensions=EXTENSIONS).convert(text)


@pytest.mark.parametrize("text", ["[" * 500, "![" * 500, "[a]" + "[" * 500, "[" * 500 + "](/x)"])
def test_what_nothing_closes_is_looked_for_once_a_sort_of_link(
    text: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked = []
    find = LinkInlineProcessor.getText

    def counting(self: object, data: str, index: int) -> object:
        looked.append(index)
        return find(self, data, index)

    monkeypatch.setattr(LinkInlineProcessor, "getText", counting)
    made(text)
    assert 0 < len(looked) < 30


def test_an_address_has_an_end() -> None:
    assert made(f"[a](/{'x' * (LONGEST - 5)})").startswith("<p><a href=")
    assert made(f"[a](/{'x' * LONGEST})").startswith("<p>[a](")
