"""The card, the strip-down sheet, what is asked of a number and what is ordered say the same of every number
that is renewed, for machines at random, and as a plain reading of the list says."""

from __future__ import annotations

import json
import random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.instead import would_do
from spanbook.answers.listed import listed
from spanbook.answers.orders import orders
from spanbook.answers.readings import Reading, reading_of
from spanbook.answers.supersession import order_now
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.json import order as order_json
from spanbook.outputs.json import strip as strip_json
from spanbook.reading.records import Record
from tests.support.lists import ISSUED, Values, listing, on_line, places, random_list
from tests.support.registers import record, register
from tests.support.tries import tries

Told = dict[tuple[str, ...], str]  # the numbers of a line, and whether a machine has it


def account(chance: random.Random, lines: list[Values]) -> tuple[Record, list[list[Values]]]:
    """One account that takes off one number of every place, and the places of what it renews."""
    steps, renewed = [], []
    for at, place in enumerate(places(lines)):
        line = chance.choice(place)
        freed = chance.choice([line, *line.get("or", ())])
        taken = {key: freed[key] for key in ("number", "by") if key in freed}
        renew = chance.random() < 0.7
        steps.append({"id": f"s{at}", "do": f"Take {at}", "frees": [taken | {"quantity": 2}], "renew": renew})
        renewed += [place] if renew else []
    held = {
        "kind": "strip-down",
        "id": "m",
        "assembly": "lid",
        "date": "2024",
        "seen-by": "m",
        "steps": steps,
    }
    return record(json.dumps(held), "strip-down", "m"), renewed


def acts(chance: random.Random, lines: list[Values]) -> list[Record]:
    """Some numbers are replaced, on all machines or on some."""
    some = {"serials": [{"series": "xa", "first": 1, "last": [5, 12]}]}
    found = []
    for line in (one for one in lines if chance.random() < 0.5):
        id_ = line["number"].lower()
        act = {"kind": "supersession", "id": id_, "old": [{"number": line["number"]}]}
        new = {"new": [{"number": f"N-{id_}", "name": "New"}], **(some if chance.random() < 0.5 else {})}
        found.append(record(json.dumps({**act, **new}), "supersession", id_))
    return found


def numbers_of(line: Values) -> tuple[str, ...]:
    return (line["number"], *(other["number"] for other in line.get("or", ())))


def plain(place: list[Values], machine: Reading) -> Told:
    says = {numbers_of(line): on_line(line, machine.series.id, machine.number) for line in place}
    return {numbers: told for numbers, told in says.items() if told != "no"}


def ordered(answers: Answers, key: PartKey, quantity: int, machine: Reading) -> list[list[tuple[str, int]]]:
    """What an order for a number comes to, as a program reads it."""
    asked = (answers.register, key, quantity, machine)
    would, lists = would_do(answers.register, key, machine), listed(answers.ever, key, machine)
    made = order_json.as_object(answers, "", None, order_now(*asked), orders(*asked), would, lists)
    return [[(one["number"], one["quantity"]) for one in way["leaves"]] for way in made["alternatives"]]


@settings(max_examples=tries(30))
@given(st.randoms(use_true_random=False))
def test_every_renewed_number_is_the_same_wherever_it_is_told(chance: random.Random) -> None:
    lines = random_list(chance)
    told, renewed = account(chance, lines)
    made = Answers(register(listing(lines), told, *acts(chance, lines)))
    assembly = made.register.assemblies["lid"]
    for series, numbers in ISSUED.items():
        for number in chance.sample(numbers, 2):
            machine = reading_of(made.register.series[series], number)
            sheet = made.sheet(assembly, machine)
            assert sheet
            there = [found for place in renewed if (found := plain(place, machine))]
            parts = strip_json.as_object(made.register, sheet, "it")["renew"]
            assert len(parts) == len(there)
            for part, has in zip(parts, there, strict=True):
                _agrees(made, machine, part, has)


def _agrees(made: Answers, machine: Reading, part: dict[str, Any], has: Told) -> None:
    """One place of the sheet against the plain reading, the card, the number asked for and the order."""
    lines = {number: (numbers, says) for numbers, says in has.items() for number in numbers}
    card = {
        number: str(one.covers)
        for here in made.machines.at(machine, "cover").parts
        for one in here.held.lines
        for number in numbers_of_line(made, one.line.keys)
    }
    choices = [part, *part["or"]]
    assert [one["number"] for one in choices] == list(lines)
    for one in choices:
        says = lines[one["number"]][1]
        key = PartKey.of(one["by"], one["number"])
        (asked,) = listed(made.ever, key, machine)
        assert one["covers"] == str(asked.covers) == says
        assert not asked.line.limited or card[one["number"]] == says
        ways = [[(leaf["number"], leaf["quantity"]) for leaf in way] for way in one["order"]]
        assert ways == ordered(made, key, one["quantity"], machine)


def numbers_of_line(made: Answers, keys: tuple[PartKey, ...]) -> list[str]:
    return [made.register.parts[key].number for key in keys]
