"""What keeps a file from being YAML, told as its writer would see it, not as the parser does."""

from __future__ import annotations

import re

import yaml

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.unquoted import to_quote
from spanbook.reading.write import flow

# A line's list marks and key, and the value it begins.
_LINE = re.compile(r"(?P<head>\s*(?:- +)*)(?P<key>[\w-]+): +(?P<value>\S.*)")
_QUOTED_ON = re.compile(r"""(?:^|[:\-{\[,] *)(?:"(?:[^"\\]|\\.)*"|'(?:[^']|'')*')""")
_CLOSING = {"{": "}", "[": "]"}
_GOES_ON = marked(
    r"""close the quotes at the end of the text; inside "..." write \" for a quote, inside '...' write ''"""
)
_COMMENT = marked("put text with # in it in quotes; after a blank # begins a comment, to the end of the line")
_OF_A_MERGE = re.compile("<{7} |={7}$|>{7} |[|]{7} ")
# What libyaml says of signs that begin no text, and of lines that begin elsewhere than those they belong to.
_NO_TEXT = re.compile("cannot start|mapping keys are not|sequence entries are not|comment or line break")
_OUT_OF_LINE = re.compile("expected key|expected '-' indicator")
# A blank of another sort, as web pages have, where YAML wants one: before a line's text, or after a key.
_OTHER_BLANK = re.compile(
    "^[ -]*(?P<before>[\u00a0\u2000-\u200a\u202f\u3000])|:(?P<after>[\u00a0\u2000-\u200a\u202f\u3000])"
)
_WORD = re.compile(r"[\w-]+(?=:?(?: |$))")
_QUESTION = re.compile(r"[:,\[{-] *\? *(?:$|[,\]}])")
_UNKNOWN = marked("write unknown where nobody knows; as text it goes in quotes: {}")
_BESIDE_KEYS = marked("begin it in the same column as the keys beside it")
_ANY = marked('mend it; text with : or # in it, or that begins with a sign, goes in "quotes"')

# Line and column from 1, what was read, what to do.
Told = tuple[int, int, str, str]


def told(wrong: yaml.MarkedYAMLError, text: str) -> Told:
    """Where and why a text is not YAML."""
    mark, problem = wrong.problem_mark, wrong.problem or ""
    if mark is None:
        return 1, 1, _("not YAML here ({})").format(problem), _(_ANY)
    lines = text.split("\n")
    if merged := next((at for at, one in enumerate(lines, 1) if _OF_A_MERGE.match(one)), None):
        read = _("the marks of a merge that was not finished")
        return merged, 1, read, _("keep one side, or write both together, and delete the lines of the marks")
    for at, one in enumerate(lines[: mark.line + 1], 1):
        if other := _OTHER_BLANK.search(one):
            column = other.start("before") if other["before"] else other.start("after")
            read = _("a blank of another sort, U+{}, which YAML takes for a letter").format(
                f"{ord(one[column]):04X}"
            )
            return at, column + 1, read, _("type a plain blank in its place")
    line = lines[mark.line] if mark.line < len(lines) else ""
    if "simple key" in (wrong.context or "") and (begun := wrong.context_mark):
        todo = _("put a colon and a blank after its key, or indent text that goes on deeper than its key")
        return begun.line + 1, begun.column + 1, _("a line without a key"), todo
    opened = wrong.context_mark if _opens(wrong) else None
    said = _said(line, mark.column, problem, opened if opened and opened.line == mark.line else None)
    if said:
        return mark.line + 1, mark.column + 1, *said
    if opened:
        # What was opened and not closed is told where it was opened, anything else where reading stopped.
        after = lines[opened.line][opened.column :]
        sign = after[:1]
        if " #" in after:
            return (
                opened.line + 1,
                opened.column + 1,
                _("{} is closed only in a comment, if at all").format(sign),
                _(_COMMENT),
            )
        if sign in _CLOSING and after.count('"') % 2:
            read = _("quotes that open in this line and do not close in it")
            return opened.line + 1, opened.column + 1, read, _(_GOES_ON)
        todo = _("close it with {}, or put text with that sign in it in quotes").format(
            _CLOSING.get(sign, sign)
        )
        return opened.line + 1, opened.column + 1, _("{} opens here and is not closed").format(sign), todo
    read = " ".join(part for part in (wrong.context, problem) if part)
    return mark.line + 1, mark.column + 1, _("not YAML here ({})").format(read), _(_ANY)


def _opens(wrong: yaml.MarkedYAMLError) -> bool:
    context, problem = wrong.context or "", wrong.problem or ""
    return ("flow" in context and "',' or" in problem) or ("quoted" in context and "end of stream" in problem)


def _said(line: str, column: int, problem: str, opened: yaml.Mark | None) -> tuple[str, str] | None:
    """What was read and what to do, where the line itself shows it."""
    sign = line[column : column + 1]
    parts = _LINE.fullmatch(line)
    if _QUESTION.search(line):
        return _("text that begins with {}").format("?"), _(_UNKNOWN).format('"?"')
    if opened and "',' or" in problem and line.count('"') % 2 == 0 and (word := _WORD.match(line, column)):
        return _("no comma before {}").format(word[0]), _("put one there, or text in quotes")
    if opened and sign == ":":
        return _("a colon in text without quotes"), to_quote(_around(line, opened.column + 1, column))
    if "mapping values" in problem and parts and column > parts.start("value"):
        return _("a colon in text without quotes"), to_quote(_whole(parts))
    if "mapping values" in problem:
        return _("a key where the value before it goes on"), _(_BESIDE_KEYS)
    if parts and column >= parts.start("value") and _NO_TEXT.search(problem):
        return _("text that begins with {}").format(parts["value"][0]), to_quote(_whole(parts))
    if _OUT_OF_LINE.search(problem) and not line[:column].strip():
        item = sign == "-"
        todo = _("begin it in the same column as the items beside it") if item else _(_BESIDE_KEYS)
        return _("a line that is not in line with those above it"), todo
    if "expected key" in problem and _QUOTED_ON.search(line[:column].rstrip()):
        return _("text that goes on after its closing quote"), _(_GOES_ON)
    return None


def _whole(parts: re.Match[str]) -> str:
    return f"{parts['key']}: {flow(parts['value'].split(' #')[0].rstrip())}"


def _around(line: str, start: int, column: int) -> str:
    """The entry of a list or a group in one line that has a colon too many, quoted."""
    begin = max(start, *(line.rfind(sign, start, column) + 1 for sign in ",[{"))
    end = min((at for sign in ",]}" if (at := line.find(sign, column)) >= 0), default=len(line))
    key, colon, value = line[begin:end].strip().partition(": ")
    braces = line[start - 1] == "{"
    return f"{key}: {flow(value)}" if braces and colon else flow(line[begin:end].strip())
