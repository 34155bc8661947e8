"""Drafts in a real browser: whose they are, what is told of them, and that none is ever lost."""

from __future__ import annotations

import json
import re
import shutil
import threading
from collections.abc import Callable, Iterator
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from typing import Any, Literal
from urllib.parse import quote

import pytest
from playwright.sync_api import Browser, Page, Route

from tests.conftest import Quiet
from tests.hostile.drafts import DRAFTS, IDS
from tests.pages.test_forms import fill_a_teardown, made, opened, told

RECORD = "?record=parts-book-1934"
TITLE = "[data-form] > [data-key=title] input"
SERIAL = "[data-key=serial] input"


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    context = chromium.new_context()
    page = context.new_page()
    page.set_default_timeout(8000)
    broken: list[str] = []
    page.on("pageerror", lambda error: broken.append(str(error)))
    yield page
    context.close()
    assert broken == []


def again(page: Page) -> str:
    page.reload()
    page.wait_for_selector("[data-begun]")
    return told(page)


def stored(page: Page) -> dict[str, str]:
    found: dict[str, str] = page.evaluate("({ ...localStorage })")
    return {name: text for name, text in found.items() if name.startswith('["spanbook-draft"')}


def key(page: Page, kind: str, record: str = "") -> str:
    root, site = page.evaluate(
        "(() => { const { root, site } = document.forms[document.forms.length - 1].dataset;"
        " return [new URL(root, location.href).href, site]; })()"
    )
    name: str = page.evaluate("JSON.stringify", ["spanbook-draft", root, site, kind, record])
    return name


def put_aside(page: Page) -> list[str]:
    """Every text put aside, whole."""
    return [text for name, text in stored(page).items() if not name.endswith("]")]


def changed_by_others(page: Page, change: Callable[[dict[str, Any]], None] | None) -> None:
    """From now on the site's table of records says otherwise; with no change, the record is gone."""

    def answer(route: Route) -> None:
        body = route.fetch().text()
        head, data = body.split(",", 1)
        table = json.loads(data.rstrip(");\n"))
        record = table["parts-book-1934"]
        if change is None:
            del table["parts-book-1934"]
        else:
            change(record["record"])
            record["digest"] = "0" * 16
        route.fulfill(body=f"{head},{json.dumps(table)});", content_type="text/javascript")

    page.route(re.compile(r"records-source-\d+\.js"), answer)


def renamed(route: Route) -> None:
    """The same page of a site with another name."""
    text = route.fetch().text()
    route.fulfill(body=re.sub('data-site="[^"]+"', 'data-site="Another"', text), content_type="text/html")


def test_two_communities_on_one_host_do_not_mix(page: Page, demo_site: Path, tmp_path: Path) -> None:
    for name in ("one", "two"):
        shutil.copytree(demo_site, tmp_path / name)
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(tmp_path)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        home = f"http://127.0.0.1:{server.server_address[1]}/"
        opened(page, f"{home}one/", "teardown")
        fill_a_teardown(page)
        opened(page, f"{home}two/", "teardown")
        assert page.locator(SERIAL).input_value() == ""
        # Another community moves in at the same address, and the first comes back.
        page.route("**/one/add/teardown/", renamed)
        opened(page, f"{home}one/", "teardown")
        assert page.locator("[data-form]").get_attribute("data-site") == "Another"
        assert page.locator(SERIAL).input_value() == ""
        page.unroute("**/one/add/teardown/", renamed)
        opened(page, f"{home}one/", "teardown")
        assert page.locator(SERIAL).input_value() == "HK 600"
        opened(page, f"{home}one/", "teardown", "?record=hk-592-osk")
        assert page.locator(SERIAL).input_value() == "HK 592"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def test_a_draft_holds_the_digest_of_the_record_it_started_from(page: Page, served: str) -> None:
    opened(page, served, "source", RECORD)
    page.locator(TITLE).fill("Mine")
    draft = json.loads(stored(page)[key(page, "source", "parts-book-1934")])
    assert re.fullmatch("[0-9a-f]{16}", draft["from"])
    assert draft["old"] == "content/sources/parts-book-1934.yml"
    assert draft["values"]["title"] == "Mine"
    assert "Others" not in again(page)
    assert not page.locator("[data-since]").is_visible()


