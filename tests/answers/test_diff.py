"""What a proposal changes: against brute force over every number, and between real git revisions."""

from __future__ import annotations

import itertools
import json
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import assume, given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from PIL import Image

from spanbook.answers.applicability import Fits, reach_of, reading_of
from spanbook.answers.changepoint import Rates
from spanbook.answers.diff.compute import compare
from spanbook.answers.diff.model import Answer, Comparison, Held
from spanbook.cli import main
from spanbook.faces import diff
from spanbook.ground.piecewise import Change, Piece, changes
from spanbook.outputs.text import diff as diff_text
from spanbook.reading.record_cache import Known
from spanbook.reading.records import Record
from spanbook.reading.schemas import folder
from spanbook.register.model import Register
from spanbook.rules.checking import open_folder
from spanbook.site import permanent
from spanbook.wording.diff import sections
from tests.support.command import lid_moved, project
from tests.support.registers import lid, register
from tests.support.repository import git

PROJECT = Path(__file__).parents[2]
ENDS = st.one_of(st.integers(1, 20), st.just("unknown"), st.just("open"))


def compared(old: Register, new: Register) -> Comparison:
    return compare(old, new, (permanent.public(old), permanent.public(new)), Rates())


@given(
    st.lists(st.tuples(st.integers(0, 30), st.integers(0, 5), st.sampled_from("ab")), max_size=6),
    st.lists(st.tuples(st.integers(0, 30), st.integers(0, 5), st.sampled_from("ab")), max_size=6),
)
def test_changes_of_runs_are_those_of_every_number(
    one: list[tuple[int, int, str]], other: list[tuple[int, int, str]]
) -> None:
    sides = [_apart(one), _apart(other)]
    found = list(changes(*sides))
    told = {
        n: (c.before, c.after) for c in found for n in range(c.first, (50 if c.last is None else c.last) + 1)
    }
    for number in range(45):
        pair = tuple(_said(runs, number) for runs in sides)
        assert told.get(number, pair) == pair
        assert (number in told) == (pair[0] != pair[1])
    for left, right in itertools.pairwise(found):
        joined = (left.last or 0) + 1 == right.first
        assert not joined or (left.before, left.after) != (right.before, right.after)


def _apart(drawn: list[tuple[int, int, str]]) -> list[Piece[str]]:
    runs: list[Piece[str]] = []
    for first, length, said in sorted(drawn):
        if not runs or first > (runs[-1].last or 0):
            runs.append(Piece(first, first + length, said))
    return runs


def _said(runs: list[Piece[str]], number: int) -> str | None:
    return next((r.said for r in runs if r.first <= number <= (r.last or 0)), None)


def test_a_run_without_an_end_is_compared_to_its_end() -> None:
    assert list(changes([Piece(1, None, "a")], [Piece(1, 4, "a"), Piece(7, None, "b")])) == [
        Change(5, 6, "a", None),
        Change(7, None, "a", "b"),
    ]


@st.composite
def lids(draw: st.DrawFn) -> tuple[Record, ...]:
    """One to three assemblies at the same position of the small world, with spans of any sort."""
    made = []
    for id_ in ("a", "b", "c")[: draw(st.integers(1, 3))]:
        low, high = sorted((draw(st.integers(1, 20)), draw(st.integers(1, 20))))
        first = draw(st.sampled_from([str(low), f"[{low}, {high}]", "unknown"]))
        last = draw(st.sampled_from([str(high), f"[{low}, {high}]", "unknown", "open"]))
        fitted = draw(st.sampled_from(["", ", fitted: field", ", option: true"]))
        made.append(lid(id_, f"first: {first}, last: {last}{fitted}"))
    return tuple(made)


