"""What a site says to programs besides its pages: browsers' boxes, crawlers, feeds, the day of each page."""

from __future__ import annotations

import os
import xml.etree.ElementTree as Tree
from pathlib import Path
from urllib.robotparser import RobotFileParser

import pytest

from spanbook.reading.git import days_of
from spanbook.site import opensearch
from tests.support import worlds
from tests.support.command import CONFIG, LID, project, run
from tests.support.repository import git

pytestmark = pytest.mark.slow  # whole sites are built
SETTINGS = CONFIG.replace("[spanbook]", "[{spanbook: {licence: CC-BY-4.0}}]")
SITE = f"{SETTINGS}site_url: https://x.example/engines/\n"
HAT = LID.replace("lid", "hat").replace("Lid", "Hat").replace("first: 1, last: 20", "first: 21, last: 30")


@pytest.fixture
def committed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The lid of 5 May and the hat of 6 June."""
    folder = project(tmp_path / "p")
    (folder / "mkdocs.yml").write_text(SITE)
    git(folder, "init", "-q")
    for day, record in (("2026-05-05", ""), ("2026-06-06", HAT)):
        monkeypatch.setitem(os.environ, "GIT_COMMITTER_DATE", f"{day}T12:00:00+00:00")
        if record:
            worlds.lay(folder, record)
        git(folder, "add", "-A")
        git(folder, "commit", "-q", "-m", "Records")
    return folder


def test_the_sitemap_has_the_day_of_each_page(committed: Path) -> None:
    assert run("build", committed).exit_code == 0
    space = {"s": "http://www.sitemaps.org/schemas/sitemap/0.9"}
    urls = Tree.parse(committed / "site/sitemap.xml").getroot().findall("s:url", space)
    days = {url.findtext("s:loc", "", space): url.findtext("s:lastmod", "", space) for url in urls}
    site = "https://x.example/engines/"
    assert days[f"{site}assemblies/lid/"] == "2026-05-05"
    assert days[f"{site}assemblies/hat/"] == "2026-06-06"
    assert days[site] == "2026-05-05"  # a guide
    assert days[f"{site}positions/"] == "2026-06-06"  # of all records


def test_outside_of_git_nobody_knows_the_days(tmp_path: Path) -> None:
    assert days_of(tmp_path) == {}


def test_a_name_with_letters_of_any_script_has_its_day(committed: Path) -> None:
    (committed / "content/höhe und maß.md").write_text("# Höhe\n")
    git(committed, "add", "-A")
    git(committed, "commit", "-q", "-m", "A guide")
    assert days_of(committed / "content")["höhe und maß.md"] == "2026-06-06"


def test_a_browser_and_a_crawler_are_told_where_to_ask(committed: Path) -> None:
    """By the elements that OpenSearch 1.1 (draft 6) requires, and urllib's reading of RFC 9309."""
    assert run("build", committed).exit_code == 0
    root = Tree.parse(committed / "site/opensearch.xml").getroot()
    space = "{http://a9.com/-/spec/opensearch/1.1/}"
    assert root.tag == f"{space}OpenSearchDescription"
    assert 0 < len(root.findtext(f"{space}ShortName", "")) <= 16
    assert root.findtext(f"{space}Description")
    (url,) = root.findall(f"{space}Url")
    assert url.attrib["template"] == "https://x.example/engines/find/?q={searchTerms}"
    robots = RobotFileParser()
    robots.parse((committed / "site/robots.txt").read_text().splitlines())
    assert robots.can_fetch("anybody", "https://x.example/engines/assemblies/lid/")
    assert robots.site_maps() == ["https://x.example/engines/sitemap.xml"]
    for page in ("index.html", "assemblies/lid/index.html"):
        html = (committed / "site" / page).read_text()
        assert 'rel="search" type="application/opensearchdescription+xml"' in html
        assert '<link rel="license" href="https://creativecommons.org/licenses/by/4.0/">' in html
        assert "Creative Commons Attribution 4.0 International</a></p>" in html.partition("sb-colophon")[2]
        assert "changes.atom" not in html


def test_a_name_of_any_length_and_letters_stays_text() -> None:
    made = opensearch.files("<b>&amp; " * 30, "https://x.example/?a&b/")["opensearch.xml"]
    root = Tree.fromstring(made)
    assert (root[0].text or "").startswith("<b>&amp;")
    assert len(root[0].text or "") <= 16


def test_a_site_without_an_address_has_none_of_them(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    assert run("build", folder).exit_code == 0
    assert not {"opensearch.xml", "robots.txt", "changes.atom"} & {
        f.name for f in (folder / "site").iterdir()
    }
    assert 'rel="search"' not in (folder / "site/index.html").read_text()


def test_pages_lead_to_the_feed_of_releases(committed: Path) -> None:
    assert run("release", "1", "--folder", committed).exit_code == 0
    assert run("build", committed).exit_code == 0
    html = (committed / "site/assemblies/lid/index.html").read_text()
    assert 'type="application/atom+xml" title="Changes" href="../../changes.atom">' in html