@pytest.mark.parametrize("answer", ["mine", "theirs"])
def test_a_record_that_others_changed_is_told_with_what_to_do(page: Page, served: str, answer: str) -> None:
    opened(page, served, "source", RECORD)
    page.locator(TITLE).fill("Mine")
    changed_by_others(page, lambda record: record.update(title="Theirs", edition="4th"))
    assert "Others have changed this record since you began" in again(page)
    since = page.locator("[data-since]")
    assert "Changed: Title, Edition." in since.inner_text()
    since.get_by_text("The record as it is now").click()
    assert 'title: "Theirs"' in since.locator("code").inner_text()
    assert page.locator(TITLE).input_value() == "Mine"
    made(page)
    assert "Others have changed" in told(page)
    if answer == "mine":
        page.get_by_role("button", name="go on with mine").click()
        assert not since.is_visible()
        assert "Others" not in again(page)
        assert page.locator(TITLE).input_value() == "Mine"
    else:
        page.get_by_role("button", name="begin with theirs").click()
        assert not since.is_visible()
        assert page.locator(TITLE).input_value() == "Theirs"
        assert any('"Mine"' in text for text in put_aside(page))
        page.locator("[data-aside] > summary").click()
        with page.expect_navigation():
            page.get_by_role("button", name="Bring it back").click()
        page.wait_for_selector("[data-begun]")
        assert page.locator(TITLE).input_value() == "Mine"


def test_a_record_that_is_gone_is_told_and_what_was_filled_in_is_not(page: Page, served: str) -> None:
    opened(page, served, "source", RECORD)
    page.locator(TITLE).fill("Mine")
    changed_by_others(page, None)
    assert "no longer here under this name" in again(page)
    made(page)
    assert "/_new/" in (page.locator("[data-propose]").get_attribute("href") or "")


def test_a_record_that_cannot_be_loaded_is_not_said_to_be_missing(page: Page, served: str) -> None:
    page.route(re.compile(r"records-source-\d+\.js"), lambda route: route.abort())
    opened(page, served, "source", RECORD)
    assert "could not be loaded" in told(page)
    assert "There is no record" not in told(page)


@pytest.mark.parametrize("button", ["left", "middle"])
def test_a_draft_is_gone_when_it_was_proposed(
    page: Page, served: str, button: Literal["left", "middle"]
) -> None:
    opened(page, served, "teardown")
    fill_a_teardown(page)
    made(page)
    page.context.route("https://forge.example/**", lambda route: route.fulfill(body="a forge"))
    page.locator("[data-propose]").click(button="right")
    assert key(page, "teardown") in stored(page)  # only looked at what could be done
    page.locator("[data-propose]").click(button=button)
    again(page)
    assert page.locator(SERIAL).input_value() == ""
    assert key(page, "teardown") not in stored(page)
    assert "Handed in" in (page.locator("[data-aside]").text_content() or "")


def test_a_draft_is_gone_when_others_recorded_the_same(page: Page, served: str) -> None:
    opened(page, served, "source", RECORD)
    page.locator(TITLE).fill("Mine")
    changed_by_others(page, lambda record: record.update(title="Mine"))
    assert "is recorded by now" in again(page)
    assert page.locator(TITLE).input_value() == "Mine"
    assert key(page, "source", "parts-book-1934") not in stored(page)


def test_where_nothing_was_put_aside_nothing_is_told_of_it(page: Page, served: str) -> None:
    page.goto(f"{served}add/teardown/")
    assert page.locator("[data-aside]").is_hidden()


def test_what_is_begun_anew_is_put_aside_and_is_another_record(page: Page, served: str) -> None:
    opened(page, served, "source", RECORD)
    page.locator(TITLE).fill("Mine")
    page.get_by_role("button", name="Start anew").click()
    page.locator(TITLE).fill("Another")
    assert "Others" not in again(page)
    assert page.locator(TITLE).input_value() == "Another"
    page.locator("[data-key=class] select").select_option("manual")
    made(page)
    assert "/_new/" in (page.locator("[data-propose]").get_attribute("href") or "")
    assert any('"Mine"' in text for text in put_aside(page))


def test_half_typed_values_come_back_as_they_were_typed(page: Page, served: str) -> None:
    opened(page, served, "machine")
    page.locator("[data-key=first] input").fill("12a")
    page.locator("[data-key=years] [data-add]").click()
    page.locator("[data-year]").fill("193")
    again(page)
    assert page.locator("[data-key=first] input").input_value() == "12a"
    assert page.locator("[data-year]").input_value() == "193"
    assert page.locator("[data-first]").input_value() == ""


