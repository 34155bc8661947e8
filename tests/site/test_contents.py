"""What a long page holds, told under its heading."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import escape

from spanbook.site.html import contents
from spanbook.site.page import Around, SitePage


@given(st.lists(st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1)))
def test_every_heading_is_told_as_it_reads(titles: list[str]) -> None:
    page = "".join(f'<h2 id="h{i}">{escape(title)}</h2><p>x</p>' for i, title in enumerate(titles))
    assert contents(page) == [(f"h{i}", title) for i, title in enumerate(titles)]


def test_a_link_in_a_heading_is_no_link_in_the_list() -> None:
    assert contents('<h2 id="a">To <a href="b/">the lid</a></h2><h3 id="c">No</h3>') == [("a", "To the lid")]


@pytest.mark.slow
def test_a_page_of_four_parts_or_more_tells_them_and_a_short_one_does_not(demo_pages: list[SitePage]) -> None:
    told = {True: 0, False: 0}
    for page in demo_pages:
        made = page.to_html(Around())
        if page.template in ("views/moved.html", "views/gone.html"):
            continue
        inside = made.partition("</header>")[2].partition('<footer class="sb-foot">')[0]
        parts = re.findall(r'<h2 id="([^"]+)"', inside)
        listed = re.findall(
            r'href="#([^"]+)"', made.partition('class="sb-contents"')[2].partition("</nav>")[0]
        )
        if listed:
            assert listed == parts[: len(listed)]
        assert bool(listed) is (len(parts) > 3), page.address
        told[bool(listed)] += 1
    assert min(told.values()) > 10
