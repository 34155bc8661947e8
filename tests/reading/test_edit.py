"""An edit by place does what the same edit of plain values does, and touches nothing else."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.reading import yaml
from spanbook.reading.edit import Draft, NotEditable, comments
from spanbook.reading.nodes import Step, plain
from tests.support.rows import each_row

WORDS = st.sampled_from(
    ["a", "b c", "0012", "it's", 'say "so"', "é, è", "x: y", "- z", "# no", "[k]", "true", "~"]
)
KEYS = st.sampled_from(["id", "k", "l", "m", "title"])
VALUES = st.recursive(
    WORDS,
    lambda below: (
        st.lists(below, min_size=1, max_size=3) | st.dictionaries(KEYS, below, min_size=1, max_size=3)
    ),
    max_leaves=8,
)


@st.composite
def written(draw: st.DrawFn, value: Any, indent: int = 0, brackets: bool = False) -> str:
    """A value as somebody might type it: in lines or in brackets, quoted or not, with comments."""
    if isinstance(value, str):
        return draw(scalar(value))
    if brackets or draw(st.booleans()):
        inside = (
            [f"{draw(scalar(k))}: {draw(written(v, 0, True))}" for k, v in value.items()]
            if isinstance(value, dict)
            else [draw(written(v, 0, True)) for v in value]
        )
        text = ", ".join(inside)
        return f"{{{text}}}" if isinstance(value, dict) else f"[{text}]"
    margin = " " * indent
    lines = []
    for key, below in value.items() if isinstance(value, dict) else ((None, v) for v in value):
        above = draw(st.sampled_from(["", "", f"{margin}# over it\n"]))
        head = "-" if key is None else f"{draw(scalar(key))}:"
        text = draw(written(below, indent + 2))
        after = draw(st.sampled_from(["", "", "  # beside it"]))
        lines.append(f"{above}{margin}{head}{text if in_lines(text) else f' {text}{after}'}")
    return "\n" + "\n".join(lines)


def in_lines(text: str) -> bool:
    return text.startswith("\n")


@st.composite
def scalar(draw: st.DrawFn, text: str) -> str:
    quoted = [f"'{text.replace(chr(39), chr(39) * 2)}'", '"' + text.replace('"', '\\"') + '"']
    plain_too = text.isalnum() or text in ("b c", "it's")
    return draw(st.sampled_from([*quoted, *([text] if plain_too else [])]))


@st.composite
def files(draw: st.DrawFn) -> tuple[str, dict[str, Any]]:
    values = {"id": "x", **draw(st.dictionaries(KEYS, VALUES, max_size=4))}
    lines = []
    for key, value in values.items():
        text = draw(written(value, 2))
        lines.append(f"{key}:{text if in_lines(text) else f' {text}'}")
        lines += draw(st.sampled_from([[], [], ["# between"], [""]]))
    return "\n".join(lines) + draw(st.sampled_from(["\n", "", "\n# the end\n"])), values


def paths(value: Any, at: tuple[Step, ...] = ()) -> list[tuple[tuple[Step, ...], Any]]:
    below = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [(at, value), *(found for key, one in below for found in paths(one, (*at, key)))]


def at(value: Any, steps: tuple[Step, ...]) -> Any:
    for step in steps:
        value = value[step]
    return value


def reads(data: bytes) -> object:
    return plain(yaml.read(data))


@given(files(), st.data())
def test_an_edit_does_what_it_does_to_plain_values(
    file: tuple[str, dict[str, Any]], data: st.DataObject
) -> None:
    text, values = file
    assert reads(text.encode()) == values
    draft, meant = Draft(text.encode()), copy.deepcopy(values)
    steps, value = data.draw(st.sampled_from(paths(values)[1:]))
    new = data.draw(WORDS)
    before, away = comments(text.encode()), list[str]()
    try:
        if isinstance(value, str):
            draft.replace(steps, new)
            at(meant, steps[:-1])[steps[-1]] = new
        elif isinstance(value, list) and data.draw(st.booleans()):
            draft.add(steps, new)
            at(meant, steps).append(new)
        elif isinstance(value, dict):
            draft.put(steps, "new", [new], after=data.draw(st.sampled_from(list(value))))
            at(meant, steps)["new"] = [new]
        elif len(at(meant, steps[:-1])) > 1:
            draft.remove(steps)
            del at(meant, steps[:-1])[steps[-1]]
            away = before
        made = draft.result()
    except NotEditable:
        return
    assert reads(made) == meant
    assert [c for c in comments(made) if c not in away] == [
        c for c in comments(text.encode()) if c not in away
    ]


RECORD = b"""\
# about it
kind: assembly
id: lid   # its id
serials:
  # the early ones
  - series: hk
    first: 1
    # until then
    last: 20   # or so
  - {series: hm, first: 1, last: 3}   # few