@given(lids(), lids())
def test_answers_change_where_brute_force_says_so(old: tuple[Record, ...], new: tuple[Record, ...]) -> None:
    before, after = register(*old), register(*new)
    for held in (before, after):
        # The check refuses a span that holds no issued number.
        for fitting in (f for fittings in held.fittings.values() for f in fittings):
            assume(reach_of(fitting.span, held.series[fitting.span.series]).possibly)
    told = {
        (one.series, one.position, n): (one.change.before, one.change.after)
        for one in compared(before, after).answers
        for n in range(one.change.first, (one.change.last or 60) + 1)
    }
    sides = Fits(before), Fits(after)
    for series in after.series.values():
        for number in range(series.first, 40):
            for position in sides[1].positions(after.machines[series.machine]):
                pair = tuple(_at(side, series.id, position, number) for side in sides)
                assert told.get((series.id, position, number)) == (pair if pair[0] != pair[1] else None)


def _at(side: Fits, series_id: str, position: str, number: int) -> Answer | None:
    series = side.register.series[series_id]
    if number not in series.issued:
        return None
    at = side.at(reading_of(series, number), position)
    fits = (Held(f.assembly.id, str(f.covers), f.span.fitted, f.span.option) for f in at.fits)
    return Answer(str(at.state), tuple(dict.fromkeys(fits)))


def _folder(tmp_path: Path, name: str, change: Callable[[Path], None] = lambda _: None) -> str:
    copy = tmp_path / name
    shutil.copytree(PROJECT / "content", copy / "content")
    change(copy / "content")
    return str(copy)


def told(tmp_path: Path, change: Callable[[Path], None]) -> Comparison:
    return diff.compare(_folder(tmp_path, "old"), _folder(tmp_path, "new", change), tmp_path)


def _narrow(content: Path) -> None:
    file = content / "assemblies/lubrication/edge-strainer.yml"
    file.write_text(file.read_text().replace("[588, 612]", "[588, 600]"))


def test_a_narrower_bound_on_the_demonstration(tmp_path: Path) -> None:
    found = told(tmp_path, _narrow)
    assert [(one.sort, one.id) for one in found.records] == [("changed", "edge-strainer")]
    (answer,) = found.answers
    assert (answer.position, answer.change.first, answer.change.last) == ("lubrication/oil-filter", 601, 612)
    assert {held.assembly for held in (answer.change.before or Answer("", ())).held} >= {"edge-strainer"}
    assert "edge-strainer" not in {held.assembly for held in (answer.change.after or Answer("", ())).held}
    assert not found.orders
    assert not found.born
    assert not found.dead


def _remark(content: Path) -> None:
    file = content / "assemblies/lubrication/edge-strainer.yml"
    file.write_text(f"# looked at again\n{file.read_text()}\n\n")


@pytest.mark.parametrize("change", [lambda _: None, _remark], ids=["the same", "a comment"])
def test_nothing_changes_for_readers(tmp_path: Path, change: Callable[[Path], None]) -> None:
    found = told(tmp_path, change)
    assert found.nothing
    assert diff_text.as_text(sections(found)) == "Nothing changes for readers."
    assert "Nothing changes for readers." in diff_text.as_markdown(sections(found))


def _split(content: Path) -> None:
    file = content / "supersessions/pack-2240-split.yml"
    file.write_text(file.read_text().replace("quantity: 2}", "quantity: 3}"))


def test_what_is_ordered_otherwise_is_told(tmp_path: Path) -> None:
    text = diff_text.as_text(sections(told(tmp_path, _split)))
    assert "WH-1181: WH-2241 and 2 × WH-2242 → WH-2241 and 3 × WH-2242" in text


def _drop_a_teardown(content: Path) -> None:
    (content / "teardowns/hk-701-osk.yml").unlink()


def test_a_standing_changes_with_what_was_seen(tmp_path: Path) -> None:
    text = diff_text.as_text(sections(told(tmp_path, _drop_a_teardown)))
    assert "assembly edge-strainer#span-hk: disputed → confirmed" in text
    assert "teardowns/hk-701-osk/" in text.split("Addresses that would die (1)")[1]
    closed = text.split("Questions closed")[1]
    assert "is it really the Metal-edge strainer?" in closed


def _other_source(content: Path) -> None:
    file = content / "sources/parts-book-1934.yml"
    file.write_text(file.read_text().replace("class: parts-book", "class: recollection"))


def _another_teardown(content: Path) -> None:
    file = content / "teardowns/hk-701-osk.yml"
    file.write_text(file.read_text().replace("condition: untouched", "condition: altered"))


