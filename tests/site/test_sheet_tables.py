"""The tables of sheets say of every number what the command says of it."""

from __future__ import annotations

import json
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.renewing import Holding
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.json import renew as renew_json
from spanbook.reading.records import Series
from spanbook.site import assets
from spanbook.site.common import Site
from spanbook.site.sheet.words import SheetWords, sheet_words
from spanbook.wording.renewing import how_words, renewed_words, silences
from tests.answers.test_lines_agree import account, acts, ordered
from tests.support.demo import demo
from tests.support.lists import ISSUED, listing, random_list
from tests.support.machines import WORLD, seen
from tests.support.registers import lid, record, register
from tests.support.tries import tries

LID = (
    "kind: strip-down\nid: {0}-m\nassembly: {0}\ndate: 2024\nseen-by: m\n"
    "steps: [{{id: s, do: Lift it, frees: [{{number: P-1}}], renew: true}}]\n"
)


def tables(made: Answers) -> dict[str, Any]:
    """Each table by its name, as a script gets it."""
    site = Site(made)
    texts = (data.decode() for family in ("sheet", "renew") for _, data in assets.tables(site, family))
    parted = (text.removeprefix('spanbookTable("').removesuffix(");\n").split('",', 1) for text in texts)
    return {name: json.loads(data) for name, data in parted}


def at(runs: list[Any], number: int) -> Any:
    """What the run of a number has."""
    return next(said for first, last, said in runs if first <= number and (last is None or number <= last))


def lines_of(table: Any, series: str, number: int) -> tuple[Any, ...]:
    """What the script puts into the page of a sheet."""
    steps, rest, renew, tray = table["sheets"][at(table["series"][series][1], number)]
    words = table["lines"]
    return (
        [[words[line] for line in step] for step in steps],
        [words[line] for line in rest],
        [table["links"][line][0] for line in renew],
        [words[line] for line in tray],
    )


def said(words: SheetWords) -> tuple[Any, ...]:
    renew = [one.text for one in words.renew]
    return [list(step.lines) for step in words.steps], list(words.rest), renew, list(words.tray)


def renewed_of(table: Any, place: int, number: int) -> Any:
    held, silent = table["told"][at(table["places"][place][1], number)]
    parts = [[title, how, [table["lines"][line][0] for line in renew]] for title, _, how, renew in held]
    return parts, [tuple(one) for one in silent]


def holds(made: Answers, holding: Holding) -> Any:
    """The same as a terminal has it."""
    told = [held for held in holding.held if held.sheet]
    heads = [f"{how_words(held)[:1].upper()}{how_words(held)[1:]}" for held in told]
    renewed = [list(renewed_words(made.register, held.sheet)) for held in told if held.sheet]
    titles = [held.assembly.title for held in told]
    return titles, heads, renewed, list(silences(made.register, holding))


def agrees(made: Answers, found: dict[str, Any], series: Series, number: int) -> None:
    """Everything that the tables say of one machine against the answers asked for that machine alone."""
    machine: Reading = machine_of(made.register, series, number)
    for place, holding in enumerate(made.holding(machine)):
        parts, silent = renewed_of(found[f"renew-{series.id}"], place, number)
        titles, heads, renewed, silences_ = holds(made, holding)
        assert [title for title, _, _ in parts] == titles
        assert [how.split("; by ")[0] for _, how, _ in parts] == heads
        assert [lines for _, _, lines in parts] == renewed
        assert silent == silences_
        for held in holding.held:
            table = found.get(f"sheet-{held.assembly.id}", {"series": {}})
            if held.sheet and series.id in table["series"]:
                assert lines_of(table, series.id, number) == said(sheet_words(made.register, held.sheet))
                assert table["lines"][at(table["series"][series.id][0], number)] == how_words(held)


@settings(max_examples=tries(20))
@given(st.randoms(use_true_random=False))
def test_every_number_of_random_lists_and_acts(chance: random.Random) -> None:
    lines = random_list(chance)
    told, _ = account(chance, lines)
    made = Answers(register(listing(lines), told, *acts(chance, lines)))
    found = tables(made)
    for series, numbers in ISSUED.items():
        for number in numbers:
            agrees(made, found, made.register.series[series], number)


def test_every_number_of_a_world_in_which_a_machine_can_be_anything() -> None:
    """Seen, changed, disputed, to order, on no record, at an open end."""
    told = [record(LID.format(one), "strip-down", f"{one}-m") for one in ("early", "late", "made", "far")]
    looks = [
        seen("as", "XA 2", "early"),
        seen("not", "XA 3", "late", "altered"),
        seen("other", "XA 12", "far"),
        seen("worn", "XA 1?", "spare"),
    ]
    made = Answers(register(*WORLD, *told, *looks))
    found = tables(made)
    series = made.register.series["xa"]
    hows = set()
    for number in ISSUED["xa"]:
        agrees(made, found, series, number)
        parts, _ = renewed_of(found["renew-xa"], 0, number)
        hows |= {(title, how) for title, how, _ in parts}
    assert ("far", "It was seen on this machine; by one account.") in hows
    assert ("made", "It may have been fitted later; by one account.") in hows
    assert ("early", "This machine may have left the works with it; by one account.") in hows


def test_of_what_nobody_took_apart_and_what_nobody_knows_the_table_is_silent_aloud() -> None:
    made = Answers(register(lid("early", "first: 1, last: 4")))
    table = tables(made)["renew-xa"]
    assert renewed_of(table, 0, 2) == ([], [("Nobody has told of taking apart: {}.", "early")])
    assert renewed_of(table, 0, 18) == ([], [("Nobody knows what is here: {}.", "Cover")])


@pytest.mark.slow
def test_on_machines_of_the_demonstration_card_sheet_order_and_pages_agree() -> None:
    """Some numbers of every series at random, and those on which somebody looked."""
    made = demo().answers
    found = tables(made)
    renewed = 0
    for series in made.register.series.values():
        numbers = [n for run in series.issued for n in range(run.first, (run.last or run.first) + 1)]
        looked = list(made.machines.looks.seen(series))
        for number in {*random.sample(numbers, min(6, len(numbers))), *looked[:4]}:
            agrees(made, found, series, number)
            machine = machine_of(made.register, series, number)
            answer = renew_json.as_object(made.register, "", made.holding(machine))
            held = (one for place in answer["positions"] for one in place["may-hold"])
            for part in (part for one in held for part in one["renew"] or ()):
                renewed += 1
                _ordered_alike(made, machine, part)
    assert renewed > 50


def _ordered_alike(made: Answers, machine: Reading, part: dict[str, Any]) -> None:
    """What is renewed is ordered as the number itself is."""
    for one in (part, *part["or"]):
        key = PartKey.of(one["by"], one["number"])
        ways = [[(leaf["number"], leaf["quantity"]) for leaf in way] for way in one["order"]]
        assert ways == ordered(made, key, one["quantity"], machine)