notes: |
  # not a comment
  It is one.

tell: [one, 'it''s']
"""


def changed(*edits: Any) -> str:
    draft = Draft(RECORD)
    for name, *arguments in edits:
        getattr(draft, name)(*arguments)
    return draft.result().decode()


def test_comments_are_what_stands_outside_of_texts() -> None:
    assert comments(RECORD) == [
        *("# about it", "# its id", "# the early ones", "# until then", "# or so", "# few"),
    ]
    assert comments(b"notes: |  # here\n  # not here\n") == ["# here"]


@each_row(
    ("edit", "was", "now"),
    [
        (("replace", ("id",), "cap"), "id: lid   # its id", "id: cap   # its id"),
        (("replace", ("tell", 1), "isn't"), "'it''s'", "'isn''t'"),
        (("replace", ("id",), "a: b"), "id: lid", 'id: "a: b"'),
        (("put", (), "formerly", ["hat"], "id"), "# its id\n", "# its id\nformerly: [hat]\n"),
        (("put", ("serials", 0), "note", "n", "last"), "# or so\n", "# or so\n    note: n\n"),
        (("put", ("serials", 1), "note", "n", "last"), "last: 3}", "last: 3, note: n}"),
        (("put_lines", ("serials", 1), "m", ["- {k: v}"], "last"), "last: 3}", "last: 3, m: [{k: v}]}"),
        (("put", (), "form", "f", "notes"), "It is one.\n\n", "It is one.\n\nform: f\n"),
        (("add", ("tell",), "two"), "'it''s']", "'it''s', two]"),
        (
            ("add_lines", ("serials",), ["series: x", "first: 9"]),
            "# few\n",
            "# few\n  - series: x\n    first: 9\n",
        ),
        (("remove", ("tell", 0)), "[one, 'it''s']", "['it''s']"),
        (("remove", ("tell", 1)), "[one, 'it''s']", "[one]"),
        (("remove", ("serials", 1)), "  - {series: hm, first: 1, last: 3}   # few\n", ""),
        (("remove", ("serials", 0, "last")), "    # until then\n    last: 20   # or so\n", ""),
        (("remove", ("serials", 1, "first")), "first: 1, last: 3", "last: 3"),
        (("within", ("notes",), lambda t: t.replace("one", "two")), "It is one.", "It is two."),
    ],
)
def test_all_else_stays_as_it_was_typed(edit: tuple[Any, ...], was: str, now: str) -> None:
    text = RECORD.decode()
    assert text.count(was) == 1
    assert changed(edit) == text.replace(was, now)


def test_an_item_is_taken_with_its_comments() -> None:
    assert Draft(RECORD).lines(("serials", 0)) == (
        ["# the early ones"],
        ["series: hk", "first: 1", "# until then", "last: 20   # or so"],
    )
    assert Draft(RECORD).lines(("serials", 1)) == ([], ["{series: hm, first: 1, last: 3}   # few"])


def test_the_line_ends_of_a_file_stay_what_they_are() -> None:
    draft = Draft(b"id: a\r\nb: c\r\n")
    draft.put((), "d", "e", after="id")
    assert draft.result() == b"id: a\r\nd: e\r\nb: c\r\n"


def test_what_has_no_room_is_not_changed() -> None:
    for edit in (
        ("add_lines", ("tell",), ["a: b", "c: d"]),
        ("put_lines", ("serials", 1), "evidence", ["- source: book", "  at: p. 1"], "last"),
        ("remove", ("serials", 0, "series")),
    ):
        with pytest.raises(NotEditable):
            changed(edit)
