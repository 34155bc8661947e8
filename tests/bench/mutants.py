"""Which faults in a module its tests let pass: every small fault put in, one at a time. By hand, outside CI.

`python -m tests.bench.mutants spanbook.answers.breaks tests/answers/test_breaks.py` tells each fault that no
test notices, and the score. Each runs in a process of its own that takes the module from the changed tree; no
file is touched.
"""

from __future__ import annotations

import ast
import copy
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import os
import signal
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType

import pytest

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
# Loaded once, so that no process loads them again.
_HEAVY = ("hypothesis.strategies", "networkx", "jsonschema", "jsonschema_rs", "PIL.Image", "jinja2", "click")
_SLOWEST = 20  # seconds at the least before a process is given up, and then counts as noticed


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


def mutants(tree: ast.Module) -> Iterator[tuple[int, str, ast.Module]]:
    """Line, words and changed tree of every fault inside a function."""
    inside = {
        id(below)
        for function in ast.walk(tree)
        if isinstance(function, ast.FunctionDef)
        for line in function.body
        for below in ast.walk(line)
    }
    for at, node in enumerate(ast.walk(tree)):
        for i, fault in enumerate(faults(node) if id(node) in inside else ()):
            changed = copy.deepcopy(tree)
            target = list(ast.walk(changed))[at]
            instead = list(faults(target))[i].apply(target)
            if instead is not None:
                _Put(target, instead).visit(changed)
            line = getattr(node, "lineno", 0) or getattr(getattr(node, "iter", None), "lineno", 0)
            yield line, fault.words, ast.fix_missing_locations(changed)


class _Put(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        return self.new if node is self.old else self.generic_visit(node)


class _Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module from a tree instead of its file."""

    def __init__(self, module: str, path: str, tree: ast.Module) -> None:
        self.module, self.path, self.tree = module, path, tree

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        return (
            importlib.util.spec_from_file_location(name, self.path, loader=self)
            if name == self.module
            else None
        )

    def exec_module(self, module: ModuleType) -> None:
        exec(compile(self.tree, self.path, "exec"), vars(module))


def passes(change: _Changed, tests: Sequence[str], seconds: float) -> bool:
    """Whether all tests pass with the change, in a process of its own."""
    child = os.fork()
    if child == 0:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        sys.meta_path.insert(0, change)
        os._exit(int(pytest.main(["-x", "-q", "-m", "fast", "-p", "no:cacheprovider", *tests])))
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status) == 0
        time.sleep(0.02)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return False


def main(module: str, *tests: str) -> None:
    spec = importlib.machinery.PathFinder.find_spec("spanbook")
    assert spec, "spanbook is not installed"
    assert spec.submodule_search_locations, "spanbook is no package"
    path = Path(spec.submodule_search_locations[0]).parent / f"{module.replace('.', '/')}.py"
    source = path.read_text(encoding="utf-8")
    tree, lines = ast.parse(source), source.splitlines()
    for heavy in _HEAVY:
        importlib.import_module(heavy)
    started = time.monotonic()
    assert passes(_Changed(module, str(path), tree), tests, 600), "the tests fail as it is"
    seconds = max(_SLOWEST, 8 * (time.monotonic() - started))
    count = noticed = 0
    for line, words, changed in mutants(tree):
        count += 1
        if passes(_Changed(module, str(path), changed), tests, seconds):
            print(f"{path.name}:{line}: {words}: {lines[line - 1].strip()}", flush=True)
        else:
            noticed += 1
    print(f"{module}: {noticed} of {count} noticed")


if __name__ == "__main__":
    main(*sys.argv[1:])
