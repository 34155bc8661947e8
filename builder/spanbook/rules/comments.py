"""Text that a comment swallowed: YAML ends a value at a blank and a #."""

from __future__ import annotations

import re
from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Record
from spanbook.reading.roles import Role
from spanbook.reading.text import to_text
from spanbook.reading.walk import Leaf, walk
from spanbook.reading.write import flow
from spanbook.register.model import Register
from spanbook.rules.check import Check

_LETTER = "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\nclass: correspondence\n"

TEXT_CUT = Rule(
    "text-cut",
    Severity.WARNING,
    "After a blank a # begins a comment, and a text that goes on with a number sign loses its end.",
    bad=_LETTER + "title: Letter about pump # 3\n",
    good=_LETTER + 'title: "Letter about pump # 3"  # 3 pages\n',
)

_TEXTS = (Role.NAME, Role.SIGN, Role.TEXT, Role.MARKDOWN, Role.NUMBER)
# A comment is normal, so only what can hardly be one is told: a number after the sign, or text left hanging.
_NUMBER = re.compile("# ?[0-9]")
_HANGING = re.compile(r"(?i).*(?:[,(&/+=-]|\b(?:no|nos|nr|fig|and|or|of|the|with)\.?)")
_LONGEST = 200  # characters of what is written out to be copied


def _cut(register: Register) -> Iterator[Finding]:
    for record in register.records:
        if b" #" in record.origin.data:
            yield from _cut_in(record)


def _cut_in(record: Record) -> Iterator[Finding]:
    lines = to_text(record.origin.data).split("\n")
    for leaf in walk(record, *_TEXTS):
        place = record.origin.place(*leaf.steps)
        line = lines[place.line - 1][place.column - 1 :]
        # In quotes the value does not begin the line here, and whoever means a comment sets it off by more.
        if line.startswith(f"{leaf.value} #"):
            value, rest = leaf.value, line[len(leaf.value) + 1 :].rstrip()
            if _NUMBER.match(rest) or _HANGING.fullmatch(value) or value.count("(") > value.count(")"):
                shown = rest if len(rest) <= _LONGEST else f"{rest[:_LONGEST]}..."
                read = _("“{value}”; what follows on the line, {shown}, is a comment").format(
                    value=value, shown=shown
                )
                yield Finding(place, read, _todo(leaf, f"{value} {rest}"))


def _todo(leaf: Leaf, whole: str) -> str:
    key = f"{leaf.steps[-1]}: " if isinstance(leaf.steps[-1], str) else ""
    written = f": {key}{flow(whole)}" if len(whole) <= _LONGEST else ""
    return _("if it belongs to the text, put all of it in quotes{}. A comment stands two blanks off").format(
        written
    )


CHECKS = (Check(TEXT_CUT, _cut),)
