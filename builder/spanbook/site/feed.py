"""The releases as a feed (Atom, RFC 4287), and the newest as JSON, for those who follow the records."""

from __future__ import annotations

import json
from collections.abc import Sequence
from xml.etree import ElementTree as Tree

from spanbook.ground.punctuation import labelled
from spanbook.reading.releases import Changed, Release
from spanbook.site import addresses
from spanbook.site.page import Around
from spanbook.site.views.changes import anchor_of
from spanbook.wording import releases as words

FEED = "changes.atom"
_ATOM = "http://www.w3.org/2005/Atom"
_MOST = 20  # releases in a feed


def feed(site: str, around: Around, releases: Sequence[Release]) -> bytes:
    """Each release an entry with its changes as text; `site` is its address. It needs a release."""
    Tree.register_namespace("", _ATOM)
    root = Tree.Element(f"{{{_ATOM}}}feed")
    _add(root, "id", f"{site}{FEED}")
    _add(root, "title", labelled(around.name, words.CHANGES.told().title))
    _add(root, "subtitle", words.CHANGES.told().summary)
    _add(root, "updated", _time(releases[0]))
    _add(root, "link", rel="self", type="application/atom+xml", href=f"{site}{FEED}")
    _add(root, "link", rel="alternate", type="text/html", href=f"{site}{addresses.CHANGES}")
    _add(_add(root, "author"), "name", around.name)
    if licence := around.data.licence:
        _add(root, "rights", licence.title)
    for one in releases[:_MOST]:
        _entry(root, site, one)
    Tree.indent(root, "")
    made: bytes = Tree.tostring(root, encoding="utf-8", xml_declaration=True)
    return made + b"\n"


def _entry(root: Tree.Element, site: str, release: Release) -> None:
    entry, address = _add(root, "entry"), f"{site}{addresses.CHANGES}#{anchor_of(release)}"
    _add(entry, "id", address)
    _add(entry, "title", words.title(release))
    _add(entry, "updated", _time(release))
    _add(entry, "link", rel="alternate", type="text/html", href=address)
    for handle in dict.fromkeys(by for one in release.changes for by in one.by):
        _add(_add(entry, "contributor"), "name", handle)
    lines = (_line(site, one) for one in release.changes)
    _add(entry, "content", "\n".join([words.summary(release), *lines]), type="text")


def _line(site: str, one: Changed) -> str:
    return one.words if one.address is None else f"{one.words}\n{site}{one.address}"


def _time(release: Release) -> str:
    return f"{release.day.isoformat()}T00:00:00Z"


def _add(above: Tree.Element, name: str, text: str | None = None, **attributes: str) -> Tree.Element:
    made = Tree.SubElement(above, f"{{{_ATOM}}}{name}", attributes)
    made.text = text
    return made


def state(around: Around, releases: Sequence[Release], digest: str, records: int) -> bytes:
    """Which state of the records a site shows, with the hashes of its files of data.

    `schema/answer-state.json` is its law.
    """
    newest = releases[0] if releases else None
    licence = around.data.licence
    made = {
        "site": around.name,
        "release": newest.name if newest else None,
        "date": newest.day.isoformat() if newest else None,
        "state": digest,
        "called": around.release,
        "released": bool(newest and newest.state == digest),
        "records": records,
        "licence": licence.id if licence else None,
        "files": {f"{addresses.DATA}{one.name}": f"sha256:{one.digest}" for one in around.data.whole},
    }
    return f"{json.dumps(made, ensure_ascii=False, indent=1)}\n".encode()
