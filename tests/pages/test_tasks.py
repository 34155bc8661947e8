"""What a collector comes for, on a telephone and at a desk: the answer in the first screen, in two taps."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.support.tasks import SIZES, TASKS, Hand, Task

# Before the first step of a strip-down stands what is dangerous about it, and what it takes.
SCREENS = {("how it comes apart", "telephone"): 1, ("how it comes apart", "desk"): 1}


@pytest.fixture(params=SIZES)
def front(request: pytest.FixtureRequest, chromium: Browser, served: str) -> Iterator[tuple[str, Page]]:
    width, height = SIZES[request.param]
    telephone = request.param == "telephone"
    context = chromium.new_context(
        viewport={"width": width, "height": height}, has_touch=telephone, is_mobile=telephone
    )
    page = context.new_page()
    page.goto(served)
    yield request.param, page
    context.close()


@pytest.mark.parametrize("task", TASKS, ids=lambda task: task.name)
def test_the_answer_stands_in_the_first_screen(front: tuple[str, Page], task: Task) -> None:
    device, page = front
    hand = Hand(page)
    answer = hand.scroll_to(task.does(hand))
    assert task.answer in answer.inner_text()
    assert hand.taps <= task.most_taps
    assert hand.screens <= SCREENS.get((task.name, device), 0)


def test_the_same_from_a_folder_without_a_connection(chromium: Browser, demo_site: Path) -> None:
    context = chromium.new_context(viewport={"width": 390, "height": 844}, offline=True)
    page = context.new_page()
    page.goto((demo_site / "index.html").as_uri())
    hand = Hand(page)
    task = next(task for task in TASKS if task.name == "all of one machine")
    assert task.answer in hand.scroll_to(task.does(hand)).inner_text()
    assert (hand.taps, hand.screens) == (1, 0)
    context.close()


def test_the_answer_stands_on_the_first_sheet_of_paper(
    chromium: Browser, served: str, tmp_path: Path
) -> None:
    page = chromium.new_page()
    page.goto(served)
    hand = Hand(page)
    hand.type("WH-1181")
    hand.tap(hand.option("Strainer pack"))
    page.wait_for_selector("[data-share]", state="attached")
    page.pdf(path=tmp_path / "part.pdf", format="A4")
    page.close()
    told = subprocess.run(
        ["pdftotext", "-l", "1", "-layout", tmp_path / "part.pdf", "-"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert "Order WH-2241" in " ".join(told.stdout.split())
    assert hand.taps == 1