@pytest.mark.slow
@pytest.mark.parametrize(
    "change", [_narrow, _split, _drop_a_teardown, _other_source, _another_teardown], ids=lambda c: c.__name__
)
def test_what_cannot_differ_is_left_out_without_a_difference(
    tmp_path: Path, change: Callable[[Path], None]
) -> None:
    """Records read once for both sides narrow the work; read apart, everything is worked out."""
    old, new = (Path(_folder(tmp_path, *each)) for each in (("old",), ("new", change)))
    known = Known()
    shared = compared(*(open_folder(folder, known).register for folder in (old, new)))
    apart = compared(*(open_folder(folder).register for folder in (old, new)))
    assert diff_text.as_text(sections(shared)) == diff_text.as_text(sections(apart))
    assert not shared.nothing


def test_a_renamed_record_is_the_same_record(tmp_path: Path) -> None:
    old, new = project(tmp_path / "old"), lid_moved(project(tmp_path / "new"))
    found = diff.compare(str(old), str(new), tmp_path)
    assert [(one.sort, one.before, one.id) for one in found.records] == [("renamed", "lid", "cover-plate")]
    assert not found.answers
    assert not found.standings
    assert not found.dead
    assert "assemblies/cover-plate/" in found.born


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    copy = Path(_folder(tmp_path, "repository"))
    git(copy, "init", "-q", "-b", "main")
    git(copy, "add", "-A")
    git(copy, "commit", "-q", "-m", "The records")
    git(copy, "switch", "-q", "-c", "proposal")
    return copy


def run(folder: Path, *arguments: str) -> str:
    result = CliRunner().invoke(main, ["compare", *arguments, "--folder", str(folder)])
    assert result.exit_code == 0, result.output
    return result.output


@pytest.mark.slow
def test_revisions_are_compared(repository: Path) -> None:
    _narrow(repository / "content")
    (repository / "mkdocs.yml").write_text("site_name: Changed\nplugins: [spanbook]\ndocs_dir: content\n")
    (repository / ".gitattributes").write_text("content/assemblies/** export-ignore\n* -diff\n")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "A narrower bound")
    text = run(repository, "main", "proposal")
    assert "HK 601 to HK 612" in text
    assert re.search(r"as a program \(1\)\n  \.gitattributes\nSettings .*\n  mkdocs\.yml", text)
    made = json.loads(run(repository, "main", "proposal", "--format", "json"))
    assert made["besides"] == [".gitattributes", "mkdocs.yml"]
    assert run(repository, "main", "main").strip() == "Nothing changes for readers."
    assert run(repository, "main", str(repository)).startswith("Records (1)")


@pytest.mark.slow
@pytest.mark.parametrize("revision", ["no-such", "--output=x", "main:content", ""])
def test_a_revision_that_is_none_is_refused(repository: Path, revision: str) -> None:
    result = CliRunner().invoke(main, ["compare", "--folder", str(repository), "--", revision, "main"])
    assert result.exit_code == 1
    assert "give a folder, or a revision" in result.output
    assert not (repository / "x").exists()


@pytest.mark.slow
def test_a_link_in_a_revision_is_refused_and_never_followed(repository: Path) -> None:
    secret = repository / "content/sources/secret.yml"
    secret.symlink_to("/etc/passwd")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "A link")
    result = CliRunner().invoke(main, ["compare", "--folder", str(repository), "main", "proposal"])
    assert result.exit_code == 1
    assert "file-link" in result.output
    assert "root:" not in result.output


def test_json_keeps_to_its_schema(tmp_path: Path) -> None:
    def change(content: Path) -> None:
        for each in (_narrow, _split, _drop_a_teardown):
            each(content)
        file = content / "machines/wexmoor-h.yml"
        file.write_text(file.read_text().replace("1932: 118", "1932: 120"))

    old, new = _folder(tmp_path, "old"), _folder(tmp_path, "new", change)
    made = json.loads(run(tmp_path, old, new, "--format", "json"))
    schema = Draft202012Validator(json.loads((folder() / "answer-compare.json").read_text()))
    assert list(schema.iter_errors(made)) == []
    for key in ("records", "answers", "years", "orders", "standings"):
        assert made[key], key


