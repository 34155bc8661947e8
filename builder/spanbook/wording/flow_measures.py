"""Sizes of circuits that are worth measuring, as they are asked for."""

from __future__ import annotations

from spanbook.answers.flow.to_measure import Measure
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Assembly
from spanbook.wording.flow import CARE
from spanbook.wording.flow_ways import way_title, what_words
from spanbook.wording.grammar import listed
from spanbook.wording.records import the_title


def measure_asked(measure: Measure) -> str:
    """What is to be measured, and what that would do.

    `can this be measured: Strainer pack of the metal-edge strainer (gap and width)? Without it …`
    """
    way, what = way_title(measure.way), listed([what_words(one) for one in measure.what])
    if isinstance(measure.of, Assembly):
        asked = _("can this be measured: {way} of {thing} ({what})?").format(
            way=way, thing=the_title(measure.of), what=what
        )
    else:
        asked = _("can this be measured: {way} ({what})?").format(way=way, what=what)
    if measure.lacking:
        then = _("Without it nobody can say how much flows: {circuit}.")
    else:
        then = _("It would narrow what is worked out: {circuit}.")
    return f"{asked} {then.format(circuit=measure.circuit.title)}"


def told_of_measuring(measure: Measure) -> str:
    """What an answer has to say, and the care that the work takes."""
    told = _("Say what was read, with what and how, and the number from the plate.")
    return f"{told} {_(CARE[measure.circuit.medium])}"
