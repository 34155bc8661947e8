"""What is asked and what is found: the table of queries, and every number by itself."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema_rs import Draft202012Validator

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import read_serial
from spanbook.answers.search import Asker, How
from spanbook.ground.matching import WORN, squeezed, terms, worn
from spanbook.outputs.json.ask import as_object
from spanbook.outputs.text.ask import as_text
from spanbook.reading.schemas import folder
from spanbook.site.finder.results import rows
from tests.support.command import PROJECT, run
from tests.support.demo import demo
from tests.support.rows import each_row
from tests.support.tries import tries

REGISTER = demo()
ASKER = demo().asker
NUMBERS = [part.number for part in REGISTER.parts.values()]


def table() -> Iterator[tuple[str, list[str], bool]]:
    """Each query with its rows, and whether more may follow."""
    text = (PROJECT / "tests/queries.txt").read_text(encoding="utf-8")
    for block in text.split("\n? ")[1:]:
        query, *lines = [line for line in block.split("\n") if line.strip()]
        more = lines[-1] == "..."
        yield query, lines[: -1 if more else None], more


QUERIES = list(table())


def told(found: list[tuple[str, str, str, bool]]) -> list[str]:
    """Rows as the table of queries has them: what was asked for itself has a star."""
    return [f"{'* ' if itself else ''}{' | '.join(row)}".strip() for *row, itself in found]


def rows_of(asker: Asker, query: str) -> list[tuple[str, str, str, bool]]:
    found = rows(asker.register, asker.ask(query))
    return [(row.title, row.detail, row.address, row.itself) for row in found]


@each_row(("query", "wanted", "more"), QUERIES)
def test_the_table_of_queries(query: str, wanted: list[str], more: bool) -> None:
    found = told(rows_of(ASKER, query))
    wanted = [line.strip() for line in wanted]
    assert found[: len(wanted)] == wanted
    # Without "..." nothing else may follow but pages in which a serial number's letters are a word.
    assert more or all("card/" not in row and "parts/" not in row for row in found[len(wanted) :])


@pytest.mark.parametrize("typed", ["HK 588,", " HK 588; ", "(HK 588)", "“HK 588”", "[HK 588],"])
def test_out_of_a_sentence_a_number_is_what_it_is_alone(typed: str) -> None:
    assert as_object(ASKER, typed) == {**as_object(ASKER, "HK 588"), "query": typed}
    assert as_text(ASKER, typed) == as_text(ASKER, "HK 588")


@pytest.mark.parametrize("typed", ['5/16"', "(1) and (2)", ",", "()"])
def test_what_ends_in_a_mark_of_its_own_keeps_it(typed: str) -> None:
    assert ASKER.ask(typed).query == typed


@given(st.sampled_from(NUMBERS), st.data())
def test_every_number_is_found_by_itself_in_any_spacing(number: str, data: st.DataObject) -> None:
    joints = data.draw(st.lists(st.sampled_from(["", " ", "-", "."]), min_size=len(number)))
    spelled = "".join(c + j for c, j in zip(squeezed(number), joints, strict=False))
    found = ASKER.matches(spelled.upper())
    assert (
        number in {m.key.text for m in found if m.how in (How.EXACT, How.SPACING)}
        or len(squeezed(number)) < 2
    )


@given(st.sampled_from([n for n in NUMBERS if len(squeezed(n)) > 2]), st.data())
def test_every_number_is_found_with_any_one_character_worn(number: str, data: st.DataObject) -> None:
    text = squeezed(number)
    at = data.draw(st.integers(0, len(text) - 1))
    alike = next((group for group in WORN.values() if text[at] in group), text[at])
    for character in (*alike, "?"):
        found = ASKER.matches(text[:at] + character + text[at + 1 :])
        assert number in {match.key.text for match in found}


def test_the_first_is_the_surest() -> None:
    hows = [m.how for m in ASKER.matches("0012")]
    assert hows == sorted(hows, key=list(How).index)
    assert hows[0] is How.EXACT


def test_terms_meet_in_every_spelling() -> None:
    assert "oilfilter" in terms("Oil filter", joined=True) & terms("oil-filter", joined=False)
    assert {"oil", "filter"} <= terms("oil-filter", joined=False)
    assert worn("WH-11B1") == worn("wh 1181")


SCHEMA = Draft202012Validator(json.loads((folder() / "answer-ask.json").read_text()))


@each_row(
    "query",
    [
        "HK 588",
        "HK 701",
        "HK 590",
        "HK 2003",
        "HK 5?8",
        "HK 905",
        "0001M",
        "WH 1181",
        "W 2260",
        "zyzzyva",
        "",
        "?",
    ],
)
def test_json_keeps_to_its_schema(query: str) -> None:
    made = as_object(ASKER, query)
    assert list(SCHEMA.iter_errors(made)) == []
    assert made["query"] == query


@pytest.mark.parametrize("seed", range(tries(20)))
def test_json_of_a_serial_says_what_the_register_says(seed: int) -> None:
    number = random.Random(seed).randint(1, 2140)
    made = as_object(ASKER, f"HK {number}")
    (reading,) = read_serial(REGISTER, f"HK {number}")
    card = Fits(REGISTER).card(reading)
    assert [p["position"] for p in made["readings"][0]["positions"]] == [p.position for p in card.positions]
    for said, place in zip(made["readings"][0]["positions"], card.positions, strict=True):
        assert said["state"] == place.state
        once = list(dict.fromkeys(fit.assembly.id for fit in place.fits))
        assert [a["id"] for a in said["assemblies"]] == once


def test_json_of_a_machine_tells_what_was_seen_apart() -> None:
    (reading,) = as_object(ASKER, "HK 701")["readings"]
    place = reading["positions"][0]
    assert [(one["id"], one["covers"], one["standing"]) for one in place["left"]] == [
        ("waste-packed-filter", "yes", "disputed")
    ]
    (seen,) = place["seen"]
    assert (seen["teardown"], seen["id"], seen["exact"]) == ("hk-701-osk", "edge-strainer", True)
    assert (seen["means"], seen["against"]) == ("contradiction", ["edge-strainer", "waste-packed-filter"])
    assert [one["id"] for one in place["changed"]] == ["cartridge-filter"]
    assert [one["id"] for one in place["changed"][0]["conversions"]] == ["cartridge-kit-from-waste"]
    assert (reading["teardowns"], reading["perhaps"]) == (["hk-701-osk"], [])
    assert reading["questions"]
    assert all(question["position"] != place["position"] for question in reading["questions"])
    (worn,) = as_object(ASKER, "HK 588")["readings"]
    assert (worn["teardowns"], worn["perhaps"]) == ([], ["hk-5x8-brindle"])
    (before,) = as_object(ASKER, "HK 590")["readings"][0]["positions"][0]["odds"]
    assert (before["earlier"], before["later"]) == ("edge-strainer", "waste-packed-filter")
    assert 0.997 < before["before"] < 1


def test_in_words() -> None:
    words = as_text(ASKER, "HK 588")
    head, seen, *lines = words.splitlines()
    assert head == "HK 588, Wexmoor Type H launch engine. Built 1933."
    assert seen.startswith("  Seen 2008 by brindle as HK 5?8, which may be this machine")
    assert lines[:2] == ["  Oil filter (disputed)", "    Seen on what may be this machine"]
    assert "  What this machine could settle" in lines
    assert "never issued; the nearest are HK 1 to HK 899" in as_text(ASKER, "HK 905")
    assert "Nothing found for “zyzzyva”" in as_text(ASKER, "zyzzyva")


def test_what_only_words_find_is_told_to_programs_too() -> None:
    begins = as_object(ASKER, "WH-11")
    assert {one["how"] for one in begins["matches"]} == {"begins"}
    loose = as_object(ASKER, "1181")
    assert [one["stamped"] for one in loose["may-be"]] == ["DX.1181", "HK 1181"]
    pages = as_object(ASKER, "oil filter")
    assert pages["documents"][0] == {
        "title": "Oil filter",
        "sort": "Position",
        "address": "positions/lubrication/oil-filter/",
    }
    assert (pages["more"], as_object(ASKER, "zyzzyva")["kind"]) == (True, "none")
    for made in (begins, loose, pages):
        assert made["kind"] == "words"
        SCHEMA.validate(made)


def test_a_size_is_told_wherever_it_is_typed() -> None:
    told = as_text(ASKER, "1/4 BSP").splitlines()
    assert told[0].startswith("1/4 BSP: a thread of 55°, 19 to the inch, by ISO 228-1")
    assert told[-1].startswith("Mind: Threads of 55° and of 60° start in one another")
    made = as_object(ASKER, "1/4 BSP")
    assert made["kind"] == "size"
    assert [(one["standard"], one["sort"], one["parts"]) for one in made["sizes"]] == [
        ("1/4 BSP", "thread", [])
    ]
    bearing = as_object(ASKER, "6203")
    assert bearing["kind"] == "words"
    assert [(one["standard"], one["parts"]) for one in bearing["sizes"]] == [
        ("6203", [{"number": "A203", "by": "castle-bearing"}])
    ]
    assert "  A203: Ball bearing (castle-bearing), recorded as 6203" in as_text(ASKER, "6203").splitlines()
    for one in (made, bearing, as_object(ASKER, "M6")):
        SCHEMA.validate(one)


def test_the_number_of_a_whole_says_of_what() -> None:
    (match,) = as_object(ASKER, "WH-1180")["matches"]
    assert match["whole"] == [{"kind": "assembly", "id": "edge-strainer"}]
    (other,) = as_object(ASKER, "WH-1181")["matches"]
    assert other["whole"] == []


def test_a_number_never_issued_was_built_in_no_year() -> None:
    (never,) = as_object(ASKER, "HK 905")["readings"]
    assert (never["issued"], never["years"], never["plants"], never["part-of-year"]) == (
        False,
        None,
        [],
        None,
    )


def test_many_queries_from_standard_input() -> None:
    asked = "HK 588\nWH-1181\n\nzyzzyva\n"
    result = run("ask", "-", "--json", "--folder", PROJECT, typed=asked)
    kinds = [json.loads(line)["kind"] for line in result.output.splitlines()]
    assert kinds == ["serial", "number", "none", "none"]


# Worn serial numbers


def wears_like(number: str, text: str) -> bool:
    """By the table alone: the same length, and in every place two characters of one group."""
    groups = [set(alike) for alike in WORN.values()]
    pairs = zip(number.lower(), text.lower(), strict=True)
    return all(a == b or any({a, b} <= group for group in groups) for a, b in pairs)


@given(st.text("0123456789sbolgtz", min_size=1, max_size=4))
def test_a_worn_number_may_be_every_issued_one_that_wears_like_it(digits: str) -> None:
    text = f"HK {digits}"
    series = REGISTER.series["hk"]
    found = [reading.number for reading in ASKER.ask(text).worn if reading.series is series]
    doubtful = not any(c.isdigit() for c in digits)
    padded = [n for n in range(1, 2141) if n in series.issued and len(str(n)) <= len(digits)]
    wanted = [
        n
        for n in padded
        if wears_like(f"{n:0{len(digits)}}", digits) and not (digits.isdigit() and n == int(digits))
    ]
    assert found == ([] if doubtful else wanted)


def test_a_worn_plate_never_hides_what_it_plainly_reads() -> None:
    answer = ASKER.ask("HK 588")
    assert [r.number for r in answer.readings if r.series.id == "hk"] == [588]
    assert 588 not in [r.number for r in answer.worn]
    assert ASKER.ask("HK 5?8").worn == ()
    assert ASKER.ask("lid").worn == ()


def test_letters_of_the_stamp_may_be_worn_too() -> None:
    assert [(r.series.id, r.number) for r in ASKER.ask("0X.014").worn] == [("dx", 14)]


def test_too_many_doubtful_digits_are_no_reading() -> None:
    stamp = REGISTER.series["hk"].stamp
    assert len(list(stamp.worn_from("HK 888888"))) == 64
    assert list(stamp.worn_from("HK 8888888")) == []
    assert list(stamp.worn_from("HK ")) == []


def test_worn_numbers_in_words_and_as_json() -> None:
    assert "If 3 was read as 8, it may also be HK 533, HK 538 or HK 583: ask for that." in as_text(
        ASKER, "HK 588"
    )
    assert as_text(ASKER, "HK S41") == "If 5 was read as S, it may be HK 541: ask for that."
    validator = Draft202012Validator(json.loads((folder() / "answer-ask.json").read_text()))
    for query in ("HK 588", "HK S41", "0012"):
        assert list(validator.iter_errors(as_object(ASKER, query))) == []
    assert as_object(ASKER, "HK S41") == {
        "query": "HK S41",
        "kind": "serial",
        "readings": [],
        "worn": [{"series": "hk", "number": 541, "stamped": "HK 541"}],
    }
    # What is a part number stays one.
    assert as_object(ASKER, "oo12")["kind"] == "number"
