"""The demonstration in a real browser: every kind of page, small and large, light and dark, on paper."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.support.npm import npm

KINDS = {
    "home": "",
    "guide": "how-to-read-a-page/",
    "assembly": "assemblies/edge-strainer/",
    "nothing fitted": "absences/no-oil-cooler/",
    "retired assembly": "assemblies/capless-breather/",
    "one of several": "teardowns/hk-1402-brindle/",
    "machine": "machines/wexmoor-h/",
    "series": "series/hk/",
    "position": "positions/lubrication/oil-filter/",
    "position inside an assembly": "positions/lubrication/oil-filter/relief-valve/",
    "group": "positions/lubrication/",
    "part": "parts/solent-carburation/8e10/",
    "part of which sources differ": "parts/wexmoor-engine-works/wh-1303/",
    "part with other numbers": "parts/wexmoor-engine-works/wh-1512/",
    "part of a set": "parts/wexmoor-engine-works/wh-1515/",
    "number of two things": "parts/wexmoor-engine-works/wh-1505/",
    "one of two things": "parts/wexmoor-engine-works/wh-1505/seal-wire/",
    "part that came back": "parts/wexmoor-engine-works/wh-1343/",
    "part that goes by the number": "parts/wexmoor-engine-works/wh-1202/",
    "assembly with parts that go by the number": "assemblies/waste-packed-filter/",
    "supersession": "supersessions/m6-to-m4/",
    "conversion": "conversions/cartridge-kit/",
    "conversion that takes off": "conversions/oil-cooler-kit/",
    "source": "sources/service-letter-31/",
    "teardown": "teardowns/hk-592-osk/",
    "unit": "units/hk-233/",
    "strip-down": "assemblies/cartridge-filter/strip-down/",
    "circuit": "circuits/ignition-type-d/",
    "circuit in pieces": "circuits/oil-type-h/",
    "arrangement": "circuits/oil-type-h/~/3/",
    "account": "strip-downs/cartridge-filter-osk/",
    "assemblies": "assemblies/",
    "parts": "parts/wexmoor-engine-works/",
    "cautions": "cautions/",
    "glossary": "glossary/",
    "rules": "rules/",
    "examples of rules": "rules/~/spans/",
    "data": "data/",
    "changes": "changes/",
    "card": "card/?serial=HK+588",
    "card of a unit": "card/?serial=HK+1310",
    "worn card": "card/?serial=HK+5%3F8",
    "what am I holding": "holding/lubrication/oil-filter/?lid-held=four+nuts",
    "all that may be held": "holding/",
    "which part am I holding": "which-part/lubrication/oil-filter/?_mark=WH-1%3F81&_size=Length%3D5+1%2F4+in",
    "parts that may be held": "which-part/",
    "plan": "plan/?serial=HK+588&want=cartridge-filter",
    "results": "find/?q=strainer",
    "questions": "open-questions/",
    "questions of a series": "open-questions/hk/",
    "report": "report/?serial=HK+600",
    "taken along": "along/",
    "forms": "add/",
    "form": "add/teardown/",
    "filled form": "add/machine/?record=wexmoor-h",
    "missing": "404.html",
}
EACH = pytest.mark.parametrize("address", KINDS.values(), ids=KINDS)


def opened(chromium: Browser, address: str, width: int = 1280, scheme: str = "light") -> Page:
    context = chromium.new_context(
        viewport={"width": width, "height": 800},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page = context.new_page()
    page.goto(address)
    page.wait_for_load_state("networkidle")
    return page


@EACH
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(chromium: Browser, served: str, address: str, scheme: str) -> None:
    """axe-core (npm, MPL-2.0), all its default rules: WCAG 2 A and AA and its best practices."""
    page = opened(chromium, served + address, scheme=scheme)
    page.evaluate(npm("axe-core/axe.min.js").read_text(encoding="utf-8"))
    violations = page.evaluate("axe.run(document).then(result => result.violations)")
    told = [(v["id"], [node["html"][:120] for node in v["nodes"][:3]]) for v in violations]
    page.context.close()
    assert told == []


@EACH
def test_nothing_is_wider_than_a_small_telephone(chromium: Browser, served: str, address: str) -> None:
    page = opened(chromium, served + address, width=360)
    width = page.evaluate("document.documentElement.scrollWidth")
    page.context.close()
    assert width <= 360


def test_nothing_comes_from_afar(chromium: Browser, served: str) -> None:
    asked: list[str] = []
    complaints: list[str] = []
    page = chromium.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
    for address in KINDS.values():
        page.goto(served + address)
        page.wait_for_load_state("networkidle")
    page.close()
    assert asked
    assert [url for url in asked if not url.startswith((served, "data:"))] == []
    assert complaints == []


def test_a_chart_tells_certain_from_possible_without_colour(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}assemblies/edge-strainer/")
    strip = page.locator(".sb-bars").first
    sure = strip.locator("rect.sb-sure").first.evaluate("e => getComputedStyle(e).strokeDasharray")
    maybe = strip.locator("rect.sb-maybe").first.evaluate("e => getComputedStyle(e).strokeDasharray")
    hatch = strip.locator("rect.sb-hatched").count()
    page.context.close()
    assert sure == "none"
    assert maybe not in ("", "none")
    assert hatch


def test_the_bars_stand_where_the_numbers_say(chromium: Browser, served: str) -> None:
    """HK 1 to HK 588 of 2140 numbers is 27.5 % of the strip, the next 24 numbers 1.1 %."""
    page = opened(chromium, f"{served}assemblies/edge-strainer/")
    boxes = page.locator(".sb-bars").first.evaluate(
        """svg => [".sb-sure", ".sb-maybe"].map(name => {
            const bar = svg.querySelector(name).getBBox(), all = svg.getBoundingClientRect().width;
            return [bar.x / all * 100, bar.width / all * 100];
        })"""
    )
    page.context.close()
    assert boxes[0] == pytest.approx([0, 588 / 2140 * 100], abs=0.05)
    assert boxes[1] == pytest.approx([588 / 2140 * 100, 24 / 2140 * 100], abs=0.05)


def test_an_assembly_prints_on_paper(chromium: Browser, served: str, tmp_path: Path) -> None:
    page = opened(chromium, f"{served}assemblies/edge-strainer/")
    paper = tmp_path / "page.pdf"
    page.pdf(path=str(paper), format="A4")
    page.context.close()
    text = subprocess.run(
        ["pdftotext", "-layout", paper, "-"], capture_output=True, text=True, check=True
    ).stdout
    assert "Metal-edge strainer" in text
    assert "somewhere between HK 588 and HK 612" in text
    assert "How to read a page" not in text.split("New here?")[0]  # the menus stay off the paper
    assert text.count("\f") <= 4


@pytest.mark.parametrize("unfolded", [False, True])
def test_a_drawing_that_nobody_unfolded_stays_off_the_paper(
    chromium: Browser, served: str, tmp_path: Path, unfolded: bool
) -> None:
    page = opened(chromium, f"{served}assemblies/cartridge-filter/")
    if unfolded:
        page.click(".sb-drawn > summary")
        assert page.locator(".sb-drawn svg").first.is_visible()
    paper = tmp_path / "page.pdf"
    page.pdf(path=str(paper), format="A4")
    shown = page.locator(".sb-drawn").evaluate("box => box.open")
    page.context.close()
    text = subprocess.run(["pdftotext", "-layout", paper, "-"], capture_output=True, text=True, check=True)
    assert ("Oil circuit, Type H, drawn" in text.stdout) == unfolded
    assert ("Running warm: 70" in text.stdout) == unfolded
    assert shown == unfolded, "as the reader left it"


def test_the_drawing_of_an_assembly_shows_the_state_that_is_chosen(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}assemblies/cartridge-filter/", width=360)
    assert page.locator(".sb-drawn .sb-flow").is_hidden()
    page.click(".sb-drawn > summary")
    for label in page.locator(".sb-drawn label").all():
        label.click()
        shown = [state for state in page.locator(".sb-drawn .sb-flow-state").all() if state.is_visible()]
        assert len(shown) == 1
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.context.close()


def test_a_link_into_a_page_shows_its_statement(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}assemblies/cartridge-filter/#span-hk-field")
    shown = page.locator(":target").inner_text()
    page.context.close()
    assert "HK 1 to HK 1204" in shown
    assert "conversion in the field" in shown
