"""How often a query asks for tables: on a slow line each round of asking costs more than what is sent.

Tables that are asked for together are one round; nothing here is timed.
"""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

# Every table is held back until nothing more is asked for without it.
ROUNDS = """async ([query, directories]) => {
  const real = spanbookLoad;
  const kept = new Map();
  let held = [];
  window.spanbookLoad = (name, folder = "") => {
    const path = folder + name;
    if (!kept.has(path)) {
      kept.set(path, new Promise((resolve) => held.push(async () => {
        const table = await real(name, folder);
        return () => resolve(table);
      })));
    }
    return kept.get(path);
  };
  for (const name of directories) spanbookLoad(name);
  let found = null;
  SpanbookFind.answer(query).then((answer) => { found = answer; });
  for (let rounds = 0; ; rounds += 1) {
    await new Promise((soon) => setTimeout(soon));
    if (found) { window.spanbookLoad = real; return [rounds, found.rows.length]; }
    const asked = await Promise.all(held.splice(0).map((ask) => ask()));
    if (!asked.length) throw new Error("nothing is asked for, and nothing found");
    asked.forEach((give) => give());
  }
}"""
DIRECTORIES = ["series", "number", "word", "page"]


@pytest.mark.parametrize(
    ("query", "most"),
    [
        ("HK 588", 3),  # directories, blocks, the pages' names
        ("WH-1181", 3),
        ("knob turns the pack", 3),
        ("HK 588 oil filter", 4),  # the card's table of numbers, and what is told of one
        ("WH-11?1", 4),  # the directory of turned forms, their block, the numbers
        ("5/16 18", 3),
        ("strainr", 5),  # what is spelt so, then backwards, then what was meant
    ],
)
def test_a_query_asks_in_few_rounds(chromium: Browser, served: str, query: str, most: int) -> None:
    page = chromium.new_page()
    page.goto(served)
    rounds, rows = page.evaluate(ROUNDS, [query, DIRECTORIES])
    page.close()
    assert rows > 0
    assert rounds <= most, f"{query}: {rounds} rounds"


def test_who_steps_into_the_box_has_the_directories(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    page.goto(served)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.split("?")[0].rsplit("/", 1)[-1]))
    page.locator("form[data-finder] input").focus()
    page.wait_for_function("names => names.every((name) => spanbookTables.has(name))", arg=DIRECTORIES)
    page.close()
    assert [one for one in sorted(asked) if one.endswith(".js")] == [
        f"{name}.js" for name in sorted(DIRECTORIES)
    ]
