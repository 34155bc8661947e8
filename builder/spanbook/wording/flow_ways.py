"""The ways of a circuit: what they are called, which way it goes, and what is cleaned on it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from spanbook.answers.flow.pieces import Arranged, Piece
from spanbook.answers.flow.routes import Cleaned, Route, Served
from spanbook.reading.records import Absence, Assembly, Circuit, Way
from spanbook.register.model import Register
from spanbook.wording.flow_amounts import size_words
from spanbook.wording.grammar import capital, listed

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
# What a size of a way is, recorded or assumed.
WHAT = {
    "passes": "what passes",
    "at-drop": "the drop at which that passes",
    "gives": "what it gives",
    "at-speed": "how fast it turned for that",
    "coefficient": "how much of an ideal hole's flow passes",
    "hole-coefficient": "how much of an ideal hole's flow passes, once it is left out",
    "hole-bore": "bore of the hole that is left",
    "opens-at": "opens at",
    "fully-open-at": "is fully open at",
    "seat-bore": "bore of the seat",
    "bore": "bore",
    "at-warmth": "how warm it was when that was measured",
    "fully-open-times": "by how much more than it opens at it is fully open",
    "loses": "what is lost in it with everything going through",
    "grade": "the grade of the oil",
    "warmth": "how warm the oil is",
    "speed": "how fast the engine turns",
    "index": "how much the oil thins when warm (viscosity index)",
    "density": "density",
    "viscosity": "viscosity",
    "at-hundred": "how thick the grade is at 100 °C",
}
_CLEANS = {"coarse": "cleans coarsely", "fine": "cleans finely"}
_SERVED = {
    Cleaned.ALWAYS: "{served}: whatever reaches it has passed {by}.",
    Cleaned.BY_VALVE: "{served}: what reaches it has passed {by}; if {valves} opens it comes uncleaned.",
    Cleaned.IN_PART: "{served}: a part of what reaches it has passed {by}; the rest has not.",
    Cleaned.UNREACHED: "{served}: no recorded way leads to it.",
}
_BESIDE = "{served}: nothing that reaches it has passed {by}, which cleans only what runs beside and back."
_CLEANED_MEDIA = ("oil", "fuel", "air")
_WHEN_OPEN = "{served}: reached only when {valves} opens."
_UNCLEANED = "{served}: nothing cleans what reaches it."


def piece_title(piece: Piece) -> str:
    """What a piece of a network is called."""
    return way_title(piece.way)


def way_title(way: Way) -> str:
    """What a way is called; without a name by what it goes through."""
    return way.title or capital(THROUGH[way.through])


def way_words(way: Way) -> str:
    """A way as its record tells it: `Bypass jet: a jet, from in to canister; bore 1/16 in (1.5875 mm)`."""
    said = [f"{THROUGH[way.through]}, from {way.start} to {way.end}"]
    said += [f"{WHAT.get(size.what, size.what)} {size_words(size)}" for size in way.sizes]
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


def lacking_words(register: Register, arranged: Arranged) -> Iterator[str]:
    """Where the network has holes of its own, so that nothing can be told of it."""
    for assembly in arranged.without:
        if isinstance(assembly, Absence):
            yield f"{assembly.title}: nobody has recorded what joins the pipes there."
        else:
            yield f"Nobody has recorded the ways through {assembly.title}."
    for path in arranged.empty:
        title = register.positions[path].title
        yield f"{title}: what is fitted is not known, and nothing is drawn there."


def served_words(one: Served, arranged: Arranged) -> str | None:
    """What reaches a thing that is served, and whether cleaned; nothing where nobody would clean it."""
    cleaners = _titles(piece for route in one.routes for piece in route.cleaned_by)
    valves = _titles(piece for route in one.routes for piece in route.valves)
    title = piece_title(one.piece)
    if one.cleaned is Cleaned.NEVER:
        beside = _titles(piece for piece in arranged.pieces if piece.way.cleans == "fine")
        if not beside and arranged.circuit.medium not in _CLEANED_MEDIA:
            only = all(route.valves for route in one.routes)
            return _WHEN_OPEN.format(served=title, valves=listed(valves, "or")) if only else None
        return (_BESIDE if beside else _UNCLEANED).format(served=title, by=listed(beside))
    return _SERVED[one.cleaned].format(served=title, by=listed(cleaners), valves=listed(valves, "or"))


def route_words(route: Route, arranged: Arranged) -> str:
    """One route as a line: `Bypass jet → Cotton waste → Sump`."""
    names = [piece_title(piece) for piece in route.pieces]
    return " → ".join((*names, place_title(arranged.circuit, route.end)))


def served_titles(arranged: Arranged) -> str:
    """What the medium is there for, by name."""
    return listed([piece_title(piece) for piece in arranged.pieces if piece.way.serves])


def _titles(pieces: Iterable[Piece]) -> list[str]:
    return list(dict.fromkeys(piece_title(piece) for piece in pieces))
