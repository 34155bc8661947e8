"""The table of a series calls nothing settled that somebody disputes: it says what a card says."""

from __future__ import annotations

import re

import pytest

from spanbook.answers.answers import Answers
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.support.registers import lid, record, register

BOOK = record("{kind: source, id: book, title: B, class: parts-book}", "source", "book")
LETTER = record("{kind: source, id: letter, title: L, class: service-letter}", "source", "letter")
FOR = "{source: book}"
AGAINST = "{source: letter, against: true, note: Never there}"


def states(*evidence: str) -> list[str]:
    held = ", ".join(evidence)
    made = register(lid("lid", "first: 1, last: 7", held), BOOK, LETTER)
    pages = {page.address: page.to_html(Around()) for page in views.all_pages(Site(Answers(made)))}
    return re.findall(r'<span class="sb-state sb-state-[a-z]+">([a-z ]+)</span>', pages["series/xa/"])


@pytest.mark.parametrize(("evidence", "first"), [([FOR], "settled"), ([FOR, AGAINST], "disputed")])
def test_what_is_disputed_is_not_settled(evidence: list[str], first: str) -> None:
    found = states(*evidence)
    assert found[0] == first
    assert set(found[1:]) == {"not known"}
