"""Which way it goes through one machine, on its card: what the command and the circuit's page say too."""

from __future__ import annotations

import json
import random
import re
from typing import Any

import pytest

from spanbook.answers.flow.converted import conversions_from
from spanbook.answers.flow.pieces import Arranged, arranged
from spanbook.answers.readings import machine_of
from spanbook.reading.records import Circuit
from spanbook.site.flowing import tables as flow
from spanbook.site.page import Around, SitePage
from spanbook.wording.flow_here import here_lines
from spanbook.wording.pieces import plain
from tests.support.demo import demo, shown

REGISTER = demo()
SITE = shown()
OIL = REGISTER.of(Circuit)["oil-type-h"]
TABLES = {one.id: flow.table(SITE, one) for one in flow.with_circuits(SITE)}


def of(*assemblies: str) -> Arranged:
    held = [REGISTER.assemblies[id_] for id_ in assemblies]
    return arranged(OIL, {one.position: one for one in held})


def told(series: str, number: int) -> list[list[str]]:
    """Of each circuit the lines that the script puts into the page."""
    table = TABLES[series]
    found = (
        next(places for first, last, places in runs if first <= number and (last is None or number <= last))
        for _, _, runs in table["circuits"]
    )
    return [["".join(map(text, table["lines"][place])) for place in places] for places in found]


def text(piece: Any) -> str:
    return piece if isinstance(piece, str) else piece[0]


@pytest.mark.parametrize("series", TABLES)
def test_the_table_says_of_every_number_what_the_answers_say(series: str) -> None:
    """Of each number at an edge, those of units, and forty at random."""
    run = REGISTER.series[series]
    edges = {
        n for _, _, runs in TABLES[series]["circuits"] for first, last, _ in runs for n in (first, last) if n
    }
    rng = random.Random(series)
    drawn = {rng.randint(run.first, run.last or run.first + 500) for _ in range(40)}
    for number in sorted(edges | drawn | set(REGISTER.units.shared(run))):
        if number in run.issued:
            here = SITE.answers.flows_here(machine_of(REGISTER, run, number))
            assert told(series, number) == [[plain(line) for line in here_lines(one)] for one in here]


def test_what_is_settled_is_sure_and_what_is_not_is_perhaps() -> None:
    settled, unsure = told("hk", 701)[0], told("hk", 600)[0]
    assert settled[0] == (
        "As it left the works: Gauze sump strainer, Gear oil pump, narrow and Waste-packed bypass filter. "
        "Main and big-end bearings: nothing that reaches it has passed Cotton waste, which cleans only what "
        "runs beside and back."
    )
    assert settled[-1].startswith(
        "After Wide oil pump in place of the narrow one and then Cartridge filter in place of the "
        "waste-packed filter: "
    )
    assert sum(line.startswith("Perhaps as it left the works: ") for line in unsure) == 2


def test_every_line_leads_to_its_place_on_the_page_of_the_circuit(demo_pages: list[SitePage]) -> None:
    found = [page for page in demo_pages if page.sort == "Circuit"]
    pages = {page.address: page.to_html(Around()) for page in found}
    anchors = {
        f"{address}#{id_}" for address, html in pages.items() for id_ in re.findall(r'id="([^"]+)"', html)
    }
    leading = {
        piece[1]
        for table in TABLES.values()
        for line in table["lines"]
        for piece in line
        if not isinstance(piece, str) and piece[1].startswith("circuits/")
    }
    assert len(leading) > 10
    assert leading <= anchors | set(pages)
    page = pages["circuits/oil-type-h/"]
    assert "only after a conversion" in page
    assert json.dumps(TABLES["hk"]).count("circuits/oil-type-h/#") >= 10


def test_a_need_inside_the_circuit_is_met_first() -> None:
    """The cartridge kit wants the wide pump: from the narrow one two lead there, and none alone."""
    narrow = of("gauze-sump-strainer", "gear-pump-narrow", "waste-packed-filter")
    found = conversions_from(REGISTER, narrow, tuple(REGISTER.conversions.values()))
    ways = {after.fitted["lubrication/oil-filter"].id: [one.id for one in taken] for taken, after in found}
    assert ways["cartridge-filter"] == ["wide-pump-kit", "cartridge-kit-from-waste"]
    assert ways["waste-packed-filter"] == ["wide-pump-kit"]


def test_a_conversion_back_does_not_end_where_it_began() -> None:
    cartridge = of("gauze-sump-strainer", "gear-pump-wide", "cartridge-filter")
    found = conversions_from(REGISTER, cartridge, tuple(REGISTER.conversions.values()))
    fitted = [tuple(one.id for one in after.fitted.values()) for _, after in found]
    assert len(set(fitted)) == len(fitted)
    assert tuple(one.id for one in cartridge.fitted.values()) not in fitted
