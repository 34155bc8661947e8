"""Every small fault that can be made in a module, one at a time, as changed trees."""

from __future__ import annotations

import ast
import copy
from collections.abc import Callable, Iterator
from dataclasses import dataclass

_SWAPPED: dict[type[ast.AST], type[ast.AST]] = {
    **{
        ast.Lt: ast.LtE,
        ast.LtE: ast.Lt,
        ast.Gt: ast.GtE,
        ast.GtE: ast.Gt,
        ast.Eq: ast.NotEq,
        ast.NotEq: ast.Eq,
    },
    **{ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is},
    **{ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.FloorDiv, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult},
    **{ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd},
}


@dataclass(frozen=True, slots=True)
class Fault:
    """What is done to a node of a tree, and how to say so."""

    words: str
    apply: Callable[[ast.AST], ast.AST | None]
    """Takes the node; gives what stands in its place, or None where the node itself was changed."""


def faults(node: ast.AST) -> Iterator[Fault]:
    """Every small fault that can be made at a node."""
    match node:
        case ast.If() | ast.IfExp():
            for always in (True, False):
                yield Fault(f"always {always}", lambda n, to=always: setattr(n, "test", ast.Constant(to)))  # type: ignore[misc]
        case ast.Compare():
            for i, op in enumerate(node.ops):
                yield Fault(f"another {type(op).__name__}", lambda n, i=i: _swap_in(n, i))  # type: ignore[misc]
        case ast.BoolOp():
            for i in range(len(node.values)):
                yield Fault(f"without part {i + 1}", lambda n, i=i: _less(n, i))  # type: ignore[misc]
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield Fault("without its sign", lambda n: n.operand)  # type: ignore[attr-defined]
        case ast.BinOp() if type(node.op) in _SWAPPED:
            yield Fault("another operator", lambda n: setattr(n, "op", _SWAPPED[type(n.op)]()))  # type: ignore[attr-defined]
        case ast.Constant(value=bool()):
            yield Fault("the other", lambda n: ast.Constant(not n.value))  # type: ignore[attr-defined]
        case ast.Constant(value=int()):
            yield Fault("one more", lambda n: ast.Constant(n.value + 1))  # type: ignore[attr-defined]
        case ast.Return(value=ast.Constant(value=None)):
            pass
        case ast.Return(value=ast.expr()):
            yield Fault("gives None", lambda n: ast.Return(ast.Constant(None)))
        case ast.Expr(value=ast.Yield() | ast.YieldFrom()):
            # The function stays a generator.
            yield Fault("left out", lambda n: ast.If(ast.Constant(False), [ast.Expr(n.value)], []))  # type: ignore[attr-defined]
        case ast.Expr(value=ast.Call()) | ast.Continue() | ast.Break() | ast.Raise() | ast.AugAssign():
            yield Fault("left out", lambda n: ast.Pass())
        case ast.comprehension():
            for i in range(len(node.ifs)):
                yield Fault(f"without condition {i + 1}", lambda n, i=i: n.ifs.pop(i) and None)  # type: ignore[misc]


def _swap_in(node: ast.Compare, i: int) -> None:
    node.ops[i] = _SWAPPED[type(node.ops[i])]()  # type: ignore[call-overload]


def _less(node: ast.BoolOp, i: int) -> ast.AST | None:
    del node.values[i]
    return node.values[0] if len(node.values) == 1 else None


@dataclass(frozen=True, slots=True)
class Mutant:
    """A module with one fault: where, in words, and the changed tree."""

    line: int
    words: str
    tree: ast.Module


def mutants(tree: ast.Module) -> Iterator[Mutant]:
    """Every fault inside a function."""
    inside = {
        id(below)
        for function in ast.walk(tree)
        if isinstance(function, ast.FunctionDef)
        for line in function.body
        for below in ast.walk(line)
    }
    inside -= {id(below) for node in ast.walk(tree) for type_ in _types(node) for below in ast.walk(type_)}
    for at, node in enumerate(ast.walk(tree)):
        for i, fault in enumerate(faults(node) if id(node) in inside else ()):
            changed = copy.deepcopy(tree)
            target = list(ast.walk(changed))[at]
            instead = list(faults(target))[i].apply(target)
            if instead is not None:
                _Put(target, instead).visit(changed)
            line = getattr(node, "lineno", 0) or getattr(getattr(node, "iter", None), "lineno", 0)
            yield Mutant(line, fault.words, ast.fix_missing_locations(changed))


def _types(node: ast.AST) -> Iterator[ast.expr]:
    """The types that are noted at a node, which nothing looks at."""
    match node:
        case ast.AnnAssign(annotation=type_) | ast.arg(annotation=ast.expr() as type_):
            yield type_
        case ast.FunctionDef(returns=ast.expr() as type_):
            yield type_


class _Put(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        return self.new if node is self.old else self.generic_visit(node)
