"""Drafts: known again, changed by hand, likely there already, and that every line is in one or told."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from spanbook.editing.sheets import Alike, Why, alike, standing_of
from spanbook.editing.sheets.citing import rows_text
from spanbook.editing.sheets.drafts import text_of
from spanbook.editing.sheets.standing import State, mark_of, marked, untouched
from spanbook.editing.sheets.values import tidy
from spanbook.reading import read_bytes
from spanbook.reading.records import PartRecord
from spanbook.register.model import Register
from tests.support import worlds
from tests.support.command import LID
from tests.support.drafted import HEAD, LIDS, PARTS, run, values, world


def test_rows_are_named_in_runs() -> None:
    assert rows_text([3]) == "row 3"
    assert rows_text([3, 4, 5, 9, 9]) == "rows 3 to 5, 9"
    assert rows_text(list(range(1, 40, 2))) == "rows 1, 3, 5, 7, 9, 11, 13, 15 …"


def test_a_draft_is_known_again_wherever_it_was_put_and_whatever_it_is_called(tmp_path: Path) -> None:
    base = worlds.check(tmp_path / "a").register
    (draft, other) = run(base, PARTS, HEAD, ["K-1", "Knob"], ["K-2", "Bolt"]).drafts
    moved = marked(draft, "list.xlsx").replace('id: "k-1"', "id: the-knob")
    named = "kind: part\nid: bolt\nformerly: [k-2]\nnumber: K-2\nname: Bolt\n"
    world = f"# file: content/parts/x/the-knob.yml\n{moved}# file: content/parts/bolt.yml\n{named}"
    there = worlds.check(tmp_path / "b", world).register
    found = standing_of(there, "part", (draft, other))
    assert [(one.state, one.path) for one in found.values()] == [
        (State.TAKEN, "content/parts/x/the-knob.yml"),
        (State.THERE, "content/parts/bolt.yml"),
    ]
    (changed,) = run(base, PARTS, HEAD, ["K-1", "Handle"]).drafts
    assert standing_of(there, "part", [changed])["k-1"].state is State.OTHERWISE
    # Rows move when others are put in between, and say the same.
    (later,) = run(base, PARTS, HEAD, [None], ["K-1", "Knob"]).drafts
    assert standing_of(there, "part", [later])["k-1"].state is State.TAKEN
    assert standing_of(base, "part", [draft])["k-1"].state is State.NEW


def test_a_draft_that_somebody_changed_is_seen(register: Register) -> None:
    (draft,) = run(register, PARTS + "source: {id: book}\n", HEAD, ["K-1", "Knob"]).drafts
    assert marked(draft, "list.xlsx").startswith("# Drafted from list.xlsx, row 2 as k-1 (")
    text = marked(draft, "list.xlsx", "https://example.org/part.json")
    assert mark_of(text.encode()) == ("k-1", mark_of(marked(draft, "list.xlsx").encode())[1])  # type: ignore[index]
    assert untouched(text.encode())
    for change in (
        text.replace("Knob", "Handle"),
        text + "# looked at\n",
        text.replace('name: "Knob"', 'name: "Knob"  # brass'),
        text.replace("part.json\n", "part.json # looked at\n"),
        text.replace(")\n", ") looked at\n", 1),
        "# looked at\n" + text,
        text_of(draft),
    ):
        assert not untouched(change.encode()), change


@given(st.lists(st.tuples(st.sampled_from("ABC"), st.integers(1, 9), st.sampled_from("xyz")), max_size=12))
def test_every_line_of_a_list_is_in_one_draft_or_told(lines: list[tuple[str, int, str]]) -> None:
    rows: list[list[Any]] = [[lid, f"K-{number}", name, number] for lid, number, name in lines]
    found = run(world(), LIDS, ["Lid", "No.", "Name", "Qty"], *rows)
    drafted = sum(len(one["parts"]) for one in values(found).values())
    assert drafted + sum(one.why is Why.TWICE for one in found.left) == len(lines)
    assert drafted == len({*lines})


def pairs(found: list[Alike]) -> list[tuple[str, str, str]]:
    return [(one.draft, one.other, one.path) for one in found]


anything = st.text(st.characters(codec="utf-8"), max_size=60)


@given(st.lists(st.tuples(anything, anything), min_size=1, max_size=6))
def test_text_is_text_or_told(rows: list[tuple[str, str]]) -> None:
    """Whatever stands in a cell comes back out of the draft's file as those characters, or is left over."""
    found = run(world(), PARTS, HEAD, *([number, name] for number, name in rows))
    told = {one.row for one in found.left}
    by_row = {draft.rows[0]: draft for draft in found.drafts}
    for row, (number, name) in enumerate(rows, 2):
        if row in by_row and by_row[row].rows == (row,):
            draft = by_row[row]
            read = read_bytes(marked(draft, "a.csv").encode(), "a.yml", "part", draft.id)
            assert isinstance(read, PartRecord)
            assert (read.number, read.title) == (tidy(number), tidy(name))
        elif tidy(number) or tidy(name):
            assert row in told or any(row in draft.rows for draft in found.drafts)


def test_likely_duplicates_are_told(tmp_path: Path) -> None:
    part = "# file: content/parts/knob.yml\nkind: part\nid: knob\nnumber: K-10\nname: Knob\n"
    there = worlds.check(tmp_path, LID, part).register
    drafts = run(
        there, PARTS, HEAD, ["K-1O", "Knob"], ["K-2", "Bolt"], ["K 2.", "Bolts"], ["L-2", "Nut"]
    ).drafts
    # K 2. and K-2 have one id; K-1O is read for K-10.
    assert pairs(list(alike(there, "part", drafts))) == [("k-1o", "knob", "content/parts/knob.yml")]
    lids = "- {column: Lid, field: title}\n"
    rows: list[list[Any]] = [["The lid, plain"], ["Plain: the LID"], ["Lid 2"], ["Lid 1"], ["Lidd"]]
    text = LIDS.replace("- {column: Lid, field: title, above: true}\n", lids)
    text = text[: text.index("- {column: No.")] + text[text.index("fixed:") :]
    drafts = run(there, text, ["Lid"], *rows).drafts
    assert pairs(list(alike(there, "assembly", drafts))) == [("plain-the-lid", "the-lid-plain", "")]
