"""Templates compiled to what ours need and no more; escaped by default as ever.

A view is plain data, so `a.b` is an attribute and nothing else. Nothing here is called with a template's
context, so calls are plain ones. And a message that is written out is put in its place, in the language that
is spoken, when a template is read: not for every page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import partial
from string import Formatter
from typing import Any

from jinja2 import Environment, nodes
from jinja2.compiler import CodeGenerator, Frame, MacroRef
from jinja2.utils import missing
from jinja2.visitor import NodeTransformer
from markupsafe import Markup, escape

from spanbook.site.told import in_template

_special = re.compile("[&<>\"']").search  # what is escaped; most texts have none of it
_marked = partial(str.__new__, Markup)  # what is HTML already; Markup's own way looks twice
_ITS_NAME = "macro"  # of the function that is compiled of one


class CompiledEnvironment(Environment):
    """Templates of one language: the messages in them are told when they are read."""

    code_generator_class: type[CodeGenerator]

    def __init__(self, **how: Any) -> None:
        super().__init__(**how)
        self.code_generator_class = _Generator
        self.put_out, self.macro = put_out, Macro


def put_out(value: object) -> str:
    """A value as it stands in HTML, to be joined with what stands around it."""
    if type(value) is str and not _special(value):
        return value
    if type(value) is Markup:
        return value
    if type(value) is int:
        return str(value)
    return escape(value)


class Macro:
    """A macro of a template as the function that it is."""

    __slots__ = ("_makes", "_names")

    def __init__(self, makes: Callable[..., str], names: tuple[str, ...]) -> None:
        self._makes, self._names = makes, names

    def __call__(self, *given: object, **named: object) -> Markup:
        if len(given) < len(self._names):
            given += tuple([named.pop(name, missing) for name in self._names[len(given) :]])
        if named:
            raise ValueError(f"a macro takes {', '.join(self._names)}; it was given {', '.join(named)}")
        made: Markup = _marked(self._makes(*given))
        return made


class _Told(NodeTransformer):
    """Messages that are written out become what they are in the language that is spoken."""

    def visit_Call(self, node: nodes.Call) -> nodes.Expr:  # noqa: N802 - its name there
        self.generic_visit(node)
        match node:
            case nodes.Call(node=nodes.Name(name="_"), args=[nodes.Const(value=str(message))]):
                told = in_template(message)
                values = {pair.key: pair.value for pair in node.kwargs}
                return nodes.Concat(list(_pieces(told, values))) if values else nodes.Const(told)
        return node

    def visit_Output(self, node: nodes.Output) -> nodes.Output:  # noqa: N802
        self.generic_visit(node)
        # What is put out is joined anyway.
        node.nodes = [piece for one in node.nodes for piece in _apart(one)]
        return node


def _apart(node: nodes.Expr) -> list[nodes.Expr]:
    return node.nodes if isinstance(node, nodes.Concat) else [node]


def _pieces(told: Markup, values: dict[str, nodes.Expr]) -> Iterator[nodes.Expr]:
    """A message with its values in their places. That its text is marked as HTML makes the values escaped."""
    for text, name, *_how in Formatter().parse(told):
        yield nodes.Const(Markup(text))
        if name is not None:
            yield values[name]


class _Generator(CodeGenerator):
    def visit_Template(self, node: nodes.Template, frame: Frame | None = None) -> None:  # noqa: N802
        super().visit_Template(_Told().visit(node), frame)

    def visit_Getattr(self, node: nodes.Getattr, frame: Frame) -> None:  # noqa: N802
        self.visit(node.node, frame)
        self.write(f".{node.attr}")

    def visit_Call(self, node: nodes.Call, frame: Frame, forward_caller: bool = False) -> None:  # noqa: N802
        if forward_caller or node.dyn_kwargs:
            raise ValueError("no template of ours calls so")
        self.visit(node.node, frame)
        self.write("(")
        for given in (*node.args, *node.kwargs):
            self.visit(given, frame)
            self.write(", ")
        if node.dyn_args:
            self.write("*")
            self.visit(node.dyn_args, frame)
        self.write(")")

    def macro_def(self, macro_ref: MacroRef, frame: Frame) -> None:
        names = tuple(arg.name for arg in macro_ref.node.args)
        self.write(f"environment.macro({_ITS_NAME}, {names!r})")

    def _output_child_pre(self, node: nodes.Expr, frame: Frame, finalize: object) -> None:
        self.write("environment.put_out(")
