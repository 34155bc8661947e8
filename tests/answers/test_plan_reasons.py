"""What a plan says besides its steps, and which reason it gives where there is none: worked by hand."""

from __future__ import annotations

import pytest

from spanbook.answers import plan_search
from spanbook.answers.plans import NoPlan, Plan, Why
from tests.answers import test_plans_nested as nested
from tests.answers.test_plans import ids, kit, more, planned, refused, world

TAKES = "takes: [{position: pump, number: A}]\n"


def planned_there(plan: Plan | NoPlan) -> Plan:
    assert isinstance(plan, Plan), plan
    return plan


def back(plan: Plan) -> list[str]:
    assert plan.back is not None
    return ids(plan.back)


def test_the_way_back_is_told_where_something_that_was_known_changes() -> None:
    kits = (kit("on", "cover", "x", "y"), kit("off", "cover", "y", "x"))
    assert back(planned_there(planned(world(*kits), {"cover": "x"}, cover="y"))) == ["off"]
    assert isinstance(planned_there(planned(world(kits[0]), {"cover": "x"}, cover="y")).back, NoPlan)
    nothing = planned_there(planned(world(*kits), {"cover": "x"}, cover="x"))
    assert (nothing.steps, nothing.back) == ((), None)


def test_the_way_back_begins_without_what_went_with_what_was_around_it() -> None:
    made = nested.world(
        nested.kit("off", "filter", "f1", "f0"),
        nested.kit("on", "filter", "f0", "f1", "also: [{position: filter/valve, to: v0}]\n"),
    )
    plan = nested.planned(made, {"filter": "f1", "filter/valve": "v0"}, {"filter": "f0"})
    assert ids(plan) == ["off"]
    assert back(planned_there(plan)) == ["on"]


def test_advice_is_missed_where_a_part_was_taken_off_what_it_names() -> None:
    advice = "needs: [{position: pump, assemblies: [p0], why: It leaks, advice: true}]\n"
    holds = {"filter": "f0", "pump": "p0"}
    robbed = nested.world(nested.kit("k", "filter", "f0", "f1", TAKES + advice))
    assert [c.id for c, _ in planned_there(nested.planned(robbed, holds, {"filter": "f1"})).advised] == ["k"]
    whole = nested.world(nested.kit("k", "filter", "f0", "f1", advice))
    assert planned_there(nested.planned(whole, holds, {"filter": "f1"})).advised == ()


def test_what_a_step_needs_inside_of_what_it_takes_away_is_a_need_that_it_breaks() -> None:
    advice = "needs: [{position: pump, assemblies: [p1], why: It leaks, advice: true}]\n"
    need = "needs: [{position: filter/valve, assemblies: [v1], why: It must be open}]\n"
    made = nested.world(
        nested.kit("inside", "filter/valve", "v0", "v1", advice), nested.kit("k", "filter", "f1", "f0", need)
    )
    holds = {"filter": "f1", "filter/valve": "v0", "pump": "p0"}
    only = planned_there(nested.planned(made, holds, {"filter/valve": "v1"}))
    assert [c.id for c, _ in only.advised] == ["inside"]
    gone = refused(nested.planned(made, holds, {"filter": "f0"}))  # what is needed would go with the old one
    assert (gone.why, gone.need and gone.need[0].id) == (Why.BROKEN, "k")


def test_giving_up_is_not_said_where_something_is_out_of_reach(monkeypatch: pytest.MonkeyPatch) -> None:
    made = world(kit("a", "air", "m", "n"), kit("b", "cover", "y", "x"))
    monkeypatch.setattr(plan_search, "MOST_STATES", 0)
    assert refused(planned(made, {"air": "m"}, air="n")).why is Why.GAVE_UP
    found = refused(planned(made, {"air": "m", "cover": "x"}, air="n", cover="y"))
    assert (found.why, found.position) == (Why.NONE, "cover")


def test_what_cannot_be_had_together_is_told_of_a_position_that_is_not_as_wanted() -> None:
    made = world(
        kit("a", "cover", "x", "y", needs="valve: left; pump: wide"),
        kit("b", "pump", "narrow", "wide", needs="valve: right"),
        kit("c", "pump", "wide", "narrow", needs="valve: right"),
        kit("over", "valve", "left", "right"),
        kit("d", "air", "m", "n"),
    )
    holds = {"air": "m", "cover": "x", "pump": "narrow", "valve": "left"}
    found = refused(planned(made, holds, air="m", cover="y"))
    assert (found.why, found.position) == (Why.NOT_TOGETHER, "cover")


