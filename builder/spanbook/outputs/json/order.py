"""What to order as a JSON object; `schema/answer-order.json` is its law."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from spanbook.answers.answers import Answers
from spanbook.answers.condition import Condition
from spanbook.answers.instead import Instead, Substitutes, Way
from spanbook.answers.listed import Listed
from spanbook.answers.onward import Dropped
from spanbook.answers.orders import Alternative, Grounds, Leaf, Orders, SetOrder
from spanbook.answers.standing import weakest
from spanbook.answers.supersession import End, Need, Step
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.json.codes import published, runs, supplied
from spanbook.outputs.json.lists import list_objects
from spanbook.reading.records import Supersession
from spanbook.register.model import Register

Object = dict[str, Any]


def as_object(
    answers: Answers,
    query: str,
    serial: str | None,
    need: Need,
    found: Orders,
    would: Substitutes,
    lists: Sequence[Listed],
) -> Object:
    """Every complete alternative as a flat list of leaves, what lists say of the number, what else would do,
    and the tree."""
    register = answers.register
    return {
        "query": query,
        "kind": "order",
        **_part(register, need.key),
        "quantity": need.quantity,
        "serial": serial,
        "year": found.year,
        "first-named": found.first_named,
        "lists": list_objects(answers.fits.lists, lists),
        "alternatives": [_alternative(answers, way) for way in found.alternatives],
        "more": found.more,
        "instead": [_instead(answers, one) for one in would.each],
        "more-instead": would.more,
        "tree": _need(register, need),
    }


def unanswered(query: str, why: str, suggestions: Iterable[str]) -> Object:
    """That a query cannot be answered, why, and what to try."""
    return {"query": query, "kind": "none", "why": why, "suggestions": list(suggestions)}


def _part(register: Register, key: PartKey) -> Object:
    named = {"number": register.parts[key].number, "by": key.by}
    return {**named, "means": key.sense} if key.sense else named


def _alternative(answers: Answers, way: Alternative) -> Object:
    leaves = [
        {
            **_part(answers.register, leaf.key),
            "quantity": leaf.quantity,
            "supplied": supplied(leaf),
            "ending": published(leaf.supply),
            **_grounds(answers, grounds),
        }
        for leaf, grounds in zip(way.leaves, way.of_leaf, strict=True)
    ]
    sets = [[_set(answers.register, one) for one in together] for together in way.sets]
    return {**_grounds(answers, way.grounds), "leaves": leaves, **({"sets": sets} if sets else {})}


def _set(register: Register, one: SetOrder) -> Object:
    """So many of a set, for what it is had, what one holds, what is left over of all, and what is ordered."""
    need = one.needed
    return {
        **_part(register, need.key),
        "quantity": need.quantity,
        "for": [_part(register, key) for key in need.covers],
        "holds": [{**_part(register, key), "quantity": n} for key, n in need.holds],
        "left": [{**_part(register, key), "quantity": n} for key, n in need.left],
        "today": [[_today(register, leaf) for leaf in way] for way in one.today],
    }


def _today(register: Register, leaf: Leaf) -> Object:
    return {**_part(register, leaf.key), "quantity": leaf.quantity, "ending": published(leaf.supply)}


def _grounds(answers: Answers, grounds: Grounds) -> Object:
    return {
        "applies": str(grounds.applies),
        "conditions": [_condition(one) for one in grounds.conditions],
        "acts": [_act(answers, act) for act in grounds.acts],
        "against": _ids(grounds.against),
    }


def _condition(condition: Condition) -> Object:
    """For whom: `only` is null where it is for every machine asked of."""
    return {
        "applies": str(condition.applies),
        "only": _only(condition),
        "after": list(condition.after),
        "done": list(condition.made),
        "not-done": list(condition.unmade),
    }


def _only(condition: Condition) -> list[Object] | None:
    return None if condition.machines is None else runs(condition.machines)


def _act(answers: Answers, act: Supersession) -> Object:
    """An act with its standing and the evidence it names."""
    evidence = [
        {"source": one.source, "teardown": one.teardown, "at": one.at, "against": one.against}
        for one in act.evidence
    ]
    return {"act": act.id, "standing": str(answers.standing(act).standing), "evidence": evidence}


def _ids(acts: Sequence[Supersession]) -> list[str]:
    return [act.id for act in acts]


def _instead(answers: Answers, one: Instead) -> Object:
    parts = [
        {**_part(answers.register, key), "endings": [published(fate) for fate in fates]}
        for key, fates in zip(one.keys, one.fates, strict=True)
    ]
    return {"parts": parts, "ways": [_way(answers, way) for way in one.ways]}


def _way(answers: Answers, way: Way) -> Object:
    acts = [{**_act(answers, hop.act), "back": hop.back} for hop in way.hops]
    standing = weakest(answers.standing(hop.act).standing for hop in way.hops)
    return {**_condition(way.condition), "standing": str(standing), "acts": acts}


def _need(register: Register, need: Need) -> Object:
    return {
        **_part(register, need.key),
        "quantity": need.quantity,
        "ending": published(need.ending) if need.ending else None,
        "ends": [_end(end) for end in need.ends],
        "acts": [_step(register, step) for step in need.steps],
        "dropped": [_dropped(dropped) for dropped in need.dropped],
    }


def _dropped(dropped: Dropped) -> Object:
    return {
        "act": dropped.act.id,
        "why": published(dropped.why),
        "back": dropped.back.id if dropped.back else None,
    }


def _end(end: End) -> Object:
    return {
        "ending": published(end.ending),
        "act": end.act.id if end.act else None,
        **_condition(end.condition),
        "against": _ids(end.against),
    }


def _step(register: Register, step: Step) -> Object:
    return {
        "act": step.act.id,
        "times": step.times,
        "spare": step.spare,
        "applies": str(step.condition.applies),
        "only": _only(step.condition),
        "against": _ids(step.against),
        "together": [{**_part(register, key), "quantity": n} for key, n in step.together],
        "gives": [_need(register, need) for need in step.gives],
        "needs": [_need(register, need) for need in step.besides],
        "conversions": [need.conversion for need in step.conversions],
    }
