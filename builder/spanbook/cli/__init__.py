"""The `spanbook` command: one module a task, each adding its commands here."""

from __future__ import annotations

from spanbook.cli import (
    asking,
    editing,
    exporting,
    flowing,
    holding,
    importing,
    judging,
    making,
    receiving,
    reviewing,
    sizing,
    stripping,
)
from spanbook.cli.main import main

__all__ = [
    "asking",
    "editing",
    "exporting",
    "flowing",
    "holding",
    "importing",
    "judging",
    "main",
    "making",
    "receiving",
    "reviewing",
    "sizing",
    "stripping",
]
