"""What stands between a label and what it says is looked up: French has a space before it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from spanbook.ground.language import speaking
from spanbook.ground.punctuation import headed, labelled, parted
from spanbook.site.assets import stylesheet
from spanbook.site.frame import Frame
from tests.support.code import PACKAGE, nodes, trees
from tests.support.rows import each_row

FLOORS = ("wording/", "site/", "faces/", "rules/", "answers/", "outputs/text/", "cli/")
LOOKED_UP = {"_", "gettext", "pgettext", "marked"}
# Where in a file something is, as editors write it; keys of YAML and of tables; what no reader is told.
SAME = ("path}:{", "path)}:{", "{leaf.steps[-1]}: ", "spanbookTable(", "a macro takes")
REMARKS = "answers/named.py"  # puts remarks of records one behind the other
_AFTER = re.compile(r"\0[)”»\"'*]*[:;](?: |$)")
_TEMPLATE = re.compile(r"""(?:\}\}|%\}|>)[:;](?=[ <{])|join\(["']; ["']\)""")
_SCRIPT = re.compile(r"\$\{[^}]*\}[:;] |[^_(]\"[:;] \"|join\(\"; \"\)")


def joints(tree: ast.AST) -> Iterator[str]:
    """The colons and semicolons of a module that stand behind a value and are not looked up."""
    told = {
        leaf
        for call in nodes(tree)
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id in LOOKED_UP
        for leaf in ast.walk(call)
    }
    within = {leaf for node in nodes(tree) if isinstance(node, ast.JoinedStr) for leaf in node.values}
    for node in nodes(tree):
        if isinstance(node, ast.JoinedStr):
            if _AFTER.search(_shown(node)):
                yield ast.unparse(node)
        elif isinstance(node, ast.Constant) and node.value in (": ", "; ") and node not in told | within:
            yield str(node.value)


def _shown(node: ast.JoinedStr) -> str:
    """A text with a mark in place of each value."""
    return "".join(str(one.value) if isinstance(one, ast.Constant) else "\0" for one in node.values)


def in_files(pattern: re.Pattern[str], *suffixes: str) -> dict[str, list[str]]:
    files = sorted(file for file in PACKAGE.rglob("*") if file.suffix in suffixes)
    assert len(files) > 30
    found = {_named(file): pattern.findall(file.read_text(encoding="utf-8")) for file in files}
    return {name: each for name, each in found.items() if each}


def _named(file: Path) -> str:
    return str(file.relative_to(PACKAGE))


def test_no_module_puts_a_label_and_its_text_together_by_itself() -> None:
    ours = {path: set(joints(tree)) for path, tree in trees().items() if path.startswith(FLOORS)}
    assert len(ours) > 200
    past = {path: {one for one in each if not any(map(one.count, SAME))} for path, each in ours.items()}
    assert {path: each for path, each in past.items() if each} == {REMARKS: {"; "}}


def test_nor_does_a_template_or_a_script() -> None:
    assert in_files(_TEMPLATE, ".html") == {}
    assert set(in_files(_SCRIPT, ".js")) <= {"site/along/worker.js", "site/forms/yaml.js"}  # HTTP, YAML


@each_row(
    ("code", "found"),
    [
        ('f"{a}: {b}"', True),
        ('f"({a}); {b}"', True),
        ('"; ".join(a)', True),
        ('(a, ": ", b)', True),
        ("labelled(a, b)", False),
        ('_("; ").join(a)', False),
        ('_("{a}: {b}").format(a=a, b=b)', False),
        ('f"{a} of {b}"', False),
    ],
)
def test_what_is_put_together_is_found(code: str, found: bool) -> None:
    assert bool(list(joints(ast.parse(code)))) is found


def test_english_has_no_space_before_and_french_has_one_that_does_not_break() -> None:
    assert (labelled("a", "b"), parted("a", "b", "c"), headed("a")) == ("a: b", "a; b; c", "a:")
    with speaking("fr"):
        assert labelled("a", "b") == "a\N{NO-BREAK SPACE}: b"
        assert parted("a", "b", "c") == "a\N{NO-BREAK SPACE}; b\N{NO-BREAK SPACE}; c"
        assert headed("a") == "a\N{NO-BREAK SPACE}:"


def test_a_narrow_table_heads_its_cells_in_the_language_of_the_pages() -> None:
    """Its cells with a name or a standing have no head: they are known by the words that stand there."""
    plain = Frame("", ())
    style = stylesheet(plain).decode()
    assert 'content: attr(data-head) ": "' in style
    assert '[data-head="Standing"]' in style
    with speaking("fr"):
        style = stylesheet(plain).decode()
    assert 'content: attr(data-head) "\N{NO-BREAK SPACE}: "' in style
    assert '[data-head="Fiabilité"]' in style
    assert '[data-head="Nom"]' in style
