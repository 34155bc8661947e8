"""The tables that scripts look up in: nothing that a stranger typed can end a script or begin another."""

from __future__ import annotations

import json
import random
from itertools import accumulate
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.readings import reading_of
from spanbook.site import assets
from spanbook.site.card import seen as card_seen
from spanbook.site.card.tables import changes
from spanbook.site.common import Site
from spanbook.wording.pieces import plain
from spanbook.wording.questions import question_words
from spanbook.wording.this_machine import recorded_sections, short_words, this_position_words
from tests.support.machines import answers, random_world, seen
from tests.support.registers import record, register

EVIL = "</script><script>alert(1)</script><!--"
SOURCE = f"kind: source\nid: evil\ntitle: {json.dumps(EVIL)}\nclass: manual\nnotes: {json.dumps(EVIL)}\n"


def test_no_table_can_close_its_script() -> None:
    site = Site(Answers(register(record(SOURCE, "source", "evil"))))
    tables = dict(assets.every_table(site, ()))
    holding = [address for address, data in tables.items() if b"alert(1)" in data]
    assert {address.rsplit("/", 1)[1].split("-")[0] for address in holding} == {"page", "records"}
    for address, data in tables.items():
        assert b"<" not in data, address


def test_a_form_is_filled_with_what_was_typed() -> None:
    made = dict(assets.tables(Site(Answers(register(record(SOURCE, "source", "evil")))), "forms"))
    (table,) = (data.decode() for address, data in made.items() if "records-source-" in address)
    block = _table(table.encode())
    assert block["evil"]["record"]["title"] == EVIL


@given(st.lists(st.integers(0, 4), min_size=1, max_size=40), st.integers(1, 50))
def test_where_what_is_said_changes(steps: list[int], first: int) -> None:
    """Of a row of values that never come back, every place at which the value is another."""
    values = list(accumulate(steps))
    last = first + len(values) - 1
    wanted = [first + i for i in range(1, len(values)) if values[i] != values[i - 1]]
    assert list(changes(first, last, lambda n: values[n - first])) == wanted


def test_machines_that_were_seen_stand_in_blocks_by_their_numbers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(card_seen, "MACHINES_OF_A_BLOCK", 2)
    looks = [seen(f"t{n}", f"XA {n}", "early") for n in (2, 5, 12)]
    made = answers(*looks, seen("again", "XA 5", "far"), seen("worn", "XA 1?", "late"))
    files = dict(assets.tables(Site(made), "card"))
    table = _table(files["assets/card/xa.js"])
    assert table["seen"] == [2, 12]
    blocks = [_table(files[f"assets/card/xa-seen-{i}.js"]) for i in range(2)]
    assert [sorted(block) for block in blocks] == [["2", "5"], ["12"]]
    looks_of_5, rows_of_5, _ = blocks[0]["5"]
    assert len(looks_of_5) == 2
    assert [row[:2] for row in rows_of_5] == [
        [0, "seen: far and early; recorded: possibly early, possibly late"]
    ]
    assert [text for text, *_ in table["worn"]] == ["XA 1?"]
    assert "assets/card/xb-seen-0.js" not in files


def test_a_machine_that_was_seen_has_questions_of_its_own() -> None:
    made = answers(seen("t", "XA 17", "late", "altered"))
    files = dict(assets.tables(Site(made), "card"))
    table, block = _table(files["assets/card/xa.js"]), _table(files["assets/card/xa-seen-0.js"])
    asked = [table["questions"][i][1] for i in block["17"][2]]
    reading = reading_of(made.register.series["xa"], 17)
    assert asked == [question_words(made.register, q) for q in made.machines.of(reading).questions]


def _table(data: bytes) -> Any:
    return json.loads(data.decode().split(",", 1)[1].rsplit(")", 1)[0])


def _text(said: list[Any]) -> str:
    return "".join(one if isinstance(one, str) else one[0] for one in said)


def _inside(run: list[Any], number: int) -> bool:
    return bool(run[0] <= number and (run[1] is None or number <= run[1]))


def _recorded(table: Any, number: int) -> dict[str, list[str]]:
    """What the table of a series has of a number at each position, looked up as the page's script does."""
    made: dict[str, list[str]] = {}
    for title, _, _, runs, *_ in table["positions"]:
        (run,) = (run for run in runs if _inside(run, number))
        made[title] = [f"{title} ({table['known'][run[2]][0]})", table["shorts"][run[3]]]
        for section in run[4]:
            heading, lines = table["sections"][section]
            made[title] += [heading, *(_text(table["lines"][line]) for line in lines)]
    return made


@pytest.mark.parametrize("seed", range(8))
def test_the_tables_say_what_is_recorded_of_every_number(seed: int) -> None:
    made = random_world(random.Random(seed))
    series = made.register.series["xa"]
    table = _table(dict(assets.tables(Site(made), "card"))["assets/card/xa.js"])
    for number in (n for n in range(1, 21) if n in series.issued):
        wanted: dict[str, list[str]] = {}
        for position in ("cover", "drain"):
            place = made.machines.at(reading_of(series, number), position)
            lines = [this_position_words(made.register, place), short_words(made.register, place)]
            for heading, said in recorded_sections(made.register, place):
                lines += [heading, *map(plain, said)]
            wanted[made.register.positions[position].title] = lines
        assert _recorded(table, number) == wanted, number


def test_what_a_line_names_leads_to_its_page() -> None:
    lines = _table(dict(assets.tables(Site(answers()), "card"))["assets/card/xa.js"])["lines"]
    led = [one for said in lines for one in said if not isinstance(one, str)]
    assert ["early", "assemblies/early/#span-xa"] in led
    assert ["The kit", "conversions/kit/"] in led
    assert len({json.dumps(said) for said in lines}) == len(lines)  # each once
