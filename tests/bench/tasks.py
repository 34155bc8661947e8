"""What fifteen tasks of a collector take by hand: `python -m tests.bench.tasks SITE`.

SITE is a folder with the built demonstration. Counted are keys, taps after the query and screens that
are pushed up, on a telephone and at a desk; `tests/pages/test_tasks.py` holds that the answers are right.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from tests.conftest import serving
from tests.support.tasks import SIZES, TASKS, Hand, Task


def counted(browser: Browser, address: str, task: Task, width: int, height: int) -> tuple[int, int, int]:
    """Keys, taps and screens until the answer is in sight."""
    context = browser.new_context(viewport={"width": width, "height": height}, has_touch=width < height)
    page = context.new_page()
    page.goto(address)
    hand = Hand(page)
    answer = hand.scroll_to(task.does(hand)).inner_text()
    context.close()
    assert task.answer in answer, task.name
    return hand.keys, hand.taps, hand.screens


def main(site: Path) -> None:
    with serving(site) as address, sync_playwright() as playwright:
        path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        for task in TASKS:
            each = [counted(browser, address, task, *size) for size in SIZES.values()]
            told = "; ".join(f"{name} {found}" for name, found in zip(SIZES, each, strict=True))
            print(f"{task.name}: keys, taps, screens: {told}")
        browser.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
