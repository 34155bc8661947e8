"""Why a record does not fit its schema, in words a collector understands."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, cast

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms, ngettext
from spanbook.reading import uncertain, unquoted
from spanbook.reading.examples import Examples
from spanbook.reading.nodes import Node, Step, place_of
from spanbook.reading.phrases import all_of, any_of
from spanbook.reading.problems import Finding, Place, Problem, Rule
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

if TYPE_CHECKING:
    from jsonschema import ValidationError

_COMMA = re.compile(r"[0-9]+,[0-9]+")
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
        for said in _said(_Fault.of(_deepest(error), path, node, schema, examples)):
            if said not in told:  # of several keys that are missing every error names all
                told.add(said)
                rule, where, key, read, todo = said
                line, column = place_of(node, where, key=key)
                yield Problem.of(rule, Finding(Place(path, line, column), read, todo))


# The rule, where it is broken, whether at the key rather than the value, what was read, what to do.
_Said = tuple[Rule, tuple[Step, ...], bool, str, str]


@dataclass(frozen=True, slots=True)
class _Fault:
    where: tuple[Step, ...]
    keyword: str
    instance: Any
    schema: Schema
    wanted: Any
    path: str
    node: Node
    kind: KindSchema
    examples: Examples

    @classmethod
    def of(
        cls, error: ValidationError, path: str, node: Node, kind: KindSchema, examples: Examples
    ) -> _Fault:
        where = tuple(error.absolute_path)
        wanted = error.validator_value
        schema = cast(Schema, error.schema)
        return cls(where, str(error.validator), error.instance, schema, wanted, path, node, kind, examples)

    def example(self, *below: str) -> str:
        """What may stand here, or under a key here, as it is typed; empty where nothing is known."""
        steps = (*self.where, *below)
        field = self.kind.at(steps)
        found = self.examples.of(self.kind, steps, self.path)
        known = [found] if found is not None else field.get("examples") or self.schema.get("examples", [])
        return flow(known[0]) if known and (found is not None or below or "examples" in field) else ""


def _deepest(error: ValidationError) -> ValidationError:
    """Of several forms a value may take, the one meant is the one of the right sort, if there is one."""
    if error.validator != "anyOf" or not error.context:
        return error
    other_sort = ("type", "const", "enum", "pattern")
    meant = [e for e in error.context if e.validator not in other_sort or len(e.path) > 0]
    return _deepest(min(meant, key=lambda e: -len(e.path))) if meant else error


def _said(fault: _Fault) -> Iterator[_Said]:
    several = {"additionalProperties": _unknown_keys, "required": _missing_keys}
    if fault.keyword in several:
        yield from several[fault.keyword](fault)
        return
    said: Callable[[_Fault], _Said] = {
        "enum": _choice,
        "const": _choice,
        "type": _type,
        "anyOf": _forms,
        "oneOf": _one_of,
        "pattern": _form,
        "uniqueItems": _twice,
    }.get(fault.keyword, _amount)
    yield said(fault)


def _unknown_keys(fault: _Fault) -> Iterator[_Said]:
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


def _with_point(fault: _Fault, whole: str) -> str:
    """What to do where the comma that cut a value was meant as a decimal point; empty where it was not."""
    key, typed = whole.split(": ", 1)
    pointed = _pointed(fault.kind.at((*fault.where, key)), typed.strip('"'))
    return _(_POINT).format(f"{key}: {pointed}") if pointed else ""


def _pointed(schema: Schema, text: str) -> str:
    """A number typed with a decimal comma as its field takes it; empty where it is none or takes none."""
    pointed = text.replace(",", ".")
    wanted = schema.get("pattern", "")
    number = _COMMA.fullmatch(text) and wanted and not re.search(wanted, text) and re.search(wanted, pointed)
    return pointed if number else ""


def _year_like(key: str, patterns: dict[str, Any] | None) -> bool:
    return bool(patterns) and len(key) == 4 and key.isascii() and key.isdigit() and key[0] in "12"


def _missing_keys(fault: _Fault) -> Iterator[_Said]:
    for missing in fault.wanted:
        if missing in fault.instance:
            continue
        example = fault.example(missing)
        add = _("add {key}, for example {key}: {example}") if example else _("add {key}")
        todo = add.format(key=missing, example=example)
        yield KEY_MISSING, fault.where, False, _("{} is missing").format(missing), todo


def _choice(fault: _Fault) -> _Said:
    allowed = fault.schema.get("enum") or [fault.schema["const"]]
    close = get_close_matches(str(fault.instance).lower(), [str(a) for a in allowed], n=1)
    every = ", ".join(map(str, allowed))
    todo = (
        _("did you mean {close}? It is one of: {every}").format(close=close[0], every=every)
        if close
        else _("it is one of: {}").format(every)
    )
    return VALUE_NOT_A_CHOICE, fault.where, False, _read(fault), todo


def _type(fault: _Fault) -> _Said:
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


def _forms(fault: _Fault) -> _Said:
    examples = fault.schema.get("examples", [""])
    # Where no pair may stand, as for the last number of a series, there is nothing uncertain to write.
    if any(isinstance(one, list) for one in examples) and (todo := uncertain.todo(fault.instance)):
        return VALUE_KIND, fault.where, False, _read(fault), todo
    *others, last = [one if isinstance(one, str) else flow(one) for one in examples]
    todo = _("write it like {}").format(
        _("{first} or {last}").format(first=", ".join(others), last=last) if others else last
    )
    return VALUE_KIND, fault.where, False, _read(fault), todo


def _one_of(fault: _Fault) -> _Said:
    names = [choice["required"][0] for choice in fault.wanted]
    given = [name for name in names if name in fault.instance]
    read = _("it names {}").format(all_of(given)) if given else _("it names nothing")
    return VALUE_ONE_OF, fault.where, False, read, _("name either {}").format(any_of(names))


def _form(fault: _Fault) -> _Said:
    text = str(fault.instance)
    if not text:
        return _empty(fault)
    if pointed := _pointed(fault.schema, text):
        return VALUE_FORM, fault.where, False, _read(fault), _(_POINT).format(pointed)
    todo = (
        _("write it on one line, with nothing blank at its ends, like {}")
        if text != text.strip() or "\n" in text
        else _("write it like {}")
    )
    return VALUE_FORM, fault.where, False, _read(fault), todo.format(fault.example())


def _empty(fault: _Fault) -> _Said:
    todo = _("write something, for example {}, or delete the key if it may be left out")
    return VALUE_FORM, fault.where, False, _("read nothing"), todo.format(fault.example())


def _twice(fault: _Fault) -> _Said:
    seen = [x for i, x in enumerate(fault.instance) if x in fault.instance[:i]]
    read = _("{} stands there twice").format(_shown(seen[0]))
    return VALUE_AMOUNT, fault.where, False, read, _("keep one of them")


def _amount(fault: _Fault) -> _Said:
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


def _read(fault: _Fault) -> str:
    return _("read nothing") if fault.instance == "" else _("read {}").format(_shown(fault.instance))


def _shown(value: object) -> str:
    """What was read, in a sentence. What is to be copied into a file is written by `flow`."""
    text = value if isinstance(value, str) else flow(value)
    text = text if len(text) <= 60 else text[:57] + "..."
    return _("“{}”").format(text) if isinstance(value, str) else text
