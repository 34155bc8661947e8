"""One thing by several numbers is one everywhere; several things by one number are never merged."""

from __future__ import annotations

import random
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.instead import would_do
from spanbook.answers.orders import Ordering, Supply
from spanbook.answers.readings import read_serial
from spanbook.answers.search import Asker, How, Known
from spanbook.faces.meant import UnknownNumber, Wanted, meant
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.register.statements import Measurement
from tests.answers.test_orders_plain import NUMBERS, world
from tests.support.plain_orders import ISSUED, PlainSpan
from tests.support.registers import record, register
from tests.support.tries import tries

FIRMS = ["army", "trade", "example-works"]


def part(id_: str, number: str, more: str = "") -> Record:
    return record(f"kind: part\nid: {id_}\nnumber: {number}\nname: {id_}\n{more}", "part", id_)


def told(made: Register, key: PartKey) -> object:
    """What is ordered for a number, on what terms, by which acts, and what else would do."""
    ways = [
        (
            way.leaves,
            way.conditions,
            [act.id for act in way.grounds.acts],
            [a.id for a in way.grounds.against],
        )
        for way in Ordering(made).of(key, 3).alternatives
    ]
    would = [
        (one.keys, one.fates, [[(hop.act.id, hop.back) for hop in way.hops] for way in one.ways])
        for one in would_do(made, key).each
    ]
    return ways, would


@pytest.mark.parametrize("seed", range(tries(60)))
def test_by_any_of_its_numbers_it_is_the_same_page_and_the_same_order(seed: int) -> None:
    """Acts are written with other numbers and misprints for the parts', at random: nothing may change."""
    chance, acts = random.Random(seed), world(seed)
    others = {n: [(f"{n}-{i}", chance.choice(FIRMS)) for i in range(chance.randint(0, 2))] for n in NUMBERS}
    misprints = {n: f"{n}0" for n in NUMBERS if chance.random() < 0.5}
    parts = []
    for number in NUMBERS:
        also = ", ".join(f"{{number: {n}, by: {by}}}" for n, by in others[number])
        more = f"also: [{also}]\n" if also else ""
        more += f"misprints: [{{number: {misprints[number]}}}]\n" if number in misprints else ""
        parts.append(part(f"part-{number}", number, more))

    def respelt(number: str) -> str:
        known = [*others[number], (number, "example-works")]
        known += [(misprints[number], "example-works")] if number in misprints else []
        written, by = chance.choice(known)
        return f"{{number: {written}, by: {by}, quantity:"

    plain, otherwise = [], []
    for act in acts:
        text = act.yaml()
        plain.append(record(text, "supersession", act.id))
        for number in NUMBERS:
            while f"{{number: {number}, quantity:" in text:
                text = text.replace(f"{{number: {number}, quantity:", respelt(number), 1)
        otherwise.append(record(text, "supersession", act.id))
    one, other = register(*plain, *parts), register(*otherwise, *parts)
    assert one.parts.keys() == other.parts.keys() == {PartKey.of("example-works", n) for n in NUMBERS}
    for number in NUMBERS:
        key = PartKey.of("example-works", number)
        wanted = told(one, key)
        known = [*others[number], *([(misprints[number], "example-works")] if number in misprints else [])]
        for written, by in [(number, "example-works"), *known]:
            assert meant(other, Wanted(written, by=by)) == key
            assert told(other, meant(other, Wanted(written, by=by))) == wanted
            found = Asker(Answers(other), ()).matches(written) if len(written) > 1 else []
            assert key in {match.key.part.key for match in found} or len(written) == 1


def spans() -> st.SearchStrategy[PlainSpan]:
    bound = st.integers(1, 20)
    ends = st.tuples(bound, bound).map(lambda pair: (min(pair), max(pair)))
    return st.builds(
        lambda first, last: PlainSpan(
            "xa", (min(first), min(first)), (max(first), max(max(last), max(first)))
        ),
        ends,
        ends,
    )


YEARS = st.one_of(st.none(), st.integers(1930, 1940))


@given(st.lists(st.tuples(spans(), YEARS, YEARS), min_size=2, max_size=3), spans(), YEARS)
def test_a_number_means_what_alone_it_may_mean_there(
    senses: list[tuple[PlainSpan, int | None, int | None]], of: PlainSpan, year: int | None
) -> None:
    """Held against every machine and year by itself."""
    parts = []
    for i, (span, since, until) in enumerate(senses):
        limits = f"serials: [{span.yaml()}]"
        limits += f", since: {since}" if since else ""
        limits += f", until: {until}" if until else ""
        parts.append(part(f"p{i}", "P", f"reused: [{{{limits}}}]\n"))
    text = f"kind: supersession\nid: s\nold: [{{number: P}}]\nnew: []\nserials: [{of.yaml()}]\n"
    act = record(text + (f"year: {year}\n" if year else ""), "supersession", "s")
    made = register(act, *parts)

    def possible(span: PlainSpan, number: int) -> bool:
        return any(span.holds(("xa", number)))

    may = [
        f"p{i}"
        for i, (span, since, until) in enumerate(senses)
        if any(possible(span, n) and possible(of, n) for n in ISSUED["xa"])
        and (year is None or (since or year) <= year <= (until or year))
    ]
    wanted = may[0] if len(may) == 1 else ""
    (key,) = (one.key for one in made.parts.values() if one.old_in)
    assert key == PartKey.of("example-works", "P", wanted)
    # Whatever is said of one of them is said of no other.
    assert [one.key.sense for one in made.parts.values() if act in one.records] == [wanted]
    assert {one.key.sense for one in made.parts.values() if one.record} == {
        f"p{i}" for i in range(len(senses))
    }


