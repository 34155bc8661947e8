"""All that is open at once, on a real repository: an old branch, three records, and pairs that clash."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import spanbook
from spanbook.reading.git_branches import MOST, open_branches
from tests.support.command import run
from tests.support.proposals import STRAINER, Community, morning
from tests.support.repository import git

pytestmark = pytest.mark.slow  # git is asked


@pytest.fixture(scope="module")
def community(tmp_path_factory: pytest.TempPathFactory) -> Community:
    return morning(tmp_path_factory.mktemp("morning") / "records")


@pytest.fixture(scope="module")
def found(community: Community) -> spanbook.Proposals:
    return spanbook.review_all(community.folder, "main")


def lines(found: spanbook.Proposals, one: str, other: str) -> tuple[str, ...]:
    return {(pair.one, pair.other): pair.lines for pair in found.pairs}[one, other]


def test_every_pair_that_clashes_and_no_other(found: spanbook.Proposals) -> None:
    told = [(pair.one, pair.other) for pair in found.pairs]
    assert told == [("bound-a", "bound-b"), ("find-a", "find-b"), ("id-a", "id-b"), ("ring-a", "ring-b")]
    assert (found.together, found.left_off, found.patterns) == ((), 0, ("*",))
    assert [(pair.one, pair.other) for pair in found.against] == [("bound-a", "find-a")]


def test_two_that_change_the_same_statement(found: spanbook.Proposals) -> None:
    assert lines(found, "bound-a", "bound-b") == (
        f"they cannot both be merged: assembly edge-strainer ({STRAINER}): "
        "bound-a and bound-b change the same lines",
        "the Metal-edge strainer, HK series: last: [588, 612] → [588, 590] (bound-a); "
        "last: [588, 612] → [588, 596] (bound-b)",
    )


def test_two_that_saw_two_things_on_one_machine(found: spanbook.Proposals) -> None:
    assert lines(found, "find-a", "find-b") == (
        "HK 595, oil filter: anna saw the Metal-edge strainer (find-a); "
        "bert saw the Waste-packed bypass filter (find-b)",
    )


def test_two_that_use_one_id(found: spanbook.Proposals) -> None:
    together, things = lines(found, "id-a", "id-b")
    assert together.startswith(
        "sound each by itself, and not together: content/sources/more/letter-x.yml:2: the id letter-x"
    )
    assert things == (
        "source letter-x: A letter (content/sources/letter-x.yml) (id-a); "
        "Another letter (content/sources/more/letter-x.yml) (id-b)"
    )


def test_two_that_close_a_circle(found: spanbook.Proposals) -> None:
    together, *orders = lines(found, "ring-a", "ring-b")
    assert re.search(r"not together: .*ring-back.yml:4: WH-1190 by .* and so back to WH-1190;", together)
    assert orders[0] == (
        "what is ordered for WH-1183: not known → WH-1190 Duplex strainer with change-over cock (ring-a); "
        "not known → WH-1183 Strainer bowl (ring-b)"
    )


def test_each_proposal_in_a_line(found: spanbook.Proposals) -> None:
    told = {one.branch: one.line for one in found.each}
    assert list(told) == sorted(told)
    assert told["old"] == "a first teardown of HK 590 (tolland, 2026-02-01, untouched): as recorded"
    assert told["text"] == "nothing that answers depend on changed (assembly edge-strainer: changed)"
    assert told["three"].startswith(
        "contradicts: brindle saw the Metal-edge strainer on HK 760 (untouched); "
    )
    assert told["three"].endswith("; 5 things more to decide")
    assert told["broken"] == f"an error to be mended first ({STRAINER}:10: read “588 to 612”)"
    assert {one.branch for one in found.each if not one.sound} == {"broken"}


def test_the_command_tells_the_clashes_first_and_ends_with_1(community: Community, tmp_path: Path) -> None:
    report = tmp_path / "all.md"
    told = run("review", "main", "--all", "--folder", community.folder, "--report", report)
    assert told.exit_code == 1, told.output
    assert told.output.startswith("bound-a and bound-b clash (2)\n  they cannot both be merged: ")
    assert "\n12 proposals open to main\n  bound-a: contradicts what was known: " in told.output
    assert report.read_text().startswith(
        "# 12 proposals open to main\n\n## bound\\-a and bound\\-b clash (2)\n"
    )
    some = ["--branches", "old", "--branches", "t*"]
    few = run("review", "main", "--all", *some, "--folder", community.folder)
    assert few.exit_code == 0, few.output
    assert re.findall(r"^  ([a-z-]+):", few.output, re.M) == ["old", "text", "three"]
    assert few.output.endswith("\n  No two of them clash.\n")


def test_three_records_in_one_proposal(community: Community) -> None:
    told = run("review", "main", "three", "--folder", community.folder)
    assert told.exit_code == 0, told.output
    short = re.split(r"\n\d+ records", told.output)[0].splitlines()
    assert [line.split(":")[0].strip() for line in short] == [
        "In short",
        "contradicts",
        "changed without a change of evidence",
        "changed without a change of evidence",
        "ordered otherwise",
        "ordered otherwise",
        "dated otherwise",
    ]
    assert "HK series: years, 1932: 118 → 120; it still rests on Parts book for the Type H engine" in short[2]


def test_what_was_merged_since_an_old_branch_began_is_not_its_doing(community: Community) -> None:
    told = run("review", "main", "old", "--folder", community.folder)
    assert told.exit_code == 0
    assert "letter-y" not in told.output
    assert "waste-packed" not in told.output


def test_what_is_no_record_has_to_be_read_there_too(tmp_path: Path) -> None:
    made = Community(tmp_path / "p")
    made.propose("hook", lambda: (made.folder / "run.sh").write_text("exit\n"))
    told = run("review", "main", "--all", "--folder", made.folder)
    assert told.exit_code == 3, told.output


def test_without_a_branch_to_judge_it_says_where_to_look(community: Community) -> None:
    told = run("review", "main", "--all", "--branches", "x/*", "--folder", community.folder)
    assert told.exit_code == 0
    assert "No branch that is not merged matches x/*: name others with --branches" in told.output


@pytest.mark.parametrize(
    "arguments", [["main"], ["main", "old", "--all"], ["main", "old", "--branches", "x"]]
)
def test_one_proposal_or_all(community: Community, arguments: list[str]) -> None:
    told = run("review", *arguments, "--folder", community.folder)
    assert told.exit_code == 2
    assert "Give NEW, or --all in its place" in told.output


def test_a_revision_that_is_none(community: Community) -> None:
    told = run("review", "no-such", "--all", "--folder", community.folder)
    assert (told.exit_code, "no-such: " in told.output) == (1, True)


def test_what_only_three_together_make_wrong(tmp_path: Path) -> None:
    made = Community(tmp_path / "p")
    for name, (old, new) in {"x": ("P-1", "P-2"), "y": ("P-2", "P-3"), "z": ("P-3", "P-1")}.items():
        made.propose(name, made.act(f"ring-{name}", f"WH-7{old[-1]}", f"WH-7{new[-1]}"))
    found = spanbook.review_all(made.folder, "main")
    assert not any("not together" in line for pair in found.pairs for line in pair.lines)
    line, untold = found.together
    assert untold == "What only several of them contradict cannot be told before they are sound together."
    assert line.startswith("no two are to blame, and all together are not sound: content/supersessions/ring-")
    assert run("review", "main", "--all", "--folder", made.folder).exit_code == 1


def test_a_removed_record_that_another_names(tmp_path: Path) -> None:
    """Nothing that both touch, and no answer of both: only merged they are wrong."""
    made = Community(tmp_path / "p")
    made.letter("letter-y.yml", "A letter")()
    made.commit("A letter")
    made.propose("takes", lambda: (made.folder / "content/sources/letter-y.yml").unlink())
    made.propose("names", made.edit(STRAINER, "at: p. 31}", "at: p. 31}\n      - {source: letter-y}"))
    made.propose("other", made.letter("letter-z.yml", "Another"))
    found = spanbook.review_all(made.folder, "main")
    ((pair),) = found.pairs
    assert (pair.one, pair.other) == ("names", "takes")
    assert re.search(r"not together: .*edge-strainer\.yml:\d+: .*letter-y", pair.lines[0])
    assert {one.branch for one in found.each if not one.sound} == {"takes"}, "a page would die"


def test_what_clashes_with_the_main_branch_or_cannot_be_merged(tmp_path: Path) -> None:
    made = Community(tmp_path / "p")
    made.propose("late", made.edit(STRAINER, "[588, 612]", "[588, 590]"))
    made.edit(STRAINER, "[588, 612]", "[588, 600]")()
    made.commit("Since")
    git(made.folder, "switch", "-q", "--orphan", "stray")
    made.letter("letter-z.yml", "Alone")()
    made.commit("From nowhere")
    git(made.folder, "switch", "-q", "main")
    found = spanbook.review_all(made.folder, "main")
    told = {one.branch: (one.line, one.sound) for one in found.each}
    assert told["late"][0] == "It cannot be merged: a file clashes with what the main branch holds by now."
    assert not told["late"][1]
    assert "unrelated histories" in told["stray"][0]
    assert found.pairs == ()


def test_where_main_is_broken_it_says_what_cannot_be_told(tmp_path: Path) -> None:
    made = Community(tmp_path / "p")
    made.write("content/sources/bad.yml", "kind: sauce\n")()
    made.commit("Broken")
    made.propose("mends", lambda: (made.folder / "content/sources/bad.yml").unlink())
    made.propose("leaves", made.letter("letter-z.yml", "Another"))
    found = spanbook.review_all(made.folder, "main")
    assert [(one.branch, one.sound) for one in found.each] == [("leaves", False), ("mends", True)]
    untold = "what it changes for readers cannot be told while the main branch has errors"
    assert {one.line for one in found.each} == {untold}


def test_nothing_is_written_into_the_repository(tmp_path: Path) -> None:
    made = Community(tmp_path / "p")
    for name, last in (("a", 590), ("b", 596)):
        made.propose(name, made.edit(STRAINER, "[588, 612]", f"[588, {last}]"))
    before = sorted(str(path) for path in (made.folder / ".git").rglob("*"))
    spanbook.review_all(made.folder, "main")
    assert sorted(str(path) for path in (made.folder / ".git").rglob("*")) == before


def test_branches_of_a_clone(community: Community, tmp_path: Path) -> None:
    """The remote's, but for what is merged, its main branch, however far ahead, and where HEAD leads."""
    clone = tmp_path / "clone"
    git(tmp_path, "clone", "-q", str(community.folder), str(clone))
    git(clone, "reset", "-q", "--hard", "HEAD~1")
    git(clone, "branch", "mine", "origin/old")
    git(clone, "update-ref", "refs/remotes/origin/merged", "HEAD~0")
    found = open_branches(clone, "main")
    assert found.patterns == ("origin/*",)
    assert "origin/three" in found.names
    assert not {"origin/main", "origin/HEAD", "origin/merged", "origin", "main", "mine"} & set(found.names)
    assert found.names["origin/old"] == "refs/remotes/origin/old"
    assert list(open_branches(clone, "origin/main", ["mine", "main"]).names) == ["mine"]
    assert open_branches(clone, "refs/heads/main").names == found.names


