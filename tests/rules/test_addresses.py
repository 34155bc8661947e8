"""Addresses of an older site that have to go on working."""

from __future__ import annotations

from spanbook.rules.addresses import dead


def test_each_that_would_die_is_told_at_its_line() -> None:
    older = "assemblies/lid/\n\n assemblies/hat/\nsources/book/\n"
    told = [(p.place.path, p.place.line, p.read) for p in dead(older, "addresses.txt", {"sources/book/"})]
    assert told == [
        ("addresses.txt", 1, "the address assemblies/lid/ would die"),
        ("addresses.txt", 3, "the address assemblies/hat/ would die"),
    ]
