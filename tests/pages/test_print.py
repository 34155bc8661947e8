"""What comes out on paper: dark on light whatever the screen shows, large enough to be read at a bench."""

from __future__ import annotations

import random
import re
import subprocess
from datetime import date
from pathlib import Path

import pytest
import segno
from playwright.sync_api import Browser, Page
from segno import encoder

from tests.pages.test_browser import EACH, opened
from tests.support.demo import demo

REGISTER = demo()

# Every text that is printed: what it says, its size in points, its contrast with what is printed behind it
# (by the relative luminance of WCAG 2.2), how light that is, and whether it stands in a drawing.
TEXTS = """() => {
  const light = (c) => { const v = c / 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  const luminance = ([r, g, b]) => 0.2126 * light(r) + 0.7152 * light(g) + 0.0722 * light(b);
  const parts = (color) => {
    const [r, g, b, a = 1] = color.match(/[\\d.]+/g).map(Number);
    return [r, g, b, a];
  };
  const over = (top, below) => top.slice(0, 3).map((c, i) => c * top[3] + below[i] * (1 - top[3]));
  const behind = (one) => {
    const above = [];
    for (let at = one; at; at = at.parentElement) above.unshift(parts(getComputedStyle(at).backgroundColor));
    return above.reduce((below, top) => over(top, below), [255, 255, 255]);
  };
  const unseen = ".sb-unseen, title, desc, noscript, script, style";
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const one = node.parentElement, said = node.data.trim(), box = document.createRange();
    box.selectNode(node);
    if (!said || !one.checkVisibility({ visibilityProperty: true }) || one.closest(unseen)) continue;
    if (box.getBoundingClientRect().width < 2) continue;
    const style = getComputedStyle(one), drawn = one.closest("svg"), turned = drawn && one.getScreenCTM();
    const scale = turned ? Math.hypot(turned.a, turned.b) : 1;
    const paper = behind(drawn ? drawn.parentElement : one), ground = luminance(paper);
    const ink = luminance(over(parts(drawn ? style.fill : style.color), paper));
    const contrast = (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
    found.push([said, parseFloat(style.fontSize) * scale * 72 / 96, contrast, ground, drawn !== null]);
  }
  return found;
}"""


@EACH
def test_paper_is_light_and_its_letters_are_large(chromium: Browser, served: str, address: str) -> None:
    """On a dark screen; a drawing lays its letters on what it drew, which is not looked through here."""
    page = opened(chromium, served + address, width=718, scheme="dark")  # A4 within its margins
    page.emulate_media(media="print", color_scheme="dark")
    texts = page.evaluate(TEXTS)
    page.context.close()
    assert texts
    assert [(said, round(size, 1)) for said, size, _, _, _ in texts if size < 9.99] == []
    assert [
        (said, round(contrast, 1)) for said, _, contrast, _, svg in texts if not svg and contrast < 4.5
    ] == []
    assert [said for said, _, _, ground, _ in texts if ground < 0.5] == []


def written(chromium: Browser, address: str, paper: Path, **options: object) -> tuple[Page, str]:
    """A page that was printed, and its text on paper."""
    page = opened(chromium, address, scheme="dark")
    page.pdf(path=str(paper), **options)  # type: ignore[arg-type]
    return page, pdf_text(paper)


def pdf_text(paper: Path) -> str:
    asked = ["pdftotext", "-layout", str(paper), "-"]
    return subprocess.run(asked, capture_output=True, text=True, check=True).stdout


def sheets_of(text: str) -> int:
    return text.count("\f")


def modules(page: Page) -> list[list[int]]:
    """The code on a page as it was drawn, without the light around it."""
    path = page.locator(".sb-qr path").get_attribute("d") or ""
    size = int((page.locator(".sb-qr").get_attribute("viewBox") or "").split()[2]) - 8
    rows = [[0] * size for _ in range(size)]
    for x, y, width in re.findall(r"M(\d+) (\d+)h(\d+)", path):
        for at in range(int(width)):
            rows[int(y) - 4][int(x) - 4 + at] = 1
    return rows


