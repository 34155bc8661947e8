"""The schemas: loaded, bundled one a kind, as fast gate, as patient explainer and as guide for typing."""

from __future__ import annotations

import json
import re
import unicodedata
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import jsonschema_rs

if TYPE_CHECKING:
    from jsonschema import Draft202012Validator

Schema = dict[str, Any]


@dataclass(slots=True)
class Guide:
    """What the schema asks for at one place, as far as it decides how text is read."""

    integer: bool = False
    boolean: bool = False
    words: dict[str, str] = field(default_factory=dict)  # by their bare spelling, see `typed`
    properties: dict[str, Guide] = field(default_factory=dict)
    patterns: list[tuple[re.Pattern[str], Guide]] = field(default_factory=list)
    items: Guide | None = None

    def below(self, key: str) -> Guide | None:
        """The guide for a key; None for a key the schema does not know."""
        if key in self.properties:
            return self.properties[key]
        return next((guide for pattern, guide in self.patterns if pattern.search(key)), None)


@dataclass(frozen=True, slots=True)
class KindSchema:
    kind: str
    schema: Schema
    gate: jsonschema_rs.Draft202012Validator
    guide: Guide

    @property
    def explainer(self) -> Draft202012Validator:
        """What says why a value is refused."""
        return _explainer(self.kind)

    def at(self, steps: tuple[str | int, ...]) -> Schema:
        """What the schema says of a field; what stands beside a reference goes before what it refers to."""
        here = self._whole(self.schema)
        for step in steps:
            below = here.get("items") if isinstance(step, int) else here.get("properties", {}).get(step)
            here = self._whole(below or {})
        return here

    def _whole(self, schema: Schema) -> Schema:
        while ref := schema.get("$ref"):
            beside = {key: value for key, value in schema.items() if key != "$ref"}
            schema = {**self.schema["$defs"][ref.removeprefix("#/$defs/")], **beside}
        return schema


def folder() -> Path:
    """Where the schemas are: inside an installed package, or beside `builder/` in a checkout."""
    installed = Path(__file__).parents[1] / "schema"
    return installed if installed.is_dir() else Path(__file__).parents[3] / "schema"


@cache
def of_kind(kind: str) -> KindSchema:
    schema = bundled(kind)
    return KindSchema(
        kind,
        schema,
        jsonschema_rs.Draft202012Validator(schema),
        _guide(schema, schema, {}),
    )


@cache
def _explainer(kind: str) -> Draft202012Validator:
    from jsonschema import Draft202012Validator  # slow to load, and asked only where something is wrong

    return Draft202012Validator(bundled(kind))


@cache
def bundled(kind: str) -> Schema:
    """A kind's schema with the shared definitions inside it, so that it stands alone. Nobody changes it."""
    schema = json.loads(_text(kind).replace("defs.json#/$defs/", "#/$defs/"))
    schema["$defs"] = {**json.loads(_text("defs"))["$defs"], **schema.get("$defs", {})}
    return dict(schema)


@cache
def definitions(name: str) -> Schema:
    """What a file of shared definitions has, by name."""
    return dict(json.loads(_text(name))["$defs"])


def _text(name: str) -> str:
    return (folder() / f"{name}.json").read_text(encoding="utf-8")


def bare(word: str) -> str:
    """One spelling of letters that Unicode has twice and no eye tells apart: the micro sign and a mu."""
    return unicodedata.normalize("NFKC", word)


def _guide(schema: Schema, root: Schema, made: dict[str, Guide]) -> Guide:
    guide = Guide()
    _add(guide, schema, root, made)
    return guide


def _add(guide: Guide, schema: Schema, root: Schema, made: dict[str, Guide]) -> None:
    if ref := schema.get("$ref"):
        name = ref.removeprefix("#/$defs/")
        if name not in made:
            # Known before it is filled: the tree of positions refers to itself.
            made[name] = Guide()
            _add(made[name], root["$defs"][name], root, made)
        _merge(guide, made[name])
    guide.integer |= schema.get("type") == "integer"
    guide.boolean |= schema.get("type") == "boolean"
    guide.words |= {bare(word): word for word in schema.get("enum", ())}
    for key, below in schema.get("properties", {}).items():
        guide.properties[key] = _guide(below, root, made)
    for pattern, below in schema.get("patternProperties", {}).items():
        guide.patterns.append((re.compile(pattern), _guide(below, root, made)))
    if items := schema.get("items"):
        guide.items = _guide(items, root, made)
    for choice in schema.get("anyOf", ()):
        _add(guide, choice, root, made)


def _merge(guide: Guide, other: Guide) -> None:
    guide.integer |= other.integer
    guide.boolean |= other.boolean
    guide.words |= other.words
    guide.properties.update(other.properties)
    guide.patterns.extend(other.patterns)
    guide.items = guide.items or other.items
