"""The catalogues of the other languages: what stands in the code to be told, and what is told in its place.

By hand, after a message was added, changed or removed: `.venv/bin/python -m tests.support.catalogues`. It
lays every message into each language's catalogues with the words that it has, and says what has none.
"""

from __future__ import annotations

import ast
import json
import string
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po, write_po
from jinja2.ext import babel_extract

from spanbook.faces.program import STARTER
from spanbook.faces.remarks import has_remarks, remarks_of
from spanbook.ground.language import ENGLISH, FOLDER, languages
from spanbook.reading.fields import CHOICE, EXAMPLE, UNIT, Field, asked_of, fields_of
from spanbook.reading.kinds import KINDS
from spanbook.reading.plain import plain
from spanbook.reading.schemas import bundled
from spanbook.register.tables import record_tables
from spanbook.site.told import messages as of_script
from tests.support.code import PACKAGE, nodes, trees

Text = tuple[str, ...]  # a message, or its two forms in English
Said = tuple[str, Text]  # with its context, empty for none
# Where the texts of a call stand in it; a context before the text.
CALLS = {
    "_": (0,),
    "gettext": (0,),
    "marked": (0,),
    "_spanbook": (0,),
    "ngettext": (0, 1),
    "marked_forms": (0, 1),
    "plural": (1, 2),
    "_n": (1, 2),
    "Rule": (2,),
}
CONTEXT = "pgettext"


def sources() -> Iterator[tuple[str, Said]]:
    """Every message that stands in the package, after the file that it stands in."""
    for file in sorted(PACKAGE.rglob("*")):
        name = str(file.relative_to(PACKAGE))
        if name.startswith("faces/starter/"):
            continue
        if file.suffix == ".py":
            yield from ((name, said) for said in of_python(trees()[name]))
        elif file.suffix == ".html":
            yield from ((name, ("", text)) for text in of_template(file))
        elif file.suffix in (".js", ".css"):
            yield from ((name, ("", text)) for text in of_script(file.read_text(encoding="utf-8")))
    yield from (("schema", said) for said in of_schemas())
    yield from (("schema", ("kind", (bundled(kind)["title"],))) for kind in KINDS)
    for file in sorted(file for file in STARTER.rglob("*") if file.is_file()):
        name = file.relative_to(STARTER).as_posix()
        if has_remarks(name):
            text = file.read_text(encoding="utf-8")
            yield from ((f"starter/{name}", ("", (said,))) for said in remarks_of(text))


def of_python(tree: ast.AST) -> Iterator[Said]:
    """The texts of the calls that look up or mark one."""
    for node in nodes(tree):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue
        texts = [a.value if isinstance(a, ast.Constant) else None for a in node.args]
        if node.func.id == CONTEXT and isinstance(texts[0], str) and isinstance(texts[1], str):
            yield texts[0], (texts[1],)
        where = CALLS.get(node.func.id, ())
        said = tuple(text for i in where if i < len(texts) and isinstance(text := texts[i], str) and text)
        if where and len(said) == len(where):
            yield "", said


def of_template(file: Path) -> Iterator[Text]:
    with file.open("rb") as text:
        for _, function, said, _ in babel_extract(text, tuple(CALLS), (), {"silent": "false"}):
            each = (said,) if isinstance(said, str) or said is None else said
            texts = [each[i] if i < len(each) else None for i in CALLS[function or "_"]]
            if all(isinstance(one, str) for one in texts):
                yield tuple(str(one) for one in texts)


def of_schemas() -> Iterator[Said]:
    """What the forms say of the fields, and the page of the data of its columns."""
    for kind in KINDS.values():
        yield "", (asked_of(kind.name),)
        yield from _of_fields(fields_of(kind.name))
    yield from (("", (text,)) for text in _described(bundled("tables")))
    for table in record_tables((), plain):
        columns = (text for column in table.columns for text in (column.title, column.description))
        yield from (("", (text,)) for text in (*table.titles[1:], table.description, *columns))


