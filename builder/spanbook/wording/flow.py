"""Circuits: which way it goes, how much of it, what a fault does, and on how little that rests."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator

from spanbook.answers.flow.faults import Fault, Wrong
from spanbook.answers.flow.figures import Change, Figures, Missing, Worked
from spanbook.answers.flow.inputs import Input, Weight
from spanbook.answers.flow.on_machine import Likely, MachineCircuit
from spanbook.answers.flow.over_series import Run
from spanbook.answers.flow.pieces import Arranged, Piece
from spanbook.answers.flow.routes import Cleaned, Route, Served
from spanbook.ground.flow.bounds import Between
from spanbook.ground.measures import both_ways
from spanbook.reading.records import Assembly, Circuit, CircuitState, Way, WaySize
from spanbook.register.model import Register
from spanbook.wording.grammar import capital, listed, plural, share_of
from spanbook.wording.spans import runs_words

PSI = 6894.757293168
LITRE_MINUTE = 1e-3 / 60
# What an eye sees on an old gauge, in psi: our own guess.
SEEN_ON_GAUGE = 2.0
# Above this something gives way before the pressure is reached: our own guess.
GIVES_WAY = 300.0

WORKED_OUT = (
    "Worked out from what is recorded, not measured. Go by the gauge, by the maker's limits where they are "
    "known, and where local rules ask for it by somebody licensed. Oil that runs is hot and under pressure: "
    "let both go before anything is opened."
)
MOST_MEASURED = 3
ROUTES = "Which way it goes"
OPENS = "Which opens"
SHUT = "stays shut"
BANDS = "Solid: what surely flows. Hatched: what may."
FAULTS = "If something is wrong"
MEASURE_NEXT = "Worth measuring next"
RESTS_ON = "What the figures rest on"
NOTHING_DRIVES = "No figures: nothing that is recorded here drives it, so that only its ways can be told."
AT_LEAST = "At least as wide as told: the ways here are not only in rows and side by side."

MEDIA = {
    "oil": "oil",
    "water": "water",
    "fuel": "fuel",
    "air": "air",
    "gas": "gas",
    "current": "current",
}
THROUGH = {
    "pipe": "a pipe",
    "jet": "a jet",
    "gap": "flat slots",
    "element": "an element",
    "strainer": "a strainer",
    "packing": "a packing",
    "clearance": "a clearance",
    "cooler": "a cooler",
    "pump": "a pump",
    "relief": "a relief valve",
    "check": "a check valve",
    "cock": "a cock",
    "plug": "a plug",
    "joint": "a joint",
    "battery": "a battery",
    "winding": "a winding",
    "contact": "a contact",
}
FAULT = {Wrong.PLUGGED: "{} plugged", Wrong.LEFT_OUT: "{} left out", Wrong.STUCK_SHUT: "{} stuck shut"}
_OPEN_CIRCUIT = "{} broken"
WEIGHTS = {
    Weight.ASSUMED: "assumed by us",
    Weight.UNBACKED: "recorded without evidence",
    Weight.RECALLED: "by recollection",
    Weight.RECORDED: "by a source",
}
_CLEANS = {"coarse": "cleans coarsely", "fine": "cleans finely"}
_SERVED = {
    Cleaned.ALWAYS: "{served}: whatever reaches it has passed {by}.",
    Cleaned.BY_VALVE: "{served}: what reaches it has passed {by}; if {valves} opens it comes uncleaned.",
    Cleaned.IN_PART: "{served}: a part of what reaches it has passed {by}; the rest has not.",
    Cleaned.UNREACHED: "{served}: no recorded way leads to it.",
}
_BESIDE = "{served}: nothing that reaches it has passed {by}, which cleans only what runs beside and back."
_UNCLEANED = "{served}: nothing cleans what reaches it."
_ASSUMED = {
    "passes": "what passes",
    "at a drop of": "the drop at which that passes",
    "gives": "what it gives",
    "at a speed of": "how fast it turned for that",
    "coefficient": "how much of an ideal hole's flow passes",
    "coefficient of the hole": "how much of an ideal hole's flow passes, once it is left out",
    "bore of the hole": "bore of the hole that is left",
    "seat bore": "bore of the seat",
    "bore": "bore",
    "at a warmth of": "how warm it was when that was measured",
    "fully open by times": "by how much more than it opens at it is fully open",
    "loses at full flow": "what is lost in it with everything going through",
    "index": "how much the oil thins when warm (viscosity index)",
    "density": "density",
    "viscosity": "viscosity",
    "at 100 °C": "how thick the grade is at 100 °C",
}
_IN = {
    "bore of the hole": ("mm", 1e-3),
    "seat bore": ("mm", 1e-3),
    "bore": ("mm", 1e-3),
    "at a warmth of": ("°C", 1.0),
    "loses at full flow": ("psi", PSI),
    "density": ("kg/m³", 1.0),
    "viscosity": ("mPa·s", 1e-3),
    "at 100 °C": ("mm²/s", 1.0),
    "fully open by times": ("times", 1.0),
}


def circuit_summary(register: Register, circuit: Circuit) -> str:
    """What a circuit is of, in one line."""
    machine = register.machines[circuit.machine].title
    return f"Which way the {MEDIA[circuit.medium]} goes in the {machine}, and what is cleaned of it."


def medium_words(circuit: Circuit) -> str:
    """What flows, and of which grade: `Oil, SAE 30`."""
    words = capital(MEDIA[circuit.medium])
    return f"{words}, {circuit.grade}" if circuit.grade else words


def run_of_words(run: Run) -> str:
    """Which numbers have it: `Surely HK 613 to HK 1021`."""
    how = "Surely" if run.sure else "Possibly"
    return f"{how} {runs_words(run.numbers, run.series)}"


def piece_title(piece: Piece) -> str:
    """What a way is called; without a name by what it goes through."""
    return piece.way.title or capital(THROUGH[piece.way.through])


def way_words(way: Way) -> str:
    """A way as its record tells it: `Bypass jet: a jet, from in to canister; bore 1/16 in (1.5875 mm)`."""
    said = [f"{THROUGH[way.through]}, from {way.start} to {way.end}"]
    said += [f"{size.what} {size_words(size)}" for size in way.sizes]
    if way.cleans:
        said.append(_CLEANS[way.cleans])
    title = way.title or capital(way.id.replace("-", " "))
    return f"{title}: {'; '.join(said)}"


def place_title(circuit: Circuit, place: str) -> str:
    """A place of the circuit by its name, one inside a position by its word."""
    named = next((one.title for one in circuit.places if one.id == place), None)
    return named or place.rpartition("/")[2].replace("-", " ")


def arrangement_words(arranged: Arranged, besides: Collection[Assembly] = ()) -> str:
    """What is fitted: `With Gear oil pump and Metal-edge strainer`; `besides` goes without saying."""
    fitted = [assembly.title for assembly in arranged.fitted.values() if assembly not in besides]
    return f"With {listed(fitted)}" if fitted else "As it left the works"


def likely_words(one: Likely) -> str:
    """An arrangement of one machine, and how probable it is where that is not beyond doubt."""
    words = arrangement_words(one.arranged)
    return words if one.share == 1 else f"{words}: {share_of(one.share)}"


def rest_words(of: MachineCircuit) -> str | None:
    """What is not told of: arrangements less likely, and what no record has."""
    if not of.rest:
        return None
    return f"Something else than these: {share_of(of.rest)}."


def lacking_words(arranged: Arranged) -> Iterator[str]:
    """Where the network has holes of its own."""
    for assembly in arranged.without:
        yield f"Nobody has recorded the ways through {assembly.title}."
    for position in arranged.empty:
        yield f"What is at {position} is not known, and nothing is drawn there."


def served_words(one: Served, arranged: Arranged) -> str:
    """What reaches a thing that is served, and whether it was cleaned."""
    cleaners = _titles(piece for route in one.routes for piece in route.cleaned_by)
    valves = _titles(piece for route in one.routes for piece in route.valves)
    title = piece_title(one.piece)
    if one.cleaned is Cleaned.NEVER:
        beside = _titles(piece for piece in arranged.pieces if piece.way.cleans == "fine")
        return (_BESIDE if beside else _UNCLEANED).format(served=title, by=listed(beside))
    return _SERVED[one.cleaned].format(served=title, by=listed(cleaners), valves=listed(valves, "or"))


def route_words(route: Route, arranged: Arranged) -> str:
    """One route as a line: `Bypass jet → Cotton waste → Sump`."""
    names = [piece_title(piece) for piece in route.pieces]
    return " → ".join((*names, place_title(arranged.circuit, route.end)))


def state_words(state: CircuitState) -> str:
    """`Running warm: 70 °C, 800 turns a minute`."""
    said = [f"{state.warmth} °C"] if state.warmth is not None else []
    said += [f"{state.speed} turns a minute"] if state.speed is not None else []
    return f"{state.title}: {', '.join(said)}" if said else state.title


def fault_words(fault: Fault, circuit: Circuit) -> str:
    """`Cartridge plugged`; a conductor is broken."""
    words = _OPEN_CIRCUIT if circuit.medium == "current" else FAULT[fault.wrong]
    return words.format(piece_title(fault.piece))


def missing_words(missing: Iterable[Missing]) -> str:
    """Why there are no figures: `No figures: nobody has recorded Strainer pack (gap, width, depth and
    count).`
    """
    of: dict[str, list[str]] = {}
    for one in missing:
        of.setdefault(piece_title(one.piece) if one.piece else "how it runs", []).append(one.what)
    told = [f"{title} ({listed(list(dict.fromkeys(what)))})" for title, what in of.items()]
    return f"No figures: nobody has recorded {listed(told)}."


def figure_lines(worked: Worked, figures: Figures) -> Iterator[str]:
    """What is worked out of a state: what is served, the gauge, the valves, and the two shares."""
    circuit = worked.arranged.circuit
    for piece in worked.arranged.pieces:
        if piece.way.serves:
            yield f"{piece_title(piece)}: {flow_words(figures.flows[piece.id], circuit)}"
    for place in circuit.places:
        if place.gauge:
            yield f"At the gauge ({place.title}): {pressure_words(figures.pressures[place.id], circuit)}"
    for piece in worked.arranged.pieces:
        if piece.way.through == "relief" and not worked.fault_at(piece):
            yield f"{piece_title(piece)}: {valve_words(figures, piece, circuit)}"
    if figures.cleaned and figures.served:
        yield (
            f"Of all that is pumped {percent_words(figures.cleaned)} is cleaned; "
            f"of what reaches {_served_titles(worked.arranged)} {percent_words(figures.served)}."
        )


def valve_words(figures: Figures, piece: Piece, circuit: Circuit) -> str:
    """Whether a valve surely opens, may open or stays shut."""
    flow = flow_words(figures.flows[piece.id], circuit)
    match figures.opens(piece):
        case True:
            return f"surely opens, {flow}"
        case False:
            return SHUT
        case None:
            return f"may open, {flow}"


def change_words(change: Change, arranged: Arranged) -> str:
    """What a fault does to what is served, to the gauge and to what is cleaned, in one line."""
    served, moved, then = _served_titles(arranged), change.moved, change.then
    said = [reach_words(then["reach"], arranged)] if change.starves else []
    said += [gauge_words(moved["gauge"], arranged.circuit)] if "gauge" in moved else []
    if "served" in moved and _moves(moved["served"]):
        said.append(f"of what reaches {served} {percent_words(then['served'])} is then cleaned")
    elif "cleaned" in moved and _moves(moved["cleaned"]):
        said.append(f"of all that is pumped {percent_words(then['cleaned'])} is then cleaned")
    told = "; ".join(said) or "nothing that is worked out here changes"
    words = f"{fault_words(change.fault, arranged.circuit)}: {told}."
    return f"{words} The gauge does not give it away." if hides(change) else words


def hides(change: Change) -> bool:
    """Whether less is cleaned, perhaps much, or less arrives, and the gauge shows nothing of it."""
    gauge = change.moved.get("gauge")
    if gauge is None or gauge.low / PSI <= -SEEN_ON_GAUGE or gauge.high / PSI >= SEEN_ON_GAUGE:
        return False
    return any(one.low < -0.05 for name, one in change.moved.items() if name in ("cleaned", "served"))


def reach_words(then: Between, arranged: Arranged) -> str:
    """What still arrives: `only 0 to 1.2 litre/min reaches Main and big-end bearings`."""
    served = _served_titles(arranged)
    if then.high / LITRE_MINUTE < 1e-3:
        return f"nothing reaches {served}"
    return f"only {flow_words(then, arranged.circuit)} reaches {served}"


def gauge_words(moved: Between, circuit: Circuit) -> str:
    """How far the gauge moves: `the gauge falls by 3 to 25 psi`."""
    if circuit.medium == "current":
        return f"the meter moves by {_ends(moved.low, moved.high)} volt"
    low, high = moved.low / PSI, moved.high / PSI
    if low > -SEEN_ON_GAUGE and high < SEEN_ON_GAUGE:
        return f"the gauge moves by less than {SEEN_ON_GAUGE:.0f} psi"
    if high > GIVES_WAY:
        return "the pressure may rise until something gives way"
    if low >= 0:
        return f"the gauge rises by {_ends(low, high)} psi"
    if high <= 0:
        return f"the gauge falls by {_ends(-high, -low)} psi"
    return f"the gauge may fall by {_digits(-low, up=True)} psi or rise by {_digits(high, up=True)} psi"


def measure_words(one: Input) -> str:
    """What would narrow the figures most: `Main bearings: what passes`."""
    assert one.piece is not None, "only what can be measured is worth measuring"
    return f"{piece_title(one.piece)}: {_ASSUMED.get(one.what, one.what)}"


def rests_words(inputs: Iterable[Input]) -> str:
    """How much of it is recorded: `17 numbers: 8 assumed by us, 4 by recollection, 5 by a source.`"""
    inputs = tuple(inputs)
    count = {weight: sum(one.weight is weight for one in inputs) for weight in Weight}
    said = [f"{number} {WEIGHTS[weight]}" for weight, number in count.items() if number]
    return f"{plural(len(inputs), '{} number', '{} numbers')}: {', '.join(said)}."


def input_words(one: Input) -> str:
    """One number that the figures rest on, as it was recorded or as it is assumed."""
    whose = piece_title(one.piece) if one.piece else "The medium"
    value = size_words(one.size) if one.size else _between_words(one)
    return f"{whose}: {_ASSUMED.get(one.what, one.what)} {value} ({WEIGHTS[one.weight]})"


def size_words(size: WaySize) -> str:
    """A size of a way as it was typed, in both systems where it has two."""
    if size.unit == "number":
        return f"{size.value} to {size.to}" if size.to else size.value
    if size.to is None:
        return both_ways(size.value, size.unit)
    ends = [both_ways(end, size.unit) for end in (size.value, size.to)]
    plain = [f"{end} {size.unit}" for end in (size.value, size.to)]
    return f"{size.value} to {plain[1]}" if ends == plain else f"{ends[0]} to {ends[1]}"


def flow_words(flow: Between, circuit: Circuit) -> str:
    """What flows: `4.9 to 8.3 litre/min`, `nothing`."""
    if circuit.medium == "current":
        return f"{_ends(flow.low, flow.high)} ampere"
    return f"{_ends(flow.low / LITRE_MINUTE, flow.high / LITRE_MINUTE)} litre/min"


def picture_words(worked: Worked) -> str:
    """What the picture shows, for whoever cannot see it."""
    arranged = worked.arranged
    state = state_words(worked.state)
    wrong = f", {fault_words(worked.fault, arranged.circuit)}" if worked.fault else ""
    return f"{arranged.circuit.title}. {arrangement_words(arranged)}. {state}{wrong}"


def pressure_words(pressure: Between, circuit: Circuit) -> str:
    """A pressure in both units: `5.2 to 38 psi (0.35 to 2.6 bar)`."""
    if circuit.medium == "current":
        return f"{_ends(pressure.low, pressure.high)} volt"
    low, high = pressure.low / PSI, pressure.high / PSI
    if high > GIVES_WAY:
        return f"{_digits(low)} psi or more: something gives way first"
    return f"{_ends(low, high)} psi ({_ends(pressure.low / 1e5, pressure.high / 1e5)} bar)"


def pressure_short(pressure: Between, circuit: Circuit) -> str:
    """A pressure where there is room for one unit."""
    if circuit.medium == "current":
        return f"{_ends(pressure.low, pressure.high)} V"
    return f"{_ends(pressure.low / PSI, pressure.high / PSI)} psi"


def percent_words(share: Between) -> str:
    """`7 to 31 %`; nothing and all are said as such."""
    low, high = math.floor(share.low * 100 + 1e-6), math.ceil(share.high * 100 - 1e-6)
    if high == 0:
        return "nothing"
    if low == 100:
        return "all"
    return f"{high} %" if low == high else f"{low} to {high} %"


def _moves(share: Between) -> bool:
    return share.low < -0.005 or share.high > 0.005


def _served_titles(arranged: Arranged) -> str:
    return listed([piece_title(piece) for piece in arranged.pieces if piece.way.serves])


def _titles(pieces: Iterable[Piece]) -> list[str]:
    return list(dict.fromkeys(piece_title(piece) for piece in pieces))


def _between_words(one: Input) -> str:
    unit, of = _IN.get(one.what, ("", 1.0))
    return f"{_digits(one.low / of)} to {_digits(one.high / of)} {unit}".rstrip()


def _ends(low: float, high: float) -> str:
    """Two ends with two digits each, the range never narrower than it is."""
    ends = _digits(low), _digits(high, up=True)
    return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def _digits(value: float, *, up: bool = False) -> str:
    """Two significant digits, down or up; next to nothing is nothing."""
    if abs(value) < 1e-3:
        return "0"
    places = 1 - math.floor(math.log10(abs(value)))
    scaled = value * 10**places
    # What a computer adds to a whole number is not a reason to round it away.
    whole = math.ceil(scaled - 1e-3) if up else math.floor(scaled + 1e-3)
    return f"{whole / 10**places:.{max(0, places)}f}".replace("-", "−")
