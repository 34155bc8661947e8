"""Signs that teardowns saw: for or against what is recorded of a thing, and told where they differ."""

from __future__ import annotations

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.reasons import ShowedSign
from spanbook.answers.signs_seen import signs_seen
from spanbook.answers.standing import Standing
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.register.statements import Shows
from spanbook.rules.signs import CHECKS
from spanbook.site.common import Site
from spanbook.site.views import pages_of
from spanbook.site.views import teardown as view
from spanbook.wording.signs import seen_otherwise_words
from spanbook.wording.standings import shown_words
from tests.support.demo import shown
from tests.support.registers import record, register

LIST = record(
    "kind: signs\nsigns:\n"
    "- {id: lid, asks: The lid, answers: [nuts, bolt, clamp]}\n"
    "- {id: bowls, asks: Bowls, answers: [one, two]}\n"
    "- {id: vanes, asks: Vanes, answers: [six, eight]}\n",
    "signs",
    "signs",
)
BOOK = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")


def thing(id_: str, signs: str, first: int = 1, last: int = 5, extra: str = "") -> Record:
    return record(
        f"kind: assembly\nid: {id_}\ntitle: {id_.upper()}\nposition: cover\n"
        f"serials: [{{series: xa, first: {first}, last: {last}}}]\nsigns: [{signs}]\n{extra}",
        "assembly",
        id_,
    )


A = thing("a", "{sign: lid, seen: nuts, or: [clamp], evidence: [{source: book}]}")
B = thing("b", "{sign: lid, seen: bolt}, {sign: bowls, seen: two}", 10, 12)
PUMP = thing("pump", "{sign: bowls, seen: one}", 13, 14, 'parts: [{number: "P-6", name: Wheel}]\n')
WHEEL = record(
    'kind: part\nid: wheel\nnumber: "P-6"\nname: Wheel\n'
    "signs: [{sign: vanes, seen: six, evidence: [{source: book}]}]\n",
    "part",
    "wheel",
)


def saw(signs: str, named: str = "assembly: a", condition: str = "untouched") -> Record:
    return record(
        f'kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: "XA 3"\nseries: xa\ncondition: {condition}\n'
        f"found: [{{position: cover, {named}, signs: [{signs}]}}]\n",
        "teardown",
        "t",
    )


def world(seen: Record) -> Register:
    return register(LIST, BOOK, A, B, PUMP, WHEEL, seen)


def told(held: Register, name: str) -> list[str]:
    return [
        f"{found.read}; {found.todo}"
        for check in CHECKS
        if check.rule.name == name
        for found in check.find(held)
    ]


@pytest.mark.parametrize(
    ("seen", "condition", "standing"),
    [
        ("nuts", "untouched", Standing.CONFIRMED),
        ("clamp", "likely-original", Standing.CONFIRMED),
        ("bolt", "untouched", Standing.DISPUTED),
        ("bolt", "altered", Standing.PRINTED),
        ("nuts", "unknown", Standing.PRINTED),
    ],
)
def test_what_was_seen_bears_on_what_is_recorded(seen: str, condition: str, standing: Standing) -> None:
    held = world(saw(f"{{sign: lid, seen: {seen}}}", condition=condition))
    (subject,) = (s for s in held.said if isinstance(s, Shows) and s.record is held.assemblies["a"])
    judged = Answers(held).standing(subject)
    assert judged.standing is standing
    (shown,) = (reason for reason in judged.reasons if isinstance(reason.shown, ShowedSign))
    assert shown_words(shown) == f"saw {seen}; condition {condition}"


def test_another_sign_one_of_several_and_a_part_bear_on_nothing_of_the_thing() -> None:
    for seen in (
        saw("{sign: bowls, seen: one}"),
        saw("{sign: lid, seen: bolt}", "one-of: [a, b]"),
        saw('{sign: lid, seen: bolt, number: "P-6"}'),
    ):
        held = world(seen)
        (subject,) = (s for s in held.said if isinstance(s, Shows) and s.record is held.assemblies["a"])
        assert Answers(held).standing(subject).standing is Standing.PRINTED


