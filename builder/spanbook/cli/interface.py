"""The page about the Python interface, made from what the interface says of itself.

`cog -r builder/spanbook/faces/README.md` writes it anew; a test holds the two together.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator
from types import FunctionType

import spanbook


def reference() -> str:
    """Functions, then what an open register answers, then the types, as Markdown."""
    named = {name: getattr(spanbook, name) for name in spanbook.__all__}
    functions = {name: it for name, it in named.items() if isinstance(it, FunctionType)}
    types = {name: it for name, it in named.items() if isinstance(it, type) and name != "OpenRegister"}
    own = vars(spanbook.OpenRegister).items()
    methods = {name: it for name, it in own if isinstance(it, FunctionType) and not name.startswith("_")}
    return "\n".join(
        [
            *(line for name, it in functions.items() for line in _section(f"spanbook.{name}", it)),
            "# What an open register answers",
            "",
            *(line for name, it in methods.items() for line in _section(f"register.{name}", it)),
            "# Types",
            "",
            "| name | what it is |",
            "| --- | --- |",
            *(f"| `{name}` | {_first(it)} |" for name, it in types.items()),
            "",
        ]
    )


def _section(name: str, function: Callable[..., object]) -> Iterator[str]:
    signature = inspect.signature(function)
    shown = [p for p in signature.parameters.values() if p.name != "self"]
    yield from (f"## `{name}{signature.replace(parameters=shown)}`".replace("'", ""), "")
    for paragraph in (inspect.getdoc(function) or "").split("\n\n"):
        yield from (" ".join(paragraph.split()), "")


def _first(it: type) -> str:
    return " ".join((it.__doc__ or "").split("\n\n")[0].split())