def test_where_it_is_known_what_is_there_nothing_is_said_to_be_unknown() -> None:
    made = world(kit("k", "cover", "w", "y"), kit("l", "cover", "x", "z"))
    found = refused(planned(made, {"cover": "x"}, cover="y"))
    assert (found.why, found.unknown) == (Why.NONE, None)


def test_what_a_step_changes_besides_may_be_in_the_way_of_its_need_though_nobody_knows_what_is_there() -> (
    None
):
    both = more(kit("k", "cover", "x", "y", needs="pump: wide"), "also: [{position: drain, to: d1}]\n")
    made = world(both, kit("m", "drain", "d1", "d2"), kit("n", "pump", "wide", "narrow"))
    found = refused(planned(made, {"cover": "x", "pump": "narrow"}, drain="d1"))
    assert (found.why, found.need and found.need[0].id) == (Why.UNMET, "k")


def test_the_need_in_the_way_is_the_first_that_cannot_be_met() -> None:
    made = world(
        kit("k", "cover", "x", "y", needs="air: m; pump: wide"),
        kit("n", "pump", "wide", "narrow"),
        kit("o", "air", "m", "o"),
    )
    found = refused(planned(made, {"air": "m", "cover": "x", "pump": "narrow"}, cover="y"))
    assert found.need is not None
    assert found.need[1].position == "pump"


def test_the_need_of_the_step_that_leads_there_at_once_is_told_before_others() -> None:
    made = world(
        kit("a", "cover", "x", "w", needs="pump: wide"),
        kit("b", "cover", "x", "y", needs="vent: v"),
        kit("c", "cover", "w", "y"),
        kit("d", "pump", "wide", "narrow"),
        kit("e", "vent", "v", "u"),
    )
    found = refused(planned(made, {"cover": "x", "pump": "narrow", "vent": "u"}, cover="y"))
    assert found.need is not None
    assert found.need[0].id == "b"


def test_what_a_step_takes_parts_off_is_a_need_of_it() -> None:
    made = nested.world(nested.kit("k", "filter", "f0", "f1", TAKES))
    found = refused(nested.planned(made, {"filter": "f0", "pump": "p2"}, {"filter": "f1"}))
    assert found.why is Why.UNMET
    assert found.need is not None
    conversion, need = found.need
    assert (conversion.id, need.position, need.assemblies, need.advice) == ("k", "pump", ("p0", "p1"), False)


def test_what_must_be_around_a_place_is_a_need_of_what_puts_something_inside() -> None:
    put = nested.kit("put", "pump", "p0", "p1", "also: [{position: filter/valve, to: v0}]\n")
    found = refused(nested.planned(nested.world(put), {"pump": "p0", "filter": "f0"}, {"filter/valve": "v0"}))
    assert found.why is Why.UNMET
    assert found.need is not None
    conversion, need = found.need
    assert (conversion.id, need.position, need.assemblies, need.advice) == (
        "put",
        "filter",
        ("f1", "f2"),
        False,
    )


def test_the_need_of_what_leads_elsewhere_is_not_in_the_way() -> None:
    also = more(kit("k", "cover", "x", "y", needs="pump: wide"), "also: [{position: drain, to: d1}]\n")
    made = world(also, kit("m", "drain", "d2", "d1"), kit("n", "pump", "wide", "narrow"))
    found = refused(planned(made, {"cover": "x", "drain": "d1", "pump": "narrow"}, drain="d2"))
    assert (found.why, found.need) == (Why.NONE, None)


def test_what_one_step_takes_off_two_positions_is_missing_at_each() -> None:
    both = "takes: [{position: pump, number: A}, {position: filter/valve, number: V}]\n"
    made = nested.world(nested.kit("k", "filter", "f1", "f2", both))
    holds = {"filter": "f1", "filter/valve": "v0", "pump": "p0"}
    plan = planned_there(nested.planned(made, holds, {"filter": "f2"}))
    assert [(at, key.number.upper()) for at, key, _ in plan.left] == [("filter/valve", "V"), ("pump", "A")]


def test_what_would_bring_the_place_is_told_with_the_need_in_its_way() -> None:
    """The old filter has no place for a valve; the kit that brings a new one with its valve needs a pump."""
    also = "also: [{position: filter/valve, to: v1}]\n"
    needs = "needs: [{position: pump, assemblies: [p1], why: It leaks}]\n"
    made = nested.world(nested.kit("k", "filter", "f0", "f1", also + needs))
    found = refused(nested.planned(made, {"filter": "f0", "pump": "p0"}, {"filter/valve": "v1"}))
    assert (found.why, found.need and found.need[0].id) == (Why.UNMET, "k")
