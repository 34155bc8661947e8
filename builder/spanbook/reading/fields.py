"""The fields of a form, from the schema of a kind: what a record may hold, in the order to ask for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from gettext import NullTranslations
from typing import Any

from spanbook.ground.language import catalogues, gettext, pgettext
from spanbook.reading.kinds import KINDS
from spanbook.reading.roles import Role
from spanbook.reading.schemas import bundled
from spanbook.reading.shapes import kinds_named

Schema = Mapping[str, Any]


class Sort(StrEnum):
    """How a field is asked for, and what is written for it.

    text, notes (several lines), choice (one of some words): a text. integer: a number. yes: true or nothing.
    bound: a number, two of them, or a word. texts: several texts. pairs: several pairs of numbers. groups:
    several things with fields of their own. table: a number, or a letter, for each of several years.
    """

    TEXT = "text"
    NOTES = "notes"
    CHOICE = "choice"
    INTEGER = "integer"
    YES = "yes"
    BOUND = "bound"
    TEXTS = "texts"
    PAIRS = "pairs"
    GROUPS = "groups"
    TABLE = "table"


# The lists that a form has of what is no record by itself.
_LISTS = {"position": "positions", "series": "series", "caution": "cautions", "sign": "signs"}
# What the site keeps order by, and no collector brings along; an id is suggested.
_LAST = (Role.ID, Role.FORMER, Role.ANCHOR)
_NUMBER = "[0-9]{1,12}"
CHOICE = "choice in a form"  # what tells such a word from the same in a sentence
UNIT = "unit"  # the key of what is a sign and no word, in any language
EXAMPLE = "example in a form"  # what tells such words from the same in a sentence
# The definitions of what a collector says in words of their own: every language has its own examples of them.
# Of what is measured it has none: the words of sizes are understood in English.
_WORDED = ("#/$defs/line", "#/$defs/notes")


@dataclass(frozen=True, slots=True)
class Field:
    """`order` is its place in the schema, and so in the file; fields are listed as they are asked for.

    `help` is what the schema says of the field, as a form asks for it where that is otherwise (`x-asks`).
    `least` is how many entries a list has, `begun` how many where it has any. `assumed` tells whether
    something is taken for it where it is left out. `again` tells of groups inside of groups that are the
    same: their entries have the fields of those around them. `worded` tells of an example in words.
    """

    key: str
    sort: Sort
    title: str
    help: str
    required: bool
    order: int
    example: str
    pattern: str | None = None
    most: int | None = None
    choices: tuple[str, ...] = ()
    pick: str | None = None
    last: bool = False
    item: str = ""
    least: int = 0
    begun: int = 0
    assumed: bool = False
    fields: tuple[Field, ...] = ()
    again: bool = False
    worded: bool = False


def title_of(kind: str) -> str:
    """What a record of a kind is called."""
    return pgettext("kind", bundled(kind)["title"])


def asked_of(kind: str) -> str:
    """What a kind is for, as its form says it."""
    schema = bundled(kind)
    return gettext(schema.get("x-asks") or schema["description"])


def choice_words(choice: str) -> str:
    """One of the words that a field may have, as a form offers it."""
    return pgettext(CHOICE, choice.replace("-", " "))


def fields_of(kind: str) -> tuple[Field, ...]:
    """The fields of a kind, the required first, without the kind itself."""
    return _told(kind, catalogues())


@cache
def _told(kind: str, by: NullTranslations) -> tuple[Field, ...]:
    """As the language tells them that is spoken: `by` is what all of it is looked up in."""
    schema = bundled(kind)
    return _fields(schema, schema)


def _fields(schema: Schema, root: Schema, within: frozenset[str] = frozenset()) -> tuple[Field, ...]:
    """`within` are the names of the definitions around: the tree of positions refers to itself."""
    required = schema.get("required", ())
    made = (
        _field(key, order, below, key in required, root, within)
        for order, (key, below) in enumerate(schema["properties"].items())
        if key != "kind"
    )
    return tuple(sorted(made, key=lambda field: (field.last, not field.required)))


def _resolved(schema: Schema, root: Schema) -> dict[str, Any]:
    """A schema with what it refers to, its own words before the other's."""
    ref = schema.get("$ref")
    if ref is None:
        return dict(schema)
    whole = _resolved(root["$defs"][ref.removeprefix("#/$defs/")], root)
    if "description" in schema:
        whole.pop("x-asks", None)  # it asked for what the other says
    return {**whole, **schema}