TWO = (
    part("pot", "P-1", "reused: [{serials: [{series: xa, first: 1, last: 7}], until: 1935}]\n"),
    part("bowl", "P-1", "reused: [{serials: [{series: xa, first: 10, last: 20}], since: 1937}]\n"),
)


def sense(
    made: Register, serial: str | None = None, means: str | None = None, year: int | None = None
) -> str:
    reading = read_serial(made, serial)[0] if serial else None
    return meant(made, Wanted("p 1", year=year, means=means), reading).sense


def test_whoever_asks_for_a_number_of_two_things_says_which_by_machine_year_or_name() -> None:
    made = register(*TWO)
    assert (sense(made, "XA 3"), sense(made, "XA 12"), sense(made, means="bowl")) == ("pot", "bowl", "bowl")
    assert (sense(made, year=1934), sense(made, year=1937)) == ("pot", "bowl")
    with pytest.raises(LookupError, match="has meant several things: bowl, from XA 10 to XA 20, since 1937"):
        sense(made)
    with pytest.raises(LookupError, match="none of them is for that machine"):
        sense(register(*TWO, last="30"), "XA 25")


def test_a_line_may_say_which_and_else_nothing_is_merged() -> None:
    def lid(more: str) -> Record:
        text = "kind: assembly\nid: a\ntitle: A\nposition: cover\n"
        text += "serials: [{series: xa, first: 1, last: 20}]\n"
        return record(f"{text}parts: [{{number: P-1, name: P{more}}}]\n", "assembly", "a")

    used = {one.key.sense: one.uses for one in register(*TWO, lid("")).parts.values()}
    assert (len(used[""]), used["pot"], used["bowl"]) == (1, (), ())
    used = {one.key.sense: one.uses for one in register(*TWO, lid(", means: pot")).parts.values()}
    assert (len(used["pot"]), used["bowl"]) == (1, ())


def test_what_nobody_can_tell_is_not_ordered_as_if_it_were_one() -> None:
    made = register(
        *TWO,
        record("kind: supersession\nid: s\nold: [{number: O}]\nnew: [{number: P-1}]\n", "supersession", "s"),
    )
    (way,) = Ordering(made).of(PartKey.of("example-works", "O")).alternatives
    assert [leaf.supply for leaf in way.leaves] == [Supply.UNCLEAR]


def test_a_teardown_and_an_account_tell_by_their_machines() -> None:
    look = "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 1?\ncondition: untouched\n"
    seen = record(f"{look}found: [{{position: cover, parts: [{{number: P-1}}]}}]\n", "teardown", "t")
    made = register(*TWO, seen)
    assert [one.key.sense for one in made.parts.values() if one.teardowns] == ["bowl"]


def test_a_misprint_that_is_a_number_itself_is_found_as_both() -> None:
    made = register(part("lid", "P-12", "misprints: [{number: P-21}]\n"), part("bolt", "P-21"))
    assert meant(made, Wanted("P-21")) == PartKey.of("example-works", "P-21")
    found = Asker(Answers(made), ()).matches("P-21")
    assert [(m.key.part.number, m.key.known, m.how) for m in found] == [
        ("P-21", Known.NUMBER, How.EXACT),
        ("P-12", Known.MISPRINT, How.EXACT),
    ]


def test_what_two_parts_claim_leads_to_neither() -> None:
    also = "also: [{number: Q-1, by: army}]\n"
    made = register(part("a", "P-1", also), part("b", "P-2", also))
    with pytest.raises(UnknownNumber):
        meant(made, Wanted("Q-1", by="army"))


SIGNS = {
    "-": "-\u2010\u2011\u2012\u2013\u2014\u2212\ufe63\uff0d",
    "'": "'\u2018\u2019\u2032`",
    '"': '"\u201c\u201d\u2033',
}


@given(st.lists(st.sampled_from("AB12-'\" "), min_size=1, max_size=8), st.data())
def test_however_it_is_spelt_a_number_is_one(number: list[str], data: st.DataObject) -> None:
    """Case, runs of spaces, sorts of dash and of quotes: one part, one page; the old addresses lead on."""
    text = "A" + "".join(number) + "1"
    spelt = "".join(
        data.draw(st.sampled_from(SIGNS.get(c, c + c.lower() if c != " " else c))) * (2 if c == " " else 1)
        for c in text
    )
    one, other = PartKey.of("w", text), PartKey.of("w", spelt)
    assert one == other
    assert one.slug == other.slug


def test_numbers_told_apart_stay_two() -> None:
    for one, other in product(["P-1", "P 1", "P.1", "P1", "'P1'"], repeat=2):
        assert (PartKey.of("w", one) == PartKey.of("w", other)) == (one == other)


@pytest.mark.parametrize("seen", ["", "pot", "bowl"])
def test_a_size_that_was_measured_tells_of_the_part_that_its_line_means(seen: str) -> None:
    """The machine is in neither's numbers, so nothing but the line itself can tell."""
    means = f", means: {seen}" if seen else ""
    size = "sizes: [{what: Bore, value: '7', unit: mm}]\n"
    both = "reused: [{serials: [{series: xa, first: 1, last: 9}]}]\n"
    later = "reused: [{serials: [{series: xa, first: 10, last: 15}]}]\n"
    measured = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: merrin\nserial: XA 18\ncondition: untouched\nfound:\n"
        f"- {{position: cover, measurements: [{{what: Bore, number: P-1{means}, value: '7', unit: mm}}]}}\n",
        "teardown",
        "t",
    )
    made = register(part("pot", "P-1", size + both), part("bowl", "P-1", size + later), measured)
    judge = Answers(made).judge
    told = [s for s in made.statements if isinstance(s.subject, Measurement) and judge.of(s).reasons]
    assert [s.record.id for s in told] == ([seen] if seen else [])
