"""The files a site has beside its pages: style, scripts, and the tables that scripts look up in."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from hashlib import sha256
from operator import itemgetter
from pathlib import Path
from typing import Any

from spanbook.answers.by_words import Document
from spanbook.answers.search import Asker
from spanbook.reading.kinds import KINDS
from spanbook.reading.schemas import bundled
from spanbook.site import forms, html
from spanbook.site import scripts as page_scripts
from spanbook.site.addresses import SCHEMAS
from spanbook.site.along import machines as along_tables
from spanbook.site.card import tables as card_tables
from spanbook.site.common import Site
from spanbook.site.documents import documents
from spanbook.site.each import EachTable, File, Share, of_share
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
from spanbook.site.told import in_script
from spanbook.site.which import tables as which_tables

STYLESHEET = "assets/spanbook.css"
_HERE = Path(__file__).parent
_REM = re.compile(r"(?<![\w.])(\d*\.?\d+)rem\b")


def of_frame(frame: Frame) -> dict[str, bytes]:
    """The style sheet of every page, and a frame's own scripts in the language that is spoken."""
    scripts = {address: in_script(text).encode() for address, text in frame.scripts}
    return {STYLESHEET: stylesheet(frame), **scripts}


def stylesheet(frame: Frame) -> bytes:
    """All of it in one file: what every page has, then each view's own, what holds on paper, the frame's."""
    first = [_HERE / name for name in ("style.css", "charts.css", "acts.css", "trust.css")]
    views = sorted(file for file in _HERE.glob("*/*.css") if file.name != "print.css")
    ours = [file.read_text(encoding="utf-8") for file in (*first, *views, _HERE / "print/print.css")]
    dark = html.render("dark.txt", dark=frame.dark)
    lighting = html.render("figures/lighting.txt", most=pins.MOST)
    whole = in_script("\n".join([ours[0], dark, *ours[1:], lighting, frame.style]))
    return (whole if frame.rem == REM else _REM.sub(partial(_scaled, frame.rem), whole)).encode()


def _scaled(rem: int, size: re.Match[str]) -> str:
    return f"{float(size[1]) * REM / rem:.4g}rem"


def _found(site: Site, guides: Sequence[Document]) -> Iterator[File]:
    asker = Asker(site.answers, documents(site.register, guides))
    return finder_tables.files(asker, of_pages(site))


def _typed(site: Site, block: records.Block) -> Iterator[File]:
    return records.files(block, lambda record: site.said(record).texts)


# Tables of each thing, or all that one module makes. Each family can be made without the others.
Family = EachTable[Any] | Callable[[Site, Sequence[Document]], Iterator[File]]
FAMILIES: dict[str, Family] = {
    "finder": _found,
    "card": card_tables.EACH,
    "found": card_tables.EACH_FOUND,
    "several": lambda *_: card_tables.several(),
    "units": card_tables.EACH_UNIT,
    "forms": EachTable(lambda site: records.blocks(site.register), itemgetter(0), _typed),
    "kinds": lambda site, _: records.of_kinds(site.register),
    "sheet": sheet_tables.EACH_SHEET,
    "renew": sheet_tables.EACH_SERIES,
    "holding": holding_tables.EACH,
    "which": which_tables.EACH,
    "planning": planning_tables.EACH,
    "flowing": flow_tables.EACH,
    "report": report_tables.EACH,
    "things": lambda site, _: report_tables.of_things(site),
    "along": along_tables.EACH,
}


def tables(site: Site, family: str, guides: Sequence[Document] = (), share: Share = (0, 1)) -> Iterator[File]:
    """The tables of a family by their addresses; where it has some of each thing, those of a share."""
    made = FAMILIES[family]
    if isinstance(made, EachTable):
        return (file for thing in of_share(made.things(site), share) for file in made.files(site, thing))
    return made(site, guides)


def every_table(site: Site, guides: Sequence[Document]) -> Iterator[File]:
    """What the finder, the machine card, the sheets and the forms look up, by address."""
    return (file for family in FAMILIES for file in tables(site, family, guides))


def schemas() -> dict[str, bytes]:
    """The schema of every kind, whole in itself, for editors that complete by it."""
    made = ((kind, json.dumps(bundled(kind), ensure_ascii=False, indent=1)) for kind in KINDS)
    return {f"{SCHEMAS}{kind}.json": text.encode() for kind, text in made}


def scripts(state: str = "", release: str = "", day: str = "") -> dict[str, bytes]:
    return page_scripts.scripts(state, release, day) | forms.scripts()


def state_of(digests: Mapping[str, str]) -> str:
    """A state of the tables in a few characters, by their digests: the same answers have the same one."""
    whole = sha256()
    for address in sorted(digests):
        whole.update(f"{address}\0{digests[address]}\n".encode())
    return whole.hexdigest()[:8]
