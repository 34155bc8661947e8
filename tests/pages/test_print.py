"""What comes out on paper: dark on light whatever the screen shows, and large enough to be read at a bench."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.pages.test_browser import EACH, opened

# Every text that is printed: what it says, its size in points, and its contrast after WCAG 2.2 (relative luminance)
# with what is printed behind it.
TEXTS = """() => {
  const light = (c) => { const v = c / 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
  const parts = (color) => { const [r, g, b, a = 1] = color.match(/[\\d.]+/g).map(Number); return [r, g, b, a]; };
  const over = (top, below) => top.slice(0, 3).map((c, i) => c * top[3] + below[i] * (1 - top[3]));
  const luminance = ([r, g, b]) => 0.2126 * light(r) + 0.7152 * light(g) + 0.0722 * light(b);
  const behind = (one) => {
    const above = [];
    for (let at = one; at; at = at.parentElement) above.unshift(parts(getComputedStyle(at).backgroundColor));
    return above.reduce((below, top) => over(top, below), [255, 255, 255]);
  };
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const one = node.parentElement, said = node.data.trim();
    if (!said || !one.checkVisibility({ visibilityProperty: true }) || one.closest(".sb-unseen, title, desc, noscript, script, style")) continue;
    const box = document.createRange(); box.selectNode(node);
    if (box.getBoundingClientRect().width < 2) continue;
    const style = getComputedStyle(one), drawn = one.closest("svg");
    const scale = drawn && one.getScreenCTM ? Math.hypot(one.getScreenCTM().a, one.getScreenCTM().b) : 1;
    const paper = behind(drawn ? drawn.parentElement : one);
    const ink = luminance(over(parts(drawn ? style.fill : style.color), paper)), ground = luminance(paper);
    const contrast = (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
    found.push([said, parseFloat(style.fontSize) * scale * 72 / 96, contrast, ground, drawn !== null]);
  }
  return found;
}"""


@EACH
@pytest.mark.parametrize("scheme", ["dark", "light"])
def test_paper_is_light_and_its_letters_are_large(
    chromium: Browser, served: str, address: str, scheme: str
) -> None:
    page = opened(chromium, served + address, width=718, scheme=scheme)  # A4 within its margins
    page.emulate_media(media="print", color_scheme="dark" if scheme == "dark" else "light")
    texts = page.evaluate(TEXTS)
    page.context.close()
    assert texts
    assert [(said, round(size, 1)) for said, size, _, _, _ in texts if size < 9.99] == []
    assert [(said, round(contrast, 1)) for said, _, contrast, _, _ in texts if contrast < 4.5] == []
    assert [said for said, _, _, ground, _ in texts if ground < 0.5] == []
