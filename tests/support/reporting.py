"""A report, told as somebody does on a telephone, and the packet that it leaves as."""

from __future__ import annotations

from pathlib import Path

from PIL import Image
from PIL.TiffImagePlugin import IFDRational
from playwright.sync_api import Locator, Page

from spanbook.reading import packets

GPS, MAKE, ORIENTATION = 0x8825, 0x010F, 0x0112


def photograph(file: Path, width: int = 3000, height: int = 2000) -> Path:
    """A picture as a telephone takes it: on its side, with the place, the device and a thumbnail."""
    picture = Image.new("RGB", (width, height), (40, 90, 160))
    picture.paste((200, 30, 30), (0, 0, width // 2, height // 4))
    exif = Image.Exif()
    exif[MAKE], exif[ORIENTATION] = "A telephone", 6
    exif[GPS] = {1: "N", 2: (IFDRational(51), IFDRational(30), IFDRational(26))}
    picture.save(file, "JPEG", exif=exif, comment=b"the yard behind the house")
    return file


def opened(page: Page, served: str, query: str = "?serial=HK+600") -> Page:
    page.goto(f"{served}report/{query}")
    page.wait_for_selector("[data-begun]")
    return page


def spot(page: Page, path: str = "lubrication--oil-filter") -> Locator:
    return page.locator(f"#{path}")


def choose(page: Page, path: str, title: str) -> None:
    """This other one, among all that it may be."""
    spot(page, path).locator("[aria-expanded]").tap()
    spot(page, path).locator(".sb-thing", has_text=title).first.tap()


def snap(page: Page, path: str, file: Path, count: int = 1) -> None:
    spot(page, path).locator("input[capture]").set_input_files(str(file))
    page.wait_for_function(
        "([path, count]) => document.querySelectorAll(`${path} .sb-shot canvas`).length === count",
        arg=[f"#{path}", count],
    )


def fill(page: Page) -> None:
    """All that is needed: two places, how it looks, who."""
    page.locator("[data-condition] [value=untouched]").tap()
    choose(page, "lubrication--oil-filter", "Full-flow cartridge filter")
    spot(page, "fuel--carburettor").get_by_role("button", name="As recorded").tap()
    page.locator("[data-by]").fill("tolland")
    page.locator("[data-date]").fill("2026-11-21")


def packet(page: Page) -> bytes:
    page.wait_for_selector("[data-ways][data-done]:not([hidden])")
    with page.expect_download() as waiting:
        page.locator("[data-save]").tap()
    return Path(waiting.value.path()).read_bytes()


def record(data: bytes) -> tuple[str, str]:
    """The one record of a packet, by its path in the content folder."""
    files = packets.read(data, "packet").files
    ((path, text),) = ((path, held.decode()) for path, held in files.items() if path.endswith(".yml"))
    return path, text


def lacks(page: Page) -> list[str]:
    return [text.strip() for text in page.locator("[data-lacks] li").all_inner_texts()]
