"""Circuits: which way it goes, how much of it, what a fault does, and on how little that rests."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.flow.figures import Figures, Missing, Worked
from spanbook.answers.flow.inputs import Input, Weight
from spanbook.answers.flow.on_machine import Likely, MachineCircuit
from spanbook.answers.flow.over_series import Run
from spanbook.answers.flow.pieces import Piece
from spanbook.answers.flow.tree import tree
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, pgettext
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Circuit, CircuitState
from spanbook.register.model import Register
from spanbook.wording.flow_amounts import (
    PSI,
    digits,
    flow_words,
    percent_words,
    pressure_words,
    size_words,
)
from spanbook.wording.flow_faults import fault_words
from spanbook.wording.flow_ways import arrangement_words, piece_title, served_titles, what_words
from spanbook.wording.grammar import capital, listed, plural, share_of, span_of
from spanbook.wording.spans import runs_words

WORKED_OUT = marked(
    "Worked out from what is recorded, not measured. Go by the gauge, by the maker's limits where they are "
    "known, and where local rules ask for it by somebody licensed."
)
CARE = {
    "oil": marked("Oil that runs is hot and under pressure: let both go before anything is opened."),
    "water": marked(
        "Water that has run is hot and may be under pressure: let it cool before anything is opened."
    ),
    "fuel": marked(
        "Fuel burns, and its vapour lies low: no flame, no spark, fresh air, and a cloth for what drips."
    ),
    "air": marked("Let the pressure off before anything is opened."),
    "gas": marked("Gas of the crankcase burns and poisons: fresh air, and no flame."),
    "current": marked(
        "Take the battery's earth off first. A coil and a magneto give a shock that can throw a hand."
    ),
}
MOST_MEASURED = 3
ROUTES = marked("Which way it goes")
OPENS = marked("Which opens")
SHUT = marked("stays shut")
BANDS = marked("Solid: what surely flows. Hatched: what may.")
FAULTS = marked("If something is wrong")
MEASURE_NEXT = marked("Worth measuring next")
RESTS_ON = marked("What the figures rest on")
_STILL = marked("As it is")
NO_WAY_OUT = marked("No figures: what is pumped may have no way out, and something gives way.")
NOTHING_DRIVES = marked(
    "No figures: nothing that is recorded here drives it, so that only its ways can be told."
)
AT_LEAST = marked("At least as wide as told: the ways here are not only in rows and side by side.")

WEIGHTS = {
    Weight.ASSUMED: marked("assumed by us"),
    Weight.UNBACKED: marked("recorded without evidence"),
    Weight.RECALLED: marked("by recollection"),
    Weight.RECORDED: marked("by a source"),
}
_IN = {
    "hole-bore": ("mm", 1e-3),
    "seat-bore": ("mm", 1e-3),
    "bore": ("mm", 1e-3),
    "at-warmth": ("°C", 1.0),
    "loses": ("psi", PSI),
    "density": ("kg/m³", 1.0),
    "viscosity": ("mPa·s", 1e-3),
    "at-hundred": ("mm²/s", 1.0),
    "fully-open-times": (marked("times"), 1.0),
}


def circuit_summary(register: Register, circuit: Circuit) -> str:
    """What a circuit is of, in one line."""
    machine, medium = register.machines[circuit.machine].title, _medium(circuit)
    if circuit.medium == "oil":
        message = _("Which way the {medium} goes in the {machine}, and what is cleaned of it.")
    else:
        message = _("Which way the {medium} goes in the {machine}.")
    return message.format(medium=medium, machine=machine)


def _medium(circuit: Circuit) -> str:
    """What flows, inside a sentence."""
    return {
        "oil": pgettext("what flows", "oil"),
        "water": pgettext("what flows", "water"),
        "fuel": pgettext("what flows", "fuel"),
        "air": pgettext("what flows", "air"),
        "gas": pgettext("what flows", "gas"),
        "current": pgettext("what flows", "current"),
    }[circuit.medium]


def medium_words(circuit: Circuit) -> str:
    """What flows, and of which grade: `Oil, SAE 30`."""
    words = capital(_medium(circuit))
    return f"{words}, {circuit.grade.replace('-', ' ').upper()}" if circuit.grade else words


def worked_out_words(circuit: Circuit) -> str:
    """That it is worked out, and the usual care."""
    return f"{_(WORKED_OUT)} {_(CARE[circuit.medium])}"


def run_of_words(run: Run) -> str:
    """Which numbers have it: `Surely HK 613 to HK 1021`."""
    message = _("Surely {numbers}") if run.sure else _("Possibly {numbers}")
    return message.format(numbers=runs_words(run.numbers, run.series))


def likely_words(one: Likely) -> str:
    """An arrangement of one machine, and how probable it is where that is not beyond doubt."""
    words = arrangement_words(one.arranged)
    return words if one.share == 1 else labelled(words, share_of(one.share))


def rest_words(of: MachineCircuit) -> str | None:
    """What is not told of: arrangements less likely, and what no record has."""
    if not of.rest:
        return None
    return _("Something else than these: {share}.").format(share=share_of(of.rest))


def state_words(state: CircuitState) -> str:
    """`Running warm: 70 °C, 800 turns a minute`."""
    said = [f"{state.warmth} °C"] if state.warmth is not None else []
    said += [_("{speed} turns a minute").format(speed=state.speed)] if state.speed is not None else []
    title = state.title or _(_STILL)
    return labelled(title, ", ".join(said)) if said else title


def missing_words(missing: Iterable[Missing]) -> str:
    """Why there are no figures: `No figures: nobody has recorded Strainer pack (gap, width, depth and
    count).`
    """
    of: dict[str, list[str]] = {}
    for one in missing:
        whose = piece_title(one.piece) if one.piece else _("how it runs")
        of.setdefault(whose, []).append(what_words(one.what))
    told = [f"{title} ({listed(list(dict.fromkeys(what)))})" for title, what in of.items()]
    return _("No figures: nobody has recorded {what}.").format(what=listed(told))


def none_words(worked: Worked) -> str:
    """Why there are no figures."""
    if worked.missing:
        return missing_words(worked.missing)
    return _(NO_WAY_OUT) if worked.driven else _(NOTHING_DRIVES)


def figure_lines(worked: Worked, figures: Figures) -> Iterator[str]:
    """What is worked out of a state: what is served, the gauge, the valves, and the two shares."""
    circuit = worked.arranged.circuit
    if tree(worked.arranged) is None:
        yield _(AT_LEAST)
    for piece in worked.arranged.pieces:
        if piece.way.serves:
            yield labelled(piece_title(piece), flow_words(figures.flows[piece.id], circuit))
    for place in circuit.places:
        if place.gauge:
            meter = circuit.medium == "current"
            message = _("At the meter ({place}): {read}") if meter else _("At the gauge ({place}): {read}")
            read = pressure_words(figures.pressures[place.id], circuit)
            yield message.format(place=place.title, read=read)
    for piece in worked.arranged.pieces:
        if piece.way.through == "relief" and not worked.fault_at(piece):
            yield labelled(piece_title(piece), valve_words(figures, piece, circuit))
    if figures.cleaned and figures.served:
        yield _("Of all that is pumped {cleaned} is cleaned; of what reaches {served} {share}.").format(
            cleaned=percent_words(figures.cleaned),
            served=served_titles(worked.arranged),
            share=percent_words(figures.served),
        )


def valve_words(figures: Figures, piece: Piece, circuit: Circuit) -> str:
    """Whether a valve surely opens, may open or stays shut."""
    flow = flow_words(figures.flows[piece.id], circuit)
    match figures.opens(piece):
        case True:
            return _("surely opens, {flow}").format(flow=flow)
        case False:
            return _(SHUT)
        case None:
            return _("may open, {flow}").format(flow=flow)


def measure_words(one: Input) -> str:
    """What would narrow the figures most: `Main bearings: what passes`."""
    assert one.piece is not None, "only what can be measured is worth measuring"
    return labelled(piece_title(one.piece), what_words(one.what))


def rests_words(inputs: Iterable[Input]) -> str:
    """How much of it is recorded: `17 numbers: 8 assumed by us, 4 by recollection, 5 by a source.`"""
    inputs = tuple(inputs)
    count = {weight: sum(one.weight is weight for one in inputs) for weight in Weight}
    said = [f"{number} {_(WEIGHTS[weight])}" for weight, number in count.items() if number]
    return labelled(plural(len(inputs), "{} number", "{} numbers"), f"{', '.join(said)}.")


def input_words(one: Input) -> str:
    """One number that the figures rest on, as it was recorded or as it is assumed."""
    whose = piece_title(one.piece) if one.piece else _("The medium")
    value = size_words(one.size) if one.size else _between_words(one)
    return labelled(whose, f"{what_words(one.what)} {value} ({_(WEIGHTS[one.weight])})")


def picture_words(worked: Worked) -> str:
    """What the picture shows, for whoever cannot see it."""
    arranged = worked.arranged
    state = state_words(worked.state)
    wrong = f", {fault_words(worked.fault, arranged.circuit)}" if worked.fault else ""
    return f"{arranged.circuit.title}. {arrangement_words(arranged)}. {state}{wrong}"


def _between_words(one: Input) -> str:
    unit, of = _IN.get(one.what, ("", 1.0))
    ends = span_of([digits(one.low / of), digits(one.high / of)])
    return f"{ends} {_(unit)}".rstrip()
