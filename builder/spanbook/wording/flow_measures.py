"""Sizes of circuits that are worth measuring, as they are asked for."""

from __future__ import annotations

from spanbook.answers.flow.to_measure import Measure
from spanbook.reading.records import Assembly
from spanbook.wording.flow import CARE
from spanbook.wording.flow_ways import WHAT, way_title
from spanbook.wording.grammar import listed
from spanbook.wording.records import the_title


def measure_asked(measure: Measure) -> str:
    """What is to be measured, and what that would do.

    `can this be measured: Strainer pack of the metal-edge strainer (gap and width)? Without it …`
    """
    of = f" of {the_title(measure.of)}" if isinstance(measure.of, Assembly) else ""
    what = listed([WHAT.get(one, one) for one in measure.what])
    asked = f"can this be measured: {way_title(measure.way)}{of} ({what})?"
    if measure.lacking:
        return f"{asked} Without it nobody can say how much flows: {measure.circuit.title}."
    return f"{asked} It would narrow what is worked out: {measure.circuit.title}."


def told_of_measuring(measure: Measure) -> str:
    """What an answer has to say, and the care that the work takes."""
    return (
        f"Say what was read, with what and how, and the number from the plate. {CARE[measure.circuit.medium]}"
    )