def test_markdown_is_cut_with_a_count_and_strangers_text_stays_text(tmp_path: Path) -> None:
    def change(content: Path) -> None:
        file = content / "assemblies/lubrication/edge-strainer.yml"
        text = file.read_text().replace("title: Metal-edge strainer", "title: '<b>@all</b> [x](http://y)'")
        file.write_text(text.replace("[588, 612]", "[588, 600]"))
        (content / "teardowns/hk-701-osk.yml").unlink()

    found = told(tmp_path, change)
    whole = diff_text.as_markdown(sections(found))
    assert r"\<b\>\@all\</b\> \[x\]\(http\://y\)" in whole
    assert not re.search(r"(?<!\\)[<@\[]", whole)
    short = diff_text.as_markdown(sections(found), limit=900)
    assert len(short.encode()) <= 900
    (count,) = re.findall(r"(\d+) more lines do not fit", short)
    kept = sum(line.startswith("- ") for line in short.splitlines())
    assert int(count) + kept == sum(line.startswith("- ") for line in whole.splitlines())


def test_records_with_errors_are_not_compared(tmp_path: Path) -> None:
    def broken(content: Path) -> None:
        (content / "sources/bad.yml").write_text("kind: sauce\n")

    with pytest.raises(diff.NotComparable, match=r"mend them first:\n.*bad\.yml:1:7: error kind-wrong"):
        told(tmp_path, broken)


def test_unchanged_records_are_read_once() -> None:
    known = Known()
    one, other = (open_folder(PROJECT, known).register for _ in range(2))
    assert one.records == other.records  # told apart by identity


@pytest.mark.slow
def test_a_proposal_is_reviewed_in_one_go(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page, report = repository / "summary.md", repository / "report.md"
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(page))
    _narrow(repository / "content")
    git(repository, "commit", "-q", "-a", "-m", "A narrower bound")
    options = ["--folder", str(repository), "--format", "github", "--report", str(report)]
    result = CliRunner().invoke(main, ["review", "main", "proposal", *options])
    assert result.exit_code == 0, result.output
    assert "HK 601 to HK 612" in result.output
    assert "Everything could be read" in report.read_text()
    assert r"HK 601 to HK 612\:" in report.read_text() == page.read_text()


@pytest.mark.slow
@pytest.mark.parametrize(
    ("path", "sort"),
    [
        ("mkdocs.yml", "Settings and programs"),
        ("program/source.txt", "Settings and programs"),
        ("overrides/main.html", "Settings and programs"),
        (".github/workflows/records.yml", "Workflows, hooks"),
        (".gitlab-ci.yml", "Workflows, hooks"),
        (".gitattributes", "Workflows, hooks"),
        ("content/guide.md", "Guides"),
        ("content/plate.png", "Guides"),
        ("content/.gitkeep", "Guides"),
    ],
)
def test_what_is_no_record_ends_a_review_with_a_code_of_its_own(
    repository: Path, path: str, sort: str
) -> None:
    file = repository / path
    file.parent.mkdir(parents=True, exist_ok=True)
    if file.name == "plate.png":
        Image.new("RGB", (4, 3)).save(file)
    else:
        file.write_text(file.read_text() + "# more\n" if file.exists() else "x")
    git(repository, "add", "-A", "-f")
    git(repository, "commit", "-q", "-m", "More than records")
    git(repository, "switch", "-q", "main")
    result = CliRunner().invoke(main, ["review", "main", "proposal", "--folder", str(repository)])
    assert result.exit_code == 3, result.output
    assert "Look before you take it in: it touches a file that is no record," in result.output
    assert re.search(rf"\n{sort}.*\(1\)\n  {re.escape(path)}\n", result.output)


