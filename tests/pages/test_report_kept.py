"""What a report keeps on a telephone: pictures without place and device, and every word of it."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page

from spanbook.ground import images
from spanbook.reading import packets
from tests.support.reporting import MAKE, fill, lacks, opened, packet, photograph, snap, spot


@pytest.fixture
def page(telephone: Page) -> Page:
    return telephone


def test_a_picture_leaves_upright_and_small_without_place_and_device(
    page: Page, served: str, tmp_path: Path
) -> None:
    file = photograph(tmp_path / "IMG_0001.jpg")
    before = Image.open(file)
    assert before.getexif()[MAKE] == "A telephone"
    assert b"yard" in file.read_bytes()
    opened(page, served)
    fill(page)
    snap(page, "lubrication--oil-filter", file)
    files = packets.read(packet(page), "packet").files
    (data,) = (held for name, held in files.items() if name.endswith(".jpg"))
    images.check(data)
    after = Image.open(io.BytesIO(data))
    assert after.size == (1280, 1920)
    assert not after.getexif()
    assert not {"exif", "comment"} & set(after.info)  # a profile of colours is the browser's own
    for word in (b"Exif", b"yard", b"telephone"):
        assert word not in data
    # Turned by a quarter clockwise: what was at the upper left is at the upper right, and to the middle.
    red = after.convert("RGB").getpixel((1270, 20))
    blue = after.convert("RGB").getpixel((20, 20))
    assert isinstance(red, tuple)
    assert isinstance(blue, tuple)
    assert red[0] > 150 > blue[0]


def test_everything_survives_pictures_too(page: Page, served: str, tmp_path: Path) -> None:
    opened(page, served)
    fill(page)
    snap(page, "lubrication--oil-filter", photograph(tmp_path / "a.jpg", 400, 300))
    for query in ("?serial=HK+600", "?serial=hk600", ""):
        opened(page, served, query)
        page.wait_for_selector("#lubrication--oil-filter .sb-shot canvas")
        assert page.locator("[data-by]").input_value() == "tolland"
        assert lacks(page) == []
    assert len(packets.read(packet(page), "packet").files) == 2
    # It was handed over and is still here, to be opened again or thrown away.
    opened(page, served, "?new")
    assert "handed over" in page.locator("[data-others]").inner_text()
    assert spot(page).count() == 0
    page.locator("[data-others] li button", has_text="Open it again").tap()
    page.wait_for_selector("#lubrication--oil-filter .sb-shot canvas")
    page.locator("[data-others] li button", has_text="Throw it away").tap()
    page.locator("[data-others] li button", has_text="Really").tap()
    page.wait_for_function(
        "() => !Object.keys(localStorage).some((name) => name.startsWith('[\"spanbook-report'))"
    )


def test_a_full_device_and_a_browser_that_keeps_no_pictures_are_told_and_nothing_is_lost_in_the_page(
    page: Page, served: str, tmp_path: Path
) -> None:
    page.add_init_script(
        """const keep = Storage.prototype.setItem;
        window.full = false;
        Storage.prototype.setItem = function (...given) {
          if (window.full) throw new DOMException("full", "QuotaExceededError");
          return keep.apply(this, given);
        };
        indexedDB.open = () => { throw new DOMException("not here", "SecurityError"); };"""
    )
    opened(page, served)
    fill(page)
    store = page.locator("[data-store]")
    assert store.is_hidden()
    snap(page, "lubrication--oil-filter", photograph(tmp_path / "a.jpg", 400, 300))
    assert "does not keep the pictures" in store.inner_text()
    page.evaluate("window.full = true")
    page.locator("[data-note]").fill("One word more")
    assert "No room is left on this device" in store.inner_text()
    found = packets.read(packet(page), "packet")
    assert found.note == "One word more"
    assert sum(name.endswith(".jpg") for name in found.files) == 1
    page.evaluate("window.full = false")
    page.locator("[data-note]").fill("Room again")
    assert store.is_hidden()


def test_a_picture_that_is_gone_is_told_and_the_packet_waits_for_it(
    page: Page, served: str, tmp_path: Path
) -> None:
    opened(page, served)
    fill(page)
    snap(page, "lubrication--oil-filter", photograph(tmp_path / "a.jpg", 400, 300))
    page.evaluate("new Promise((done) => { indexedDB.deleteDatabase('spanbook-report').onsuccess = done; })")
    opened(page, served)
    assert "A picture is no longer on this device" in spot(page).locator(".sb-shot").inner_text()
    page.wait_for_function("() => document.querySelector('[data-told]').innerText.includes('no longer')")
    spot(page).get_by_role("button", name="Take it away").tap()
    assert len(packets.read(packet(page), "packet").files) == 1


def test_the_same_report_in_two_tabs_is_told(page: Page, served: str) -> None:
    opened(page, served)
    fill(page)
    other = page.context.new_page()
    opened(other, served)
    other.locator("[data-note]").fill("From the other")
    page.wait_for_selector("[data-store]:not([hidden])")
    assert "open in another tab" in page.locator("[data-store]").inner_text()


def test_what_cannot_be_read_is_told_and_never_thrown_away(page: Page, served: str) -> None:
    opened(page, served)
    page.evaluate(
        """() => { const { root, site } = document.querySelector('[data-report]').dataset;
        const place = JSON.stringify(['spanbook-report', new URL(root, location.href).href, site]);
        localStorage.setItem(`${place} 1-1`, '{"not": '); }"""
    )
    opened(page, served)
    assert "No report that this page can read" in page.locator("[data-others]").inner_text()
    assert '{"not": ' in page.locator("[data-others] pre").inner_text()
    fill(page)
    packet(page)


def test_no_picture_is_taken_for_one(page: Page, served: str, tmp_path: Path) -> None:
    (tmp_path / "list.jpg").write_text("no picture")
    opened(page, served)
    fill(page)
    spot(page).locator("input[capture]").set_input_files(str(tmp_path / "list.jpg"))
    page.wait_for_function(
        "() => document.querySelector('#lubrication--oil-filter').innerText.includes('could not be read')"
    )
    assert len(packets.read(packet(page), "packet").files) == 1
