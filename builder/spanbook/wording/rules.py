"""Rules as a contributor reads them: what they are called together, what a severity means, their examples."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher

from spanbook.reading.problems import Rule, Severity

FAMILIES: Mapping[str, str] = {
    "files": "Files and folders",
    "text": "Text",
    "yaml": "YAML",
    "fields": "Fields and what they hold",
    "comments": "Comments",
    "ids": "Ids, and whose a number is",
    "former": "Former names",
    "references": "References",
    "retired": "What is retired",
    "series": "Series",
    "stamps": "Stamps, and numbers as stamped",
    "spans": "Spans",
    "sizes": "Sizes",
    "coverage": "What fits a position",
    "names": "Numbers and names",
    "numbers": "Numbers that are one, or look it",
    "pairs_and_sets": "Left and right, and sets",
    "supersessions": "Supersessions",
    "conversions": "Conversions",
    "shortfalls": "What conversions and supersessions reach",
    "years": "Years",
    "evidence": "Evidence",
    "teardowns": "Teardowns",
    "units": "Units",
    "lines": "Lines of parts lists",
    "stacks": "Stacks",
    "points": "Points in figures",
    "strip_downs": "Strip-downs",
    "circuits": "Circuits",
    "signs": "Signs",
    "cautions": "Cautions",
    "links": "Links in notes",
    "gone": "What is gone",
    "photographs": "Photographs",
    "drawings": "Drawings",
    "addresses": "Addresses",
}
SEVERITIES: Mapping[Severity, str] = {
    Severity.ERROR: "keeps the site from being built until it is mended",
    Severity.WARNING: "is most likely a mistake; a strict check refuses it",
    Severity.ADVICE: "is worth a look, and never refused",
}
_LONGEST = 25  # lines of an example
_WIDEST = 100


@dataclass(frozen=True, slots=True)
class Line:
    """A line of an example; `differs` where the other example of the rule does not have it."""

    text: str
    differs: bool


def explanation(rule: Rule) -> str:
    """A rule as a page of its own: what it holds, and an example of each side."""
    bad, good = (_indented(lines) for lines in examples(rule))
    return f"{rule.name} ({rule.severity})\n\n{rule.reason}\n\nRefused:\n\n{bad}\n\nAccepted:\n\n{good}"


def _indented(lines: tuple[Line, ...]) -> str:
    return "\n".join(f"    {line.text}".rstrip() for line in lines)


def examples(rule: Rule) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
    """What is refused and what is accepted, cut to what a screen holds, nothing invisible in it."""
    bad, good = rule.bad.split("\n")[:-1], rule.good.split("\n")[:-1]
    same = SequenceMatcher(None, bad, good, autojunk=False).get_matching_blocks()
    kept = {block.a + i for block in same for i in range(block.size)}
    held = {block.b + i for block in same for i in range(block.size)}
    return _lines(bad, kept), _lines(good, held)


def _lines(lines: list[str], same: set[int]) -> tuple[Line, ...]:
    shown = tuple(Line(_shown(line), i not in same) for i, line in enumerate(lines[:_LONGEST]))
    return (*shown, Line("...", False)) if len(lines) > _LONGEST else shown


def _shown(line: str) -> str:
    cut = line if len(line) <= _WIDEST else f"{line[: _WIDEST - 3]}..."
    return cut if cut.isprintable() else ascii(cut)[1:-1]
