"""Answers as text for the terminal, and for the page of a proposal."""

from spanbook.outputs.text import (
    ask,
    convert,
    diff,
    explain,
    flow,
    order,
    questions,
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
    "order",
    "questions",
    "renew",
    "size",
    "strip",
    "tell",
    "total",
]
