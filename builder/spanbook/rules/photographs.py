"""Photographs: every one that a record shows is there and sound, and every file is shown by a record."""

from __future__ import annotations

import re
from collections.abc import Iterator

from spanbook.ground.images import MOST_BYTES, Refused, limit
from spanbook.reading.files import PHOTOGRAPHS, Picture, Tree
from spanbook.reading.image_cache import each, inspect
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Register

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
RULES = (MISSING, REFUSED, UNUSED)


def find(register: Register, tree: Tree, shown_as: str) -> Iterator[Problem]:
    """Every problem with the photographs of a content folder."""
    pictures = {picture.path.removeprefix(PHOTOGRAPHS): picture for picture in tree.pictures()}
    shown = set()
    for record in register.records:
        for leaf in walk(record, Role.PHOTOGRAPH):
            shown.add(leaf.value)
            if leaf.value not in pictures:
                read = f"the photograph {leaf.value}, which is not in {shown_as}/{PHOTOGRAPHS}"
                todo = "put the file there, or take the line away"
                yield Problem.of(MISSING, Finding(record.origin.place(*leaf.steps), read, todo))
    for file, refused in each(lambda file: (file, _refusal(tree, file, pictures[file])), sorted(pictures)):
        place = Place(f"{shown_as}/{pictures[file].path}")
        if refused:
            yield Problem.of(REFUSED, Finding(place, refused.why, refused.todo))
        if file not in shown:
            todo = "name it under photographs in the record of the teardown, or take it away"
            yield Problem.of(UNUSED, Finding(place, "a photograph that no record shows", todo))


def _refusal(tree: Tree, file: str, picture: Picture) -> Refused | None:
    if picture.linked:
        return Refused("a link, no plain file", "put the photograph itself here")
    if not _FILE.fullmatch(file):
        todo = "name it with small letters, digits and hyphens, ending in .jpg, .png or .webp"
        return Refused(f"the name {file}", todo)
    try:
        limit(picture.size)  # before reading it: git may hold gigabytes under one name
        inspect(tree.read(picture.path, MOST_BYTES + 1))
    except Refused as refused:
        return refused
    return None
