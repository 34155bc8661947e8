"""The key of each position as a table: whole numbers that a script adds up, and the words that it says.

What it finds is what `answers/signs/key.py` finds: the tests hold the two to each other.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Any

from spanbook.answers.readings import machine_of
from spanbook.answers.signs import weights
from spanbook.answers.signs.key import LEAST_GAIN, MOST_SURE, NEAR, TROUBLE, Key
from spanbook.answers.signs.things import Thing
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Assembly, Series, Sign
from spanbook.site import addresses
from spanbook.site.card.lines import Once
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File
from spanbook.site.finder.tables import script
from spanbook.site.sheet.runs import Runs, alone, edge
from spanbook.wording.holding import words
from spanbook.wording.signs import LOOKS, MOST_ALIKE, shown_words, small, the_thing, thing_title

FOLDER = "assets/holding/"


def table_of(position: str, *, parts: bool) -> str:
    """What the table of a position is called."""
    return addresses.of_key(position, parts=parts)[:-1].replace("/", "--")


def _name(asked: tuple[str, bool]) -> str:
    at, parts = asked
    return table_of(at, parts=parts)


def _files(site: Site, asked: tuple[str, bool]) -> Iterator[File]:
    """The table of a key by its address."""
    at, parts = asked
    name = _name(asked)
    yield f"{FOLDER}{name}.js", script(name, table(site, site.answers.key(at, parts=parts)))


EACH = EachTable(lambda site: site.keys, _name, _files)


def table(site: Site, key: Key) -> dict[str, Any]:
    """One key: things with what they show, signs with what each answer weighs, and machines by runs."""
    return {
        "things": [_thing(key, one) for one in key.things],
        "signs": [_sign(key, one) for one in key.signs],
        "readable": len(site.readable),
        "wrong": weights.WRONG,
        "machines": _machines(site, key),
        "most-sure": MOST_SURE,
        "least-gain": LEAST_GAIN,
        "near": NEAR,
        "most-alike": MOST_ALIKE,
        "report": addresses.REPORT,
        "former": {sign.id: _former(sign) for sign in key.signs if sign.formerly or sign.reworded},
        "words": words(),
    }


def _thing(key: Key, thing: Thing) -> list[Any]:
    """Its title and address, of each sign recorded of it, by its place, the answers that it has, also in
    words, what it is called in a sentence, its sizes, and what may be read on it."""
    signs = ((i, sign, thing.shows[sign.id]) for i, sign in enumerate(key.signs) if sign.id in thing.shows)
    shows = [
        [i, [n for n, answer in enumerate(sign.answers) if answer in shown.every], shown_words(shown)]
        for i, sign, shown in signs
    ]
    sizes = [[size.what, *weights.zone(size)] for size in thing.sizes]
    return [thing_title(thing), _address(thing), shows, the_thing(thing), sizes, sorted(thing.texts)]


def _address(thing: Thing) -> str:
    of = thing.of
    return addresses.of_record(of) if isinstance(of, Assembly) else addresses.of_part(of.key)


def _sign(key: Key, sign: Sign) -> list[Any]:
    rows = [list(row) for row in key.rows[sign.id]]
    asks = [sign.asks, small(sign.asks), _(LOOKS[sign.look])]
    return [sign.id, *asks, TROUBLE[sign.look], list(sign.answers), rows]


def _former(sign: Sign) -> list[Any]:
    """The ids that a sign had before, and its answers of today by their words before."""
    return [list(sign.formerly), {one.was: one.now for one in sign.reworded}]


def _machines(site: Site, key: Key) -> dict[str, Any]:
    """What the number of a machine weighs: rows, and of each series the runs of numbers that have them."""
    rows, series = Once(), {}
    for machine in site.register.machines.values():
        if key.position in site.answers.fits.positions(machine):
            for one in machine.series:
                pieces = map(edge, site.answers.fits.pieces(one, key.position))
                edges = [*pieces, *alone(site.register.units.shared(one))]
                runs = Runs(one, edges, partial(_row, site, key, one))
                series[one.id] = [[r.first, r.last, rows.place(r.said, list(r.said))] for r in runs.all]
    return {"rows": rows.held, "series": series}


def _row(site: Site, key: Key, series: Series, number: int) -> weights.Row:
    machine = machine_of(site.register, series, number)
    return weights.of_machine(site.answers.fits, key.things, machine, key.position)
