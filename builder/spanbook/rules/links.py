"""Links in notes: to the web by http or https, or to a page of this site that exists."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from difflib import get_close_matches

from spanbook.ground.language import gettext as _
from spanbook.ground.markdown_links import names_a_user
from spanbook.ground.memo import Memo
from spanbook.reading.kinds import BY_FOLDER, KINDS
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Record
from spanbook.register.led import led_numbers
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


def _links(register: Register) -> Iterator[tuple[Record, tuple[Step, ...], str]]:
    return ((record, *link) for record in register.records for link in record.origin.links)


def _not_allowed(register: Register) -> Iterator[Finding]:
    for record, steps, link in _links(register):
        site = link.startswith("/") and not link.startswith("//")
        if not site and not link.startswith(("http://", "https://", "#")):
            todo = _("begin it with https:// or, for a page of this site, with /")
            yield Finding(record.origin.place(*steps), _("a link to {}").format(link), todo)
        elif names_a_user(link):
            todo = _("write the address without what stands before the @, which hides where it leads")
            yield Finding(record.origin.place(*steps), _("a link to {}").format(link), todo)


# What addresses of pages begin with.
TOPS = frozenset({*(kind.folder for kind in KINDS.values() if kind.paged), "series", "positions", "parts"})
Pages = Callable[[str], Collection[str]]  # what has a page, by the beginning of its address


def pages_of(register: Register) -> Pages:
    """Of what is asked for alone: there are many parts."""
    found: Memo[str, Collection[str]] = Memo(lambda top: _pages_at(register, top))
    return found


def _pages_at(register: Register, top: str) -> Collection[str]:
    match top:
        case "series":
            return register.series.keys()
        case "positions":
            return register.positions.keys()
        case "parts":
            keys = (*register.parts, *register.numbering.senses)
            return {key.path for key in keys} | led_numbers(register).keys()
        case _:
            return register.things[BY_FOLDER[top].name] if top in TOPS else ()


def today(register: Register, top: str, id_: str) -> str | None:
    """What a page goes by today that was found by this before, by the beginning of its address."""
    if top == "parts":
        numbers = register.former.numbers.items()
        return next((now.path for before, now in numbers if before.path == id_), None)
    kind = BY_FOLDER.get(top)
    sort = kind.name if kind else _OTHERS.get(top, "")
    return register.former.ids.get((sort, id_))


_OTHERS = {"series": "series", "positions": "position"}


def _dead(register: Register) -> Iterator[Finding]:
    pages = pages_of(register)
    for record, steps, link in _links(register):
        top, __, rest = link.split("#")[0].removeprefix("/").partition("/")
        id_ = rest.removesuffix("/")
        if link.startswith("/") and top in TOPS and id_ and not _may_be(register, pages(top), id_):
            read = _("a link to {}, which is no page here").format(link)
            now = today(register, top, id_)
            todo = (
                _("write what it goes by now: /{top}/{now}/").format(top=top, now=now)
                if now
                else _like(top, pages(top), id_)
            )
            yield Finding(record.origin.place(*steps), read, todo)


def _like(top: str, pages: Collection[str], id_: str) -> str:
    """What to do about an address that is none, shown by one of the community's own."""
    if close := get_close_matches(id_, pages, n=1):
        return _("did you mean /{top}/{page}/?").format(top=top, page=close[0])
    if not pages:
        return _("correct it; addresses end in what the page is about")
    said = _("correct it; addresses end in what the page is about, as in /{top}/{page}/")
    return said.format(top=top, page=min(pages))


def _may_be(register: Register, pages: Collection[str], id_: str) -> bool:
    return id_ in pages or register.unread.may_name(id_)


CHECKS = (Check(LINK_NOT_ALLOWED, _not_allowed), Check(LINK_DEAD, _dead))
