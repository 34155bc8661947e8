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
    found = [tree]
    for node in found:  # it grows meanwhile; as ast.walk, in half the time
        for below in vars(node).values():
            if isinstance(below, ast.AST):
                found.append(below)
            elif isinstance(below, list):
                found += (one for one in below if isinstance(one, ast.AST))
    return tuple(found)
