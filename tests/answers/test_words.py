"""What is found by words and numbers, in small worlds where every answer can be seen."""

from __future__ import annotations

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.by_words import Document, Holders, index_words
from spanbook.answers.search import MOST, Asker, How, Known, nearest_run
from spanbook.reading.records import Record
from spanbook.register.link import build
from tests.support.registers import MACHINE, record, register
from tests.support.rows import each_row


def page(title: str, prose: str = "") -> Document:
    return Document(f"{title}/", title, "assembly", title, prose)


def part(id_: str, number: str, *marks: str) -> Record:
    text = f'kind: part\nid: {id_}\nnumber: "{number}"\nname: X\nevidence: [{{source: book}}]\n'
    text += "".join(["marks:\n", *(f'- {{text: "{mark}", how: cast}}\n' for mark in marks)]) if marks else ""
    return record(text, "part", id_)


def asker(*documents: Document, parts: tuple[Record, ...] = ()) -> Asker:
    return Asker(Answers(register(*parts)), documents)


def titles(found: Asker, query: str) -> list[str]:
    return [document.title for document in found.ask(query).documents]


OIL = asker(
    page("Pump", "moves oil to the filter"),
    page("Oil cup"),
    page("Oilfilter"),
    page("Oil filter"),
    page("Filter of felt", "for oil"),
    page("Plate"),
)


@each_row(
    ("query", "found"),
    [
        # Whole words come before what only begins so.
        ("oil", ["Oil cup", "Oil filter", "Oilfilter", "Pump", "Filter of felt"]),
        ("filter", ["Oil filter", "Filter of felt", "Pump"]),
        # All words; and those written as one.
        ("oil filter", ["Oilfilter", "Oil filter", "Pump", "Filter of felt"]),
        ("filter oil", ["Oil filter", "Pump", "Filter of felt"]),
        ("oil plate", []),
        ("fi oi", ["Oil filter", "Pump", "Filter of felt"]),
        # A single letter says nothing, by itself or beside others.
        ("p", []),
        ("o filter", ["Oil filter", "Filter of felt", "Pump"]),
        ("", []),
    ],
)
def test_pages_have_every_word_and_titles_come_first(query: str, found: list[str]) -> None:
    assert titles(OIL, query) == found


def test_words_of_a_title_are_found_written_as_one_and_those_of_prose_as_they_are() -> None:
    assert dict(index_words([page("Oil filter", "oil spin-on of felt")])) == {
        **{term: Holders([0]) for term in ("oil", "filter")},
        "oilfilter": Holders([0], name=[0]),
        **{term: Holders(prose=[0]) for term in ("spin", "on", "spinon", "of", "felt")},
    }


@pytest.mark.parametrize("count", [MOST - 1, MOST, MOST + 1])
def test_of_more_than_are_listed_it_is_said_that_there_are_more(count: int) -> None:
    parts = tuple(part(f"bolt-{i}", f"ZZ-{i}7") for i in range(count))
    made = asker(*(page(f"Bolt {i}") for i in range(count)), parts=parts)
    numbers, pages = made.ask("zz"), made.ask("bolt")
    assert (len(numbers.matches), numbers.more_matches) == (min(count, MOST), count > MOST)
    assert (len(pages.documents), pages.more_documents) == (min(count, MOST), count > MOST)
    assert not numbers.more_documents
    assert not pages.more_matches


@pytest.mark.parametrize("query", ["XA 3", "XA ?3", "ZZ-17", "plate"])
def test_whatever_is_found_is_an_answer(query: str) -> None:
    made = asker(page("Plate"), parts=(part("bolt", "ZZ-17"),))
    found = made.ask(query)
    each = [found.readings, found.may_be, found.matches, found.documents]
    assert sum(map(bool, each)) == 1
    assert not found.empty
    assert made.ask("zyzzyva").empty


@each_row(
    ("query", "found"),
    [
        ("?", []),
        ("1", []),
        ("1?", []),
        ("17", [("17", How.EXACT), ("175", How.BEGINS)]),
        ("1 7", [("17", How.SPACING), ("175", How.BEGINS)]),
        ("I7", [("17", How.WORN)]),
        ("17?", [("175", How.WORN)]),
        ("?17", [("217", How.WORN)]),
    ],
)
def test_a_number_is_found_by_two_of_its_characters_or_more(query: str, found: list[tuple[str, How]]) -> None:
    made = asker(parts=(part("bolt", "17"), part("nut", "217"), part("pin", "175")))
    assert [(match.key.text, match.how) for match in made.matches(query)] == found


@pytest.mark.parametrize(
    ("marks", "keys"),
    [
        ((), ["ZZ-17"]),
        (("CAST 4", "cast-4", "-"), ["ZZ-17", "CAST 4"]),
        (("ZZ 17", "XY 9"), ["ZZ-17", "XY 9"]),
    ],
)
def test_a_mark_is_a_key_where_it_says_more_than_the_number(marks: tuple[str, ...], keys: list[str]) -> None:
    made = asker(parts=(part("bolt", "ZZ-17", *marks),))
    assert [key.text for key in made.keys] == keys
    assert [key.known for key in made.keys] == [Known.NUMBER, *(Known.MARK for _ in keys[1:])]


@pytest.mark.parametrize(
    ("query", "alone"),
    [
        ("oil", ()),
        ("oil zyzzyva", ("oil",)),
        ("zyzzyva oil filter plate", ("oil", "filter")),
        ("zyzzyva", ()),
    ],
)
def test_of_several_words_those_that_find_something_alone_are_named(
    query: str, alone: tuple[str, ...]
) -> None:
    assert OIL.ask(query).alone == alone


@each_row(
    ("last", "number", "nearest"),
    [
        ("40", 0, (5, 7)),
        ("40", 8, (5, 7)),
        ("40", 9, (5, 7)),  # as near to 11
        ("40", 10, (11, 40)),
        ("40", 99, (11, 40)),
        ("unknown", 0, (5, 7)),
        ("unknown", 10, (11, None)),
    ],
)
def test_the_run_nearest_to_a_number_never_issued(
    last: str, number: int, nearest: tuple[int, int | None]
) -> None:
    text = MACHINE.replace(
        "first: 1, last: %s, skipped: [[8, 9]]", f"first: 5, last: {last}, skipped: [[8, 10]]"
    )
    run = nearest_run(build([record(text, "machine", "x")]).series["xa"], number)
    assert (run.first, run.last) == nearest
