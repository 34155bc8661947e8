"""The commands that call things otherwise: the plan first, then all of it or nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from spanbook.cli import main
from tests.support.command import LID, project, run
from tests.support.trees import tree

LISTED = LID + "# its parts\nparts:\n- {number: K-1, name: Knob}   # brass\n"
SEEN = (
    "# file: content/teardowns/x-7-merrin.yml\nkind: teardown\nid: x-7-merrin\ndate: 2024\nseen-by: merrin\n"
    "serial: XA 7\ncondition: untouched\nfound:\n"
    "- {position: body/cover, assembly: lid, parts: [{number: K-1}]}\n"
)
PLAN = """\
assemblies/lid.yml becomes assemblies/cap.yml
     2 - id: lid
     2 + id: cap
     3 + formerly: [lid]
index.md
     3 - [The lid](assemblies/lid.md#span-xa)
     3 + [The lid](assemblies/cap.md#span-xa)
teardowns/x-7-merrin.yml
     8 - - {position: body/cover, assembly: lid, parts: [{number: K-1}]}
     8 + - {position: body/cover, assembly: cap, parts: [{number: K-1}]}
3 files change, 1 gets another name.
1 address leads on: assemblies/lid/
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return project(tmp_path / "p", LISTED, SEEN)


def test_the_plan_is_shown_and_nothing_done_without_a_yes(folder: Path) -> None:
    before = tree(folder)
    told = run("rename", "assemblies/lid", "cap", "--folder", folder, "--plan")
    assert (told.exit_code, told.output) == (0, PLAN)
    arguments = ["rename", "assemblies/lid", "cap", "--folder", str(folder)]
    refused = CliRunner().invoke(main, arguments, input="n\n")
    assert (refused.exit_code, refused.output) == (0, PLAN + "Do it? [y/N]: n\nNothing was changed.\n")
    assert CliRunner().invoke(main, arguments, input="").exit_code == 1
    assert tree(folder) == before
    done = CliRunner().invoke(main, arguments, input="y\n")
    assert (done.exit_code, done.output) == (0, PLAN + "Do it? [y/N]: y\nDone.\n")
    assert not (folder / "content/assemblies/lid.yml").exists()
    cap = (folder / "content/assemblies/cap.yml").read_text()
    assert cap == LISTED.partition("\n")[2].replace("id: lid\n", "id: cap\nformerly: [lid]\n")
    assert "(assemblies/cap.md#span-xa)" in (folder / "content/index.md").read_text()


@pytest.mark.slow
def test_what_is_called_otherwise_is_built(folder: Path) -> None:
    assert run("rename", "assemblies/lid", "cap", "--folder", folder, typed="y\n").exit_code == 0
    assert run("build", folder, "--strict").exit_code == 0


def test_back_again_it_is_the_other_name_that_leads_on(folder: Path) -> None:
    for word in ("cap", "hat", "lid"):
        (was,) = (folder / "content/assemblies").glob("*.yml")
        assert run("rename", f"assemblies/{was.stem}", word, "--folder", folder, "--yes").exit_code == 0
    text = (folder / "content/assemblies/lid.yml").read_text()
    assert text == LISTED.partition("\n")[2].replace("id: lid\n", "id: lid\nformerly: [hat, cap]\n")


def test_a_part_gets_another_number(folder: Path) -> None:
    assert run("renumber", "k-1", "K-7", "--folder", folder, "--yes").exit_code == 0
    assert "- {number: K-7, name: Knob}   # brass\n" in (folder / "content/assemblies/lid.yml").read_text()
    record = (folder / "content/parts/knob.yml").read_text()
    assert (
        record
        == 'kind: "part"\nid: "knob"\nnumber: "K-7"\nname: "Knob"\nformerly-numbered:\n  - number: "K-1"\n'
    )
    assert run("renumber", "K-7", "K-1", "--folder", folder, "--yes").exit_code == 0
    assert 'number: "K-1"\n' in (folder / "content/parts/knob.yml").read_text()
    assert '- number: "K-7"\n' in (folder / "content/parts/knob.yml").read_text()


def test_a_number_that_another_part_has_is_told_before_they_are_one(folder: Path) -> None:
    told = run("renumber", "K-1", "K-9", "--folder", folder, "--plan").output
    assert "recorded already" not in told
    text = 'kind: part\nid: hinge\nnumber: "K-5"\nname: Hinge\nonly-in: [{number: "K-9"}]\n'
    (folder / "content/parts").mkdir(exist_ok=True)
    (folder / "content/parts/hinge.yml").write_text(text)
    told = run("renumber", "K-1", "K-9", "--folder", folder, "--plan").output
    assert "K-9 is recorded already: K-1 Knob would be one part with it." in told


def test_in_one_record_alone_its_line_keeps_the_address(folder: Path) -> None:
    told = run("renumber", "K-1", "K-7", "--in", "assemblies/lid", "--folder", folder, "--yes")
    assert told.exit_code == 0, told.output
    text = (folder / "content/assemblies/lid.yml").read_text()
    assert "- {number: K-7, formerly: [part-k-1], name: Knob}   # brass\n" in text
    assert "parts: [{number: K-1}]" in (folder / "content/teardowns/x-7-merrin.yml").read_text()


def test_a_span_gets_another_anchor(folder: Path) -> None:
    for word in ("span-early", "span-first", "span-xa"):
        anchor = "span-xa" if word == "span-early" else "span-early" if word == "span-first" else "span-first"
        told = run("rename", f"assemblies/lid#{anchor}", word, "--folder", folder, "--yes")
        assert told.exit_code == 0, told.output
    text = (folder / "content/assemblies/lid.yml").read_text()
    assert "last: 20, anchor: span-xa, formerly: [span-first, span-early]}" in text


def test_an_assembly_goes_to_another_position_with_all_that_names_it_there(folder: Path) -> None:
    told = run("move", "assemblies/lid", "positions/body/drain", "--folder", folder, "--yes")
    assert told.exit_code == 0, told.output
    assert "\nposition: body/drain\n" in (folder / "content/assemblies/lid.yml").read_text()
    assert (
        "{position: body/drain, assembly: lid," in (folder / "content/teardowns/x-7-merrin.yml").read_text()
    )
    assert (
        "{position: body/cover, note: A plain lid}"
        in (folder / "content/teardowns/x-5-merrin.yml").read_text()
    )


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["rename", "assemblies/lidd", "cap"], "there is no such assembly; did you mean assemblies/lid?"),
        (["rename", "lid", "cap"], "lid: name it as its address does: assemblies/lid\n"),
        (["rename", "xa", "xc"], "xa: name it as its address does: series/xa\n"),
        (["move", "assemblies/lid", "body/drain"], "name it as its address does: positions/body/drain\n"),
        (["rename", "lidd", "cap"], "lidd: name it as its address does, such as assemblies/lid; begin with "),
        (["rename", "assemblies/lid", "A Cap"], "A Cap: an id is small letters and digits"),
        (["rename", "assemblies/lid", "lid"], "assemblies/lid is what it is called"),
        (["rename", "series/xa", "xb"], "series/xb is there already, in content/machines/x-one.yml"),
        (["rename", "positions/body/cover", "drain"], "positions/body/drain is there already"),
        (["rename", "assemblies/lid#tell", "x"], "only a span's anchor is given; its spans have span-xa"),
        (["renumber", "K-2", "K-3"], "no record mentions a part K-2; did you mean K-1?"),
        (["renumber", "K-1", "K-1"], "K-1 is what it is numbered"),
        (["renumber", "K-1", "K-3", "--in", "sources/book"], "K-1 is not mentioned there"),
    ],
)
def test_what_cannot_be_done_is_told(arguments: list[str], told: str, folder: Path) -> None:
    before = tree(folder)
    done = run(*arguments, "--folder", folder, "--yes")
    assert done.exit_code == 1
    assert told in done.output
    assert tree(folder) == before


@pytest.mark.parametrize("by", [[], ["--by", "hale"]])
def test_another_number_of_a_part_is_not_said_to_be_in_no_record(by: list[str], tmp_path: Path) -> None:
    part = "# file: content/parts/knob.yml\nkind: part\nid: knob\nnumber: K-1\nname: Knob\n"
    folder = project(tmp_path / "p", LISTED, part + "also: [{number: L.3, by: hale}]\n")
    done = run("renumber", "l.3", "L.4", *by, "--folder", folder, "--yes")
    assert done.exit_code == 1
    assert "l.3 is another number of K-1: correct it under also in " in done.output
    assert "parts/knob.yml" in done.output
    done = run("renumber", "L.3", "L.4", "--by", "others", "--folder", folder, "--yes")
    assert "no record mentions a part L.3 by others" in done.output


def test_records_with_errors_are_mended_first(folder: Path) -> None:
    lid = folder / "content/assemblies/lid.yml"
    lid.write_text(lid.read_text().replace("first: 1", "first: one"))
    done = run("rename", "series/xa", "xz", "--folder", folder, "--yes")
    assert done.exit_code == 1
    assert "Mend them first:\n  content/assemblies/lid.yml:6:" in done.output
