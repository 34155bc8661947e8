"""Why a record does not fit its schema, in words a collector understands."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from difflib import get_close_matches
from typing import Any

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms, ngettext
from spanbook.reading import meant, uncertain, unquoted
from spanbook.reading.examples import Examples
from spanbook.reading.fault import Fault, deepest
from spanbook.reading.nodes import Node, Step, place_of
from spanbook.reading.phrases import all_of, any_of
from spanbook.reading.problems import Finding, Place, Problem, Rule
from spanbook.reading.roles import Role
from spanbook.reading.schemas import KindSchema, Schema
from spanbook.reading.value_rules import (
    KEY_MISSING,
    KEY_UNKNOWN,
    TEXT_UNQUOTED,
    VALUE_AMOUNT,
    VALUE_FORM,
    VALUE_KIND,
    VALUE_NOT_A_CHOICE,
    VALUE_NOT_A_NUMBER,
    VALUE_ONE_OF,
)
from spanbook.reading.write import flow

_POINT = marked("write its decimals after a point: {}")
_LIMITS = {
    "minimum": marked("it is a number of {} or more"),
    "maximum": marked("it is a number of {} or less"),
}
_COUNTS = {
    "minLength": marked_forms("write at least {} character", "write at least {} characters"),
    "maxLength": marked_forms("write at most {} character", "write at most {} characters"),
    "minItems": marked_forms("write at least one entry", "write at least {} entries"),
    "maxItems": marked_forms("write at most one entry", "write at most {} entries"),
    "minProperties": marked_forms("write at least one entry", "write at least {} entries"),
}
_KINDS = {
    "array": marked("write a list"),
    "object": marked("write a group of keys"),
    "string": marked("write text"),
    "integer": marked("write a whole number"),
    "boolean": marked("write true or false"),
}


def explain(path: str, node: Node, value: Any, schema: KindSchema, examples: Examples) -> Iterator[Problem]:
    """Every problem of a value that its schema refuses. Never nothing: the gate has spoken.

    What is shown to be copied comes from `examples` where they have something, or else from the schema.
    """
    told: set[_Said] = set()
    for error in schema.explainer.iter_errors(value):
        for said in _said(Fault.of(deepest(error), path, node, schema, examples)):
            if said not in told:  # of several keys that are missing every error names all
                told.add(said)
                rule, where, key, read, todo = said
                line, column = place_of(node, where, key=key)
                yield Problem.of(rule, Finding(Place(path, line, column), read, todo))


# The rule, where it is broken, whether at the key rather than the value, what was read, what to do.
_Said = tuple[Rule, tuple[Step, ...], bool, str, str]


def _said(fault: Fault) -> Iterator[_Said]:
    several = {"additionalProperties": _unknown_keys, "required": _missing_keys}
    if fault.keyword in several:
        yield from several[fault.keyword](fault)
        return
    said: Callable[[Fault], _Said] = {
        "enum": _choice,
        "const": _choice,
        "type": _type,
        "anyOf": _forms,
        "oneOf": _one_of,
        "pattern": _form,
        "uniqueItems": _twice,
    }.get(fault.keyword, _amount)
    yield said(fault)


def _unknown_keys(fault: Fault) -> Iterator[_Said]:
    known = list(fault.schema.get("properties", {}))
    patterns = fault.schema.get("patternProperties")
    cut = unquoted.by_commas(fault.node, fault.where, known)
    for unknown in fault.instance:
        if unknown in known or _year_like(unknown, patterns):
            continue
        where = (*fault.where, unknown)
        if unknown in cut:
            if whole := cut[unknown]:
                read = _("a comma ends the text before {}").format(_shown(unknown))
                yield TEXT_UNQUOTED, where, True, read, _with_point(fault, whole) or unquoted.to_quote(whole)
            continue
        if patterns:
            todo = _("a key here is a year of four digits")
        elif close := get_close_matches(unknown.lower(), known, n=1, cutoff=0.7):
            todo = _("did you mean {}?").format(close[0])
        else:
            todo = _("delete it, or use one of {}").format(", ".join(known))
        read = _("the key {} is not known here").format(_shown(unknown))
        yield KEY_UNKNOWN, where, True, read, todo


def _with_point(fault: Fault, whole: str) -> str:
    """What to do where the comma that cut a value was meant as a point, or between thousands; else empty."""
    key, typed = whole.split(": ", 1)
    field, text = fault.kind.at((*fault.where, key)), typed.strip('"')
    if "pattern" not in field and (number := meant.of_thousands(text)):
        return _("write the number without commas: {}").format(f"{key}: {number}")
    pointed = _pointed(field, text)
    return _(_POINT).format(f"{key}: {pointed}") if pointed else ""


def _pointed(schema: Schema, text: str) -> str:
    """A number typed with a decimal comma as its field takes it; empty where it is none or takes none."""
    pointed = meant.pointed(text)
    return pointed if _takes(schema, pointed) and not _takes(schema, text) else ""


def _takes(schema: Schema, text: str) -> bool:
    wanted = schema.get("pattern", "")
    return bool(wanted and re.search(wanted, text))


def _year_like(key: str, patterns: dict[str, Any] | None) -> bool:
    return bool(patterns) and len(key) == 4 and key.isascii() and key.isdigit() and key[0] in "12"


def _missing_keys(fault: Fault) -> Iterator[_Said]:
    for missing in fault.wanted:
        if missing in fault.instance:
            continue
        example = _unit_typed(fault, missing) or fault.example(missing)
        add = _("add {key}, for example {key}: {example}") if example else _("add {key}")
        todo = add.format(key=missing, example=example)
        yield KEY_MISSING, fault.where, False, _("{} is missing").format(missing), todo


def _unit_typed(fault: Fault, missing: str) -> str:
    """The unit that was typed behind the number, where it is missing in its own place; empty otherwise."""
    known = fault.kind.at((*fault.where, missing)).get("enum", []) if missing == "unit" else []
    typed = meant.amount(str(fault.instance.get("value", ""))) if known else None
    return flow(typed.unit) if typed and typed.unit in known else ""


def _choice(fault: Fault) -> _Said:
    allowed = fault.schema.get("enum") or [fault.schema["const"]]
    read = str(fault.instance)
    known = [str(a) for a in allowed]
    close = [one] if (one := meant.unit(read)) in known else get_close_matches(read.lower(), known, n=1)
    every = ", ".join(map(str, allowed))
    todo = (
        _("did you mean {close}? It is one of: {every}").format(close=close[0], every=every)
        if close
        else _("it is one of: {}").format(every)
    )
    return VALUE_NOT_A_CHOICE, fault.where, False, _read(fault), todo


def _type(fault: Fault) -> _Said:
    wanted = fault.schema.get("type")
    if wanted == "string" and (whole := unquoted.by_colon(fault.instance)):
        read = _("a colon and a space in a text make a key of what stands before them")
        return TEXT_UNQUOTED, fault.where, False, read, unquoted.to_quote(whole)
    rule = VALUE_NOT_A_NUMBER if wanted == "integer" and isinstance(fault.instance, str) else VALUE_KIND
    example = fault.example()
    todo = _(_KINDS[str(wanted)]) if str(wanted) in _KINDS else _("write {}").format(wanted)
    if example:
        todo = _("{todo}, for example {example}").format(todo=todo, example=example)
    return rule, fault.where, False, _read(fault), todo


def _forms(fault: Fault) -> _Said:
    examples = fault.schema.get("examples", [""])
    # Where no pair may stand, as for the last number of a series, there is nothing uncertain to write.
    if any(isinstance(one, list) for one in examples) and (todo := uncertain.todo(fault.instance)):
        return VALUE_KIND, fault.where, False, _read(fault), todo
    *others, last = [one if isinstance(one, str) else flow(one) for one in examples]
    todo = _("write it like {}").format(
        _("{first} or {last}").format(first=", ".join(others), last=last) if others else last
    )
    return VALUE_KIND, fault.where, False, _read(fault), todo


def _one_of(fault: Fault) -> _Said:
    names = [choice["required"][0] for choice in fault.wanted]
    given = [name for name in names if name in fault.instance]
    read = _("it names {}").format(all_of(given)) if given else _("it names nothing")
    return VALUE_ONE_OF, fault.where, False, read, _("name either {}").format(any_of(names))


def _form(fault: Fault) -> _Said:
    text = str(fault.instance)
    if not text:
        return _empty(fault)
    if todo := _meant(fault, text):
        return VALUE_FORM, fault.where, False, _read(fault), todo
    todo = (
        _("write it on one line, with nothing blank at its ends, like {}")
        if text != text.strip() or "\n" in text
        else _("write it like {}")
    )
    return VALUE_FORM, fault.where, False, _read(fault), todo.format(fault.example())


def _meant(fault: Fault, text: str) -> str:
    """What to do about a text that is out of form and can be told in form; empty for any other."""
    if pointed := _pointed(fault.schema, text):
        return _(_POINT).format(pointed)
    if (day := meant.day(text)) and _takes(fault.schema, day[0]):
        told = (
            marked("write it like {}")
            if day[1]
            else marked("there is no such day; write the right one, or the month alone: {}")
        )
        return _(told).format(day[0])
    if (amount := meant.amount(text)) and _takes(fault.schema, amount.number) and fault.where:
        key = str(fault.where[-1])
        known = fault.kind.at((*fault.where[:-1], "unit")).get("enum", [])
        if amount.unit in known:
            both = f"{key}: {flow(amount.number)}, unit: {flow(amount.unit)}"
            return _("write the number alone and its unit beside it: {}").format(both)
        return _("write it like {}").format(flow(amount.number)) if not amount.unit else ""
    field = fault.kind.at(fault.where)
    if field.get("x-role") == Role.NUMBER and (bare := meant.unquoted(text)):
        return _("the quotes would be part of it; write straight ones, or none: {}").format(flow(bare))
    named = field.get("x-role") == Role.REFERENCE and fault.examples.called(field["x-to"], text)
    return _("did you mean {}?").format(named) if named else ""


def _empty(fault: Fault) -> _Said:
    todo = _("write something, for example {}, or delete the key if it may be left out")
    return VALUE_FORM, fault.where, False, _("read nothing"), todo.format(fault.example())


def _twice(fault: Fault) -> _Said:
    seen = [x for i, x in enumerate(fault.instance) if x in fault.instance[:i]]
    read = _("{} stands there twice").format(_shown(seen[0]))
    return VALUE_AMOUNT, fault.where, False, read, _("keep one of them")


def _amount(fault: Fault) -> _Said:
    if fault.instance == "":
        return _empty(fault)
    if fault.instance == []:
        todo = _("write at least one entry, or delete the key if it may be left out")
        return VALUE_AMOUNT, fault.where, False, _read(fault), todo
    limit = fault.wanted
    if fault.keyword in _COUNTS:
        todo = ngettext(*_COUNTS[fault.keyword], limit).format(limit)
    elif fault.keyword in _LIMITS:
        todo = _(_LIMITS[fault.keyword]).format(limit)
    else:
        todo = _("it takes another value ({})").format(fault.keyword)
    return VALUE_AMOUNT, fault.where, False, _read(fault), todo


def _read(fault: Fault) -> str:
    return _("read nothing") if fault.instance == "" else _("read {}").format(_shown(fault.instance))


def _shown(value: object) -> str:
    """What was read, in a sentence. What is to be copied into a file is written by `flow`."""
    text = value if isinstance(value, str) else flow(value)
    text = text if len(text) <= 60 else text[:57] + "..."
    return _("“{}”").format(text) if isinstance(value, str) else text
