"""spanbook: collectors' records of old machines, turned into a checked reference site.

All that the command can do can be done from here; `faces/README.md` lists it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from spanbook.interface import *  # noqa: F403
    from spanbook.interface import __all__ as __all__
else:
    from importlib import import_module

    def __getattr__(name: str) -> object:
        """What is asked for first loads the interface: a command's help needs none of it."""
        if name.startswith("__") and name != "__all__":
            raise AttributeError(name)
        return getattr(import_module("spanbook.interface"), name)

    def __dir__() -> list[str]:
        return sorted(import_module("spanbook.interface").__all__)
