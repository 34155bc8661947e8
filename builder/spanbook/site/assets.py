"""The files a site has beside its pages: style, scripts, and the tables that scripts look up in."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from hashlib import sha256
from pathlib import Path

from spanbook.answers.by_words import Document
from spanbook.answers.search import Asker
from spanbook.reading.kinds import KINDS
from spanbook.reading.schemas import bundled
from spanbook.site import forms, html
from spanbook.site import scripts as page_scripts
from spanbook.site.along import machines as along_tables
from spanbook.site.card import tables as card_tables
from spanbook.site.common import Site
from spanbook.site.documents import documents
from spanbook.site.figures import pins
from spanbook.site.finder import tables as finder_tables
from spanbook.site.flowing import tables as flow_tables
from spanbook.site.forms import records
from spanbook.site.frame import REM, Frame
from spanbook.site.holding import tables as holding_tables
from spanbook.site.planning import tables as planning_tables
from spanbook.site.report import tables as report_tables
from spanbook.site.sheet import tables as sheet_tables
from spanbook.site.thumbnails import of_pages
from spanbook.site.which import tables as which_tables

SCHEMAS = "schema/"
STYLESHEET = "assets/spanbook.css"
_HERE = Path(__file__).parent
_REM = re.compile(r"(?<![\w.])(\d*\.?\d+)rem\b")


def stylesheet(frame: Frame) -> bytes:
    """All of it in one file: what every page has, then each view's own, what holds on paper, the frame's."""
    first = [_HERE / name for name in ("style.css", "charts.css", "acts.css", "trust.css")]
    views = sorted(file for file in _HERE.glob("*/*.css") if file.name != "print.css")
    ours = [file.read_text(encoding="utf-8") for file in (*first, *views, _HERE / "print/print.css")]
    dark = html.render("dark.txt", dark=frame.dark)
    lighting = html.render("figures/lighting.txt", most=pins.MOST)
    whole = "\n".join([ours[0], dark, *ours[1:], lighting, frame.style])
    return (whole if frame.rem == REM else _REM.sub(partial(_scaled, frame.rem), whole)).encode()


def _scaled(rem: int, size: re.Match[str]) -> str:
    return f"{float(size[1]) * REM / rem:.4g}rem"


Tables = Callable[[Site, Sequence[Document]], dict[str, bytes]]


def _found(site: Site, guides: Sequence[Document]) -> dict[str, bytes]:
    asker = Asker(site.answers, documents(site.register, guides))
    return finder_tables.files(asker, of_pages(site))


def _of_site(files: Callable[[Site], dict[str, bytes]]) -> Tables:
    return lambda site, _: files(site)


# Each family can be made without the others; those that take longest stand first.
FAMILIES: dict[str, Tables] = {
    "card": _of_site(card_tables.files),
    "finder": _found,
    "forms": lambda site, _: records.files(site.register, lambda record: site.said(record).texts),
    "sheet": _of_site(sheet_tables.files),
    "holding": _of_site(holding_tables.files),
    "which": _of_site(which_tables.files),
    "planning": _of_site(planning_tables.files),
    "flowing": _of_site(flow_tables.files),
    "report": _of_site(report_tables.files),
    "along": _of_site(along_tables.files),
}


def tables(site: Site, guides: Iterable[Document]) -> dict[str, bytes]:
    """What the finder, the machine card, the sheets and the forms look up, by address."""
    asked = tuple(guides)
    return {address: data for made in FAMILIES.values() for address, data in made(site, asked).items()}


def schemas() -> dict[str, bytes]:
    """The schema of every kind, whole in itself, for editors that complete by it."""
    made = ((kind, json.dumps(bundled(kind), ensure_ascii=False, indent=1)) for kind in KINDS)
    return {f"{SCHEMAS}{kind}.json": text.encode() for kind, text in made}


def scripts(state: str = "", release: str = "") -> dict[str, bytes]:
    return page_scripts.scripts(state, release) | forms.scripts()


def state_of(digests: Mapping[str, str]) -> str:
    """A state of the tables in a few characters, by their digests: the same answers have the same one."""
    whole = sha256()
    for address in sorted(digests):
        whole.update(f"{address}\0{digests[address]}\n".encode())
    return whole.hexdigest()[:8]
