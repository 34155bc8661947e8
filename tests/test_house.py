"""The house: every module stands on a floor, and imports go down only."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "builder/spanbook"

FLOORS: tuple[set[str], ...] = (
    {
        "markup",
        "photographs",
        "writing",
        "spans",
        "runs",
        "serials",
        "years",
        "numbers",
        "quantities",
        "notes",
        "folding",
    },
    {"problems", "reading", "darkroom"},
    {"register", "mentions", "linking"},
    {
        "fits",
        "asking",
        "supersession",
        "conversions",
        "breaks",
        "totals",
        "standing",
        "observations",
        "questions",
        "comparison",
        "compare",
    },
    {"rules", "checking"},
    {"site", "exports"},
    {
        "api",
        "building",
        "cli",
        "comparing",
        "entering",
        "plugin",
        "reports",
        "revisions",
        "starting",
        "__init__",
        "__main__",
    },
)
FLOOR = {name: number for number, names in enumerate(FLOORS) for name in names}
# Why each of these may be longer than 300 lines.
LONG: dict[str, str] = {"reading.records": "one class a kind, with nothing but its fields"}
# Who may know MkDocs: the plugin, the shell around a page, and what runs it for the command.
KNOW_MKDOCS = {"plugin", "site.shell", "building"}


def modules() -> dict[str, Path]:
    files = {file: file.relative_to(PACKAGE).with_suffix("") for file in PACKAGE.rglob("*.py")}
    return {".".join(name.parts).removesuffix(".__init__"): file for file, name in files.items()}


MODULES = modules()
EACH = pytest.mark.parametrize("module", sorted(MODULES))


def imports(module: str) -> Iterator[str]:
    """The modules of this package that a module imports, without the package's name."""
    for node in ast.walk(ast.parse(MODULES[module].read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "spanbook":
            base = (node.module or "").removeprefix("spanbook").removeprefix(".")
            for alias in node.names:
                full = f"{base}.{alias.name}" if base else alias.name
                yield full if full in MODULES else base
        elif isinstance(node, ast.Import):
            names = (alias.name for alias in node.names)
            yield from (name.removeprefix("spanbook.") for name in names if name.startswith("spanbook."))


def floor(module: str) -> int:
    return FLOOR[module.split(".")[0]]


@EACH
def test_every_module_stands_on_a_floor(module: str) -> None:
    assert module.split(".")[0] in FLOOR


@EACH
def test_imports_go_down_only(module: str) -> None:
    above = [name for name in imports(module) if name and floor(name) > floor(module)]
    assert above == []


def test_no_module_imports_itself_in_a_circle() -> None:
    graph = {module: set(imports(module)) - {module, ""} for module in MODULES}
    # A package and what is inside it are one: only ways out of it can make a circle.
    done: set[str] = set()

    def visit(module: str, trail: tuple[str, ...]) -> None:
        assert module not in trail, f"a circle: {' -> '.join((*trail, module))}"
        if module not in done:
            for name in graph.get(module, ()):
                visit(name, (*trail, module))
            done.add(module)

    for module in graph:
        visit(module, ())


@EACH
def test_only_three_modules_know_mkdocs(module: str) -> None:
    tree = ast.parse(MODULES[module].read_text(encoding="utf-8"))
    named = {
        (node.module or "") if isinstance(node, ast.ImportFrom) else alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.Import | ast.ImportFrom)
        for alias in node.names
    }
    knows = any(name.split(".")[0] == "mkdocs" for name in named)
    assert knows == (module in KNOW_MKDOCS)


@EACH
def test_a_long_module_has_its_reason(module: str) -> None:
    lines = len(MODULES[module].read_text(encoding="utf-8").splitlines())
    assert lines <= 300 or module in LONG


def test_the_builder_never_names_the_content() -> None:
    """It is given paths; what the demonstration holds is nothing to it."""
    for module, file in MODULES.items():
        assert "wexmoor" not in file.read_text(encoding="utf-8").lower(), module
