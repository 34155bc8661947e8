"""Every reference leads somewhere, and to the right sort of thing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import (
    Assembly,
    Cautions,
    Conversion,
    Evidence,
    Machine,
    PartRecord,
    Record,
    Supersession,
    Teardown,
)
from spanbook.register.model import Register
from spanbook.rules.check import Check

_FILE = "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\n"
_SPAN = "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
_GOOD = _FILE + "position: body/cover\n" + _SPAN
_SEEN = (
    "# file: content/teardowns/x-7-merrin.yml\nkind: teardown\nid: x-7-merrin\ndate: 2024\nseen-by: merrin\n"
)
_FOUND = "serial: XA 7\ncondition: untouched\nfound:\n"

REFERENCE_UNKNOWN = Rule(
    "reference-unknown",
    Severity.ERROR,
    "A name that leads nowhere is a statement that nobody can follow; most are misspelt.",
    bad=_GOOD.replace("source: book", "source: boook"),
    good=_GOOD,
)
POSITION_NOT_A_LEAF = Rule(
    "position-not-a-leaf",
    Severity.ERROR,
    "An assembly occupies one place, not a group of places.",
    bad=_GOOD.replace("body/cover", "body"),
    good=_GOOD,
)
POSITION_DIFFERS = Rule(
    "position-differs",
    Severity.ERROR,
    "An assembly is looked for where its record puts it; elsewhere one of the two records is wrong.",
    bad=_GOOD + _SEEN + _FOUND + "- {position: body/drain, assembly: lid}\n",
    good=_GOOD + _SEEN + _FOUND + "- {position: body/cover, assembly: lid}\n",
)

# What is named, the steps to it, and the sort of thing it should be.
Reference = tuple[str, tuple[Step, ...], str]


def references(record: Record) -> Iterator[Reference]:
    """Every reference of a record."""
    if isinstance(record, Machine):
        yield from (("position", ("positions", i), p) for i, p in enumerate(record.positions))
        for i, series in enumerate(record.series):
            yield from _evidence(("series", i), series.evidence)
    elif isinstance(record, Assembly):
        yield "position", ("position",), record.position
        for i, span in enumerate(record.serials):
            yield "series", ("serials", i, "series"), span.series
            yield from _evidence(("serials", i), span.evidence)
        for i, use in enumerate(record.parts):
            yield from _evidence(("parts", i), use.evidence)
        yield from _each("caution", "cautions", record.cautions)
    elif isinstance(record, PartRecord):
        yield from _evidence((), record.evidence)
        yield from _each("caution", "cautions", record.cautions)
    elif isinstance(record, Supersession):
        yield from (("series", ("serials", i, "series"), s.series) for i, s in enumerate(record.serials))
        yield from _evidence((), record.evidence)
        for i, need in enumerate(record.needs):
            if need.conversion:
                yield "conversion", ("needs", i, "conversion"), need.conversion
    elif isinstance(record, Conversion):
        yield from _conversion(record)
    elif isinstance(record, Teardown):
        if record.series:
            yield "series", ("series",), record.series
        for i, find in enumerate(record.found):
            yield "position", ("found", i, "position"), find.position
            if find.assembly:
                yield "assembly", ("found", i, "assembly"), find.assembly
    elif isinstance(record, Cautions):
        for i, caution in enumerate(record.cautions):
            for j, position in enumerate(caution.positions):
                yield "position", ("cautions", i, "positions", j), position


def _conversion(record: Conversion) -> Iterator[Reference]:
    yield "position", ("position",), record.position
    yield from _each("assembly", "from", record.start)
    yield "assembly", ("to",), record.to
    yield from (("series", ("serials", i, "series"), s.series) for i, s in enumerate(record.serials))
    for i, need in enumerate(record.needs):
        yield "position", ("needs", i, "position"), need.position
        for j, assembly in enumerate(need.assemblies):
            yield "assembly", ("needs", i, "assemblies", j), assembly
    yield from _evidence((), record.evidence)
    yield from _each("caution", "cautions", record.cautions)


def _each(sort: str, key: str, names: Iterable[str]) -> Iterator[Reference]:
    return ((sort, (key, i), name) for i, name in enumerate(names))


def _evidence(at: tuple[Step, ...], evidence: Iterable[Evidence]) -> Iterator[Reference]:
    for i, piece in enumerate(evidence):
        if piece.source:
            yield "source", (*at, "evidence", i, "source"), piece.source
        if piece.teardown:
            yield "teardown", (*at, "evidence", i, "teardown"), piece.teardown


def _unknown(register: Register) -> Iterator[Finding]:
    known = {
        "position": register.positions,
        "series": register.series,
        "source": register.sources,
        "teardown": register.teardowns,
        "assembly": register.assemblies,
        "conversion": register.conversions,
        "caution": register.cautions,
    }
    for record in register.records:
        for sort, steps, name in references(record):
            if name not in known[sort]:
                close = get_close_matches(name, known[sort], n=1)
                todo = (
                    f"did you mean {close[0]}?" if close else f"correct it, or add a record for that {sort}"
                )
                yield Finding(record.origin.place(*steps), f"there is no {sort} {name}", todo)


def _placed(record: Record) -> Iterator[tuple[tuple[Step, ...], str, tuple[str, ...]]]:
    """Where a record puts assemblies: the steps to the position, the position, the assemblies there."""
    if isinstance(record, Assembly):
        yield ("position",), record.position, ()
    elif isinstance(record, Conversion):
        yield ("position",), record.position, (*record.start, record.to)
        for i, need in enumerate(record.needs):
            yield ("needs", i, "position"), need.position, need.assemblies
    elif isinstance(record, Teardown):
        for i, find in enumerate(record.found):
            yield ("found", i, "position"), find.position, (find.assembly,) if find.assembly else ()


def _not_a_leaf(register: Register) -> Iterator[Finding]:
    for record in register.records:
        for steps, path, _ in _placed(record):
            position = register.positions.get(path)
            if position and not position.leaf:
                inside = ", ".join(position.below)
                read = f"{path} is a group of positions"
                yield Finding(record.origin.place(*steps), read, f"name one of {inside}")


def _differs(register: Register) -> Iterator[Finding]:
    for record in register.records:
        for steps, path, names in _placed(record):
            for name in names:
                assembly = register.assemblies.get(name)
                if assembly and assembly.position != path:
                    read = f"{name} at {path}, and its record puts it at {assembly.position}"
                    yield Finding(record.origin.place(*steps), read, "correct the one that is wrong")


CHECKS = (
    Check(REFERENCE_UNKNOWN, _unknown),
    Check(POSITION_NOT_A_LEAF, _not_a_leaf),
    Check(POSITION_DIFFERS, _differs),
)
