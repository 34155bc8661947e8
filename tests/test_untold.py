"""Nothing is told past the catalogues: sentences of the floor of words, and those of templates."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

from tests.support.catalogues import CALLS, CONTEXT
from tests.support.code import PACKAGE, nodes, trees
from tests.test_prose import sentences

TEMPLATES = sorted([*(PACKAGE / "site").rglob("*.html"), *(PACKAGE / "mkdocs").rglob("*.html")])
# What is the same in every language, or asked for in English and told in another.
SAME = {" kB", " MB", " psi", " psi (", " bar)", " thou (", " mm)"}  # signs of units
SAME |= {" (--means ", "  content/"}  # what is typed
SAME |= {"records "}  # the name of a state of the records
SAME |= {"and then"}  # which of the joints of a list is meant
_JINJA = re.compile(r"\{([{%#]).*?[}%#]\}", re.DOTALL)
_ELEMENT = re.compile(r"<(?:style|script)\b.*?</(?:style|script)>|<[^>]*>", re.DOTALL)
_ATTRIBUTE = re.compile(r'\b(?:title|aria-label|placeholder|alt|data-say)="([^"]*)"')
_WORD = re.compile(r"[^\W\d_]{3,}")
# Names of formats and files, and what a name of a table begins with.
NAMES = {"Markdown", "BBCode", "SHA-256", "spanbook export", "answer_", "licence"}
# Attributes that a macro writes into an element.
NAMES |= {"required", 'pattern="', 'maxlength="', 'data-pick="', 'data-say="'}


def untold(tree: ast.Module) -> list[str]:
    """The sentences of a module that no call looks up or marks."""
    told = {
        leaf.value
        for call in nodes(tree)
        if isinstance(call, ast.Call)
        and isinstance(call.func, ast.Name)
        and call.func.id in {*CALLS, CONTEXT}
        for leaf in ast.walk(call)
        if isinstance(leaf, ast.Constant)
    }
    return [said for said in sentences(tree) if said not in told]


def written_out(template: str) -> Iterator[str]:
    """What stands in a template in words of its own, in texts and attributes."""
    plain = _JINJA.sub("\0", template)
    for text in (*_ATTRIBUTE.findall(plain), *_ELEMENT.sub("\0", plain).split("\0")):
        if _WORD.search(text):
            yield text.strip(" \n\0")


def test_every_sentence_is_looked_up_or_marked() -> None:
    wording = {path: tree for path, tree in trees().items() if path.startswith("wording/")}
    assert len(wording) > 50
    assert {path: past for path, tree in wording.items() if (past := set(untold(tree)) - SAME)} == {}


def test_no_template_has_words_of_its_own() -> None:
    assert len(TEMPLATES) > 40
    written = {file: set(written_out(file.read_text(encoding="utf-8"))) - NAMES for file in TEMPLATES}
    assert {str(file.relative_to(PACKAGE)): own for file, own in written.items() if own} == {}


def test_a_sentence_past_the_catalogue_is_found() -> None:
    assert untold(ast.parse('def f(n):\n    return f"{n} seen here"')) == [" seen here"]
    assert untold(ast.parse('def f(n):\n    return _("{} seen here").format(n)')) == []
    assert list(written_out('<p title="A word">{{ x }} is here</p>{{ _("and here") }}')) == [
        "A word",
        "is here",
    ]