@pytest.mark.parametrize("name", DRAFTS)
def test_a_broken_draft_is_told_and_kept_aside(page: Page, served: str, name: str) -> None:
    text, wanted = DRAFTS[name]
    opened(page, served, "teardown")
    place = key(page, "teardown")
    page.evaluate("([place, text]) => localStorage.setItem(place, text)", [place, text])
    assert wanted in again(page)
    assert text in put_aside(page)
    if '"HK 600"' in text:
        assert page.locator(SERIAL).input_value() == "HK 600"
    fill_a_teardown(page)
    assert 'serial: "HK 600"' in made(page)
    page.locator("[data-aside] > summary").click()
    page.get_by_role("button", name="Throw it away").click()
    assert put_aside(page) == []


def test_a_full_store_is_told_and_overwrites_nothing(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    place = key(page, "teardown")
    page.evaluate(
        """place => {
            localStorage.setItem(place, "{ broken");
            for (let size = 4194304; size >= 1; size = Math.floor(size / 2)) {
                for (let n = 0; n < 4; n += 1) {
                    try { localStorage.setItem(`fill-${size}-${n}`, "x".repeat(size)); } catch { break; }
                }
            }
        }""",
        place,
    )
    assert "could not be read" in again(page)
    assert "no room left" in page.locator("[data-store]").inner_text()
    fill_a_teardown(page)
    assert stored(page)[place] == "{ broken"
    assert 'serial: "HK 600"' in made(page)
    page.evaluate(
        "Object.keys(localStorage).filter(n => n.startsWith('fill-')).forEach(n => delete localStorage[n])"
    )
    page.locator(SERIAL).fill("HK 601")
    assert not page.locator("[data-store]").is_visible()
    assert put_aside(page) == ["{ broken"]
    assert json.loads(stored(page)[place])["values"]["serial"] == "HK 601"


def test_a_browser_that_keeps_nothing_is_told_of(chromium: Browser, served: str) -> None:
    page = chromium.new_page()  # the theme's own scripts do not bear it; the form has to
    page.add_init_script(
        """Object.defineProperty(window, "localStorage", {
            get() { throw new DOMException("no", "SecurityError"); },
        })"""
    )
    opened(page, served, "teardown")
    assert "keeps no drafts" in page.locator("[data-store]").inner_text()
    fill_a_teardown(page)
    assert 'serial: "HK 600"' in made(page)
    page.context.close()


def test_two_tabs_with_one_form_are_told(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    other = page.context.new_page()
    opened(other, served, "teardown")
    page.locator(SERIAL).fill("HK 600")
    other.wait_for_selector("[data-store]:not([hidden])")
    assert "in another tab" in other.locator("[data-store]").inner_text()


def test_an_id_that_is_none_is_answered(page: Page, served: str) -> None:
    for id_ in IDS:
        opened(page, served, "source", f"?record={quote(id_)}")
        assert told(page) == f"There is no record {id_} here; fill in a new one."


@pytest.mark.parametrize(
    "query", ["?found=1", "?serials=x&id=y", "?__proto__=1&constructor=2", "?position=a&serial=%00"]
)
def test_an_address_fills_in_nothing_but_what_links_of_the_site_hold(
    page: Page, served: str, query: str
) -> None:
    opened(page, served, "teardown", query)
    filled = page.evaluate(
        "[...document.querySelectorAll('[data-form] input')].map(i => i.value).filter(Boolean)"
    )
    assert filled == (["\x00", "a"] if "serial=" in query else [])


@pytest.mark.parametrize("kept", [False, True])
def test_a_telephone_shows_what_was_put_aside_without_scrolling_sideways(
    page: Page, served: str, kept: bool
) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    opened(page, served, "source", RECORD)
    page.locator(TITLE).fill("Mine " + "x" * 250)
    if kept:
        page.get_by_role("button", name="Start anew").click()
        page.locator("[data-aside] > summary").click()
        page.get_by_role("button", name="Bring it back").wait_for()
    else:
        changed_by_others(page, lambda record: record.update(title="Theirs"))
        again(page)
        page.get_by_text("The record as it is now").click()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
