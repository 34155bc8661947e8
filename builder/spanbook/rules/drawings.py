"""Drawings: every one that a record shows is there and can be drawn anew, and every file is shown."""

from __future__ import annotations

import re
from collections.abc import Iterator

from spanbook.ground.drawings.read import (
    MOST_BYTES,
    MOST_DEEP,
    MOST_ELEMENTS,
    MOST_LEAN,
    MOST_SEGMENTS,
    Flaw,
    Refused,
)
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.drawing_cache import left_behind
from spanbook.reading.files import DRAWING, DRAWINGS, Picture, Tree
from spanbook.reading.phrases import thousands
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.register.model import Register
from spanbook.register.shown import shown

_LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
)
_SHOWN = "figures:\n- {file: lid.svg, shows: The lid, licence: CC0-1.0}\n"
_LINE = '<path fill="none" stroke="black" d="M1 5H9"/>'


def _svg(inside: str) -> str:
    head = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10">'
    return f"# file: content/drawings/lid.svg\n{head}\n{inside}\n</svg>\n"


_FILE = re.compile(r"[a-z0-9]+(?:[-/][a-z0-9]+)*\.svg")

MISSING = Rule(
    "drawing-missing",
    Severity.ERROR,
    "A drawing that a record shows lies in content/drawings/; without the file the page has a hole.",
    bad=_LID + _SHOWN,
    good=_LID + _SHOWN + _svg(_LINE),
)
REFUSED = Rule(
    "drawing-refused",
    Severity.ERROR,
    "Of a drawing only lines are taken; what would run, load or never end is no drawing.",
    bad=_LID + _SHOWN + _svg(f"<script>alert(1)</script>{_LINE}"),
    good=_LID + _SHOWN + _svg(_LINE),
)
UNUSED = Rule(
    "drawing-unused",
    Severity.WARNING,
    "A drawing that no record shows is seen by nobody, and nobody says what it shows.",
    bad=_LID + _svg(_LINE),
    good=_LID + _SHOWN + _svg(_LINE),
)
LEFT_BEHIND = Rule(
    "drawing-left-behind",
    Severity.WARNING,
    "Lettering, pictures and effects of a drawing are not taken over; the page may show less than was drawn.",
    bad=_LID + _SHOWN + _svg(f'{_LINE}<text x="1" y="4">Lid</text>'),
    good=_LID + _SHOWN + _svg(_LINE),
)
RULES = (MISSING, REFUSED, UNUSED, LEFT_BEHIND)
_ANEW = marked("draw it with plain lines and save it again as plain SVG, or take it away")


def find(register: Register, tree: Tree, shown_as: str) -> Iterator[Problem]:
    """Every problem with the drawings of a content folder."""
    found = shown(register, tree, DRAWINGS, lambda file: file.endswith(DRAWING))
    for place, file in found.missing:
        read = _("the drawing {file}, which is not in {folder}").format(
            file=file, folder=f"{shown_as}/{DRAWINGS}"
        )
        yield Problem.of(MISSING, Finding(place, read, _("put the file there, or take the line away")))
    for file in found.unused:
        place = Place(f"{shown_as}/{found.there[file].path}")
        todo = _("name it under figures in the record of the machine, assembly or part, or take it away")
        yield Problem.of(UNUSED, Finding(place, _("a drawing that no record shows"), todo))
    for file in sorted(found.there):
        yield from _problems(tree, file, found.there[file], f"{shown_as}/{found.there[file].path}")


def _problems(tree: Tree, file: str, picture: Picture, path: str) -> Iterator[Problem]:
    """What is wrong with a file, or what of it is not taken."""
    if picture.linked:
        said = _("a link, no plain file"), _("put the drawing itself here")
        yield Problem.of(REFUSED, Finding(Place(path), *said))
    elif not _FILE.fullmatch(file):
        said = (
            _("the name {}").format(file),
            _("name it with small letters, digits and hyphens, ending in .svg"),
        )
        yield Problem.of(REFUSED, Finding(Place(path), *said))
    else:
        try:
            left = left_behind(tree.read(picture.path, MOST_BYTES + 1))
        except Refused as refused:
            yield Problem.of(REFUSED, Finding(Place(path, refused.line), *refusal_words(refused)))
            return
        if left:
            todo = _("draw it with lines, point it out in the record, or take it out of the file")
            yield Problem.of(
                LEFT_BEHIND, Finding(Place(path), _("{}, not taken over").format(", ".join(left)), todo)
            )


def refusal_words(refused: Refused) -> tuple[str, str]:
    """What is wrong with a file that is not taken as a drawing, and what to do."""
    match refused.flaw:
        case Flaw.NO_DRAWING:
            return _("it is no SVG"), _(_ANEW)
        case Flaw.BROKEN:
            return _("it cannot be read to its end as XML in UTF-8"), _(_ANEW)
        case Flaw.TOO_MANY_BYTES:
            return _("more than {} bytes").format(thousands(MOST_BYTES)), _("draw it with fewer lines")
        case Flaw.TOO_MUCH:
            said = _("more than {lines} lines and curves, or {elements} elements").format(
                lines=thousands(MOST_SEGMENTS), elements=thousands(MOST_ELEMENTS)
            )
            return said, _("draw it with fewer lines")
        case Flaw.TOO_DEEP:
            said = _("groups inside of groups, more than {} deep").format(MOST_DEEP)
            return said, _("ungroup it and save it again")
        case Flaw.DOCTYPE:
            return _("a document type that declares something of its own"), _(_ANEW)
        case Flaw.DOES:
            return _("{}, which would do something").format(refused.read), _(_ANEW)
        case Flaw.STYLED:
            todo = _("save it with its looks in each element (as attributes), without a style sheet")
            return _("a style sheet"), todo
        case Flaw.NO_SIZE:
            return _("it does not say how large its sheet is"), _("give it a viewBox")
        case Flaw.TOO_LEAN:
            said = _("a sheet more than {} times as long as wide").format(MOST_LEAN)
            return said, _("cut the sheet to what is drawn, or draw it in two")
        case Flaw.NO_NUMBER:
            return _("no number that can be drawn: {}").format(refused.read), _(_ANEW)
        case Flaw.EMPTY:
            return _("no line that would be seen"), _("draw it with lines that have a colour")
