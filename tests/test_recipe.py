"""The recipes of DEVELOPERS.md, carried out in a copy: a new field, and a new kind with its page.

What they do not touch has to follow from the schema: references and links are checked, numbers get pages,
the form asks, the list, the search and the addresses know it.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.support import worlds

PROJECT = Path(__file__).parents[1]
pytestmark = pytest.mark.slow

TOOL = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "Tool",
    "description": "What is needed to do the work.",
    "examples": [{"kind": "tool", "id": "ring-spanner", "title": "Ring spanner", "for": "lid"}],
    "type": "object",
    "additionalProperties": False,
    "required": ["kind", "id", "title", "for"],
    "properties": {
        "kind": {"title": "Kind", "description": "Always tool.", "examples": ["tool"], "const": "tool"},
        "id": {"$ref": "defs.json#/$defs/id", "x-role": "id", "x-to": "tool"},
        "formerly": {"$ref": "defs.json#/$defs/formerly"},
        "title": {"$ref": "defs.json#/$defs/line", "x-role": "name"},
        "for": {"$ref": "defs.json#/$defs/id", "x-role": "reference", "x-to": "assembly"},
        "number": {"$ref": "defs.json#/$defs/number"},
        "by": {"$ref": "defs.json#/$defs/by"},
        "notes": {"$ref": "defs.json#/$defs/notes"},
    },
}
CLASS = '''"""Tools."""

from dataclasses import dataclass, field

from spanbook.reading.basics import Record


@dataclass(frozen=True, slots=True, eq=False)
class Tool(Record):
    assembly: str = field(metadata={"key": "for"})
    number: str | None
    by: str | None
'''
ROW = '    Kind("tool", r.Tool, "tools", form=8, suggest="title"),\n'
VIEW = '''"""A tool."""

from collections.abc import Iterator

from spanbook.reading.records import Tool
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage


def pages(site: Site) -> Iterator[SitePage]:
    for tool in site.register.of(Tool).values():
        yield SitePage(
            address=addresses.of_record(tool),
            title=tool.title,
            summary="A tool.",
            sort="Tool",
            crumbs=(Link("Tools", "tools/"),),
            template="views/tool.html",
            view=site.record_link(site.register.assemblies[tool.assembly]),
            record=tool,
        )
'''
TEMPLATE = (
    '{% extends "views/frame.html" %}\n{% block record %}<p>For {{ m.to(root, view) }}</p>{% endblock %}\n'
)
WORLD = """\
# file: content/assemblies/lid.yml
kind: assembly
id: lid
title: Lid
position: body/cover
serials:
- {series: xa, first: 1, last: 20, evidence: [{source: book}]}
# file: content/assemblies/hat.yml
kind: assembly
id: hat
title: Hat
position: body/cover
serials:
- {series: xa, first: 21, last: open, evidence: [{source: book}]}
# file: content/conversions/kit.yml
kind: conversion
id: kit
title: Kit
position: body/cover
from: [lid]
to: hat
serials:
- {series: xa, first: 1, last: 20}
# file: content/sources/book.yml
kind: source
id: book
title: The book
class: parts-book
adopted: kit
# file: content/tools/ring-spanner.yml
kind: tool
id: ring-spanner
formerly: [spanner]
title: Ring spanner
for: lid
number: T-1
notes: It turns the nut; see [its source](/sources/book/) and [itself](/tools/ring-spanner/).
"""
# What becomes of the copy, told as plain values.
ASK = """
import json
from pathlib import Path
from spanbook.answers.answers import Answers
from spanbook.reading.fields import fields_of
from spanbook.rules.checking import check_folder
from spanbook.site import permanent, views
from spanbook.site.common import Site
from spanbook.site.documents import documents
from spanbook.site.page import Around
checked = check_folder(Path('.'))
told = {"problems": [[p.name, p.severity, p.place.path, p.place.line] for p in checked.problems]}
if not any(p.severity == "error" for p in checked.problems):
    register = checked.register
    pages = {page.address: page.to_html(Around()) for page in views.all_pages(Site(Answers(register)))}
    told |= {
        "pages": pages,
        "addresses": permanent.public(register),
        "documents": [[d.title, d.sort, d.address] for d in documents(register)],
        "picks": {f.key: f.pick for kind in ("tool", "source") for f in fields_of(kind)},
    }
