"""Photographs: every one that a record shows is there and sound, and every file is shown by a record."""

from __future__ import annotations

import re
from collections.abc import Iterator

from spanbook.ground import images
from spanbook.ground.images import Flaw, Refused
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.files import DRAWING, PHOTOGRAPHS, Picture, Tree
from spanbook.reading.image_cache import each, inspect
from spanbook.reading.phrases import thousands
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.register.model import Register
from spanbook.register.shown import shown

_HEAD = (
    "# file: content/teardowns/xa-3-merrin.yml\nkind: teardown\nid: xa-3-merrin\ndate: 2024\n"
    "seen-by: merrin\nserial: XA 3\nseries: xa\ncondition: untouched\nfound:\n- position: body/cover\n"
)
_SHOWN = "  photographs:\n  - {file: lid.jpg, shows: The lid}\n"
_FILE = re.compile(r"[a-z0-9]+(?:[-/][a-z0-9]+)*\.(?:jpg|jpeg|png|webp)")

MISSING = Rule(
    "photograph-missing",
    Severity.ERROR,
    "A photograph that a record shows lies in content/photographs/; without the file the page has a hole.",
    bad=_HEAD + _SHOWN,
    good=_HEAD + "  note: No photograph was taken\n",
)
REFUSED = Rule(
    "photograph-refused",
    Severity.ERROR,
    "Only sound JPEG, PNG and WebP files of sane size are taken; other forms can hold programs or never end.",
    bad=_HEAD + _SHOWN + "# file: content/photographs/lid.jpg\nThis is no picture.\n",
    good=_HEAD + "  note: No photograph was taken\n",
)
UNUSED = Rule(
    "photograph-unused",
    Severity.WARNING,
    "A photograph that no record shows is published for nobody, and nobody says what it shows.",
    bad=_HEAD + "  note: The lid\n# picture: content/photographs/lid.png\n",
    good=_HEAD + _SHOWN.replace(".jpg", ".png") + "# picture: content/photographs/lid.png\n",
)
_ANEW = marked("save it again as JPEG, PNG or WebP in a picture program, or take it away")
_SMALLER = marked("make it smaller in a picture program and save it again")
RULES = (MISSING, REFUSED, UNUSED)


def find(register: Register, tree: Tree, shown_as: str) -> Iterator[Problem]:
    """Every problem with the photographs of a content folder."""
    found = shown(register, tree, PHOTOGRAPHS, lambda file: not file.endswith(DRAWING))
    for place, file in found.missing:
        read = _("the photograph {file}, which is not in {folder}").format(
            file=file, folder=f"{shown_as}/{PHOTOGRAPHS}"
        )
        yield Problem.of(MISSING, Finding(place, read, _("put the file there, or take the line away")))
    for file in found.unused:
        place = Place(f"{shown_as}/{found.there[file].path}")
        todo = _("name it in the record of the teardown, the assembly or the part, or take it away")
        yield Problem.of(UNUSED, Finding(place, _("a photograph that no record shows"), todo))
    there = found.there
    for file, refused in each(lambda file: (file, _refusal(tree, file, there[file])), sorted(there)):
        if refused:
            yield Problem.of(REFUSED, Finding(Place(f"{shown_as}/{there[file].path}"), *refused))


def _refusal(tree: Tree, file: str, picture: Picture) -> tuple[str, str] | None:
    """What is wrong with a file, and what to do."""
    if picture.linked:
        return _("a link, no plain file"), _("put the photograph itself here")
    refused = _refused(tree, picture)
    # Of what is no picture the name is not told: by another name it would be none either.
    if not _FILE.fullmatch(file) and not (refused and refused.flaw is Flaw.NO_PICTURE):
        todo = _("name it with small letters, digits and hyphens, ending in .jpg, .png or .webp")
        return _("the name {}").format(file), todo
    return refusal_words(refused) if refused else None


def _refused(tree: Tree, picture: Picture) -> Refused | None:
    try:
        images.limit(picture.size)  # before reading it: git may hold gigabytes under one name
        inspect(tree.read(picture.path, images.MOST_BYTES + 1))
    except Refused as refused:
        return refused
    return None


def _by(size: tuple[int, ...]) -> str:
    """A width and a height; empty where none are known."""
    return _("{width} by {height}").format(width=size[0], height=size[1]) if len(size) == 2 else ""


def refusal_words(refused: Refused) -> tuple[str, str]:
    """What is wrong with a file that is not taken as a photograph, and what to do."""
    size = (
        _("{width} by {height}").format(width=refused.size[0], height=refused.size[-1])
        if refused.size
        else ""
    )
    match refused.flaw:
        case Flaw.NO_PICTURE:
            return _("it is no JPEG, PNG or WebP"), _(_ANEW)
        case Flaw.UNREADABLE:
            return _("it begins like a {} and cannot be read as one").format(refused.sort), _(_ANEW)
        case Flaw.DAMAGED:
            return _("its picture is damaged and cannot be decoded to the end"), _(_ANEW)
        case Flaw.TOO_MANY_BYTES:
            return _("{size} bytes; at most {most} are taken").format(
                size=thousands(refused.size[0]), most=thousands(images.MOST_BYTES)
            ), _(_SMALLER)
        case Flaw.TOO_MANY_PIXELS:
            return _("{size} pixels; at most {most} are taken").format(
                size=size, most=thousands(images.MOST_PIXELS)
            ), _(_SMALLER)
        case Flaw.TOO_LONG_A_SIDE:
            return _("{size} pixels; at most {most} are taken on a side").format(
                size=size, most=thousands(images.MOST_SIDE)
            ), _(_SMALLER)
        case Flaw.MOVES:
            return _("it moves; one picture is wanted"), _("save one picture of it alone")
        case Flaw.TOO_MANY_PASSES:
            return _("it is drawn in more than {} passes").format(images.MOST_PASSES), _(_ANEW)
        case Flaw.NO_MEMORY:
            return _("there is not enough memory to decode it"), _(_SMALLER)
