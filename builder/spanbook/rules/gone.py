"""What is gone from the site: each address once, none that is there, and none that never was."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.reading.kinds import BY_FOLDER
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Gone, GonePage, Record
from spanbook.register.model import Register
from spanbook.rules.check import Check
from spanbook.rules.links import TOPS, Pages, pages_of, today

_GONE = "# file: content/gone.yml\nkind: gone\npages:\n"
_GOOD = _GONE + "- {address: sources/letter/, why: It was a copy of the book.}\n"

GONE_STILL_THERE = Rule(
    "gone-still-there",
    Severity.ERROR,
    "Who follows a link finds what stands there now; that it is gone would be false.",
    bad=_GOOD.replace("sources/letter/", "sources/book/"),
    good=_GOOD,
)
GONE_NOWHERE = Rule(
    "gone-nowhere",
    Severity.ERROR,
    "Why a statement is gone is shown on its page; where that is gone too, the page itself is named.",
    bad=_GOOD.replace("sources/letter/", "machines/x-two/#series-xc"),
    good=_GOOD.replace("sources/letter/", "machines/x-one/#series-xc"),
)
GONE_TWICE = Rule(
    "gone-twice",
    Severity.ERROR,
    "One address can tell one reason.",
    bad=_GOOD + "- {address: sources/letter/, why: Nobody has it.}\n",
    good=_GOOD + "- {address: sources/leaflet/, why: Nobody has it.}\n",
)
# Pages with an anchor for each of their words.
_OF_WORDS = ("cautions", "glossary")


def _entries(register: Register) -> Iterator[tuple[Gone, int, GonePage]]:
    for record in register.records:
        if isinstance(record, Gone):
            yield from ((record, i, entry) for i, entry in enumerate(record.pages))


def _still_there(register: Register) -> Iterator[Finding]:
    pages = pages_of(register)
    for record, i, entry in _entries(register):
        stands = entry.anchor in _anchors(register, entry)
        if stands if entry.anchor else _is_there(register, pages, entry):
            read = _("{} is gone, and it is there").format(entry.address)
            yield Finding(record.origin.place("pages", i, "address"), read, _("take it off this list"))


def _nowhere(register: Register) -> Iterator[Finding]:
    pages = pages_of(register)
    for record, i, entry in _entries(register):
        top = entry.page.partition("/")[0]
        place = record.origin.place("pages", i, "address")
        if top not in TOPS and not (entry.anchor and entry.page.rstrip("/") in _OF_WORDS):
            todo = _("copy it from the site's addresses.txt; addresses begin with {}").format(
                ", ".join(sorted(TOPS))
            )
            yield Finding(place, _("{}, where no page of a record ever stood").format(entry.address), todo)
        elif entry.anchor and top in TOPS and not _is_there(register, pages, entry):
            read = _("{}, a statement on a page that is gone").format(entry.address)
            yield Finding(place, read, _("name the whole page: {}").format(entry.page))


def _is_there(register: Register, pages: Pages, entry: GonePage) -> bool:
    """Whether a page is there, or leads on to where it is."""
    top, __, rest = entry.page.partition("/")
    id_ = rest.removesuffix("/")
    return id_ in pages(top) or today(register, top, id_) is not None


def _anchors(register: Register, entry: GonePage) -> set[str]:
    """The statements, or words, that stand on a page."""
    top, __, rest = entry.page.partition("/")
    id_ = rest.removesuffix("/")
    id_ = today(register, top, id_) or id_
    if top in _OF_WORDS:
        return set(register.cautions if top == "cautions" else register.terms)
    kind, records = BY_FOLDER.get(top), list[Record | None]()
    if top == "parts":
        records += [p.record for key, p in register.parts.items() if key.path == id_]
    elif kind:
        records.append(register.things[kind.name].get(id_))
    said = (s for record in records if record for s in register.statements_of.get(record, ()))
    return {anchor for s in said for anchor in (s.anchor, *s.formerly)}


def _twice(register: Register) -> Iterator[Finding]:
    seen = set[str]()
    for record, i, entry in _entries(register):
        if entry.address in seen:
            read = _("{} a second time").format(entry.address)
            yield Finding(record.origin.place("pages", i, "address"), read, _("make one entry of the two"))
        seen.add(entry.address)


CHECKS = (Check(GONE_STILL_THERE, _still_there), Check(GONE_NOWHERE, _nowhere), Check(GONE_TWICE, _twice))
