"""A record as YAML that reads back as it was meant: every text quoted, every number bare.

`site/forms/yaml.js` is its twin; a test in the browser holds the two together.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence

# A text that means the same with quotes as without, inside brackets as well.
_PLAIN = re.compile(r"\w(?:[\w ./-]*[\w.])?")

Value = str | int | bool | Sequence["Value"] | Mapping[str, "Value"]


def to_yaml(values: Mapping[str, Value], schema_address: str | None = None) -> str:
    """The file of a record; `schema_address` is for editors that complete by it."""
    head = f"# yaml-language-server: $schema={schema_address}\n" if schema_address else ""
    return head + "".join(f"{line}\n" for line in _mapping(values))


def flow(value: object) -> str:
    """A value on one line as somebody would type it: quotes only where they are needed."""
    if isinstance(value, str) and _PLAIN.fullmatch(value):
        return value
    if isinstance(value, Mapping):
        return f"{{{', '.join(f'{flow(key)}: {flow(below)}' for key, below in value.items())}}}"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return f"[{', '.join(map(flow, value))}]"
    return json.dumps(value, ensure_ascii=False)


def _mapping(values: Mapping[str, Value]) -> Iterator[str]:
    for key, value in values.items():
        if (inline := _inline(value)) is not None:
            yield f"{key}: {inline}"
        else:
            yield f"{key}:"
            yield from (f"  {line}" for line in _block(value))


def _block(value: Value) -> Iterator[str]:
    if isinstance(value, Mapping):
        yield from _mapping(value)
    elif isinstance(value, Sequence) and not isinstance(value, str):
        for item in value:
            inline = _inline(item)
            lines = [inline] if inline is not None else list(_block(item))
            yield from (f"{'  ' if i else '- '}{line}" for i, line in enumerate(lines))


def _inline(value: Value) -> str | None:
    """What stands on one line: a text, a number, a pair of numbers, nothing at all."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, str):
        # A text of JSON is a quoted text of YAML.
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, Sequence) and all(isinstance(item, int) for item in value):
        return f"[{', '.join(str(item) for item in value)}]"
    return None