@pytest.mark.slow
def test_a_review_tells_what_is_touched_outside_the_project_and_in_other_repositories(
    tmp_path: Path,
) -> None:
    project(tmp_path / "records")
    git(tmp_path, "init", "-q", "-b", "main")
    git(tmp_path, "add", "-A")
    git(tmp_path, "commit", "-q", "-m", "Records in a folder of a repository")
    # A user's own settings do not decide what is told.
    git(tmp_path, "config", "diff.relative", "true")
    git(tmp_path, "config", "diff.ignoreSubmodules", "all")
    head = subprocess.run(
        ["git", "-C", tmp_path, "rev-parse", "HEAD"], capture_output=True, check=True
    ).stdout
    for name in (".github/workflows/deploy.yml", "Makefile"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("x")
    git(tmp_path, "add", "-A")
    git(tmp_path, "update-index", "--add", "--cacheinfo", f"160000,{head.decode().strip()},records/theirs")
    git(tmp_path, "commit", "-q", "-m", "More than records")
    result = CliRunner().invoke(main, ["review", "HEAD~1", "HEAD", "--folder", str(tmp_path / "records")])
    assert result.exit_code == 3, result.output
    assert re.search(r"\nWorkflows, hooks.*\(1\)\n  \.\./\.github/workflows/deploy\.yml\n", result.output)
    assert re.search(r"\nSettings and programs.*\(2\)\n  \.\./Makefile\n  theirs\n", result.output)


@pytest.mark.slow
def test_a_folder_called_like_a_revision_is_not_taken_for_it(
    repository: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _narrow(repository / "content")
    git(repository, "commit", "-q", "-a", "-m", "A narrower bound")
    monkeypatch.chdir(repository)
    shutil.copytree(repository / "content", repository / "main/content")
    result = CliRunner().invoke(main, ["review", "main", "proposal"])
    assert "HK 601 to HK 612" in result.output


@pytest.mark.slow
def test_what_a_broken_proposal_touches_besides_is_told(repository: Path) -> None:
    (repository / "content/sources/bad.yml").write_text("kind: sauce\n")
    (repository / "mkdocs.yml").write_text("plugins: []\n")
    (repository / "content/guide.md").write_text("<iframe>\n")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "Broken")
    (repository / "mkdocs.yml").write_text(
        "site_name: X\nsite_url: https://example.org/x\ndocs_dir: content\n"
    )
    report = repository / "report.md"
    options = ["--folder", str(repository), "--report", str(report)]
    result = CliRunner().invoke(main, ["review", "main", "proposal", *options])
    assert "([kind-wrong](https://example.org/x/rules/#kind-wrong))" in report.read_text()
    assert result.exit_code == 1
    assert "Look before you take it in: it touches 2 files that are no records" in result.output
    assert "Settings and programs: read each as a program (1)\n  mkdocs.yml\n" in result.output
    assert "read each as readers will (1)\n  content/guide.md\n" in result.output
    assert "Nothing changes" not in result.output
    assert r"mkdocs\.yml" in report.read_text()


@pytest.mark.slow
def test_the_check_is_reported_where_there_is_nothing_to_compare_with(repository: Path) -> None:
    report = repository / "report.md"
    options = ["--folder", str(repository), "--report", str(report)]
    result = CliRunner().invoke(main, ["review", "no-such", "proposal", *options])
    assert result.exit_code == 1
    assert "no-such: there is no such revision" in result.output
    assert "Everything could be read" in report.read_text()


@pytest.mark.slow
def test_a_broken_proposal_is_told_and_not_compared(repository: Path) -> None:
    (repository / "content/sources/bad.yml").write_text("kind: sauce\n")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "Broken")
    result = CliRunner().invoke(
        main, ["review", "main", "proposal", "--folder", str(repository), "--format", "github"]
    )
    assert result.exit_code == 1
    assert "::error file=content/sources/bad.yml,line=1,col=7,title=kind-wrong::" in result.output
    assert "Answers" not in result.output
    assert "read each" not in result.output
    at = CliRunner().invoke(main, ["check", str(repository), "--at", "proposal"])
    assert at.exit_code == 1
    assert CliRunner().invoke(main, ["check", str(repository), "--at", "main"]).exit_code == 0
    assert CliRunner().invoke(main, ["check", str(repository), "--at", "no-such"]).exit_code == 1
