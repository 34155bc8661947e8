"""What pages are found by."""

from __future__ import annotations

from spanbook.answers.search import Asker
from spanbook.site.documents import documents
from tests.support.demo import demo


def test_a_teardown_is_found_by_the_marks_that_were_read() -> None:
    """A tag that no part's own record has: whoever holds such a thing types what is on it."""
    found = Asker(demo().answers, documents(demo())).ask("2 OZ WASTE").documents
    assert [one.address for one in found] == ["teardowns/hk-606-tolland/"]
