"""The site taken along: a copy on the device that never passes for the site, and one for the workshop."""

from __future__ import annotations

import json
import re
import threading
import zipfile
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

LIST = "/wexmoor/assets/along/files.json"


class Line:
    """The site under a folder of its own, as it may be changed or lost while somebody reads it."""

    def __init__(self, site: Path) -> None:
        self.site = site
        self.instead: dict[str, bytes] = {}
        self.broken: set[str] = set()
        self.asked: list[str] = []
        self.cut = False
        line = self

        class Handler(SimpleHTTPRequestHandler):
            def do_GET(self) -> None:
                path = unquote(self.path.split("?")[0])
                line.asked.append(path)
                if line.cut or path in line.broken:
                    self.close_connection = True
                    return
                if path in line.instead:
                    self.send_response(200)
                    self.send_header("Content-Type", self.guess_type(path))
                    self.end_headers()
                    self.wfile.write(line.instead[path])
                    return
                self.path = self.path.removeprefix("/wexmoor")
                super().do_GET()

            def end_headers(self) -> None:
                self.send_header("Cache-Control", "no-cache")
                super().end_headers()

            def log_message(self, format: str, *args: object) -> None:
                """Say nothing for each request."""

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Handler, directory=str(site)))
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        self.address = f"http://127.0.0.1:{self.server.server_address[1]}/wexmoor/"

    def page(self, address: str) -> bytes:
        return (self.site / address / "index.html").read_bytes()

    def changed(self, address: str, html: bytes, state: str | None = None) -> None:
        """The site says something else on one page, and its list knows it."""
        made = json.loads((self.site / "assets/along/files.json").read_text())
        for one in made["files"]:
            if one[0] == f"{address}index.html":
                one[2] = "changed"
        if state:
            made["state"] = state
            made["told"] = "The records as they stood on 1 January 2999."
        self.instead[f"/wexmoor/{address}"] = html
        self.instead[LIST] = json.dumps(made).encode()


@pytest.fixture
def line(demo_site: Path) -> Iterator[Line]:
    line = Line(demo_site)
    yield line
    line.server.shutdown()


@pytest.fixture
def reader(chromium: Browser) -> Iterator[BrowserContext]:
    context = chromium.new_context(viewport={"width": 390, "height": 844})
    yield context
    context.close()


def opened(context: BrowserContext, address: str, wrong: list[str] | None = None) -> Page:
    page = context.new_page()
    if wrong is not None:
        page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(address)
    return page


def kept(context: BrowserContext, line: Line) -> Page:
    """The site is kept on the device."""
    wrong: list[str] = []
    page = opened(context, f"{line.address}along/", wrong)
    page.get_by_role("button", name="Keep it on this device").click()
    page.locator("[data-device][data-done]").wait_for(timeout=120_000)
    expect(page.locator("[data-device] [data-told]")).to_contain_text("A copy is kept on this device.")
    assert wrong == []
    return page


def test_without_a_line_the_copy_is_shown_and_says_so(reader: BrowserContext, line: Line) -> None:
    page = kept(reader, line)
    told = json.loads((line.site / "assets/along/files.json").read_text())["told"]
    page.goto(f"{line.address}assemblies/edge-strainer/")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Metal-edge strainer")
    assert page.locator(".sb-from-copy").count() == 0
    line.cut = True
    page.goto(f"{line.address}assemblies/cartridge-filter/")
    expect(page.locator(".sb-from-copy")).to_have_text(
        f"There is no connection: this is the copy on this device. {told}"
    )
    expect(page.get_by_role("heading", level=1)).to_contain_text("artridge")
    page.locator("form[data-finder] input").fill("HK 588")
    expect(page.get_by_role("option").first).to_contain_text("HK 588")
    page.goto(f"{line.address}card/?serial=HK+588")
    page.locator("[data-card][data-done]").wait_for()
    assert page.locator(".sb-place").count() > 5
    page.goto(f"{line.address}assemblies/there-is-none/")
    expect(page.get_by_role("heading", level=1)).to_have_text("Nothing stands at this address")
    expect(page.locator(".sb-from-copy")).to_be_visible()
    line.cut = False
    page.goto(f"{line.address}assemblies/cartridge-filter/")
    assert page.locator(".sb-from-copy").count() == 0


