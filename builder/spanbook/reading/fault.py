"""One place where a record does not fit its schema, and what may stand there instead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, cast

from spanbook.reading.examples import Examples
from spanbook.reading.nodes import Node, Step
from spanbook.reading.schemas import KindSchema, Schema
from spanbook.reading.write import flow

if TYPE_CHECKING:
    from jsonschema import ValidationError


@dataclass(frozen=True, slots=True)
class Fault:
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
    def of(cls, error: ValidationError, path: str, node: Node, kind: KindSchema, examples: Examples) -> Fault:
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


def deepest(error: ValidationError) -> ValidationError:
    """Of several forms a value may take, the one meant is the one of the right sort, if there is one."""
    if error.validator != "anyOf" or not error.context:
        return error
    other_sort = ("type", "const", "enum", "pattern")
    meant = [e for e in error.context if e.validator not in other_sort or len(e.path) > 0]
    return deepest(min(meant, key=lambda e: -len(e.path))) if meant else error
