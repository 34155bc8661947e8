"""Sizes: the standard that a size names, and ends that are the wrong way round."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.recorded_sizes import excluded
from spanbook.answers.sizing import Off
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.measures import read
from spanbook.reading.nodes import Step
from spanbook.reading.phrases import decimal
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import PartRecord, Record, Size, Teardown
from spanbook.register.model import Register
from spanbook.rules.check import Check

_HEAD = "# file: content/parts/bolt.yml\nkind: part\nid: bolt\nnumber: P-9\nby: a-firm\nname: Bolt\nsizes:\n"
_GOOD = _HEAD + '- {what: Diameter, value: "0.310", unit: in, standard: 5/16 BSW}\n'

STANDARD_EXCLUDED = Rule(
    "standard-excluded",
    Severity.WARNING,
    "A size that a new or worn thing of a standard cannot have: the size, its unit or the standard is wrong.",
    bad=_GOOD.replace("0.310", "0.370"),
    good=_GOOD,
)
SIZE_REVERSED = Rule(
    "size-reversed",
    Severity.ERROR,
    "A size that lies between two values has the lower one first; otherwise one of them is a slip.",
    bad=_HEAD + '- {what: Length, value: "5", to: "4", unit: in}\n',
    good=_HEAD + '- {what: Length, value: "4", to: "5", unit: in}\n',
)


def _sizes(register: Register) -> Iterator[tuple[Record, tuple[Step, ...], Size]]:
    """Every size of every record, with its place in it."""
    for record in register.records:
        if isinstance(record, PartRecord):
            yield from ((record, ("sizes", i), one) for i, one in enumerate(record.sizes))
        elif isinstance(record, Teardown):
            for k, find in enumerate(record.found):
                for i, one in enumerate(find.measurements):
                    yield record, ("found", k, "measurements", i), one


_EXCLUDED = {
    Off.OVER: marked("{value} {unit}, {by} mm over what {standard} allows"),
    Off.UNDER: marked("{value} {unit}, {by} mm under what {standard} allows"),
    Off.WORN: marked("{value} {unit}, {by} mm worn under what {standard} allows"),
}


def _excluded(register: Register) -> Iterator[Finding]:
    for record, at, one in _sizes(register):
        if found := excluded(one):
            read_as = _(_EXCLUDED[found.difference.off]).format(
                value=one.value,
                unit=one.unit,
                by=decimal(found.difference.by, 2),
                standard=found.standard.name,
            )
            yield Finding(
                record.origin.place(*at, "standard"), read_as, _("mend the size, its unit or the standard")
            )


def _reversed(register: Register) -> Iterator[Finding]:
    for record, at, one in _sizes(register):
        if one.to is not None and read(one.value) > read(one.to):
            said = _("a size from {value} up to {to}").format(value=one.value, to=one.to)
            yield Finding(record.origin.place(*at, "to"), said, _("write the lower value first"))


CHECKS = (Check(STANDARD_EXCLUDED, _excluded), Check(SIZE_REVERSED, _reversed))
