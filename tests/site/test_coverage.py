"""Where conversions and acts fall short, and what was seen past their numbers, stands on their pages."""

from __future__ import annotations

import re

from spanbook.answers.answers import Answers
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.answers.test_questions import seen
from tests.answers.test_shortfalls import BOOK, act, assembly, kit
from tests.support.registers import register


def test_each_page_has_its_lines_and_they_lead_on() -> None:
    lid, hat = (
        assembly("lid", "first: 1, last: 12", parts="P-1"),
        assembly("hat", "first: 13, last: 20", parts="P-2"),
    )
    tin = assembly("tin", "first: 1, last: 15, fitted: field", parts="P-3")
    made = register(
        BOOK,
        lid,
        hat,
        tin,
        kit("k", "lid", "tin", "first: 2, last: 7"),
        act("a", "P-1", "P-9", "first: 10, last: 15"),
        seen("XA 11", "tin"),
        seen("XA 15", "lid"),
    )
    pages = {page.address: page.to_html(Around()) for page in views.all_pages(Site(Answers(made)))}
    short = (
        "XA 1 and XA 10 to XA 12 had the {} and nothing recorded converts it there: "
        "{} is for other numbers only."
    )
    lid_link, kit_link = '<a href="../../assemblies/lid/">lid</a>', '<a href="../../conversions/k/">k</a>'
    assert short.format("lid", kit_link) in pages["assemblies/lid/"]
    assert short.format(lid_link, "k") in pages["conversions/k/"]
    assert "The lid was seen on 1 machine past XA 12, the last number recorded" in pages["assemblies/lid/"]
    assert re.search(
        "The <a [^>]*>tin</a> was seen on 1 machine past XA 7, the last", pages["conversions/k/"]
    )
    assert (
        "It replaces P-1, and by what is recorded XA 13 to XA 15 never had it." in pages["supersessions/a/"]
    )
    assert "seen on 1 machine" not in pages["assemblies/hat/"]
