"""The content security policy: every page has it, and a browser refuses what it forbids."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from mkdocs.exceptions import PluginError

from spanbook.mkdocs import shell
from tests.support.command import CONFIG, project, run

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = pytest.mark.slow  # whole sites are built

ASKED = {
    "default-src": "'self' file:",
    "img-src": "'self' file: data:",
    "connect-src": "'self'",
    "form-action": "'self' file:",
    "frame-src": "'none'",
    "object-src": "'none'",
    "base-uri": "'none'",
}


class Head(HTMLParser):
    """The policies of a page, and what stands before the first of them."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.policies: list[str] = []
        self.before: set[str] = set()
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if given.get("http-equiv") == "Content-Security-Policy":
            self.policies.append(given["content"] or "")
        elif not self.policies:
            self.before.add(tag)


def guarded(file: Path) -> None:
    """Hold a built page to the policy: one, before anything that could run, with all that is asked."""
    found = Head(file.read_text(encoding="utf-8"))
    (policy,) = found.policies
    assert found.before <= {"html", "head", "meta", "link", "title"}, file
    directives = dict(part.strip().split(" ", 1) for part in policy.split(";"))
    scripts = directives.pop("script-src")
    assert directives == ASKED, file
    assert re.fullmatch(r"'self' file:( 'sha256-[A-Za-z0-9+/]{43}=')+", scripts), file


def test_every_html_file_of_the_demonstration_has_it(demo_site: Path) -> None:
    files = [file for file in demo_site.rglob("*") if "htm" in file.suffix]
    assert len(files) > 500
    for file in files:
        guarded(file)


def test_every_html_file_of_a_fresh_community_has_it(tmp_path: Path) -> None:
    assert run("start", tmp_path / "fresh").exit_code == 0
    assert run("build", tmp_path / "fresh").exit_code == 0
    for file in (tmp_path / "fresh/site").rglob("*.html"):
        guarded(file)


def test_a_page_of_ones_own_template_gets_it(tmp_path: Path) -> None:
    folder = project(tmp_path)
    (folder / "own").mkdir()
    (folder / "own/plain.html").write_text("<!doctype html><html><head><title>x</title></head></html>")
    (folder / "own/bare.html").write_text("<p>{{ page.title }}</p>")
    (folder / "mkdocs.yml").write_text(CONFIG.replace("font: false", "font: false, custom_dir: own"))
    guide = folder / "content/plain.md"
    guide.write_text("---\ntemplate: plain.html\n---\n# Plain\n")
    assert run("build", folder).exit_code == 0
    guarded(folder / "site/plain/index.html")
    guide.write_text("---\ntemplate: bare.html\n---\n# Bare\n")
    result = run("build", folder)
    assert result.exit_code == 1
    assert "no <head>, where its content security policy would stand" in result.output


@pytest.mark.parametrize("name", ["nowhere.html", "sitemap.xml", "../mkdocs.yml", "[own, list]"])
def test_a_template_that_is_not_the_projects_own_does_not_stop_the_build(tmp_path: Path, name: str) -> None:
    folder = project(tmp_path)
    (folder / "content/plain.md").write_text(f"---\ntemplate: {name}\n---\n# Plain\n")
    assert run("check", folder).exit_code == run("build", folder).exit_code == 0
    guarded(folder / "site/plain/index.html")


@pytest.mark.parametrize("name", ["news.htm", "deep/news.xhtml"])
def test_a_copied_page_without_it_stops_the_build(tmp_path: Path, name: str) -> None:
    folder = project(tmp_path)
    file = folder / "own" / name
    file.parent.mkdir(parents=True)
    file.write_text("<script>alert(1)</script>")
    (folder / "mkdocs.yml").write_text(CONFIG.replace("font: false", "font: false, custom_dir: own"))
    result = run("build", folder)
    assert result.exit_code == 1
    assert f"{name}: copied or made without a content security policy" in result.output
    assert not (folder / "site").exists()


def test_a_head_takes_it_behind_the_character_set() -> None:
    html = '<html>\n<head class="x">\n<meta charset="utf-8">\n<script>1</script></head></html>'
    assert shell.guarded(html, "p").index("Policy") > html.index("utf-8")
    with pytest.raises(PluginError):
        shell.guarded("<header></header>", "p")


# What a script that got in all the same might try, and the directive that refuses it.
_TRIES = """async (count) => {
  const refused = new Set();
  document.addEventListener("securitypolicyviolation", (event) => refused.add(event.effectiveDirective));
  const add = (tag, names) => document.body.append(Object.assign(document.createElement(tag), names));
  add("iframe", { src: "https://x.example/" });
  add("object", { data: "https://x.example/" });
  add("img", { src: "https://x.example/x.png" });
  add("script", { src: "https://x.example/x.js" });
  add("script", { text: "document.title = 'ran'" });
  document.head.append(Object.assign(document.createElement("base"), { href: "https://x.example/" }));
  const form = Object.assign(document.createElement("form"), { action: "https://x.example/", method: "get" });
  document.body.append(form);
  form.submit();
  try { await fetch("https://x.example/"); } catch {}
  // A busy machine takes its time to refuse; what is never refused is waited for in vain.
  for (let waited = 0; refused.size < count && waited < 15000; waited += 50)
    await new Promise((done) => setTimeout(done, 50));
  return [document.title, ...refused];
}"""


@pytest.mark.parametrize("where", ["served", "stick"])
def test_a_browser_refuses_what_a_script_might_try(
    where: str, served: str, demo_site: Path, chromium: Browser
) -> None:
    page = chromium.new_page()
    told: list[str] = []
    page.on("console", lambda message: told.append(message.text) if message.type == "error" else None)
    page.goto(served if where == "served" else (demo_site / "index.html").as_uri())
    page.locator("form[data-finder] input").fill("HK 588")
    page.wait_for_selector("[role=option]")
    assert told == [], "nothing of the site's own is refused"
    wanted = {
        "frame-src",
        "object-src",
        "img-src",
        "script-src-elem",
        "base-uri",
        "form-action",
        "connect-src",
    }
    title, *refused = page.evaluate(_TRIES, len(wanted))
    page.close()
    assert title != "ran"
    assert set(refused) == wanted
