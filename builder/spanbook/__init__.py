"""spanbook: collectors' records of old machines, turned into a checked reference site.

All that the command can do can be done from here; `faces/README.md` lists it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from spanbook.interface import *  # noqa: F403
    from spanbook.interface import __all__ as __all__
else:
    import ast
    from functools import cache
    from importlib import import_module
    from pathlib import Path

    def __getattr__(name: str) -> object:
        """What is asked for loads its own module, and what that uses: checking needs nothing of pages."""
        if name == "__all__":
            return __dir__()
        if name.startswith("__") or name not in _homes():
            raise AttributeError(f"module 'spanbook' has no attribute {name!r}")
        return getattr(import_module(_homes()[name]), name)

    def __dir__() -> list[str]:
        return sorted(_homes())

    @cache
    def _homes() -> dict[str, str]:
        """The module of every name, as `interface.py` imports it; to import that would load all of them."""
        listed = ast.parse(Path(__file__).with_name("interface.py").read_bytes())
        froms = (line for line in listed.body if isinstance(line, ast.ImportFrom))
        return {one.name: line.module for line in froms for one in line.names}
