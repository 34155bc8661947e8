"""Why a record does not fit its schema, in words a collector understands."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any, cast

from jsonschema import ValidationError

from spanbook.reading import uncertain, unquoted
from spanbook.reading.examples import Examples
from spanbook.reading.nodes import Node, Step, place_of
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.reading.schemas import KindSchema, Schema
from spanbook.reading.write import flow

_HEAD = "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\n"
_GOOD = _HEAD + "title: A letter\nclass: correspondence\n"
_ACT = "# file: content/supersessions/pad.yml\nkind: supersession\nid: pad\nold: [{number: P1}]\n"
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
TEXT_UNQUOTED = Rule(
    "text-unquoted",
    Severity.ERROR,
    "Inside braces a comma ends a value, and anywhere a colon and a space end a key: such text is quoted.",
    bad=_GOOD_PART.replace("{source: book}", "{source: book, at: p. 31, fig. 12}"),
    good=_GOOD_PART.replace("{source: book}", '{source: book, at: "p. 31, fig. 12"}'),
)
VALUE_NOT_A_NUMBER = Rule(
    "value-not-a-number",
    Severity.ERROR,
    "Where a whole number is wanted, nothing is guessed from words or other notations.",
    bad=_ACT + "new: [{number: P2, quantity: two}]\n",
    good=_ACT + "new: [{number: P2, quantity: 2}]\n",
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
    TEXT_UNQUOTED,
    VALUE_NOT_A_NUMBER,
    VALUE_NOT_A_CHOICE,
    VALUE_FORM,
    VALUE_KIND,
    VALUE_AMOUNT,
    VALUE_ONE_OF,
)

_AMOUNTS = {
    "minimum": "it is a number of {limit} or more",
    "maximum": "it is a number of {limit} or less",
    "minLength": "write at least {limit} characters",
    "maxLength": "write at most {limit} characters",
    "minItems": "write at least {entries}",
    "maxItems": "write at most {entries}",
    "minProperties": "write at least {entries}",
}
_KINDS = {
    "array": "a list",
    "object": "a group of keys",
    "string": "text",
    "integer": "a whole number",
    "boolean": "true or false",
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
                read = f"a comma ends the text before {_shown(unknown)}"
                yield TEXT_UNQUOTED, where, True, read, unquoted.to_quote(whole)
            continue
        if patterns:
            todo = "a key here is a year of four digits"
        elif close := get_close_matches(unknown.lower(), known, n=1, cutoff=0.7):
            todo = f"did you mean {close[0]}?"
        else:
            todo = f"delete it, or use one of {', '.join(known)}"
        yield KEY_UNKNOWN, where, True, f"the key {_shown(unknown)} is not known here", todo


def _year_like(key: str, patterns: dict[str, Any] | None) -> bool:
    return bool(patterns) and len(key) == 4 and key.isascii() and key.isdigit() and key[0] in "12"


def _missing_keys(fault: _Fault) -> Iterator[_Said]:
    for missing in fault.wanted:
        if missing in fault.instance:
            continue
        example = fault.example(missing)
        todo = f"add {missing}" + (f", for example {missing}: {example}" if example else "")
        yield KEY_MISSING, fault.where, False, f"{missing} is missing", todo


def _choice(fault: _Fault) -> _Said:
    allowed = fault.schema.get("enum") or [fault.schema["const"]]
    close = get_close_matches(str(fault.instance).lower(), [str(a) for a in allowed], n=1)
    one_of = f"is one of: {', '.join(map(str, allowed))}"
    todo = f"did you mean {close[0]}? It {one_of}" if close else f"it {one_of}"
    return VALUE_NOT_A_CHOICE, fault.where, False, _read(fault), todo


def _type(fault: _Fault) -> _Said:
    wanted = fault.schema.get("type")
    if wanted == "string" and (whole := unquoted.by_colon(fault.instance)):
        read = "a colon and a space in a text make a key of what stands before them"
        return TEXT_UNQUOTED, fault.where, False, read, unquoted.to_quote(whole)
    rule = VALUE_NOT_A_NUMBER if wanted == "integer" and isinstance(fault.instance, str) else VALUE_KIND
    example = fault.example()
    todo = f"write {_KINDS.get(str(wanted), str(wanted))}" + (f", for example {example}" if example else "")
    return rule, fault.where, False, _read(fault), todo


def _forms(fault: _Fault) -> _Said:
    examples = fault.schema.get("examples", [""])
    # Where no pair may stand, as for the last number of a series, there is nothing uncertain to write.
    if any(isinstance(one, list) for one in examples) and (todo := uncertain.todo(fault.instance)):
        return VALUE_KIND, fault.where, False, _read(fault), todo
    *others, last = [one if isinstance(one, str) else flow(one) for one in examples]
    todo = f"write it like {', '.join(others)} or {last}" if others else f"write it like {last}"
    return VALUE_KIND, fault.where, False, _read(fault), todo


def _one_of(fault: _Fault) -> _Said:
    names = [choice["required"][0] for choice in fault.wanted]
    given = [name for name in names if name in fault.instance]
    read = f"it names {' and '.join(given)}" if given else "it names nothing"
    return VALUE_ONE_OF, fault.where, False, read, f"name either {' or '.join(names)}"


def _form(fault: _Fault) -> _Said:
    text = str(fault.instance)
    if not text:
        return _empty(fault)
    untidy = "on one line, with nothing blank at its ends, " if text != text.strip() or "\n" in text else ""
    return VALUE_FORM, fault.where, False, _read(fault), f"write it {untidy}like {fault.example()}"


def _empty(fault: _Fault) -> _Said:
    todo = f"write something, for example {fault.example()}, or delete the key if it may be left out"
    return VALUE_FORM, fault.where, False, "read nothing", todo


def _twice(fault: _Fault) -> _Said:
    seen = [x for i, x in enumerate(fault.instance) if x in fault.instance[:i]]
    return VALUE_AMOUNT, fault.where, False, f"{_shown(seen[0])} stands there twice", "keep one of them"


def _amount(fault: _Fault) -> _Said:
    if fault.instance == "":
        return _empty(fault)
    limit = fault.wanted
    wanted = _AMOUNTS.get(fault.keyword, f"it takes another value ({fault.keyword})")
    todo = wanted.format(limit=limit, entries="one entry" if limit == 1 else f"{limit} entries")
    return VALUE_AMOUNT, fault.where, False, _read(fault), todo


def _read(fault: _Fault) -> str:
    return "read nothing" if fault.instance == "" else f"read {_shown(fault.instance)}"


def _shown(value: object) -> str:
    """What was read, in a sentence. What is to be copied into a file is written by `flow`."""
    text = value if isinstance(value, str) else flow(value)
    text = text if len(text) <= 60 else text[:57] + "..."
    return f"“{text}”" if isinstance(value, str) else text
