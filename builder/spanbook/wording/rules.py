"""Rules as a contributor reads them: what they are called together, what a severity means, their examples."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled
from spanbook.reading.problems import Rule, Severity

FAMILIES: Mapping[str, str] = {
    "files": marked("Files and folders"),
    "text": marked("Text"),
    "yaml": marked("YAML"),
    "fields": marked("Fields and what they hold"),
    "comments": marked("Comments"),
    "ids": marked("Ids, and whose a number is"),
    "former": marked("Former names"),
    "references": marked("References"),
    "retired": marked("What is retired"),
    "series": marked("Series"),
    "stamps": marked("Stamps, and numbers as stamped"),
    "spans": marked("Spans"),
    "sizes": marked("Sizes"),
    "coverage": marked("What fits a position"),
    "names": marked("Numbers and names"),
    "numbers": marked("Numbers that are one, or look it"),
    "pairs_and_sets": marked("Left and right, and sets"),
    "supersessions": marked("Supersessions"),
    "conversions": marked("Conversions"),
    "shortfalls": marked("What conversions and supersessions reach"),
    "years": marked("Years"),
    "evidence": marked("Evidence"),
    "teardowns": marked("Teardowns"),
    "units": marked("Units"),
    "lines": marked("Lines of parts lists"),
    "stacks": marked("Stacks"),
    "points": marked("Points in figures"),
    "strip_downs": marked("Strip-downs"),
    "circuits": marked("Circuits"),
    "signs": marked("Signs"),
    "cautions": marked("Cautions"),
    "links": marked("Links in notes"),
    "gone": marked("What is gone"),
    "photographs": marked("Photographs"),
    "drawings": marked("Drawings"),
    "addresses": marked("Addresses"),
}
_NAMED: Mapping[Severity, str] = {
    Severity.ERROR: marked("error"),
    Severity.WARNING: marked("warning"),
    Severity.ADVICE: marked("advice"),
}
_MEANS: Mapping[Severity, str] = {
    Severity.ERROR: marked("keeps the site from being built until it is mended"),
    Severity.WARNING: marked("is most likely a mistake; a strict check refuses it"),
    Severity.ADVICE: marked("is worth a look, and never refused"),
}
_LONGEST = 25  # lines of an example
_WIDEST = 100


def family_title(name: str) -> str:
    """What the rules of a family are called together."""
    return _(FAMILIES[name])


def severity_words(severity: Severity) -> str:
    """A severity as a word."""
    return _(_NAMED[severity])


def severities() -> Mapping[Severity, str]:
    """What each severity does."""
    return {severity: _(words) for severity, words in _MEANS.items()}


@dataclass(frozen=True, slots=True)
class Line:
    """A line of an example; `differs` where the other example of the rule does not have it."""

    text: str
    differs: bool


def examples_summary() -> str:
    """What stands on a page of examples."""
    return _("The examples are laid over a small sound set of records; what makes the difference is marked.")


def reason(rule: Rule) -> str:
    """Why a rule is one."""
    return _(rule.reason)


def explained(rule: Rule) -> str:
    """A rule in a line."""
    return labelled(_head(rule), reason(rule))


def _head(rule: Rule) -> str:
    return f"{rule.name} ({severity_words(rule.severity)})"


def explanation(rule: Rule) -> str:
    """A rule as a page of its own: what it holds, and an example of each side."""
    bad, good = (_indented(lines) for lines in examples(rule))
    return "\n\n".join([_head(rule), reason(rule), _("Refused:"), bad, _("Accepted:"), good])


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