def _field(key: str, order: int, raw: Schema, required: bool, root: Schema, within: frozenset[str]) -> Field:
    schema, ref = _resolved(raw, root), raw.get("$ref", "")
    again = ref in within
    items = _resolved(schema.get("items", {}), root)
    role = items.get("x-role") or schema.get("x-role")
    sort = _sort(schema, items)
    shape = items if sort in (Sort.TEXTS, Sort.PAIRS) else schema
    worded = (schema["items"] if sort is Sort.TEXTS else raw).get("$ref") in _WORDED
    if sort is Sort.TABLE:
        (below,) = schema["patternProperties"].values()
        items = shape = _resolved(below, root)
    example = _example(sort, (shape if sort is Sort.TABLE else schema)["examples"])
    return Field(
        key=key,
        sort=sort,
        title=gettext(schema["title"]),
        help=gettext(schema.get("x-asks") or schema["description"]),
        required=required,
        order=order,
        example=pgettext(EXAMPLE, example) if worded else example,
        pattern=_pattern(sort, schema, shape, root),
        most=shape.get("maxLength"),
        choices=tuple(schema.get("enum", ())),
        pick=schema.get("x-pick") or _pick(role, items.get("x-to") or schema.get("x-to", "")),
        last=role in _LAST,
        item=gettext(items.get("title", "")),
        least=schema.get("minItems", 0) if required else 0,
        begun=schema.get("minItems", 0),
        assumed="default" in schema,
        fields=_fields(items, root, within | {ref} - {""}) if sort is Sort.GROUPS and not again else (),
        again=again,
        worded=worded,
    )


def _pick(role: str | None, to: str) -> str | None:
    """What a field may be picked from: a list on the page, or whatever the finder has of a folder."""
    if role == Role.NUMBER:
        return f"{KINDS['part'].folder}/"
    if role == Role.OWNER:
        return "owners"
    if role == Role.SENSE:
        return "meanings"
    if role not in (Role.REFERENCE, Role.PLACE):
        return None
    return " ".join(f"{KINDS[kind].folder}/" for kind in kinds_named(to)) if to in KINDS else _LISTS[to]


def _sort(schema: Schema, items: Schema) -> Sort:
    if "anyOf" in schema:
        return Sort.BOUND
    if "patternProperties" in schema:
        return Sort.TABLE
    if "enum" in schema:
        return Sort.CHOICE
    if schema["type"] == "array":
        return {"string": Sort.TEXTS, "array": Sort.PAIRS, "object": Sort.GROUPS}[items["type"]]
    if schema["type"] == "string":
        return Sort.NOTES if schema["x-role"] == Role.MARKDOWN else Sort.TEXT
    return {"integer": Sort.INTEGER, "boolean": Sort.YES}[schema["type"]]


def _example(sort: Sort, examples: list[Any]) -> str:
    if sort in (Sort.GROUPS, Sort.YES):
        return ""
    if sort in (Sort.BOUND, Sort.TABLE):
        return "; ".join(map(as_typed, examples))
    return as_typed(examples[0][0] if sort in (Sort.TEXTS, Sort.PAIRS) else examples[0])


def as_typed(example: Any) -> str:
    """As it is typed into the form: 588 to 612 for a pair."""
    return " to ".join(map(str, example)) if isinstance(example, list) else str(example)


def _pattern(sort: Sort, schema: Schema, shape: Schema, root: Schema) -> str | None:
    """What an input holds the typed text to; the schema's own pattern without the ends that it implies."""
    if "anyOf" in shape:
        return "|".join(_bounds(shape, root))
    if sort is Sort.PAIRS:
        return _pair(shape, root)
    if sort is Sort.INTEGER:
        return _NUMBER
    pattern: str | None = shape.get("pattern")
    if pattern is None:
        return None
    return _whole(pattern)


def _whole(pattern: str) -> str:
    """An input's pattern is whole by itself, and wants braces escaped in a class."""
    whole = pattern.removeprefix("^").removesuffix("(?!\\n)").removesuffix("$")
    return whole.replace("[^{}", "[^\\{\\}")


def _pair(schema: Schema, root: Schema) -> str:
    """Two of what a pair holds."""
    items = _resolved(schema["items"], root)
    one = "|".join(_bounds(items if "anyOf" in items else {"anyOf": [items]}, root))
    return f"(?:{one}) to (?:{one})"


def _bounds(schema: Schema, root: Schema) -> Iterator[str]:
    for choice in schema["anyOf"]:
        one = _resolved(choice, root)
        if one.get("type") == "integer":
            yield _NUMBER
        elif one.get("type") == "array":
            yield _pair(one, root)
        elif "pattern" in one:
            yield _whole(one["pattern"])
        else:
            yield from one.get("enum", [one.get("const")])