@pytest.mark.parametrize(("seen", "standing"), [("six", Standing.CONFIRMED), ("eight", Standing.DISPUTED)])
def test_what_was_seen_on_a_part_bears_on_the_part(seen: str, standing: Standing) -> None:
    held = world(saw(f'{{sign: vanes, seen: {seen}, number: "P-6"}}', "assembly: pump"))
    (subject,) = (s for s in held.said if isinstance(s, Shows) and s.record is not held.assemblies["a"])
    assert Answers(held).standing(subject).standing is standing
    assert bool(told(held, "sign-seen-otherwise")) is (standing is Standing.DISPUTED)


def test_what_differs_is_told_with_what_it_may_be() -> None:
    assert told(world(saw("{sign: lid, seen: clamp}")), "sign-seen-otherwise") == []
    (line,) = told(world(saw("{sign: lid, seen: bolt}")), "sign-seen-otherwise")
    assert line == (
        "bolt was seen, and lid is recorded of a with nuts or clamp; if it was b, name that; "
        "if it was made so too, add that under or in its record"
    )


def test_of_one_of_several_it_differs_where_it_does_from_all() -> None:
    either = "one-of: [a, b]"
    assert told(world(saw("{sign: lid, seen: bolt}", either)), "sign-seen-otherwise") == []
    # Of the a nobody has recorded how many bowls it has.
    assert told(world(saw("{sign: bowls, seen: one}", either)), "sign-seen-otherwise") == []
    other = thing("c", "{sign: lid, seen: bolt}", 15, 16)
    held = register(LIST, BOOK, B, other, saw("{sign: lid, seen: nuts}", "one-of: [b, c]"))
    (line,) = told(held, "sign-seen-otherwise")
    assert line.startswith(
        "nuts was seen, and lid is recorded of b with bolt and c with bolt; if it was none"
    )
    (one,) = signs_seen(held)
    assert seen_otherwise_words(one) == "recorded: bolt of the B and bolt of the C"


def test_what_only_a_teardown_says_is_told_unless_the_machine_was_changed() -> None:
    assert told(world(saw("{sign: bowls, seen: one}")), "sign-seen-unsaid")
    assert told(world(saw("{sign: bowls, seen: one}", condition="altered")), "sign-seen-unsaid") == []
    assert told(world(saw("{sign: bowls, seen: one}", "one-of: [a, b]")), "sign-seen-unsaid") == []
    assert told(world(saw("{sign: lid, seen: nuts}")), "sign-seen-unsaid") == []


def test_an_answer_is_one_of_its_sign_and_said_once() -> None:
    (line,) = told(world(saw("{sign: lid, seen: screws}")), "sign-answer-unknown")
    assert line.startswith("screws is no answer of lid; write one of nuts, bolt, clamp")
    twice = "{sign: lid, seen: nuts}, {sign: lid, seen: bolt}"
    assert len(told(world(saw(twice)), "sign-twice")) == 1
    apart = '{sign: lid, seen: nuts}, {sign: lid, seen: bolt, number: "P-6"}'
    assert told(world(saw(apart)), "sign-twice") == []


def test_two_teardowns_that_saw_the_same_are_not_one_that_says_it_twice() -> None:
    first = saw("{sign: lid, seen: nuts}")
    again = record(first.origin.data.decode().replace("id: t\n", "id: u\n"), "teardown", "u")
    assert told(register(LIST, BOOK, A, B, first, again), "sign-twice") == []


def test_the_page_of_a_teardown_says_what_was_seen_and_what_is_recorded() -> None:
    site = Site(Answers(world(saw("{sign: lid, seen: bolt}"))))
    (page,) = pages_of(site, view.EACH)
    assert isinstance(page.view, view.TeardownView)
    (line,) = page.view.found[0].signs
    assert (line.asks, line.seen, line.otherwise, line.part) == (
        "The lid",
        "bolt",
        "recorded: nuts or clamp of the A",
        None,
    )
    assert page.view.found[0].key is None


def test_where_nobody_could_name_it_the_page_leads_to_what_it_may_be() -> None:
    page = next(one for one in pages_of(shown(), view.EACH) if one.address == "teardowns/hk-1402-brindle/")
    assert isinstance(page.view, view.TeardownView)
    (find,) = page.view.found
    assert find.key
    assert find.key.address == "holding/lubrication/oil-filter/?bowls=one&serial=HK+1402"
