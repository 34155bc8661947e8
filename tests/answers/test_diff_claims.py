"""What two proposals make of single things, and where they clash: in registers that can be seen whole."""

from __future__ import annotations

from spanbook.answers.assumed import Assumed
from spanbook.answers.diff.claims import About, Claim, claims, clashing
from spanbook.answers.diff.compute import compare
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.support.acts import act
from tests.support.registers import MACHINE, POSITIONS, record
from tests.support.rows import each_row

BASE = (record(MACHINE % "20", "machine", "x"), record(POSITIONS, "positions", "positions"))
BOOK = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")


def lid(last: str, more: str = "", id_: str = "lid", first: int = 1) -> Record:
    text = (
        f"kind: assembly\nid: {id_}\ntitle: Lid\nposition: cover\n"
        f"serials:\n- {{series: xa, first: {first}, last: {last}, evidence: [{{source: book}}]}}\n{more}"
    )
    return record(text, "assembly", id_)


def saw(assembly: str, id_: str = "seen", serial: str = "XA 3", series: str = "series: xa\n") -> Record:
    text = (
        f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\n"
        f'serial: "{serial}"\n{series}condition: untouched\n'
        f"found: [{{position: cover{f', assembly: {assembly}' if assembly else ', note: Gone'}}}]\n"
    )
    return record(text, "teardown", id_)


def replaced(id_: str, new: str) -> Record:
    return record(act(id_, "p", new, "evidence: [{source: book}]\n"), "supersession", id_)


def world(*records: Record) -> Register:
    return build([*BASE, BOOK, *records])


MAIN = (lid("10"), lid("20", id_="hat", first=11))


def made(*records: Record) -> list[Claim]:
    return list(claims(compare(world(*MAIN), world(*records), ((), ()), Assumed())))


def of(about: About, *records: Record) -> list[tuple[tuple[object, ...], object]]:
    return [(claim.key, claim.made) for claim in made(*records) if claim.about is about]


def clash(one: tuple[Record, ...], other: tuple[Record, ...]) -> set[About]:
    mine, theirs = made(*one), made(*other)
    return {mine[i].about for i, _ in clashing(mine, theirs)}


def test_an_id_is_taken_by_what_is_added_or_called_otherwise() -> None:
    new = lid("15", id_="cap")
    (claim,) = (one for one in made(*MAIN, new) if one.about is About.ID)
    assert (claim.key, claim.made, claim.path) == (("assembly", "cap"), new.origin.data, "cap.yml")
    renamed = lid("10", "formerly: [lid]\n", "cap")
    assert [key for key, _ in of(About.ID, renamed, MAIN[1])] == [("assembly", "cap")]
    assert of(About.ID, lid("12"), MAIN[1]) == []


def test_a_statement_is_changed_taken_away_or_new() -> None:
    span = ("assembly", "lid", "span-xa")
    assert of(About.STATEMENT, lid("12"), MAIN[1]) == [(span, {("last",): "12"})]
    two = lid("10", "parts: [{number: P-1, name: Knob}]\n")
    ((key, said),) = of(About.STATEMENT, two, MAIN[1])
    assert (key, said) == (("assembly", "lid", "part-p-1"), {"number": "P-1", "name": "Knob"})
    less = list(claims(compare(world(two, MAIN[1]), world(*MAIN), ((), ()), Assumed())))
    assert [(one.key, one.made) for one in less if one.about is About.STATEMENT] == [(key, None)]
    # What a whole record says goes with its id.
    assert of(About.STATEMENT, *MAIN, lid("15", id_="cap")) == []


def test_a_find_is_what_was_seen_on_one_machine() -> None:
    assert of(About.FIND, *MAIN, saw("lid")) == [(("xa", 3, "cover"), "lid")]
    assert of(About.FIND, *MAIN, saw("")) == []
    assert of(About.FIND, *MAIN, saw("lid", serial="XA ?")) == []


