"""Links in notes: to the web by http or https, or to a page of this site that exists."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.markdown_links import links, names_a_user
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Cautions, Glossary, Machine, Record
from spanbook.register.model import Register
from spanbook.rules.check import Check

_GOOD = (
    "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\ntitle: A\nclass: correspondence\n"
    "notes: See [the book](/sources/book/) and [a page](https://example.org/page).\n"
)

LINK_NOT_ALLOWED = Rule(
    "link-not-allowed",
    Severity.ERROR,
    "Links lead to the web by http or https, or to a page of this site by its address from the root.",
    bad=_GOOD.replace("https://", "ftp://"),
    good=_GOOD,
)
LINK_DEAD = Rule(
    "link-dead",
    Severity.ERROR,
    "A link to a page that does not exist sends a reader nowhere.",
    bad=_GOOD.replace("/sources/book/", "/sources/boook/"),
    good=_GOOD,
)


def _texts(record: Record) -> Iterator[tuple[tuple[Step, ...], str]]:
    """Every Markdown text of a record, with the steps to it."""
    if record.notes:
        yield ("notes",), record.notes
    if isinstance(record, Machine):
        for i, series in enumerate(record.series):
            if series.notes:
                yield ("series", i, "notes"), series.notes
    elif isinstance(record, Cautions):
        yield from ((("cautions", i, "text"), c.text) for i, c in enumerate(record.cautions))
    elif isinstance(record, Glossary):
        yield from ((("terms", i, "meaning"), t.meaning) for i, t in enumerate(record.terms))


def _links(register: Register) -> Iterator[tuple[Record, tuple[Step, ...], str]]:
    for record in register.records:
        for steps, text in _texts(record):
            yield from ((record, steps, link) for link in links(text))


def _not_allowed(register: Register) -> Iterator[Finding]:
    for record, steps, link in _links(register):
        site = link.startswith("/") and not link.startswith("//")
        if not site and not link.startswith(("http://", "https://", "#")):
            todo = "begin it with https:// or, for a page of this site, with /"
            yield Finding(record.origin.place(*steps), f"a link to {link}", todo)
        elif names_a_user(link):
            todo = "write the address without what stands before the @, which hides where it leads"
            yield Finding(record.origin.place(*steps), f"a link to {link}", todo)


def _dead(register: Register) -> Iterator[Finding]:
    pages = {
        "machines": register.machines.keys(),
        "series": register.series.keys(),
        "assemblies": register.assemblies.keys(),
        "supersessions": register.supersessions.keys(),
        "conversions": register.conversions.keys(),
        "sources": register.sources.keys(),
        "teardowns": register.teardowns.keys(),
        "positions": register.positions.keys(),
        "parts": {f"{key.by}/{key.slug}" for key in register.parts},
    }
    for record, steps, link in _links(register):
        top, _, rest = link.split("#")[0].removeprefix("/").partition("/")
        if link.startswith("/") and top in pages and rest and rest.removesuffix("/") not in pages[top]:
            todo = "correct it; addresses end in the record's id, as in /assemblies/edge-strainer/"
            yield Finding(record.origin.place(*steps), f"a link to {link}, which is no page here", todo)


CHECKS = (Check(LINK_NOT_ALLOWED, _not_allowed), Check(LINK_DEAD, _dead))
