"""Where links lead, and which of them hide it."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlsplit

import pytest

from spanbook.ground.markdown_links import names_a_user
from spanbook.reading import read_bytes
from spanbook.reading.records import Record
from spanbook.site import markdown
from tests.support import worlds
from tests.support.rows import each_row

# As the URL standard's parser has it (https://url.spec.whatwg.org/, authority state; from memory): slashes
# of either kind do not count, and whatever stands before the last @ of the authority names a user.
HIDING = (
    "https://a.example@b.example/",
    "http://a.example:80@b.example",
    "https:////a.example@b.example/",
    "https:/a@b.example",
    "https:a@b.example",
    "https:\\\\a@b.example",
    "HTTPS://a@b@c.example",
    "https://@b.example",
)
PLAIN = (
    "https://a.example/@b",
    "https://a.example/?to=a@b.example",
    "https://a.example#a@b",
    "https://a.example\\@b",
    "/parts/a@b/",
    "#a@b",
)


@each_row("address", HIDING)
def test_an_address_that_names_a_user_is_told(address: str) -> None:
    assert names_a_user(address)
    assert "@" not in str(markdown.to_html(f"[x](<{address}>)", ""))


@pytest.mark.parametrize("address", PLAIN)
def test_an_at_sign_elsewhere_is_none_of_it(address: str) -> None:
    assert not names_a_user(address)


@pytest.mark.parametrize("address", [a for a in HIDING if urlsplit(a).netloc])
def test_a_record_with_such_a_link_is_refused(address: str) -> None:
    source = "kind: source\nid: a\ntitle: A\nclass: manual\n"
    assert not isinstance(read_bytes(f"{source}url: {address}\n".encode(), "a.yml", "source", "a"), Record)
    assert isinstance(read_bytes(f"{source}url: https://a.example/@b\n".encode(), "a", "source", "a"), Record)


def test_a_note_with_such_a_link_is_refused(tmp_path: Path) -> None:
    note = "# file: content/sources/a.yml\nkind: source\nid: a\ntitle: A\nclass: manual\nnotes: '[x](%s)'\n"
    for address in ("https://a.example@b.example/", "https:////a@b.example/"):
        (problem,) = (
            p for p in worlds.check(tmp_path, note % address).problems if p.name == "link-not-allowed"
        )
        assert "hides where it leads" in problem.todo
