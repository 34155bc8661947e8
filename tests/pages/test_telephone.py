"""Tables on a telephone: a row is a card, every column is named, and no word is broken."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.pages.test_browser import opened

TABLES = {
    "assembly": "assemblies/cartridge-filter/",
    "position": "positions/lubrication/oil-filter/",
    "series": "series/hk/",
    "part": "parts/wexmoor-engine-works/wh-1181/",
    "conversion": "conversions/cartridge-kit/",
    "list": "assemblies/",
}
EACH = pytest.mark.parametrize("address", TABLES.values(), ids=TABLES)

BROKEN = r"""() => {
  const broken = [];
  for (const table of document.querySelectorAll("table.sb-table")) {
    const walker = document.createTreeWalker(table, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const inside = node.parentElement;
      const seen = inside.checkVisibility({ contentVisibilityAuto: true });
      if (!seen || inside.closest("caption, thead")) continue;
      for (const word of node.data.matchAll(/\p{L}{2,16}/gu)) {
        const range = document.createRange();
        range.setStart(node, word.index);
        range.setEnd(node, word.index + word[0].length);
        const lines = new Set([...range.getClientRects()].map(box => Math.round(box.top)));
        if (lines.size > 1) broken.push(`${word[0]}: ${inside.outerHTML.slice(0, 200)}`);
      }
    }
  }
  return broken;
}"""

NAMED = """() => [...document.querySelectorAll("table.sb-table:not(.sb-pairs)")].flatMap(table => {
  const heads = [...table.tHead.rows[0].cells].map(head => head.textContent);
  return [...table.tBodies[0].rows].filter(row => row.cells.length === heads.length).flatMap(row =>
    [...row.cells].filter((cell, i) => i && cell.dataset.head !== heads[i]).map(cell => cell.outerHTML));
})"""


@EACH
def test_no_word_of_a_table_is_broken(chromium: Browser, served: str, address: str) -> None:
    page = opened(chromium, served + address, width=320)
    broken = page.evaluate(BROKEN)
    page.context.close()
    assert broken == []


@EACH
def test_every_cell_names_its_column(chromium: Browser, served: str, address: str) -> None:
    page = opened(chromium, served + address, width=360)
    unnamed = page.evaluate(NAMED)
    page.context.close()
    assert unnamed == []


def test_a_row_is_a_card_on_a_telephone_and_a_row_on_a_desk(chromium: Browser, served: str) -> None:
    telephone = opened(chromium, served + TABLES["assembly"], width=360)
    row = telephone.locator("section[aria-labelledby=machines] tbody tr").first
    shown = row.evaluate("e => getComputedStyle(e).display")
    named = row.locator("td").nth(2).evaluate("e => getComputedStyle(e, '::before').content")
    telephone.context.close()
    desk = opened(chromium, served + TABLES["assembly"])
    row = desk.locator("section[aria-labelledby=machines] tbody tr").first
    flat = row.evaluate("e => getComputedStyle(e).display")
    desk.context.close()
    assert (shown, named, flat) == ("flex", '"Fitted: "', "table-row")
