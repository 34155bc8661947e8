"""One order from many accounts: small worlds by hand, and random accounts of a random thing."""

from __future__ import annotations

import json
import random
from collections.abc import Iterable, Mapping

from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.freed import Freed
from spanbook.answers.lines import Lists
from spanbook.answers.readings import read_serial
from spanbook.answers.strip_down import Sheet, renewals, sheet_of
from spanbook.reading.records import Record
from spanbook.register.link import build
from tests.support.registers import MACHINE, POSITIONS, record

LID = record(
    "kind: assembly\nid: lid\ntitle: Lid\nposition: cover\nserials:\n- {series: xa, first: 1, last: 9}\n"
    "parts:\n" + "".join(f"- {{number: P-{n}, name: Part {n}, quantity: 9}}\n" for n in range(1, 9)),
    "assembly",
    "lid",
)
BASE = [record(MACHINE % "20", "machine", "x"), record(POSITIONS, "positions", "positions"), LID]
Step = Mapping[str, object]


def step(number: int, *after: int, **more: object) -> Step:
    """Takes part P-number off, only after those numbers."""
    waits = [{"step": f"s{n}", "why": f"{n} holds"} for n in after]
    return {
        "id": f"s{number}",
        "do": f"Take {number}",
        "frees": [{"number": f"P-{number}"}],
        **({"after": waits} if waits else {}),
        **more,
    }


def account(who: str, *steps: Step, date: str = "2024", **more: object) -> Record:
    held = {
        "kind": "strip-down",
        "id": who,
        "assembly": "lid",
        "date": date,
        "seen-by": who,
        "steps": list(steps),
        **more,
    }
    return record(json.dumps(held), "strip-down", who)


def sheet(*accounts: Record) -> Sheet:
    made = build([*BASE, *accounts])
    found = sheet_of(Lists(made), made.assemblies["lid"], made.strip_downs["lid"])
    assert found
    return found


def order(found: Sheet) -> list[str]:
    return ["+".join(numbers(one.frees)) or one.said[0].step.id for one in found.steps]


def numbers(places: Iterable[Freed]) -> list[str]:
    """The numbers that accounts name."""
    return [key.number for freed in places for key in freed.told]


def test_nobody_has_told_and_nothing_is_made_up() -> None:
    made = build(BASE)
    assert made.strip_downs == {}
    assert sheet_of(Lists(made), made.assemblies["lid"], ()) is None


def test_one_account_is_kept_as_it_was_done() -> None:
    found = sheet(account("a", step(3), step(1), step(2)))
    assert order(found) == ["p-3", "p-1", "p-2"]
    assert not found.either


def test_steps_are_aligned_by_what_comes_off() -> None:
    found = sheet(account("a", step(1), step(2)), account("b", {**step(1), "id": "other"}, step(2)))
    assert [len(one.said) for one in found.steps] == [2, 2]


def test_what_one_took_off_at_once_and_another_one_by_one_is_two_steps() -> None:
    both = {"id": "both", "do": "Take both", "frees": [{"number": "P-1"}, {"number": "P-2"}]}
    found = sheet(account("a", both), account("b", step(1), step(3), step(2)))
    assert order(found) == ["p-1", "p-3", "p-2"]
    assert [len(one.said) for one in found.steps] == [2, 1, 2]


def test_a_part_that_only_one_names_goes_with_what_it_came_off_with() -> None:
    both = {"id": "both", "do": "Take both", "frees": [{"number": "P-1"}, {"number": "P-2"}]}
    assert order(sheet(account("a", both), account("b", step(1)))) == ["p-1+p-2"]


def test_a_step_that_frees_nothing_is_one_by_its_id() -> None:
    mark = {"id": "mark", "do": "Scribe it"}
    found = sheet(account("a", mark, step(1)), account("b", mark, step(1)))
    assert order(found) == ["mark", "p-1"]
    assert len(found.steps[0].said) == 2


def test_mere_sequence_is_dropped_when_another_did_otherwise() -> None:
    found = sheet(account("a", step(1), step(2)), account("b", step(2), step(1)))
    assert found.either == ((0, 1),)
    assert not found.musts


