"""The ways of a circuit: what they are called, which way it goes, and what is cleaned on it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from spanbook.answers.flow.pieces import Arranged, Piece
from spanbook.answers.flow.routes import Cleaned, Route, Served
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.records import Absence, Assembly, Circuit, Way
from spanbook.register.model import Register
from spanbook.wording.flow_amounts import size_words
from spanbook.wording.grammar import capital, listed

THROUGH = {
    "pipe": marked("a pipe"),
    "jet": marked("a jet"),
    "gap": marked("flat slots"),
    "element": marked("an element"),
    "strainer": marked("a strainer"),
    "packing": marked("a packing"),
    "clearance": marked("a clearance"),
    "cooler": marked("a cooler"),
    "pump": marked("a pump"),
    "relief": marked("a relief valve"),
    "check": marked("a check valve"),
    "cock": marked("a cock"),
    "plug": marked("a plug"),
    "joint": marked("a joint"),
    "battery": marked("a battery"),
    "winding": marked("a winding"),
    "contact": marked("a contact"),
}
# What a size of a way is, recorded or assumed.
_WHAT = {
    "passes": marked("what passes"),
    "at-drop": marked("the drop at which that passes"),
    "gives": marked("what it gives"),
    "at-speed": marked("how fast it turned for that"),
    "coefficient": marked("how much of an ideal hole's flow passes"),
    "hole-coefficient": marked("how much of an ideal hole's flow passes, once it is left out"),
    "hole-bore": marked("bore of the hole that is left"),
    "opens-at": marked("opens at"),
    "fully-open-at": marked("is fully open at"),
    "seat-bore": marked("bore of the seat"),
    "bore": marked("bore"),
    "at-warmth": marked("how warm it was when that was measured"),
    "fully-open-times": marked("by how much more than it opens at it is fully open"),
    "loses": marked("what is lost in it with everything going through"),
    "grade": marked("the grade of the oil"),
    "warmth": marked("how warm the oil is"),
    "speed": marked("how fast the engine turns"),
    "index": marked("how much the oil thins when warm (viscosity index)"),
    "density": marked("density"),
    "viscosity": marked("viscosity"),
    "at-hundred": marked("how thick the grade is at 100 °C"),
}
_CLEANS = {"coarse": marked("cleans coarsely"), "fine": marked("cleans finely")}
_SERVED = {
    Cleaned.ALWAYS: marked("{served}: whatever reaches it has passed {by}."),
    Cleaned.BY_VALVE: marked(
        "{served}: what reaches it has passed {by}; if {valves} opens it comes uncleaned."
    ),
    Cleaned.IN_PART: marked("{served}: a part of what reaches it has passed {by}; the rest has not."),
    Cleaned.UNREACHED: marked("{served}: no recorded way leads to it."),
}
_BESIDE = marked(
    "{served}: nothing that reaches it has passed {by}, which cleans only what runs beside and back."
)
_CLEANED_MEDIA = ("oil", "fuel", "air")
_WHEN_OPEN = marked("{served}: reached only when {valves} opens.")
_UNCLEANED = marked("{served}: nothing cleans what reaches it.")


def what_words(what: str) -> str:
    """What a size of a way is."""
    return _(_WHAT[what]) if what in _WHAT else what


def piece_title(piece: Piece) -> str:
    """What a piece of a network is called."""
    return way_title(piece.way)


def way_title(way: Way) -> str:
    """What a way is called; without a name by what it goes through."""
    return way.title or capital(_(THROUGH[way.through]))


def way_words(way: Way) -> str:
    """A way as its record tells it: `Bypass jet: a jet, from in to canister; bore 1/16 in (1.5875 mm)`."""
    said = [
        _("{what}, from {start} to {end}").format(what=_(THROUGH[way.through]), start=way.start, end=way.end)
    ]
    said += [f"{what_words(size.what)} {size_words(size)}" for size in way.sizes]
    if way.cleans:
        said.append(_(_CLEANS[way.cleans]))
    title = way.title or capital(way.id.replace("-", " "))
    return labelled(title, parted(*said))


def place_title(circuit: Circuit, place: str) -> str:
    """A place of the circuit by its name, one inside a position by its word."""
    named = next((one.title for one in circuit.places if one.id == place), None)
    return named or place.rpartition("/")[2].replace("-", " ")


def arrangement_words(arranged: Arranged, besides: Collection[Assembly] = ()) -> str:
    """What is fitted: `With Gear oil pump and Metal-edge strainer`; `besides` goes without saying."""
    fitted = [assembly.title for assembly in arranged.fitted.values() if assembly not in besides]
    return _("With {assemblies}").format(assemblies=listed(fitted)) if fitted else _("As it left the works")


def lacking_words(register: Register, arranged: Arranged) -> Iterator[str]:
    """Where the network has holes of its own, so that nothing can be told of it."""
    for assembly in arranged.without:
        if isinstance(assembly, Absence):
            message = _("{nothing}: nobody has recorded what joins the pipes there.")
            yield message.format(nothing=assembly.title)
        else:
            message = _("Nobody has recorded the ways through {assembly}.")
            yield message.format(assembly=assembly.title)
    for path in arranged.empty:
        title = register.positions[path].title
        message = _("{position}: what is fitted is not known, and nothing is drawn there.")
        yield message.format(position=title)


def served_words(one: Served, arranged: Arranged) -> str | None:
    """What reaches a thing that is served, and whether cleaned; nothing where nobody would clean it."""
    cleaners = _titles(piece for route in one.routes for piece in route.cleaned_by)
    valves = _titles(piece for route in one.routes for piece in route.valves)
    title = piece_title(one.piece)
    if one.cleaned is Cleaned.NEVER:
        beside = _titles(piece for piece in arranged.pieces if piece.way.cleans == "fine")
        if not beside and arranged.circuit.medium not in _CLEANED_MEDIA:
            only = all(route.valves for route in one.routes)
            return _(_WHEN_OPEN).format(served=title, valves=listed(valves, "or")) if only else None
        return _(_BESIDE if beside else _UNCLEANED).format(served=title, by=listed(beside))
    return _(_SERVED[one.cleaned]).format(served=title, by=listed(cleaners), valves=listed(valves, "or"))


def route_words(route: Route, arranged: Arranged) -> str:
    """One route as a line: `Bypass jet → Cotton waste → Sump`."""
    names = [piece_title(piece) for piece in route.pieces]
    return " → ".join((*names, place_title(arranged.circuit, route.end)))


def served_titles(arranged: Arranged) -> str:
    """What the medium is there for, by name."""
    return listed([piece_title(piece) for piece in arranged.pieces if piece.way.serves])


def _titles(pieces: Iterable[Piece]) -> list[str]:
    return list(dict.fromkeys(piece_title(piece) for piece in pieces))