print(json.dumps(told))
"""


@pytest.fixture(scope="module")
def copied(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The package and its schemas with the new kind, and a small community that has a record of it."""
    project = tmp_path_factory.mktemp("copy")
    ignored = shutil.ignore_patterns("__pycache__")
    shutil.copytree(PROJECT / "builder/spanbook", project / "builder/spanbook", ignore=ignored)
    shutil.copytree(PROJECT / "schema", project / "schema")
    package = project / "builder/spanbook"
    # The recipe for a kind: schema, class, row, view and template, and its line among the views.
    (project / "schema/tool.json").write_text(json.dumps(TOOL, indent=2))
    (package / "reading/tools.py").write_text(CLASS)
    add(package / "reading/records.py", "", "from spanbook.reading.tools import Tool as Tool\n")
    add(package / "reading/kinds.py", '    Kind("positions"', ROW)
    (package / "site/views/tool.py").write_text(VIEW)
    (package / "site/views/tool.html").write_text(TEMPLATE)
    add(package / "site/views/__init__.py", "    words_pages,\n)", "    tool,\n")
    add(package / "site/views/__init__.py", "    words_pages.pages,\n    rules.pages,\n", "    tool.pages,\n")
    # The recipe for a field: schema and class. A source says by which conversion it was brought in.
    add(project / "schema/source.json", '    "licence":', PROPERTY)
    add(package / "reading/sources.py", "", "    adopted: str | None\n")
    return project


PROPERTY = (
    '    "adopted": {"$ref": "defs.json#/$defs/id", "x-role": "reference", "x-to": "conversion", '
    '"title": "Adopted by", "description": "The conversion that it came with.", "examples": ["kit"]},\n'
)


def add(file: Path, before: str, text: str) -> None:
    """Write a text before the first place where another stands, or at the end."""
    was = file.read_text(encoding="utf-8")
    place = was.index(before) if before else len(was)
    file.write_text(was[:place] + text + was[place:], encoding="utf-8")


def told(copied: Path, folder: Path, world: str) -> dict[str, Any]:
    """What the changed program makes of a small community that uses the new field and the new kind."""
    worlds.lay(folder, world)
    environment = {
        **os.environ,
        "PYTHONPATH": str(copied / "builder"),
        "XDG_CACHE_HOME": str(folder / "cache"),
    }
    command = [sys.executable, "-c", ASK]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    made: dict[str, Any] = json.loads(done.stdout)
    return made


@pytest.fixture(scope="module")
def sound(copied: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    made = told(copied, tmp_path_factory.mktemp("sound"), WORLD)
    assert not [problem for problem in made["problems"] if problem[1] == "error"]
    return made


def test_a_new_kind_has_its_page_where_its_folder_says(sound: dict[str, Any]) -> None:
    assert "assemblies/lid/" in sound["pages"]["tools/ring-spanner/"]


def test_a_new_kind_is_listed_found_and_kept(sound: dict[str, Any]) -> None:
    assert "Ring spanner" in sound["pages"]["tools/"]
    assert ["Ring spanner", "Tool", "tools/ring-spanner/"] in sound["documents"]
    assert {"tools/", "tools/ring-spanner/", "tools/spanner/", "add/tool/"} <= set(sound["addresses"])
    assert "tools/ring-spanner" in sound["pages"]["tools/spanner/"]


def test_a_new_kind_and_a_new_field_are_asked_for_in_forms(sound: dict[str, Any]) -> None:
    assert "Ring spanner" in sound["pages"]["add/tool/"]
    assert 'data-pick="assemblies/ absences/"' in sound["pages"]["add/tool/"]
    assert 'data-pick="conversions/"' in sound["pages"]["add/source/"]
    assert "add/tool/" in sound["pages"]["add/"]


def test_the_number_of_a_new_kind_has_a_page_that_names_it(sound: dict[str, Any]) -> None:
    page = sound["pages"]["parts/example-works/t-1/"]
    assert "Also named in" in page
    assert "tools/ring-spanner/" in page


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("for: lid", "for: lit", ["reference-unknown", "content/tools/ring-spanner.yml", 5]),
        ("adopted: kit", "adopted: kid", ["reference-unknown", "content/sources/book.yml", 5]),
        ("(/tools/ring-spanner/)", "(/tools/spanner-9/)", ["link-dead", "content/tools/ring-spanner.yml", 7]),
        ("[spanner]", "[ring-spanner]", ["former-id-taken", "content/tools/ring-spanner.yml", 3]),
        ("id: ring-spanner", "id: spanner-9", ["file-name", "content/tools/ring-spanner.yml", 2]),
    ],
)
def test_what_is_wrong_is_told(
    copied: Path, tmp_path: Path, old: str, new: str, problem: list[object]
) -> None:
    found = told(copied, tmp_path, WORLD.replace(old, new))["problems"]
    assert problem in [[name, path, line] for name, _, path, line in found]