def by_segno(text: str) -> list[list[list[int]]]:
    """The code of a text by segno (PyPI, BSD), after ISO/IEC 18004, under each of the eight masks.

    segno 1.6 writes a word of zeros more where a text ends with a word; the standard pads to the next word,
    and a reader stops before either.
    """
    made = (
        segno.make(text, error="m", mode="byte", encoding="utf-8", micro=False, boost_error=False, mask=mask)
        for mask in range(8)
    )
    return [[[int(one) for one in row] for row in code.matrix] for code in made]


@pytest.fixture
def pads_to_the_next_word(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        encoder, "write_padding_bits", lambda bits, _, length: bits.extend([0] * (-length % 8))
    )


@pytest.mark.usefixtures("pads_to_the_next_word")
def test_a_code_is_what_another_program_makes_of_the_text(chromium: Browser, served: str) -> None:
    """Every version that is made, full and not, with letters of several bytes."""
    page = opened(chromium, served + "glossary/")
    chance = random.Random(18004)
    full = (14, 26, 42, 62, 84, 106, 122, 152, 180)  # bytes that each version holds
    texts = ["".join(chance.choice("abc/?=+%-0189") for _ in range(size)) for size in full]
    texts += [text[: -chance.randint(1, 11)] for text in texts] + ["https://é.example/ü/?serial=HK+588", "a"]
    made = page.evaluate("texts => texts.map(SpanbookQr.made)", texts)
    assert page.evaluate("SpanbookQr.made('x'.repeat(181))") is None
    page.context.close()
    for text, code in zip(texts, made, strict=True):
        assert code in by_segno(text), text


@pytest.mark.usefixtures("pads_to_the_next_word")
@pytest.mark.parametrize(
    ("address", "stands"),
    [
        ("assemblies/edge-strainer/", "https://wexmoor.example/assemblies/edge-strainer/"),
        ("card/?serial=HK+588&from=elsewhere", "https://wexmoor.example/card/?serial=HK+588"),
        ("how-to-read-a-page/", "https://wexmoor.example/how-to-read-a-page/"),
    ],
)
def test_paper_says_where_it_is_from_and_of_which_day(
    chromium: Browser, served: str, tmp_path: Path, address: str, stands: str
) -> None:
    page, text = written(chromium, served + address, tmp_path / "page.pdf", format="A4")
    assert modules(page) in by_segno(stands)
    said = (
        " ".join(page.locator(".sb-paper").inner_text().split()) or page.locator(".sb-paper").text_content()
    )
    page.context.close()
    assert said is not None
    assert said.startswith(stands)
    assert said.endswith(f"printed {date.today().isoformat()}")
    assert "".join(stands.split()) in "".join(text.split())


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("assembly", sorted(one.id for one in REGISTER.answers.sheets))
def test_every_strip_down_is_one_side(
    chromium: Browser, served: str, tmp_path: Path, assembly: str, paper: str
) -> None:
    address = f"{served}assemblies/{assembly}/strip-down/?serial=HK+588"
    page, text = written(chromium, address, tmp_path / "page.pdf", format=paper)
    page.context.close()
    assert sheets_of(text) == 1
    for heading in ("Taking it apart", "The tray", "Putting it back", "Whose word it is", "For HK 588"):
        assert heading in text


def test_a_card_for_the_pocket_is_one_side_with_all_that_is_renewed(
    chromium: Browser, served: str, tmp_path: Path
) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+588")
    page.evaluate("print = () => { printed = true; }")
    page.click("text=Print a card for the pocket")
    page.wait_for_function("window.printed")
    file = tmp_path / "pocket.pdf"
    page.pdf(path=str(file), format="A4", prefer_css_page_size=True)
    text = pdf_text(file)
    assert sheets_of(text) == 1
    assert "Gearbox" in text
    assert "WH-1225 Cover joint, paper" in text
    assert "on the word of" not in text  # the shortest answers alone
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    page.pdf(path=str(file), format="A4")
    assert "on the word of" in pdf_text(file)
    page.context.close()