def test_what_must_be_is_kept_against_mere_sequence_and_told_as_disputed() -> None:
    found = sheet(account("a", step(1), step(2, 1)), account("b", step(2), step(1)))
    assert order(found) == ["p-1", "p-2"]
    (must,) = found.musts
    assert must.disputed
    assert [one.id for one in must.against] == ["b"]
    assert [(one.id, why) for one, why in must.said] == [("a", "1 holds")]
    assert not found.either


def test_nothing_is_either_way_that_a_chain_of_musts_orders() -> None:
    found = sheet(account("a", step(1), step(2, 1), step(3, 2)), account("b", step(3), step(1)))
    assert not found.either
    assert order(found) == ["p-1", "p-2", "p-3"]


def test_of_two_that_say_the_reverse_more_accounts_win_then_the_older() -> None:
    first, second = step(1), step(2, 1)
    other = (step(2), step(1, 2))
    found = sheet(account("a", first, second), account("b", *other, date="2020"))
    assert order(found) == ["p-2", "p-1"]
    assert len(found.dropped) == 1
    more = sheet(account("a", first, second), account("b", *other, date="2020"), account("c", first, second))
    assert order(more) == ["p-1", "p-2"]


def test_the_tool_in_hand_is_used_on_before_it_is_changed() -> None:
    spanner, driver = ({"tools": [{"what": what}]} for what in ("Spanner", "Screwdriver"))
    one = account("a", step(1, **spanner), step(2, **driver), step(3, **spanner))
    other = account("b", step(1, **spanner), step(3, **spanner), step(2, **driver))
    assert order(sheet(one, other)) == ["p-1", "p-3", "p-2"]


def test_what_is_renewed_stays_and_is_not_told_of() -> None:
    found = sheet(
        account("a", step(1, renew=True), step(2), stays=[{"number": "P-3"}]),
        account("b", {**step(1), "frees": [{"number": "P-1", "quantity": 2}]}),
    )
    (renewed,) = found.renewed
    assert [(one.key.number, one.quantity) for one in renewed.choices] == [("p-1", 2)]
    assert numbers(found.stays) == ["p-3"]
    assert [freed.keys[0].number for freed in found.untold] == ["p-4", "p-5", "p-6", "p-7", "p-8"]


def test_cautions_are_the_assemblys_and_the_steps_each_once() -> None:
    found = sheet(account("a", step(1, cautions=["spring"]), step(2, cautions=["oil", "spring"])))
    assert found.cautions == ("spring", "oil")


@given(st.integers(0, 10**9))
def test_no_order_breaks_what_must_be(seed: int) -> None:
    """Random accounts that all follow one hidden partial order, each telling some of it with its reasons."""
    draw = random.Random(seed)
    parts = list(range(1, draw.randint(3, 8)))
    hidden = {(a, b) for a in parts for b in parts if a < b and draw.random() < 0.4}
    accounts = []
    for who in "abc"[: draw.randint(1, 3)]:
        order_done: list[int] = []
        waiting = set(parts)
        while waiting:
            ready = sorted(n for n in waiting if not any((m, n) in hidden for m in waiting))
            order_done.append(draw.choice(ready))
            waiting.discard(order_done[-1])
        told = [
            step(n, *(m for m, k in sorted(hidden) if k == n and draw.random() < 0.5)) for n in order_done
        ]
        accounts.append(account(who, *told))
    found = sheet(*accounts)
    place = {number: at for at, one in enumerate(found.steps) for number in numbers(one.frees)}
    assert sorted(place.values()) == list(range(len(parts)))
    assert not found.dropped
    assert all(must.first < must.then and not must.disputed for must in found.musts)
    said = {(int(str(e.step)[1:]), int(s.id[1:])) for a in found.accounts for s in a.steps for e in s.after}
    assert all(place[f"p-{m}"] < place[f"p-{n}"] for m, n in said)
    everyone = {
        (m, n)
        for m in parts
        for n in parts
        if all(
            [s.id for s in a.steps].index(f"s{m}") < [s.id for s in a.steps].index(f"s{n}")
            for a in found.accounts
        )
        and m != n
    }
    assert all(place[f"p-{m}"] < place[f"p-{n}"] for m, n in everyone)


@given(st.permutations("abc"))
def test_the_order_of_accounts_does_not_matter(names: list[str]) -> None:
    told = {
        "a": account("a", step(1), step(2, 1), step(3)),
        "b": account("b", step(3), step(2), step(1)),
        "c": account("c", step(2), step(1), step(4, 3)),
    }
    assert order(sheet(*(told[name] for name in names))) == order(sheet(*told.values()))


