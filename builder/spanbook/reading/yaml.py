"""From text to a tree, by libyaml's events: plain mappings, lists and text, and nothing else of YAML."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import cast

import yaml

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading import yaml_broken
from spanbook.reading.nodes import Mapping, Node, Scalar, Sequence
from spanbook.reading.problems import Rule, Severity
from spanbook.reading.text import Refusal, hidden, refuse_hidden, to_text
from spanbook.reading.unquoted import ends_at

try:
    from yaml._yaml import CParser
except ImportError as missing:
    raise ImportError(
        "spanbook needs PyYAML built with libyaml, and this one is not. Install a binary wheel: "
        "pip install --force-reinstall --only-binary :all: pyyaml"
    ) from missing

DEEPEST = 16
MOST_NODES = 5000

_HEAD = "# file: content/sources/letter-a.yml\n"
_GOOD = _HEAD + "kind: source\nid: letter-a\ntitle: A letter\nclass: correspondence\n"


def _rule(name: str, reason: str, bad: str) -> Rule:
    return Rule(name, Severity.ERROR, reason, bad=bad, good=_GOOD)


YAML_BROKEN = _rule(
    "yaml-broken",
    marked("The file is not YAML, so nothing in it can be trusted to mean what it seems to."),
    _GOOD.replace("A letter", '"A letter'),
)
YAML_ANCHOR = _rule(
    "yaml-anchor",
    marked("Anchors and aliases let one line change another far away; a record is read line by line."),
    _GOOD.replace("A letter", "&t A letter") + "form: *t\n",
)
YAML_TAG = _rule(
    "yaml-tag",
    marked("Tags ask the reader to make something other than text; here text is text."),
    _GOOD.replace("A letter", "!!str A letter"),
)
YAML_MERGE = _rule(
    "yaml-merge",
    marked("A merge key pulls in what stands elsewhere; write it out where it belongs."),
    _GOOD + "<<: {form: Form 1}\n",
)
YAML_DIRECTIVE = _rule(
    "yaml-directive",
    marked("A directive changes how the rest is read."),
    _GOOD.replace("kind: source", "%YAML 1.1\n---\nkind: source"),
)
YAML_SECOND_DOCUMENT = _rule(
    "yaml-second-document",
    marked("One record a file: a second document would have no address."),
    _GOOD + "---\nkind: source\n",
)
YAML_KEY = _rule(
    "yaml-key",
    marked("A key is a plain word; a list or a mapping cannot be one."),
    _GOOD + "? [a, b]\n: c\n",
)
KEY_TWICE = _rule(
    "key-twice",
    marked("Of two lines with the same key one would be lost in silence."),
    _GOOD + "title: Another letter\n",
)
NESTED_TOO_DEEP = _rule(
    "nested-too-deep",
    marked("No record needs more than sixteen levels."),
    _GOOD + "notes: " + "[" * DEEPEST + "x" + "]" * DEEPEST + "\n",
)
TOO_MANY_VALUES = _rule(
    "too-many-values",
    marked("A record says one thing; one with more than 5,000 values says many."),
    _GOOD + "notes: [" + "x," * MOST_NODES + "x]\n",
)
RULES = (
    YAML_BROKEN,
    YAML_ANCHOR,
    YAML_TAG,
    YAML_MERGE,
    YAML_DIRECTIVE,
    YAML_SECOND_DOCUMENT,
    YAML_KEY,
    KEY_TWICE,
    NESTED_TOO_DEEP,
    TOO_MANY_VALUES,
)


@lru_cache(maxsize=64)
def read(data: bytes) -> Node:
    """The one document of a file. Raises Refusal at the first thing that is not allowed."""
    return parse(to_text(data))


def parse(text: str) -> Node:
    """The one document of a text. Raises Refusal at the first thing that is not allowed."""
    try:
        return _Document(text).read()
    except yaml.MarkedYAMLError as wrong:
        raise Refusal(YAML_BROKEN, *yaml_broken.told(wrong, text)) from None


class _Document:
    def __init__(self, text: str) -> None:
        # Straight from the parser: the package's own loop around it costs a fifth of all reading.
        self._next = cast(Callable[[], yaml.Event], CParser(text).get_event)
        self._nodes = 0

    def read(self) -> Node:
        self._next()  # the start of the stream
        start = self._next()
        if isinstance(start, yaml.StreamEndEvent):
            raise Refusal(
                YAML_BROKEN, 1, 1, _("the file is empty"), _("write the record, or delete the file")
            )
        if isinstance(start, yaml.DocumentStartEvent) and (start.version or start.tags):
            raise _refuse(YAML_DIRECTIVE, start, _("a % directive"), _("delete the line"))
        node = self._node(self._next(), 1)
        self._next()  # the end of the document
        second = self._next()
        if not isinstance(second, yaml.StreamEndEvent):
            raise _refuse(
                YAML_SECOND_DOCUMENT, second, _("a second document"), _("put it in a file of its own")
            )
        return node

    def _node(self, event: yaml.Event, depth: int) -> Node:
        self._nodes += 1
        if self._nodes > MOST_NODES:
            raise _refuse(
                TOO_MANY_VALUES, event, _("more than {} values").format(MOST_NODES), _("split the record")
            )
        if depth > DEEPEST:
            raise _refuse(
                NESTED_TOO_DEEP, event, _("more than {} levels").format(DEEPEST), _("write it flatter")
            )
        if isinstance(event, yaml.ScalarEvent) and event.anchor is None and event.tag is None:
            if event.style == '"' and (found := hidden(event.value)):  # by an escape
                raise refuse_hidden(found[1], *_at(event))
            return Scalar(event.value, *_at(event))
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            todo = _("write the value out, or put it in quotes")
            raise _refuse(YAML_ANCHOR, event, _("an anchor (&) or alias (*)"), todo)
        if tag := getattr(event, "tag", None):
            raise _refuse(
                YAML_TAG, event, _("the tag {}").format(tag), _("delete it, or put the value in quotes")
            )
        line, column = _at(event)
        if isinstance(event, yaml.SequenceStartEvent):
            return Sequence(tuple(self._items(depth)), line, column)
        return self._mapping(line, column, depth)

    def _items(self, depth: int) -> Iterator[Node]:
        while not isinstance(event := self._next(), yaml.SequenceEndEvent):
            yield self._node(event, depth + 1)

    def _mapping(self, line: int, column: int, depth: int) -> Mapping:
        keys: dict[str, Scalar] = {}
        values: dict[str, Node] = {}
        while not isinstance(event := self._next(), yaml.MappingEndEvent):
            key = self._node(event, depth + 1)
            if not isinstance(key, Scalar):
                raise _refuse(
                    YAML_KEY, event, _("a key that is not a word"), _("use a plain word as the key")
                )
            if key.text == "<<":
                raise _refuse(YAML_MERGE, event, _("the merge key <<"), _("write the values out"))
            if key.text in keys:
                earlier = keys[key.text].line
                read = _("the key {text} again; it is also on line {earlier}").format(
                    text=key.text, earlier=earlier
                )
                before = values[key.text]
                cut = isinstance(before, Scalar) and ends_at(keys[key.text], before)
                todo = _("put text with commas in it in quotes") if cut else _("keep one of them")
                raise _refuse(KEY_TWICE, event, read, todo)
            keys[key.text] = key
            values[key.text] = self._node(self._next(), depth + 1)
        return Mapping(keys, values, line, column)


def _refuse(rule: Rule, event: yaml.Event, read: str, todo: str) -> Refusal:
    return Refusal(rule, *_at(event), read, todo)


def _at(event: yaml.Event) -> tuple[int, int]:
    mark = event.start_mark
    assert mark is not None, "libyaml marks every event"
    return mark.line + 1, mark.column + 1