def test_orders_and_answers_are_told_with_their_numbers() -> None:
    orders = of(About.ORDER, *MAIN, replaced("on", "q"))
    assert [[getattr(one, "number", one) for one in key] for key, _ in orders] == [["p"], ["q"]]
    (claim,) = (one for one in made(lid("12"), MAIN[1]) if one.about is About.ANSWER)
    assert (claim.first, claim.last, claim.path) == (11, 12, "")
    assert claim.key == ("xa", "cover")


CLASHES = {
    "one id for two things": (
        (*MAIN, lid("15", id_="cap")),
        (*MAIN, lid("16", id_="cap")),
        {About.ID},
    ),
    "one id for the same": ((*MAIN, lid("15", id_="cap")), (*MAIN, lid("15", id_="cap")), set()),
    "two bounds": ((lid("12"), MAIN[1]), (lid("13"), MAIN[1]), {About.STATEMENT}),
    "two bounds and none the same": ((lid("12"), MAIN[1]), (lid("8"), MAIN[1]), {About.STATEMENT}),
    "the same bound": ((lid("12"), MAIN[1]), (lid("12"), MAIN[1]), set()),
    "another thing on one machine": ((*MAIN, saw("lid")), (*MAIN, saw("hat", "other")), {About.FIND}),
    "on two machines": ((*MAIN, saw("lid")), (*MAIN, saw("hat", "other", "XA 4")), set()),
    "two successors": ((*MAIN, replaced("on", "q")), (*MAIN, replaced("off", "r")), {About.ORDER}),
}


@each_row(("one", "other", "about"), CLASHES.values())
def test_what_clashes(one: tuple[Record, ...], other: tuple[Record, ...], about: set[About]) -> None:
    assert clash(one, other) == about
    assert bool(clash(other, one)) is bool(about)


@each_row(
    ("mine", "theirs", "met"),
    [
        ((1, 5), (6, 9), False),
        ((1, 6), (6, 9), True),
        ((6, 9), (1, 5), False),
        ((6, 9), (1, 6), True),
        ((6, None), (1, 5), False),
        ((5, None), (1, 5), True),
        ((1, 5), (6, None), False),
        ((1, None), (9, None), True),
    ],
)
def test_answers_clash_where_their_numbers_meet(
    mine: tuple[int, int | None], theirs: tuple[int, int | None], met: bool
) -> None:
    some, one_more = (
        Claim(About.ANSWER, ("xa",), made, BOOK, *run) for made, run in (("a", mine), ("b", theirs))
    )
    assert list(clashing([some], [one_more])) == ([(0, 0)] if met else [])
    same = Claim(About.ANSWER, ("xa",), "a", BOOK, *theirs)
    assert list(clashing([some], [same])) == []


def test_each_is_told_once_with_the_first_that_it_clashes_with() -> None:
    mine = Claim(About.ANSWER, ("xa",), "a", BOOK, 1, 20)
    theirs = [Claim(About.ANSWER, ("xa",), made, BOOK, n, n) for n, made in ((1, "a"), (5, "b"), (9, "c"))]
    other = Claim(About.ANSWER, ("xb",), "b", BOOK, 1, 20)
    assert list(clashing([other, mine], theirs)) == [(1, 1)]
    assert list(clashing([mine], [Claim(About.ORDER, ("xa",), "b", BOOK, 1, 20)])) == []


def test_what_is_left_out_of_a_statement_is_made_nothing() -> None:
    before = record(
        "kind: assembly\nid: lid\ntitle: Lid\nposition: cover\n"
        "serials:\n- {series: xa, first: 1, last: 10, fitted: service, evidence: [{source: book}]}\n",
        "assembly",
        "lid",
    )
    found = claims(compare(world(before, MAIN[1]), world(*MAIN), ((), ()), Assumed()))
    assert [one.made for one in found if one.about is About.STATEMENT] == [{("fitted",): None}]