def test_pairs_that_nothing_orders_are_told_by_their_places_in_the_sheet() -> None:
    found = sheet(account("a", step(3), step(2), step(1)), account("b", step(1), step(2), step(3)))
    assert sorted(order(found)) == ["p-1", "p-2", "p-3"]
    assert found.either == ((0, 1), (0, 2), (1, 2))


def test_musts_are_told_by_their_places_and_so_are_those_that_were_dropped() -> None:
    found = sheet(
        account("a", step(4), step(3, 4), step(1), step(2, 1), date="2020"),
        account("b", step(3), step(4, 3), step(2), step(1, 2), date="2021"),
    )
    assert order(found) == ["p-4", "p-3", "p-1", "p-2"]
    assert [(must.first, must.then) for must in found.musts] == [(0, 1), (2, 3)]
    assert [(must.first, must.then) for must in found.dropped] == [(1, 0), (3, 2)]
    assert [[one.id for one, _ in must.said] for must in found.dropped] == [["b"], ["b"]]


def test_of_two_accounts_of_one_day_the_first_by_its_id_is_kept() -> None:
    found = sheet(account("b", step(2), step(1, 2)), account("a", step(1), step(2, 1)))
    assert order(found) == ["p-1", "p-2"]


def test_who_says_that_it_never_goes_back_and_what_lies_on_the_tray() -> None:
    found = sheet(account("a", step(2), step(1, renew=True)), account("b", step(2), step(1)))
    (renewed,) = found.renewed
    assert [one.account.id for one in found.renewed_by(renewed)] == ["a"]
    assert numbers(found.tray) == ["p-2", "p-1"]
    made = build([*BASE])
    (ordered,) = renewals(made, renewed)
    (only,) = ordered.alternatives
    assert [(leaf.key.number, leaf.quantity) for leaf in only.leaves] == [
        ("p-1", renewed.choices[0].quantity)
    ]


def test_what_several_left_on_is_told_once_and_is_not_untold() -> None:
    left = [{"number": "P-3"}]
    found = sheet(account("a", step(1), stays=left), account("b", step(1), stays=left))
    (stays,) = found.stays
    assert {key.number for key in stays.told} == {"p-3"}
    assert [freed.keys[0].number for freed in found.untold] == ["p-2", "p-4", "p-5", "p-6", "p-7", "p-8"]


def test_the_cautions_of_an_assembly_stand_first() -> None:
    told = account("a", step(1, cautions=["spring", "hot"]))
    text = "kind: assembly\nid: lid\ntitle: Lid\ncautions: [hot]\nposition: cover\nserials:\n"
    hot = record(f"{text}- {{series: xa, first: 1, last: 9}}\n", "assembly", "lid")
    made = build([*BASE[:2], hot, told])
    found = sheet_of(Lists(made), made.assemblies["lid"], made.strip_downs["lid"])
    assert found
    assert found.cautions == ("hot", "spring")


def test_what_must_be_is_not_either_way_though_the_first_who_told_did_it_in_reverse() -> None:
    found = sheet(account("a", step(2), step(1)), account("b", step(1), step(2, 1)))
    assert found.either == ()
    assert order(found) == ["p-1", "p-2"]


def test_what_a_machine_never_had_lies_on_no_tray_of_it_and_is_not_renewed() -> None:
    text = (
        "kind: assembly\nid: lid\ntitle: Lid\nposition: cover\nserials:\n- {series: xa, first: 1, last: 9}\n"
    )
    limited = "serials: [{series: xa, first: 1, last: 4}]"
    parts = f"parts:\n- {{number: P-1, name: Early, {limited}}}\n- {{number: P-2, name: Every}}\n"
    some = record(text + parts, "assembly", "lid")
    made = build([*BASE[:2], some, account("a", step(1, renew=True), step(2, renew=True))])

    def on(serial: str) -> Sheet:
        reading = read_serial(made, serial)[0]
        found = sheet_of(Lists(made), made.assemblies["lid"], made.strip_downs["lid"], reading)
        assert found
        return found

    assert (numbers(on("XA 3").tray), numbers(on("XA 3").renewed)) == (["p-1", "p-2"], ["p-1", "p-2"])
    assert (numbers(on("XA 6").tray), numbers(on("XA 6").renewed)) == (["p-2"], ["p-2"])
