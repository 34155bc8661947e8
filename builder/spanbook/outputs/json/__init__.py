"""Answers as JSON, each held to its schema."""

from spanbook.outputs.json import (
    ask,
    convert,
    diff,
    explain,
    flow,
    imported,
    order,
    questions,
    receive,
    renew,
    size,
    strip,
    tell,
    total,
)

__all__ = [
    "ask",
    "convert",
    "diff",
    "explain",
    "flow",
    "imported",
    "order",
    "questions",
    "receive",
    "renew",
    "size",
    "strip",
    "tell",
    "total",
]
