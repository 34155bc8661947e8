"""A sitemap in pieces, by the Sitemap protocol 0.9 (sitemaps.org/protocol.html)."""

from __future__ import annotations

import xml.etree.ElementTree as Tree
from pathlib import Path

import pytest

from spanbook.mkdocs import sitemap

SPACE = {"s": "http://www.sitemaps.org/schemas/sitemap/0.9"}
SITE = "https://x.example/a&b/"


def of(pages: int) -> str:
    """As MkDocs writes one."""
    urls = "".join(
        f"\n    <url>\n         <loc>https://x.example/a&amp;b/{i}/</loc>\n"
        f"         <lastmod>2026-01-{i + 1:02}</lastmod>\n    </url>"
        for i in range(pages)
    )
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<urlset xmlns="{SPACE["s"]}">{urls}\n</urlset>'


def addresses(text: str) -> list[str]:
    return [loc.text or "" for loc in Tree.fromstring(text.encode()).iterfind("s:*/s:loc", SPACE)]


def test_a_small_one_stays_as_it_is() -> None:
    assert sitemap.cut(of(4), SITE, addresses=4) == {"sitemap.xml": of(4)}
    assert (sitemap.MOST_ADDRESSES, sitemap.MOST_BYTES) == (50_000, 52_428_800)


def test_too_many_addresses_go_into_pieces_and_the_index_leads_to_each() -> None:
    made = sitemap.cut(of(10), SITE, addresses=4)
    index = Tree.fromstring(made.pop("sitemap.xml").encode())
    assert index.tag == f"{{{SPACE['s']}}}sitemapindex"
    assert [one.findtext("s:loc", "", SPACE) for one in index] == [f"{SITE}{name}" for name in made]
    assert [one.findtext("s:lastmod", "", SPACE) for one in index] == [
        "2026-01-04",
        "2026-01-08",
        "2026-01-10",
    ]
    assert [len(addresses(piece)) for piece in made.values()] == [4, 4, 2]
    assert [one for piece in made.values() for one in addresses(piece)] == addresses(of(10))


@pytest.mark.parametrize("most", [350, 500, 1000])
def test_no_piece_has_more_bytes_than_may_be(most: int) -> None:
    made = sitemap.cut(of(10), SITE, most=most)
    del made["sitemap.xml"]
    assert len(made) > 1
    assert all(len(piece.encode()) <= most for piece in made.values())
    assert [one for piece in made.values() for one in addresses(piece)] == addresses(of(10))


def test_pieces_lie_beside_the_index(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sitemap, "cut", lambda whole, site: {"sitemap.xml": whole, "sitemap-1.xml": site})
    assert sitemap.lay("index", "piece", tmp_path) == "index"
    assert [(file.name, file.read_text()) for file in tmp_path.iterdir()] == [("sitemap-1.xml", "piece")]
