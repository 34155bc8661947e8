"""The `spanbook` command: one module a task, which `commands.py` lists; each is loaded when it is called."""

from __future__ import annotations

from spanbook.cli.main import main

__all__ = ["main"]
