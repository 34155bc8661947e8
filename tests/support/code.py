"""The program's own code, read once for all tests that look at it."""

from __future__ import annotations

import ast
from functools import cache

from spanbook.ground.language import FOLDER

PACKAGE = FOLDER.parent


@cache
def trees() -> dict[str, ast.Module]:
    """Every module by its path in the package; nobody changes a tree."""
    return {
        str(file.relative_to(PACKAGE)): ast.parse(file.read_text(encoding="utf-8"))
        for file in sorted(PACKAGE.rglob("*.py"))
    }


@cache
def nodes(tree: ast.AST) -> tuple[ast.AST, ...]:
    """All of a tree, gone over once for all that look for something in it."""
    return tuple(ast.walk(tree))
