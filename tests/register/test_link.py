"""How records are put in their places: what is kept of two, what is inside, and what leads nowhere."""

from __future__ import annotations

from spanbook.ground.part_numbers import PartKey
from spanbook.reading import read_bytes
from spanbook.reading.records import Assembly, PartRecord, Record, Source
from spanbook.reading.unread import Unread
from spanbook.register.link import build
from tests.support.registers import MACHINE, lid, record, register

TREE = """\
kind: positions
positions:
- id: body
  title: Body
  positions:
  - {id: cover, title: Cover}
  - id: floor
    title: Floor
    positions: [{id: plug, title: Plug}]
- {id: pump, title: Pump}
"""
SOURCE = "kind: source\nid: book\ntitle: The book\nclass: parts-book\n"
LOOK = "kind: teardown\nid: look\ndate: 2024\nseen-by: m\nserial: XA 3\ncondition: untouched\nfound:\n"


def source(path: str, title: str = "The book", id_: str = "book", more: str = "") -> Record:
    text = SOURCE.replace("The book", title).replace("id: book", f"id: {id_}") + more
    made = read_bytes(text.encode(), path, "source", id_)
    assert isinstance(made, Record), made
    return made


def test_of_two_with_one_id_the_first_by_path_is_kept_and_both_are_told() -> None:
    first, second = source("sources/a/book.yml", "One"), source("sources/b/book.yml", "Two")
    for records in ([first, second], [second, first]):
        made = build(records)
        assert made.records == (first, second)
        assert made.sources["book"] is made.of(Source)["book"] is made.things["source"]["book"] is first


def test_what_a_second_record_says_is_not_said() -> None:
    one, other = lid("lid", "first: 1, last: 5"), lid("lid", "first: 6, last: 9")
    made = register(one, other)
    assert [fitting.span.first for fitting in made.fittings["xa", "cover"]] == [1]
    assert len([s for s in made.statements if s.record.kind == "assembly"]) == 1


def test_records_of_a_kind_are_of_that_kind_alone() -> None:
    made = register(lid("lid", "first: 1, last: 5"), source("sources/book.yml"))
    assert list(made.of(Assembly)) == ["lid"]
    assert list(made.of(Source)) == ["book"]
    assert dict(made.of(PartRecord)) == {}


def test_a_position_goes_by_all_the_names_above_it() -> None:
    made = build([record(TREE, "positions", "positions")])
    assert {path: (p.above, p.below, p.holds) for path, p in made.positions.items()} == {
        "body": (None, ("body/cover", "body/floor"), False),
        "body/cover": ("body", (), True),
        "body/floor": ("body", ("body/floor/plug",), False),
        "body/floor/plug": ("body/floor", (), True),
        "pump": (None, (), True),
    }
    assert list(made.things["position"]) == list(made.positions)


def test_what_can_be_referred_to_is_known_by_its_sort() -> None:
    cautions = (
        "kind: cautions\ncautions:\n- {id: sharp, title: Edges, text: Wear gloves., words: [razor], "
        "follows: [{body: B, title: T}]}\n"
    )
    terms = "kind: glossary\nterms:\n- {id: plate, term: Plate, meaning: What is stamped.}\n"
    made = register(record(cautions, "cautions", "cautions"), record(terms, "glossary", "glossary"))
    known = {sort: list(things) for sort, things in made.things.items() if things}
    assert known == {
        "machine": ["x"],
        "series": ["xa", "xb"],
        "positions": ["positions"],
        "position": ["cover", "drain"],
        "cautions": ["cautions"],
        "caution": ["sharp"],
        "glossary": ["glossary"],
        "term": ["plate"],
    }
    assert made.things["series"]["xb"] is made.machines["x"]
    assert (list(made.cautions), list(made.terms)) == (["sharp"], ["plate"])


def test_a_former_id_leads_to_the_first_that_had_it() -> None:
    one = source("sources/a.yml", id_="a", more="formerly: [old, older]\n")
    two = source("sources/b.yml", id_="b", more="formerly: [old]\n")
    former = build([two, one]).former
    assert former.ids == {("source", "old"): "a", ("source", "older"): "a"}
    assert former.ids_of == {("source", "a"): ("old", "older")}


def test_only_what_is_there_is_cited_and_found() -> None:
    held = lid(
        "lid", "first: 1, last: 5", "{source: book}, {source: lost}, {teardown: look}, {teardown: gone}"
    )
    look = record(
        LOOK + "- {position: cover, assembly: lid}\n- {position: drain, note: Dry}\n", "teardown", "look"
    )
    book = source("sources/book.yml")
    made = register(held, look, book)
    assert {cited.id: [s.record.id for s in by] for cited, by in made.cited.items()} == {
        "book": ["lid"],
        "look": ["lid"],
    }
    assert dict(made.found) == {"lid": (look,)}


def test_what_could_not_be_read_is_known() -> None:
    unread = Unread.of([("source", "tale", b"kind: source")])
    assert build([], unread).unread is unread
    assert build([]).unread == Unread()


def test_a_number_that_may_be_either_makers_belongs_to_nobody() -> None:
    other = MACHINE.replace("id: x\n", "id: y\n").replace("xa", "ya").replace("xb", "yb")
    parts = "kind: part\nid: bolt\nname: Bolt\nnumber: P-1\nevidence: [{source: book}]\n"
    bolt = record(parts, "part", "bolt")
    made = register(record(other.replace("Example", "Other") % 20, "machine", "y"), bolt)
    assert made.owner(bolt) is None
    assert list(made.parts) == [PartKey.of("", "P-1")]
    assert [s.number for s in made.statements_of[bolt]] == [PartKey.of("", "P-1")]
    assert build([bolt]).owner(bolt) is None
