"""Why a record does not fit its schema, in words a collector understands."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any, cast

from jsonschema import ValidationError

from spanbook.reading.nodes import Node, Step, place_of
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.reading.schemas import KindSchema, Schema

_HEAD = "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\n"
_GOOD = _HEAD + "title: A letter\nclass: correspondence\n"
_HEAD_PART = "# file: content/parts/pack.yml\nkind: part\nid: pack\n"
_GOOD_PART = _HEAD_PART + 'number: "X-1"\nname: Pack\nevidence:\n- {source: book}\n'

KEY_UNKNOWN = Rule(
    "key-unknown",
    Severity.ERROR,
    "A key that nobody reads is a statement lost; most are misspelt.",
    bad=_GOOD + "yaer: 1934\n",
    good=_GOOD + "year: 1934\n",
)
KEY_MISSING = Rule(
    "key-missing",
    Severity.ERROR,
    "Without it the record does not say what a record of its kind must say.",
    bad=_HEAD + "class: correspondence\n",
    good=_GOOD,
)
VALUE_NOT_A_NUMBER = Rule(
    "value-not-a-number",
    Severity.ERROR,
    "Where a whole number is wanted, nothing is guessed from words or other notations.",
    bad=_GOOD + "year: nineteen thirty-four\n",
    good=_GOOD + "year: 1934\n",
)
VALUE_NOT_A_CHOICE = Rule(
    "value-not-a-choice",
    Severity.ERROR,
    "Some values are a choice of a few words, so that pages can group and count by them.",
    bad=_HEAD + "title: A letter\nclass: letter\n",
    good=_GOOD,
)
VALUE_FORM = Rule(
    "value-form",
    Severity.ERROR,
    "Ids, dates, stamps and the like have a form, so that they can be looked up and put in order.",
    bad=_GOOD + "formerly: [Letter A]\n",
    good=_GOOD + "formerly: [letter-one]\n",
)
VALUE_KIND = Rule(
    "value-kind",
    Severity.ERROR,
    "A list stands where a list is wanted, a group of keys where those are, and text where text is.",
    bad=_GOOD + "formerly: letter-one\n",
    good=_GOOD + "formerly: [letter-one]\n",
)
VALUE_AMOUNT = Rule(
    "value-amount",
    Severity.ERROR,
    "Too many, too few, too long, too large or twice the same: nobody meant it so.",
    bad=_GOOD + "year: 19344\n",
    good=_GOOD + "year: 1934\n",
)
VALUE_ONE_OF = Rule(
    "value-one-of",
    Severity.ERROR,
    "Some entries name either one thing or another, never both and never neither.",
    bad=_GOOD_PART.replace("{source: book}", "{source: book, teardown: x-5-merrin}"),
    good=_GOOD_PART,
)
RULES = (
    KEY_UNKNOWN,
    KEY_MISSING,
    VALUE_NOT_A_NUMBER,
    VALUE_NOT_A_CHOICE,
    VALUE_FORM,
    VALUE_KIND,
    VALUE_AMOUNT,
    VALUE_ONE_OF,
)

_AMOUNTS = {
    "minimum": "a number of {limit} or more",
    "maximum": "a number of {limit} or less",
    "minLength": "at least {limit} characters",
    "maxLength": "at most {limit} characters",
    "minItems": "at least {limit} entries",
    "maxItems": "at most {limit} entries",
    "minProperties": "at least {limit} entries",
}
_KINDS = {
    "array": "a list",
    "object": "a group of keys",
    "string": "text",
    "integer": "a whole number",
    "boolean": "true or false",
}


def explain(path: str, node: Node, value: Any, schema: KindSchema) -> Iterator[Problem]:
    """Every problem of a value that its schema refuses. Never nothing: the gate has spoken."""
    told: set[_Said] = set()
    for error in schema.explainer.iter_errors(value):
        for said in _said(_Fault.of(_deepest(error))):
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

    @classmethod
    def of(cls, error: ValidationError) -> _Fault:
        where = tuple(error.absolute_path)
        return cls(
            where, str(error.validator), error.instance, cast(Schema, error.schema), error.validator_value
        )


def _deepest(error: ValidationError) -> ValidationError:
    """Of several forms a value may take, the one meant is the one of the right sort, if there is one."""
    if error.validator != "anyOf" or not error.context:
        return error
    meant = [e for e in error.context if e.validator not in ("type", "const", "enum") or len(e.path) > 0]
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
    for unknown in fault.instance:
        if unknown in known or _year_like(unknown, patterns):
            continue
        if patterns:
            todo = "a key here is a year of four digits"
        elif close := get_close_matches(unknown.lower(), known, n=1):
            todo = f"did you mean {close[0]}?"
        else:
            todo = f"delete it, or use one of {', '.join(known)}"
        yield KEY_UNKNOWN, (*fault.where, unknown), True, f"the key {_shown(unknown)} is not known here", todo


def _year_like(key: str, patterns: dict[str, Any] | None) -> bool:
    return bool(patterns) and len(key) == 4 and key.isascii() and key.isdigit() and key[0] in "12"


def _missing_keys(fault: _Fault) -> Iterator[_Said]:
    for missing in fault.wanted:
        if missing in fault.instance:
            continue
        example = fault.schema.get("properties", {}).get(missing, {}).get("examples")
        todo = f"add {missing}" + (f", for example {missing}: {_shown(example[0])}" if example else "")
        yield KEY_MISSING, fault.where, False, f"{missing} is missing", todo


def _choice(fault: _Fault) -> _Said:
    allowed = fault.schema.get("enum") or [fault.schema["const"]]
    close = get_close_matches(str(fault.instance).lower(), [str(a) for a in allowed], n=1)
    hint = f"did you mean {close[0]}? " if close else ""
    todo = f"{hint}It is one of: {', '.join(map(str, allowed))}"
    return VALUE_NOT_A_CHOICE, fault.where, False, f"read {_shown(fault.instance)}", todo


def _type(fault: _Fault) -> _Said:
    wanted = fault.schema.get("type")
    rule = VALUE_NOT_A_NUMBER if wanted == "integer" and isinstance(fault.instance, str) else VALUE_KIND
    return rule, fault.where, False, f"read {_shown(fault.instance)}", f"write {_a(wanted, fault)} here"


def _a(wanted: object, fault: _Fault) -> str:
    example = fault.schema.get("examples")
    return _KINDS.get(str(wanted), str(wanted)) + (f", such as {_shown(example[0])}," if example else "")


def _forms(fault: _Fault) -> _Said:
    examples = fault.schema.get("examples", [])
    shown = " or ".join(_shown(e) for e in examples)
    return VALUE_KIND, fault.where, False, f"read {_shown(fault.instance)}", f"write it like {shown}"


def _one_of(fault: _Fault) -> _Said:
    names = [choice["required"][0] for choice in fault.wanted]
    given = [name for name in names if name in fault.instance]
    read = f"it names {' and '.join(given)}" if given else "it names nothing"
    return VALUE_ONE_OF, fault.where, False, read, f"name either {' or '.join(names)}"


def _form(fault: _Fault) -> _Said:
    title = fault.schema.get("title", "value").lower()
    example = fault.schema.get("examples", [""])[0]
    read = f"read {_shown(fault.instance)}"
    return VALUE_FORM, fault.where, False, read, f"write the {title} like {_shown(example)}"


def _twice(fault: _Fault) -> _Said:
    seen = [x for i, x in enumerate(fault.instance) if x in fault.instance[:i]]
    return VALUE_AMOUNT, fault.where, False, f"{_shown(seen[0])} stands there twice", "keep one of them"


def _amount(fault: _Fault) -> _Said:
    wanted = _AMOUNTS.get(fault.keyword, f"another value ({fault.keyword})")
    todo = f"it takes {wanted.format(limit=fault.wanted)}"
    return VALUE_AMOUNT, fault.where, False, f"read {_shown(fault.instance)}", todo


def _shown(value: object) -> str:
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    text = text if len(text) <= 60 else text[:57] + "..."
    return f"“{text}”" if isinstance(value, str) else text
