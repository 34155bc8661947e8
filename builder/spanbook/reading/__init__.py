"""From a folder of files to typed records, or to problems with file, line and column.

Nothing here raises for what a contributor did: one broken file never hides the next.
"""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from hashlib import sha256

from spanbook.ground.language import gettext as _
from spanbook.reading import explain, files, make, schemas, text, typed, yaml
from spanbook.reading.examples import Examples
from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import Mapping
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.reading.record_cache import Known
from spanbook.reading.records import Origin, Record
from spanbook.reading.unread import Unread

_ID = re.compile("[a-z0-9]+(?:-[a-z0-9]+)*")
_HEAD = "# file: content/sources/letter-a.yml\n"
_GOOD = _HEAD + "kind: source\nid: letter-a\ntitle: A letter\nclass: correspondence\n"
KIND_WRONG = Rule(
    "kind-wrong",
    Severity.ERROR,
    "The kind decides how everything else is read, and the folder must agree with it.",
    bad=_GOOD.replace("kind: source", "kind: sauce"),
    good=_GOOD,
)
FILE_NAME = Rule(
    "file-name",
    Severity.ERROR,
    "The file's name is the record's id: who sees an address finds the file, and no two can clash.",
    bad=_GOOD.replace("id: letter-a", "id: letter-b"),
    good=_GOOD,
)


@dataclass(frozen=True, slots=True)
class Reading:
    """Every record that could be read, in the order of their paths, every problem, and what was not read.

    `digest` is of all files, to the byte.
    """

    records: tuple[Record, ...]
    problems: tuple[Problem, ...]
    unread: Unread
    digest: str


def read_tree(tree: files.Tree, shown_as: str = "content", known: Known | None = None) -> Reading:
    """All records below a content folder, wherever it is kept. Problems name files as `shown_as`/…

    A file whose bytes are `known` is not read again; what is read is added to it.
    """
    found, problems = files.walk(tree, shown_as)
    records: list[Record] = []
    every = list(problems)
    broken: list[tuple[files.RecordFile, bytes]] = []
    digest = sha256()
    for file in found:
        data = tree.read(file.relative, text.LARGEST + 1)
        digest.update(b"%s\0%d\0%s" % (os.fsencode(file.path), len(data), data))
        old = known.of(file.path, data) if known else None
        result = old or read_bytes(data, file.path, file.kind, file.stem)
        if isinstance(result, Record):
            records.append(result)
            if known and not old:
                known.add(file.path, data, result)
        else:
            broken.append((file, data))
    # What is wrong is told last, when the others can give examples.
    examples = Examples(records)
    for file, data in broken:
        told = _read(data, file.path, file.kind, file.stem, examples)
        assert not isinstance(told, Record), "the same bytes make no record"
        every.extend(told)
    unread = Unread.of((file.kind, file.stem, data) for file, data in broken)
    return Reading(tuple(records), tuple(every), unread, digest.hexdigest())


def read_bytes(data: bytes, path: str, kind: str, stem: str) -> Record | tuple[Problem, ...]:
    """One record of a kind from a file's bytes, or its problems; the file's name without .yml is `stem`."""
    return _read(data, path, kind, stem, Examples())


def _read(data: bytes, path: str, kind: str, stem: str, examples: Examples) -> Record | tuple[Problem, ...]:
    try:
        node = yaml.read(data)
    except text.Refusal as refusal:
        place = Place(path, refusal.line, refusal.column)
        return (Problem.of(refusal.rule, Finding(place, refusal.read, refusal.todo)),)
    origin = Origin(path, data)
    if problem := _wrong_kind(origin, kind):
        return (problem,)
    schema = schemas.of_kind(kind)
    values = typed.typed(node, schema.guide)
    if not schema.gate.is_valid(values):
        return tuple(explain.explain(path, node, values, schema, examples))
    if not KINDS[kind].single and values["id"] != stem:
        read = _("the id {id} in a file named {stem}.yml").format(id=values["id"], stem=stem)
        todo = (
            _("name the file {id}.yml, or give the id {stem}")
            if _ID.fullmatch(stem)
            else _("name the file {id}.yml")
        ).format(id=values["id"], stem=stem)
        return (Problem.of(FILE_NAME, Finding(origin.place("id"), read, todo)),)
    return make.record(kind, values, origin)


def _wrong_kind(origin: Origin, kind: str) -> Problem | None:
    node = origin.node
    if not isinstance(node, Mapping):
        finding = Finding(
            origin.place(), _("no keys at the top"), _("begin with the line kind: {}").format(kind)
        )
        return Problem.of(KIND_WRONG, finding)
    given = getattr(node.values.get("kind"), "text", None)
    if given == kind:
        return None
    read = _("kind {}").format(given) if given else _("no kind")
    todo = _("write kind: {}, or move the file to the folder of its kind").format(kind)
    return Problem.of(KIND_WRONG, Finding(origin.place("kind"), read, todo))