def test_what_is_new_is_told_and_fetched_alone(reader: BrowserContext, line: Line) -> None:
    page = kept(reader, line)
    newer = line.page("glossary").replace(b"Glossary</h1>", b"Glossary, second edition</h1>")
    line.changed("glossary/", newer)
    page.reload()
    expect(page.locator("[data-device] [data-told]")).to_contain_text("The site says more by now.")
    line.asked.clear()
    page.get_by_role("button", name="Fetch what is new").click()
    page.locator("[data-device][data-done]").wait_for()
    expect(page.locator("[data-device] [data-told]")).to_contain_text("The site says the same now.")
    fetched = [path for path in line.asked if path.endswith("/")]
    assert fetched == ["/wexmoor/glossary/"]
    line.cut = True
    page.goto(f"{line.address}glossary/")
    expect(page.get_by_role("heading", level=1)).to_contain_text("second edition")
    assert len(page.evaluate("caches.keys()")) == 1


def test_half_a_copy_is_none(reader: BrowserContext, line: Line) -> None:
    line.broken.add("/wexmoor/glossary/")
    page = opened(reader, f"{line.address}along/")
    page.get_by_role("button", name="Keep it on this device").click()
    page.locator("[data-device][data-done]").wait_for(timeout=120_000)
    expect(page.locator("[data-device] [data-told]")).to_contain_text("The connection was lost.")
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0
    line.broken.clear()
    line.asked.clear()
    page.reload()
    page.get_by_role("button", name="Keep it on this device").click()
    page.locator("[data-device] [data-told]", has_text="A copy is kept").wait_for(timeout=120_000)
    assert "/wexmoor/glossary/" in line.asked
    assert "/wexmoor/cautions/" not in line.asked, "what had come is not fetched again"


def test_a_site_that_changes_meanwhile_is_not_kept_by_halves(reader: BrowserContext, line: Line) -> None:
    page = opened(reader, f"{line.address}along/")
    expect(page.get_by_role("button", name="Keep it on this device")).to_be_visible()
    changed = False

    def change(path: str) -> None:
        nonlocal changed
        if not changed:
            changed = True
            line.changed("glossary/", line.page("glossary"))

    page.on("request", lambda request: change(request.url) if request.url.endswith("/cautions/") else None)
    page.get_by_role("button", name="Keep it on this device").click()
    page.locator("[data-device][data-done]").wait_for(timeout=120_000)
    assert changed
    expect(page.locator("[data-device] [data-told]")).to_contain_text(
        "The site was changed while it was fetched."
    )
    assert page.evaluate("caches.keys()") == []


def test_a_page_over_the_line_is_never_answered_from_an_older_copy(
    reader: BrowserContext, line: Line
) -> None:
    page = kept(reader, line)
    script = (line.site / "assets/finder/spanbook.js").read_bytes()
    newer = re.sub(rb'spanbookState = "[^"]+"', b'spanbookState = "newer"', script)
    assert newer != script
    line.instead["/wexmoor/assets/finder/spanbook.js"] = newer
    page.goto(f"{line.address}glossary/")
    line.cut = True
    page.locator("form[data-finder] input").fill("HK 588")
    expect(page.get_by_role("option").first).to_contain_text("could not be loaded")
    page.goto(f"{line.address}glossary/")
    expect(page.locator(".sb-from-copy")).to_be_visible()
    page.locator("form[data-finder] input").fill("HK 588")
    expect(page.get_by_role("option").first).to_contain_text("HK 588")