def _of_fields(fields: tuple[Field, ...]) -> Iterator[Said]:
    for field in fields:
        yield from (("", (text,)) for text in (field.title, field.help, field.item) if text)
        if field.worded:
            yield EXAMPLE, (field.example,)
        if field.key != UNIT:
            yield from ((CHOICE, (choice.replace("-", " "),)) for choice in field.choices)
        yield from _of_fields(field.fields)


def _described(node: object) -> Iterator[str]:
    if isinstance(node, dict):
        yield from (node[key] for key in ("title", "description") if isinstance(node.get(key), str))
        yield from (text for below in node.values() for text in _described(below))


def catalogue_of(source: str) -> str:
    """The catalogue that a file's messages stand in: one a floor."""
    return source.split("/")[0].removesuffix(".py")


@cache
def gathered() -> dict[str, dict[Said, list[str]]]:
    """Of each catalogue its messages, in the order of their files, each with these.

    What is said alone and in the forms of a count too is one message, gettext's law: the one with forms.
    Gathered once: nobody changes it.
    """
    every = list(sources())
    counted = {(context, text[0]) for _, (context, text) in every if len(text) > 1}
    found: dict[str, dict[Said, list[str]]] = {}
    for source, said in every:
        if len(said[1]) == 1 and (said[0], said[1][0]) in counted:
            continue
        where = found.setdefault(catalogue_of(source), {}).setdefault(said, [])
        if source not in where:
            where.append(source)
    return found


@cache
def translated(language: str) -> dict[Said, Message]:
    """What a language has words for, from all its catalogues; of two words for one message the first."""
    found: dict[Said, Message] = {}
    for file in sorted((FOLDER / language).glob("*.po")):
        with file.open("rb") as text:
            for message in read_po(text, locale=language.replace("-", "_")):
                if message.id and any(_texts(message.string)):
                    found.setdefault(said_of(message), message)
    return found


def said_of(message: Message) -> Said:
    return str(message.context or ""), _texts(message.id)


def _texts(text: object) -> Text:
    return (
        (text,) if isinstance(text, str) else tuple(map(str, text)) if isinstance(text, tuple | list) else ()
    )


def written(language: str, messages: dict[Said, list[str]], known: dict[Said, Message]) -> bytes:
    """A catalogue as it is kept: no dates and no lines, so that only words change it."""
    whole = Catalog(locale=language.replace("-", "_"), fuzzy=False)
    for (context, text), files in messages.items():
        words = known.get((context, text))
        whole.add(
            text if len(text) > 1 else text[0],
            words.string if words else None,
            locations=[(file, 0) for file in files],
            context=context or None,
            user_comments=words.user_comments if words else (),
        )
    out = BytesIO()
    write_po(out, whole, width=100, omit_header=True, include_lineno=False)
    head = {
        "Language": language,
        "Content-Type": "text/plain; charset=utf-8",
        "Plural-Forms": whole.plural_forms,
    }
    lines = ['msgid ""', 'msgstr ""', *(json.dumps(f"{name}: {value}\n") for name, value in head.items())]
    return "\n".join(lines).encode() + b"\n\n" + out.getvalue()


def lay(language: str) -> Iterator[str]:
    """Write a language's catalogues anew; what is still without words, told."""
    known, folder = translated(language), FOLDER / language
    made = {name: written(language, messages, known) for name, messages in gathered().items()}
    folder.mkdir(exist_ok=True)
    for file in folder.glob("*.po"):
        if file.stem not in made:
            file.unlink()
    for name, data in made.items():
        (folder / f"{name}.po").write_bytes(data)
    for name, messages in gathered().items():
        lacking = sum(1 for said in messages if said not in known)
        if lacking:
            yield f"{language}/{name}.po: {lacking} of {len(messages)} messages are without words"


def places(text: str) -> list[str]:
    """The places for values in a message, in order of their names."""
    return sorted(name for _, name, _, _ in string.Formatter().parse(text) if name is not None)


def main() -> None:
    for language in languages():
        if language != ENGLISH:
            for line in lay(language):
                print(line)


if __name__ == "__main__":
    main()
