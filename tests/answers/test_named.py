"""Evidence for and against: what each piece does, and that none is lost or does the contrary."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.applicability import Fits
from spanbook.answers.reasons import Had, Reason, Says, Weight
from spanbook.answers.standing import Judgement, Standing, standings
from tests.support.registers import lid, record, register
from tests.support.rows import each_row

SORTS = {"book": "parts-book", "ledger": "ledger", "print": "period-photograph", "tale": "recollection"}
SOURCES = [
    record(f"kind: source\nid: {id_}\ntitle: {id_}\nclass: {sort}\n", "source", id_)
    for id_, sort in SORTS.items()
]
# Machines 3 and 4 had it, 5 had the other; 6 was altered and had the other.
SEEN = {
    "t3": ("low", "untouched"),
    "t4": ("low", "altered"),
    "t5": ("high", "untouched"),
    "t6": ("high", "altered"),
}
HAD = [
    record(
        f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: XA {id_[1:]}\nseries: xa\n"
        f"condition: {condition}\nfound: [{{position: cover, assembly: {held}}}]\n",
        "teardown",
        id_,
    )
    for id_, (held, condition) in SEEN.items()
]
RANK = (
    Standing.DISPUTED,
    Standing.UNSUPPORTED,
    Standing.RECALLED,
    Standing.PRINTED,
    Standing.SEEN,
    Standing.CONFIRMED,
)


def piece(by: str, against: bool = False, note: str = "") -> str:
    sort = "source" if by in SORTS else "teardown"
    more = ", against: true" if against else ""
    return f"{{{sort}: {by}{more}{f', note: {note}' if note else ''}}}"


def judged(evidence: list[str], *looks: str) -> Judgement:
    """A span from 1 to 12 on some evidence, beside teardowns that bear on it or are only named."""
    named = [look for look in HAD if look.id in looks or any(look.id in one for one in evidence)]
    other = lid("high", "first: 13, last: 20", "{source: book}")
    made = register(*SOURCES, *named, lid("low", "first: 1, last: 12", ", ".join(evidence)), other)
    return next(j for s, j in standings(Fits(made)).items() if s.record.id == "low")


def told(found: Judgement) -> list[tuple[str, str, str | None]]:
    return [(reason.by.id, str(reason.weight), reason.note) for reason in found.reasons]


@each_row(
    ("evidence", "standing", "reasons"),
    [
        ([piece("book"), piece("ledger", True, "ends at 9")], "disputed", {"ledger": "against"}),
        ([piece("book"), piece("print", True)], "disputed", {"print": "against"}),
        ([piece("book"), piece("tale", True)], "disputed", {"tale": "against"}),
        ([piece("ledger")], "printed", {"ledger": "printed"}),
        ([piece("tale")], "recalled", {"tale": "recalled"}),
        ([piece("book", True)], "disputed", {"book": "against"}),
        # A machine that bears on it does what was seen on it, however it is named; altered, it is set aside.
        ([piece("book"), piece("t5")], "disputed", {"t5": "against"}),
        ([piece("book"), piece("t5", True)], "disputed", {"t5": "against"}),
        ([piece("book"), piece("t6", True)], "printed", {"t6": "set-aside"}),
        ([piece("book"), piece("t4")], "printed", {"t4": "set-aside"}),
    ],
)
def test_what_a_piece_does(evidence: list[str], standing: str, reasons: dict[str, str]) -> None:
    found = judged(evidence)
    assert str(found.standing) == standing
    weights = {id_: weight for id_, weight, _ in told(found)}
    assert {id_: weights[id_] for id_ in reasons} == reasons


def test_an_altered_machine_that_is_named_for_another_place_decides_nothing() -> None:
    """It bears on nothing here, and neither for nor against is anything seen on it."""
    drain = record(HAD[-1].origin.data.decode().replace("cover, assembly: high", "drain"), "teardown", "t6")
    for against in (False, True):
        low = lid("low", "first: 1, last: 12", piece("t6", against))
        (found,) = (j for s, j in standings(Fits(register(drain, low))).items() if s.record.id == "low")
        assert told(found) == [("t6", "set-aside", None)]


def test_one_source_may_speak_for_and_against_at_two_places() -> None:
    found = judged([piece("book", note="p. 3"), piece("book", True, "a slip")])
    assert told(found) == [("book", "printed", "p. 3"), ("book", "against", "a slip")]


def test_what_is_seen_on_a_machine_keeps_the_remark_of_the_record() -> None:
    (found,) = (reason for reason in judged([piece("t5", True, "no boss")]).reasons if reason.by.id == "t5")
    assert (found.weight, found.note) == (Weight.AGAINST, "no boss")
    assert isinstance(found.shown, Had)
    twice = judged([piece("t3", note="paint"), piece("t3", note="seal")])
    assert told(twice) == [("t3", "seen", "paint; seal")]
    (placed,) = judged(["{teardown: t3, at: lid}"]).reasons
    assert (placed.weight, placed.at) == (Weight.SEEN, "lid")


def test_who_is_named_against_what_it_was_seen_to_have_stands_on_both_sides() -> None:
    assert told(judged([piece("t3", True, "fitted by a smith")])) == [
        ("t3", "against", "fitted by a smith"),
        ("t3", "seen", None),
    ]


PIECES = st.lists(
    st.builds(piece, st.sampled_from([*SORTS, *SEEN]), st.booleans(), st.sampled_from(["", "a", "b"])),
    max_size=4,
)
LOOKS = st.lists(st.sampled_from(list(SEEN)), max_size=3, unique=True)
WHO = st.sampled_from([*SORTS, *SEEN])


@given(PIECES, LOOKS, WHO)
def test_a_piece_for_never_lowers_a_standing_and_one_against_never_raises_it(
    evidence: list[str], looks: list[str], who: str
) -> None:
    """But a machine that is named bears on the statement by itself, so it is there before and after."""
    looks = [*looks, *([who] if who in SEEN else [])]
    before = RANK.index(judged(evidence, *looks).standing)
    assert RANK.index(judged([*evidence, piece(who)], *looks).standing) >= before
    assert RANK.index(judged([*evidence, piece(who, True)], *looks).standing) <= before


@given(st.permutations([piece("book"), piece("tale", True, "n"), piece("t3", note="a"), piece("t5", True)]))
def test_the_order_of_evidence_never_matters(evidence: list[str]) -> None:
    assert sorted(told(judged(evidence)), key=str) == sorted(
        [("book", "printed", None), ("tale", "against", "n"), ("t3", "seen", "a"), ("t5", "against", None)],
        key=str,
    )


def claims(*spans: str) -> dict[str, Judgement]:
    lines = "".join(f"- {{series: xa, anchor: a-{i}, {span}}}\n" for i, span in enumerate(spans))
    low = record(f"kind: assembly\nid: low\ntitle: L\nposition: cover\nserials:\n{lines}", "assembly", "low")
    return {
        s.anchor: j
        for s, j in standings(Fits(register(*SOURCES, *HAD[:1], low))).items()
        if s.anchor[:2] == "a-"
    }


def said(reasons: tuple[Reason, ...]) -> list[tuple[str, str, bool]]:
    return [(r.by.id, str(r.weight), isinstance(r.shown, Says)) for r in reasons if r.by.id != "t3"]


def test_claims_that_cannot_both_be_dispute_one_another_by_their_sources() -> None:
    found = claims(
        "first: 1, last: 5, evidence: [{source: book}]",
        "first: 1, last: 12, evidence: [{source: tale, note: sure}]",
        "first: 1, last: 14",
    )
    assert {judgement.standing for judgement in found.values()} == {Standing.DISPUTED}
    assert said(found["a-0"].reasons) == [
        ("book", "printed", False),
        ("tale", "against", True),
        ("low", "against", True),
    ]
    assert [r.note for r in found["a-0"].reasons if r.by.id == "tale"] == ["sure"]
    assert said(found["a-2"].reasons) == [("book", "against", True), ("tale", "against", True)]


def test_claims_that_say_the_same_support_one_another_and_the_exact_the_vague() -> None:
    same = claims("first: 1, last: 5, evidence: [{source: book}]", "first: 1, last: 5")
    assert said(same["a-1"].reasons) == said(same["a-0"].reasons) == [("book", "printed", False)]
    exact = claims("first: 1, last: [5, 12]", "first: 1, last: 10, evidence: [{source: ledger}]")
    assert said(exact["a-0"].reasons) == [("ledger", "printed", True)]
    vague = claims("first: 1, last: [5, 12], evidence: [{source: ledger}]", "first: 1, last: 10")
    assert said(vague["a-1"].reasons) == []


@pytest.mark.parametrize(
    ("at", "reasons"),
    [
        ("p. 2", [("ledger", "printed", False), ("ledger", "printed", True)]),
        ("p. 1", [("ledger", "printed", False)]),
    ],
)
def test_another_claim_of_the_same_source_counts_at_another_place_of_it(
    at: str, reasons: list[object]
) -> None:
    vague = "first: 1, last: [5, 12], evidence: [{source: ledger, at: p. 1}]"
    exact = f"first: 1, last: 10, evidence: [{{source: ledger, at: {at}}}]"
    assert said(claims(vague, exact)["a-0"].reasons) == reasons


def test_a_machine_weighs_against_the_claim_that_it_is_outside_of() -> None:
    found = claims(
        "first: 4, last: 12, evidence: [{source: book}]", "first: 1, last: 12, evidence: [{source: ledger}]"
    )
    weights = {anchor: {r.by.id: str(r.weight) for r in j.reasons} for anchor, j in found.items()}
    assert weights["a-0"]["t3"] == "against"
    assert weights["a-1"]["t3"] == "seen"


SPAN = st.builds(
    lambda first, last, by: f"first: {min(first)}, last: {last}, evidence: [{piece(by)}]",
    st.tuples(st.integers(1, 5), st.integers(1, 5)),
    st.sampled_from(["5", "12", "[5, 12]", "unknown"]),
    st.sampled_from(list(SORTS)),
)


@given(st.lists(SPAN, min_size=1, max_size=3, unique=True))
def test_a_claim_that_says_the_same_never_lowers_a_standing(spans: list[str]) -> None:
    before = claims(*spans)["a-0"].standing
    bare = spans[0].split(", evidence")[0]
    for source in SORTS:
        after = claims(*spans, f"{bare}, evidence: [{piece(source)}]")["a-0"].standing
        assert RANK.index(after) >= RANK.index(before)


@given(st.lists(SPAN, min_size=2, max_size=3, unique=True), st.randoms())
def test_the_order_of_claims_never_matters_to_their_standings(spans: list[str], random: Random) -> None:
    def stand(some: list[str]) -> dict[str, tuple[Standing, list[object]]]:
        found = claims(*some).values()
        told = [(j.standing, sorted(map(str, said(j.reasons)))) for j in found]
        return dict(zip(some, told, strict=True))  # type: ignore[arg-type]

    plain = stand(spans)
    random.shuffle(spans)
    assert stand(spans) == plain
