"""Where links in notes may lead, and what to do about those that lead nowhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import LID


def noted(link: str) -> str:
    return f"{LID}notes: See [it]({link}).\n"


@pytest.mark.parametrize(
    ("link", "todo"),
    [
        ("/sources/boook/", "did you mean /sources/book/?"),
        (
            "/sources/tale-of-old/",
            "correct it; addresses end in what the page is about, as in /sources/book/",
        ),
        ("/conversions/kit/", "correct it; addresses end in what the page is about"),
    ],
)
def test_what_to_do_is_shown_by_the_communitys_own(link: str, todo: str, tmp_path: Path) -> None:
    (problem,) = worlds.check(tmp_path, noted(link)).problems
    assert (problem.name, problem.todo) == ("link-dead", todo)


@pytest.mark.parametrize(
    ("link", "todo"),
    [
        ("//example.org/a", "begin it with https:// or, for a page of this site, with /"),
        ("sources/boook/", "begin it with https:// or, for a page of this site, with /"),
        (
            "https://example.org@example.net/",
            "write the address without what stands before the @, which hides where it leads",
        ),
    ],
)
def test_a_link_whose_end_nobody_can_tell_is_not_allowed(link: str, todo: str, tmp_path: Path) -> None:
    (problem,) = worlds.check(tmp_path, noted(link)).problems
    assert (problem.name, problem.read, problem.todo) == ("link-not-allowed", f"a link to {link}", todo)


@each_row("link", ["/sources/book/", "/sources/book", "/sources/", "#notes", "/guide/", "/guide/a/", "/"])
def test_other_links_are_left_alone(link: str, tmp_path: Path) -> None:
    assert worlds.told(tmp_path, noted(link)) == []
