"""The scripts of the pages: one file for every page, and one more for a page that does more than others.

Each is made of several of ours, one after another, so that a telephone asks once; comments stay behind.
"""

from __future__ import annotations

import json
from pathlib import Path

from spanbook.site.along.files import WORKER
from spanbook.site.finder.tables import FOLDER
from spanbook.site.told import in_script

_HERE = Path(__file__).parent
_WORKER = "along/worker.js"  # a script of the browser's, and of no page
# In this order: each uses what those before it define, and the pages' own what every page has.
_FILES = {
    "spanbook": (
        "finder/tables.js",
        "finder/matching.js",
        "finder/serials.js",
        "pieces/pieces.js",
        "pieces/release.js",
        "card/machine.js",
        "finder/pages.js",
        "finder/words.js",
        "finder/sizes.js",
        "finder/read.js",
        "mine/mine.js",
        "finder/find.js",
        "finder/box.js",
        "mine/told.js",
        "moved/moved.js",
        "stick/stick.js",
        "share/copies.js",
        "share/share.js",
        "print/qr.js",
        "print/print.js",
    ),
    "card": ("card/together.js", "card/card.js", "card/found.js", "card/renew.js", "flowing/flow.js"),
    "sheet": ("sheet/sheet.js", "ticks/ticks.js"),
    "planning": ("planning/steps.js", "planning/search.js", "planning/plans.js", "planning/planning.js"),
    "which": ("which/which.js",),
    "holding": ("holding/lengths.js", "holding/gain.js", "holding/holding.js"),
    "report": (
        "forms/yaml.js",
        "report/zip.js",
        "report/picture.js",
        "report/shelf.js",
        "report/dates.js",
        "report/reports.js",
        "report/packet.js",
        "forms/plate.js",
        "forms/written.js",
        "report/beside.js",
        "report/shots.js",
        "report/spot.js",
        "report/leave.js",
        "report/when.js",
        "report/others.js",
        "report/hand.js",
        "report/report.js",
    ),
    "along": ("report/zip.js", "along/sizes.js", "along/copy.js", "along/along.js", "along/workshop.js"),
}


def _address(name: str) -> str:
    return f"{FOLDER}{name}.js"


EVERY_PAGE = _address("spanbook")
CARD = _address("card")
SHEET = _address("sheet")
HOLDING = _address("holding")
PLANNING = _address("planning")
WHICH = _address("which")
REPORT = _address("report")
ALONG = _address("along")
# What stands in a script for what the script of every page knows.
_STATE, _RELEASE, _DAY = "STATE-OF-THE-TABLES", '"RELEASE-OF-THE-RECORDS"', '"DAY-OF-THE-RECORDS"'


def scripts(state: str = "", release: str = "", day: str = "") -> dict[str, bytes]:
    """Every script by its address; that of every page knows which state of the tables it is of, what the
    state of the records is called, and its day."""
    made = {_address(name): "\n".join(map(_lean, map(_text, files))) for name, files in _FILES.items()}
    told = made[EVERY_PAGE].replace(_STATE, state)
    made[EVERY_PAGE] = told.replace(_RELEASE, json.dumps(release)).replace(_DAY, json.dumps(day))
    made[WORKER] = _lean(_text(_WORKER))
    return {address: text.encode() for address, text in made.items()}


def _text(file: str) -> str:
    return in_script((_HERE / file).read_text(encoding="utf-8"))


def _lean(script: str) -> str:
    """A script without its lines of comments and its indentation; no text of ours goes over a line."""
    lines = (line.strip() for line in script.splitlines())
    return "\n".join(line for line in lines if line and not line.startswith("//"))
