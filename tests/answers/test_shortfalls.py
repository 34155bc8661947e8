"""Where conversions and supersessions fall short: by hand, and against every way a number may be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fits
from spanbook.answers.bounds import reach_of
from spanbook.answers.ever import Ever
from spanbook.answers.question_anchor import anchor
from spanbook.answers.shortfalls import NeedUnmet, NeverHad, PastBase, Shortfall, Shortfalls, Unreached
from spanbook.ground.intervals import Covers, Reach, SpanSet
from spanbook.reading.records import Record, SeriesSpan
from spanbook.register.model import Register
from tests.support.comparisons import compared
from tests.support.registers import record, register

BOOK = record("kind: source\nid: book\ntitle: Book\nclass: parts-book\n", "source", "book")


def assembly(id_: str, *spans: str, position: str = "cover", parts: str = "") -> Record:
    lines = "".join(f"- {{series: xa, {span}, evidence: [{{source: book}}]}}\n" for span in spans)
    listed = "".join(f"- {{number: {part}, name: Part {part}}}\n" for part in parts.split())
    text = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: {position}\nserials:\n{lines}"
    return record(text + (f"parts:\n{listed}" if parts else ""), "assembly", id_)


def kit(id_: str, start: str, to: str, *spans: str, position: str = "cover", more: str = "") -> Record:
    lines = "".join(f"- {{series: xa, {span}}}\n" for span in spans)
    text = f"kind: conversion\nid: {id_}\ntitle: {id_}\nposition: {position}\nfrom: [{start}]\nto: {to}\n"
    return record(f"{text}evidence: [{{source: book}}]\nserials:\n{lines}{more}", "conversion", id_)


def act(id_: str, old: str, new: str, *spans: str) -> Record:
    sides = [", ".join(f"{{number: {number}}}" for number in side.split()) for side in (old, new)]
    lines = "".join(f"- {{series: xa, {span}}}\n" for span in spans)
    text = (
        f"kind: supersession\nid: {id_}\nold: [{sides[0]}]\nnew: [{sides[1]}]\nevidence: [{{source: book}}]\n"
    )
    return record(text + (f"serials:\n{lines}" if spans else ""), "supersession", id_)


def runs(numbers: SpanSet) -> list[tuple[int, int | None]]:
    return [(span.first, span.last) for span in numbers]


def found(*records: Record) -> list[tuple[object, ...]]:
    """Each shortfall: its sort, the record it is known by, the sure and the possible numbers."""
    made = register(BOOK, *records)
    return [
        (type(one), one.told_on[0].id, runs(one.numbers.surely), runs(one.numbers.possibly))
        for one in Shortfalls(Ever(Fits(made))).every
    ]


LID = assembly("lid", "first: 1, last: 12")
HAT = assembly("hat", "first: 13, last: 20")


def test_what_is_covered_exactly_falls_short_of_nothing() -> None:
    assert found(LID, HAT, kit("k", "lid", "hat", "first: 1, last: 12")) == []
    assert found(LID, HAT) == []  # nothing converts it at all


def test_an_arrangement_that_ran_on_past_the_last_of_the_letter() -> None:
    assert found(LID, HAT, kit("k", "lid", "hat", "first: 3, last: 10")) == [
        (Unreached, "lid", [(1, 2), (11, 12)], [(1, 2), (11, 12)])
    ]
    short = Answers(register(BOOK, LID, HAT, kit("k", "lid", "hat", "first: 1, last: 9"))).questions
    assert [anchor(q) for q in short if q.shortfall] == ["no-conversion-reaches-xa-cover-10-lid"]
    more = kit("l", "lid", "hat", "first: 11, last: 12")
    assert found(LID, HAT, kit("k", "lid", "hat", "first: 3, last: 10"), more) == [
        (Unreached, "lid", [(1, 2)], [(1, 2)])
    ]


def test_a_later_fitting_counts_as_much_as_the_factorys() -> None:
    sold = assembly("lid", "first: 1, last: 12", "first: 15, last: 17, fitted: service")
    assert found(sold, HAT, kit("k", "lid", "hat", "first: 1, last: 12")) == [
        (Unreached, "lid", [(15, 17)], [(15, 17)])
    ]


def test_where_the_letter_ends_may_be_the_doubt() -> None:
    assert found(LID, HAT, kit("k", "lid", "hat", "first: 1, last: [10, 11]")) == [
        (Unreached, "lid", [(12, 12)], [(11, 12)])
    ]
    # The same bound on both sides is one doubt: where the break is, and nothing of the letter.
    early, late = assembly("lid", "first: 1, last: [11, 13]"), assembly("hat", "first: [12, 14], last: 20")
    assert found(early, late, kit("k", "lid", "hat", "first: 1, last: [11, 13]")) == []


def test_what_one_claim_has_and_another_has_not_is_not_sure() -> None:
    """Two books on one run: 1 to 12, and 1 to 10; only what both have is surely there to be converted."""
    lid = assembly("lid", "first: 1, last: 12, anchor: a", "first: 1, last: 10, anchor: b")
    assert found(lid, HAT, kit("k", "lid", "hat", "first: 1, last: 7")) == [
        (Unreached, "lid", [(10, 10)], [(10, 10)])
    ]


def test_a_series_that_no_conversion_is_for_is_left_alone() -> None:
    other = assembly("lid", "first: 1, last: 12")
    elsewhere = kit("k", "lid", "hat", "first: 15, last: 40")
    in_xb = record(elsewhere.origin.data.decode().replace("xa", "xb"), "conversion", "k")
    assert (Unreached, "lid") not in [one[:2] for one in found(other, HAT, in_xb)]


def test_what_only_undoes_another_need_not_reach_further() -> None:
    """Put back on 1 to 12, where it was; that the hat of 13 to 20 cannot be put back is no shortfall."""
    there = kit("k", "lid", "hat", "first: 1, last: 12", more="year: 1936\n")
    back = kit("r", "hat", "lid", "first: 1, last: 12", more="year: 1979\n")
    assert found(LID, HAT, there, back) == []
    assert found(LID, HAT, back) == [
        (Unreached, "hat", [(13, 20)], [(13, 20)]),
        (PastBase, "r", [(1, 7), (10, 12)], [(1, 7), (10, 12)]),
    ]


def test_a_letter_that_reaches_past_what_it_converts() -> None:
    assert found(LID, HAT, kit("k", "lid", "hat", "first: 1, last: 15")) == [
        (PastBase, "k", [(13, 15)], [(13, 15)])
    ]
    # Nothing is recorded of 13 to 20: they may have had it.
    assert found(
        LID, kit("k", "lid", "hat", "first: 1, last: 15"), assembly("hat", "first: 18, last: 20")
    ) == [(PastBase, "k", [], [(13, 15)])]
    assert found(LID, HAT, kit("k", "lid", "hat", "first: 1, last: [12, 15]")) == [
        (PastBase, "k", [], [(13, 15)])
    ]


def test_what_another_conversion_gives_is_there_to_be_converted() -> None:
    first = kit("k", "lid", "mid", "first: 1, last: 12")
    mid, top = assembly("mid", "first: 13, last: 16"), assembly("top", "first: 17, last: 20")
    assert found(LID, mid, top, first, kit("l", "mid", "top", "first: 1, last: 16")) == []
    assert found(LID, mid, top, kit("l", "mid", "top", "first: 1, last: 16")) == [
        (PastBase, "l", [(1, 7), (10, 12)], [(1, 7), (10, 12)])
    ]


def test_two_standards_on_one_number_make_nothing_sure() -> None:
    both = assembly("cap", "first: 13, last: 20")
    assert found(LID, HAT, both, kit("k", "lid", "hat", "first: 1, last: 15")) == [
        (PastBase, "k", [], [(13, 15)])
    ]


def test_a_need_that_no_machine_can_meet() -> None:
    need = "needs: [{position: drain, assemblies: [wide], why: Oil}]\n"
    letter = kit("k", "lid", "hat", "first: 1, last: 12", more=need)
    narrow = assembly("narrow", "first: 1, last: 5", position="drain")
    wide = assembly("wide", "first: 6, last: 20", position="drain")
    assert found(LID, HAT, letter, narrow, wide) == [(NeedUnmet, "k", [(1, 5)], [(1, 5)])]
    widened = kit("w", "narrow", "wide", "first: 1, last: 5", position="drain")
    assert found(LID, HAT, letter, narrow, wide, widened) == []
    # Where its own end leaves open whether a machine takes it, that is no surer.
    vague = kit("k", "lid", "hat", "first: 1, last: [3, 12]", more=need)
    assert (NeedUnmet, "k", [(1, 3)], [(1, 5)]) in found(LID, HAT, vague, narrow, wide)
    # Nothing is recorded at the drain of 1 to 5.
    assert found(LID, HAT, letter, wide) == [(NeedUnmet, "k", [], [(1, 5)])]
    # Machines that cannot take it anyhow are told once.
    past = kit("k", "lid", "hat", "first: 1, last: 15", more=need.replace("wide", "narrow"))
    told = found(LID, HAT, past, narrow, wide)
    assert (PastBase, "k", [(13, 15)], [(13, 15)]) in told
    assert (NeedUnmet, "k", [(6, 7), (10, 12)], [(6, 7), (10, 12)]) in told


def test_a_replacement_for_machines_that_never_had_the_part() -> None:
    lid, hat = (
        assembly("lid", "first: 1, last: 12", parts="P-1"),
        assembly("hat", "first: 13, last: 20", parts="P-2"),
    )
    late = act("a", "P-1", "P-9", "first: 10, last: 15")
    assert found(lid, hat, late) == [(NeverHad, "a", [(13, 15)], [(13, 15)])]
    assert found(lid, hat, act("a", "P-1", "P-9")) == []  # not limited
    assert found(lid, hat, act("a", "P-1", "P-9", "first: 1, last: 12")) == []
    assert found(lid, hat, act("a", "P-7", "P-9", "first: 1, last: 15")) == []  # where it goes nobody says
    # What has no list of parts may have it, and so may what nobody has recorded.
    assert found(lid, HAT, late) == [(NeverHad, "a", [], [(13, 15)])]
    assert found(lid, late) == [(NeverHad, "a", [], [(13, 15)])]
    kit_with = kit("k", "hat", "lid", "first: 13, last: 20")
    assert found(lid, hat, late, kit_with) == []
    added = kit("k", "hat", "tin", "first: 13, last: 20", more="adds: [{number: P-1}]\n")
    assert (
        found(lid, hat, late, added, assembly("tin", "first: 1, last: 2, fitted: field", parts="P-1")) == []
    )


def test_what_an_act_put_there_is_there_to_be_replaced() -> None:
    lid, hat = (
        assembly("lid", "first: 1, last: 12", parts="P-1"),
        assembly("hat", "first: 13, last: 20", parts="P-2"),
    )
    acts = act("a", "P-1", "P-3"), act("b", "P-3", "P-4", "first: 10, last: 15")
    assert found(lid, hat, *acts) == [(NeverHad, "b", [(13, 15)], [(13, 15)])]
    made = register(BOOK, lid, hat, *acts)
    (one,) = Shortfalls(Ever(Fits(made))).every
    assert isinstance(one, NeverHad)
    assert (one.position, [held.id for held in one.assemblies]) == ("cover", ["lid"])


def test_a_part_is_asked_for_at_the_first_of_its_positions() -> None:
    """At the cover, where the lid has it and a letter takes it off, and not at the drain with its plug."""
    lid, hat = (
        assembly("lid", "first: 1, last: 5", parts="P-1"),
        assembly("hat", "first: 6, last: 20", parts="P-2"),
    )
    plug, tap = (
        assembly("plug", "first: 1, last: 5", position="drain", parts="P-1"),
        assembly("tap", "first: 6, last: 20", position="drain", parts="P-3"),
    )
    letter = kit("k", "lid", "hat", "first: 1, last: 5", more="removes: [{number: P-1}]\n")
    made = register(BOOK, lid, hat, plug, tap, letter, act("a", "P-1", "P-9", "first: 5, last: 7"))
    (one,) = Shortfalls(Ever(Fits(made))).every
    assert isinstance(one, NeverHad)
    assert (one.position, [held.id for held in one.assemblies]) == ("cover", ["lid"])
    assert runs(one.numbers.surely) == [(6, 7)]


def test_where_a_part_goes_nobody_may_have_said() -> None:
    """P-5 was only read, on what nobody named; it and P-6 are said to replace one another."""
    look = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 2\nseries: xa\ncondition: altered\n"
        "found:\n- {position: cover, parts: [{number: P-5}]}\n",
        "teardown",
        "t",
    )
    circle = act("a", "P-5", "P-6", "first: 1, last: 3"), act("b", "P-6", "P-5", "first: 1, last: 3")
    made = register(BOOK, look, *circle)
    told = [one for one in Shortfalls(Ever(Fits(made))).every if isinstance(one, NeverHad)]
    assert [(one.act.id, runs(one.numbers.possibly), one.position, one.assemblies) for one in told] == [
        ("a", [(1, 1), (3, 3)], None, ()),
        ("b", [(1, 1), (3, 3)], None, ()),
    ]
    assert not [q for q in Answers(made).questions if q.shortfall]  # nobody could say where to look


def test_what_no_record_has_falls_short_of_nothing() -> None:
    need = "needs: [{position: drain, assemblies: [ghost], why: Oil}]\n"
    assert found(HAT, kit("k", "ghost", "hat", "first: 1, last: 5")) == []
    assert found(LID, HAT, kit("k", "lid", "hat", "first: 1, last: 12", more=need)) == []
    gone = kit("k", "lid", "hat", "first: 1, last: 5").origin.data.decode().replace("xa", "xz")
    assert found(LID, HAT, record(gone, "conversion", "k")) == []
    limited = act("a", "P-1", "P-9", "first: 1, last: 5").origin.data.decode().replace("xa", "xz")
    parted = assembly("lid", "first: 1, last: 12", parts="P-1")
    assert found(parted, HAT, record(limited, "supersession", "a")) == []


def test_what_somebody_read_on_a_machine_was_there() -> None:
    lid, hat = (
        assembly("lid", "first: 1, last: 12", parts="P-1"),
        assembly("hat", "first: 13, last: 20", parts="P-2"),
    )
    look = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 14\nseries: xa\ncondition: altered\n"
        "found:\n- {position: cover, assembly: hat, parts: [{number: P-1}]}\n",
        "teardown",
        "t",
    )
    assert found(lid, hat, act("a", "P-1", "P-9", "first: 10, last: 15"), look) == [
        (NeverHad, "a", [(13, 13), (15, 15)], [(13, 13), (15, 15)])
    ]


END = st.integers(1, 20) | st.tuples(st.integers(1, 20), st.integers(0, 3)).map(
    lambda pair: [pair[0], min(pair[0] + pair[1], 20)]
)


@st.composite
def spans(draw: st.DrawFn, more: str = "") -> str:
    first, last = draw(END), draw(END)
    low = first if isinstance(first, int) else first[0]
    high = last if isinstance(last, int) else last[1]
    return f"first: {first if low <= high else 1}, last: {last}{more}"


AT = {"cover": ["a", "b", "c"], "drain": ["d", "e"]}
PARTS = ["P-1", "P-2", "P-3"]


@st.composite
def worlds(draw: st.DrawFn) -> list[Record]:
    """Up to five assemblies with a span each, four conversions and three acts, in a series of eighteen."""
    made: list[Record] = [BOOK]
    for position, ids in AT.items():
        for id_ in ids:
            fitted = draw(st.sampled_from(["", "", ", fitted: field", ", option: true"]))
            parts = " ".join(draw(st.lists(st.sampled_from(PARTS), unique=True, max_size=2)))
            made.append(assembly(id_, draw(spans(fitted)), position=position, parts=parts))
    for i in range(draw(st.integers(0, 4))):
        position = draw(st.sampled_from(["cover", "cover", "drain"]))
        start, to = draw(st.permutations(AT[position]))[:2]
        need = "needs: [{position: drain, assemblies: [d], why: Oil}]\n" if draw(st.booleans()) else ""
        adds = f"adds: [{{number: {draw(st.sampled_from(PARTS))}}}]\n" if draw(st.booleans()) else ""
        more = need + adds + f"year: {draw(st.integers(1930, 1932))}\n"
        made.append(kit(f"k{i}", start, to, draw(spans()), position=position, more=more))
    for i in range(draw(st.integers(0, 3))):
        old, new = draw(st.permutations(PARTS))[:2]
        made.append(act(f"s{i}", old, new, *draw(st.lists(spans(), max_size=1))))
    return made


@dataclass
class Way:
    """One way a number may be: which spans cover it, and what may ever have been on it for that."""

    made: Register
    covered: dict[int, bool]
    ever: set[str] = field(default_factory=set)
    parts: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        kits = self.made.conversions.values()
        self.ever = {a.id for a in self.made.assemblies.values() if self.covers(*a.serials)}
        for _ in kits:
            self.ever |= {k.to for k in kits if self.covers(*k.serials) and self.ever & set(k.start)}
        for a in self.made.assemblies.values():
            self.parts |= {use.number for use in a.parts if a.id in self.ever}
        for k in kits:
            if self.covers(*k.serials) and self.ever & set(k.start):
                self.parts |= {use.number for use in k.adds}
        self.parts = self.after_acts(self.parts)

    def after_acts(self, parts: set[str]) -> set[str]:
        acts = self.made.supersessions.values()
        for _ in acts:
            there = (a for a in acts if self.covers(*a.serials) or not a.serials)
            parts = parts | {a.new[0].number for a in there if a.old[0].number in parts}
        return parts

    def covers(self, *several: SeriesSpan) -> bool:
        return any(self.covered[id(span)] for span in several)


def ways(made: Register, number: int) -> list[Way]:
    series = made.series["xa"]
    every: list[SeriesSpan] = [span for a in made.assemblies.values() for span in a.serials]
    every += [span for kit in made.conversions.values() for span in kit.serials]
    every += [span for act in made.supersessions.values() for span in act.serials]
    covers = [reach_of(span, series).covers(number) for span in every]
    choices = [(True, False) if c is Covers.MAYBE else (c is Covers.YES,) for c in covers]
    return [Way(made, {id(s): c for s, c in zip(every, way, strict=True)}) for way in product(*choices)]


def told(one: Shortfall, every: list[Way]) -> tuple[bool, bool]:
    """Whether a number is surely, and possibly, among those of a shortfall, by every way it may be."""
    made = every[0].made

    def settled(position: str) -> bool:
        there = (a for a in made.assemblies.values() if a.position == position)
        standard = [a for a in there if a.serials[0].fitted == "factory" and not a.serials[0].option]
        return sum(all(way.covers(*a.serials) for way in every) for a in standard) == 1

    def never(ids: set[str]) -> bool:
        return not any(ids & way.ever for way in every)

    match one:
        case Unreached(assemblies=(base,)):
            had = all(way.covers(*base.serials) for way in every)
            free = [not any(way.covers(*k.serials) for k in one.conversions) for way in every]
            return had and all(free), had and any(free)
        case PastBase():
            lack = never(set(one.conversion.start))
            on = [way.covers(one.span) for way in every]
            return lack and all(on) and settled(one.position), lack and any(on)
        case NeedUnmet(conversion=k):
            lack = never(set(one.need.assemblies)) and not never(set(k.start))
            on = [way.covers(*k.serials) for way in every]
            return lack and all(on) and settled(one.position), lack and any(on)
        case NeverHad(part=part):
            on = [way.covers(one.span) for way in every]
            lack = not any(part.number in way.parts for way in every)
            bare = {a.id for a in made.assemblies.values() if not a.parts}
            open_at = {p for p, ids in AT.items() if not settled(p) or not never(bare & set(ids))}
            perhaps = {
                other.number
                for other in made.parts.values()
                if open_at
                & ({u.assembly.position for u in other.uses} | {k.position for k in other.conversions})
            }
            may = any(part.number in way.after_acts(way.parts | perhaps) for way in every)
            return lack and all(on) and not may, lack and any(on)
    raise AssertionError(one)


@given(worlds())
def test_every_number_against_every_way_it_may_be(records: list[Record]) -> None:
    made = register(*records)
    ever = Ever(Fits(made))
    every = Shortfalls(ever).every
    for number in made.series["xa"].issued.numbers():
        possible = ways(made, number)
        for one in every:
            mine = number in one.numbers.surely, number in one.numbers.possibly
            assert mine == told(one, possible), (one, number)
    assert {identity(one) for one in every} >= {identity(one) for one in _candidates(made, ever)}


NONE = Reach(SpanSet(), SpanSet())


def identity(one: Shortfall) -> tuple[object, ...]:
    own = getattr(one, "need", None) or getattr(one, "part", None)
    return type(one), one.told_on[0].id, id(own) if own else None


def _candidates(made: Register, ever: Ever) -> Iterator[Shortfall]:
    """Those that there have to be: where by every way of a number something falls short."""
    series = made.series["xa"]
    numbers = {number: ways(made, number) for number in series.issued.numbers()}
    for conversion in made.conversions.values():
        starts = tuple(made.assemblies[id_] for id_ in conversion.start)
        one = PastBase(series, conversion.position, starts, NONE, conversion, conversion.serials[0])
        if any(told(one, every)[1] for every in numbers.values()):
            yield one
        for need in conversion.needs:
            wanted = tuple(made.assemblies[id_] for id_ in need.assemblies)
            unmet = NeedUnmet(series, need.position, wanted, NONE, conversion, need)
            if any(told(unmet, every)[1] for every in numbers.values()):
                yield unmet


def test_each_is_asked_at_a_place_of_its_own() -> None:
    """Two spans of one letter past its base, and two old parts of one act, are questions of their own."""
    needed = "- {position: drain, assemblies: [d], why: Oil}\n"
    need = f"needs:\n{needed}{needed.replace('Oil', 'Air')}"
    plug = (
        assembly("d", "first: 13, last: 20", position="drain"),
        assembly("e", "first: 1, last: 12", position="drain"),
    )
    lid, hat = (
        assembly("lid", "first: 1, last: 12", parts="P-1 P-2"),
        assembly("hat", "first: 13, last: 20", parts="P-3"),
    )
    letter = kit("k", "lid", "hat", "first: 1, last: 13", "first: 12, last: 14", more=need)
    records = (BOOK, lid, hat, letter, *plug, act("a", "P-1 P-2", "P-9", "first: 13, last: 14"))
    after = Answers(register(*records))
    asked = [q for q in after.questions if q.shortfall]
    assert len({anchor(q) for q in asked}) == len(asked) == 6
    opened = compared(register(BOOK, lid, hat, *plug), after.register).opened
    assert {anchor(q) for q in opened} >= {anchor(q) for q in asked}