def test_it_can_be_taken_off_again(reader: BrowserContext, line: Line) -> None:
    page = kept(reader, line)
    page.get_by_role("button", name="Take it off this device").click()
    expect(page.locator("[data-device] [data-told]")).to_have_text("The copy is no longer on this device.")
    assert page.evaluate("caches.keys()") == []
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0


def archive(page: Page, choice: str, folder: Path) -> Path:
    page.locator("[data-workshop] select").select_option(label=choice)
    with page.expect_download(timeout=120_000) as download:
        page.get_by_role("button", name="Make it").click()
    file = folder / download.value.suggested_filename
    download.value.save_as(file)
    with zipfile.ZipFile(file) as made:
        assert made.testzip() is None
        made.extractall(folder)
    return folder / file.stem


def test_the_whole_site_opens_from_a_disk(reader: BrowserContext, line: Line, tmp_path: Path) -> None:
    page = opened(reader, f"{line.address}along/")
    site = archive(page, "Everything", tmp_path)
    listed = {one[0] for one in json.loads((line.site / "assets/along/files.json").read_text())["files"]}
    assert {file.relative_to(site).as_posix() for file in site.rglob("*") if file.is_file()} == listed
    for address in sorted(listed)[::40]:
        assert (site / address).read_bytes() == (line.site / address).read_bytes()
    wrong: list[str] = []
    disk = opened(reader, (site / "index.html").as_uri(), wrong)
    disk.locator("form[data-finder] input").fill("WH-1181")
    disk.get_by_role("option").first.click()
    expect(disk.get_by_role("heading", level=1)).to_contain_text("WH-1181")
    disk.goto((site / "along/index.html").as_uri())
    expect(disk.locator("[data-workshop] [data-told]")).to_contain_text("This is such a copy already.")
    assert wrong == []


def test_one_machine_is_whole_in_itself_and_leads_on_to_the_web(
    reader: BrowserContext, line: Line, tmp_path: Path
) -> None:
    page = opened(reader, f"{line.address}along/")
    site = archive(page, "Wexmoor Type D launch engine", tmp_path)
    made = {file.relative_to(site).as_posix() for file in site.rglob("*") if file.is_file()}
    pages = [one for one in made if one.endswith(".html")]
    assert len(pages) < 0.7 * len([*line.site.rglob("*.html")])
    wrong: list[str] = []
    disk = opened(reader, (site / "machines/wexmoor-d/index.html").as_uri(), wrong)
    shown = disk.evaluate("[...document.images].map((image) => image.complete && image.naturalWidth > 0)")
    assert all(shown)
    leads = disk.eval_on_selector_all(
        ".sb-page a[href]", "all => all.map(one => SpanbookStick.led(one.href))"
    )
    inside = [one for one in leads if one.startswith("file:")]
    assert len(inside) > 20
    for one in inside:
        assert Path(unquote(one.removeprefix("file://").split("#")[0].split("?")[0])).is_file(), one
    disk.locator("form[data-finder] input").fill("HK 588")
    disk.get_by_role("option").first.click()
    disk.wait_for_selector("[data-card][data-done]")
    absent = sorted(
        file
        for file in line.site.rglob("assemblies/*/index.html")
        if not (site / file.relative_to(line.site)).exists()
    )
    away = absent[0].relative_to(line.site).parent.as_posix()
    told = disk.evaluate("to => SpanbookStick.led(new URL('../' + to + '/', location.href).href)", away)
    assert told == f"https://wexmoor.example/{away}/"
    assert wrong == []


def test_a_browser_offers_to_put_it_among_its_programs(reader: BrowserContext, line: Line) -> None:
    page = opened(reader, f"{line.address}glossary/")
    told = reader.new_cdp_session(page).send("Page.getAppManifest")
    assert told["url"] == f"{line.address}assets/along/site.webmanifest"
    assert told["errors"] == []
    assert told["manifest"]["startUrl"] == line.address
    assert told["manifest"]["scope"] == line.address
    missing = reader.new_cdp_session(page).send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [one for one in missing if one["errorId"] != "in-incognito"] == []