def test_the_youngest_of_too_many_are_judged(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "-b", "main")
    for day, name in enumerate(("main", "old", "young")):
        date = f"2026-01-0{day + 1}T00:00:00Z"
        git(tmp_path, "switch", "-q", "--orphan", name)
        (tmp_path / name).write_text("x")
        git(tmp_path, "add", "-A")
        git(tmp_path, "-c", "core.hooksPath=", "commit", "-q", "-m", name, "--date", date)
    for number in range(MOST - 1):
        git(tmp_path, "branch", f"b{number}", "young")
    found = open_branches(tmp_path, "main")
    assert (len(found.names), found.left_off) == (MOST, 1)


def test_the_name_of_a_branch_stays_text(tmp_path: Path) -> None:
    made = Community(tmp_path / "p")
    for name, last in (("<b>@all</b>", 590), ("##x", 596)):
        made.propose(name, made.edit(STRAINER, "[588, 612]", f"[588, {last}]"))
    report = tmp_path / "all.md"
    told = run("review", "main", "--all", "--folder", made.folder, "--report", report)
    assert r"## \#\#x and \<b\>\@all\</b\> clash (2)" in report.read_text()
    assert "<b>@all</b>" not in report.read_text()
    assert "##x and <b>@all</b> clash (2)\n" in told.output
