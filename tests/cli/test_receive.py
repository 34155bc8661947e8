"""The command that takes in what people send: told first, then all of it or nothing."""

from __future__ import annotations

import io
import json
import subprocess
from pathlib import Path

import pytest
from jsonschema_rs import Draft202012Validator
from PIL import Image

from spanbook.reading.schemas import folder as schemas
from spanbook.rules.checking import check_folder
from spanbook.site.forms.records import digest
from tests.hostile.pictures import picture
from tests.support.command import project, run
from tests.support.packets import ABOUT, RECORD, SEEN, packet, zipped
from tests.support.repository import git
from tests.support.trees import tree

SCHEMA = Draft202012Validator(json.loads((schemas() / "answer-receive.json").read_text(encoding="utf-8")))
SHOWN = SEEN + '    photographs:\n      - file: "xa-9/cover.jpg"\n        shows: "The cover"\n'
PICTURE = "content/photographs/xa-9/cover.jpg"
OLDER = SEEN.replace("untouched", "unknown") + "# looked at by lamp\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return project(tmp_path / "p")


@pytest.fixture
def repository(folder: Path) -> Path:
    begun(folder)
    return folder


def begun(repository: Path) -> None:
    git(repository, "init", "-q", "-b", "main")
    git(repository, "config", "user.name", "m")
    git(repository, "config", "user.email", "m@example.org")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "All")


def sent(folder: Path, data: bytes) -> Path:
    file = folder.parent / "p.zip"
    file.write_bytes(data)
    return file


def git_says(folder: Path, *arguments: str) -> str:
    asked = ["git", "-C", str(folder), *arguments]
    return subprocess.run(asked, capture_output=True, check=True, text=True).stdout


def answer(*arguments: str | Path) -> dict:  # type: ignore[type-arg]
    told = json.loads(run("receive", *arguments, "--json").stdout)
    SCHEMA.validate(told)
    return dict(told)


def test_first_it_is_told_and_nothing_is_written(folder: Path) -> None:
    before = tree(folder)
    told = run("receive", sent(folder, packet()), "--folder", folder)
    assert told.exit_code == 0, told.output
    assert told.output.splitlines()[:6] == [
        "From merrin, made on 2026-06-02 with the data of 2026-05-30, for X.",
        "To the maintainers:",
        "  The cover of XA 9.",
        "What is in it:",
        "  content/teardowns/xa-9-merrin.yml: new",
        "What would change for readers:",
    ]
    assert told.output.endswith("Nothing was written. It can be laid: with --branch, or --into FOLDER.\n")
    assert tree(folder) == before


@pytest.mark.slow
def test_what_was_taken_in_is_built(folder: Path) -> None:
    file = sent(folder, packet({RECORD: SHOWN, PICTURE: picture()}))
    assert run("receive", file, "--folder", folder, "--into", folder).exit_code == 0
    assert run("build", folder, "--strict").exit_code == 0


def test_it_is_taken_in(folder: Path) -> None:
    file = sent(folder, packet({RECORD: SHOWN, PICTURE: picture()}))
    told = run("receive", file, "--folder", folder, "--into", folder)
    assert told.exit_code == 0, told.output
    assert (folder / RECORD).read_text() == SHOWN
    assert (folder / PICTURE).read_bytes() == picture()
    again = run("receive", file, "--folder", folder, "--into", folder)
    assert (again.exit_code, again.output.splitlines()[-1]) == (
        1,
        "Error: nothing was written: all that is in it is there already",
    )


def test_it_is_laid_in_a_folder_of_its_own(folder: Path, tmp_path: Path) -> None:
    file, place = sent(folder, packet()), tmp_path / "review"
    before = tree(folder)
    assert run("receive", file, "--folder", folder, "--into", place).exit_code == 0
    assert tree(folder) == before
    assert [path.relative_to(place).as_posix() for path in place.rglob("*.yml")] == [RECORD]
    again = run("receive", file, "--folder", folder, "--into", place)
    assert again.exit_code == 1
    assert "it is there and is not empty" in again.output


def test_it_is_laid_as_a_branch_and_the_files_stay_as_they_are(repository: Path) -> None:
    hook = repository / ".git/hooks/post-commit"
    hook.write_text("#!/bin/sh\ntouch ran\n")
    hook.chmod(0o755)
    (repository / "content/index.md").write_text("# Being written\n")
    before = tree(repository / "content")
    told = answer(sent(repository, packet()), "--folder", repository, "--branch")
    name = told["branch"]
    assert name.startswith("packet/2026-06-02-merrin-")
    assert tree(repository / "content") == before
    assert git_says(repository, "status", "--porcelain") == " M content/index.md\n"
    assert git_says(repository, "diff", "--name-status", "main", name) == f"A\t{RECORD}\n"
    assert git_says(repository, "show", f"{name}:{RECORD}") == SEEN
    assert git_says(repository, "log", "-1", "--format=%P%n%an%n%B", name).strip().splitlines() == [
        git_says(repository, "rev-parse", "main").strip(),
        "m",
        "Sent by merrin: xa-9-merrin",
        "",
        "The cover of XA 9.",
        "",
        "Made on 2026-06-02 with the data of 2026-05-30.",
    ]
    assert not (repository / "ran").exists()
    assert run("review", "main", name, "--folder", repository).exit_code == 0
    packed_anew = zipped({"packet.json": json.dumps(ABOUT), RECORD: SEEN}, deflated=True)
    again = run("receive", sent(repository, packed_anew), "--folder", repository, "--branch")
    assert again.exit_code == 1
    assert "there is such a branch already" in again.output


def test_a_project_in_a_folder_of_its_repository_gets_it_there(tmp_path: Path) -> None:
    inner = project(tmp_path / "r/inner")
    begun(tmp_path / "r")
    name = answer(sent(inner, packet()), "--folder", inner, "--branch")["branch"]
    assert git_says(inner, "diff", "--name-only", "main", name) == f"inner/{RECORD}\n"


def test_without_a_repository_there_is_no_branch(folder: Path) -> None:
    told = run("receive", sent(folder, packet()), "--folder", folder, "--branch")
    assert told.exit_code == 1
    assert "not a git repository" in told.output


@pytest.mark.parametrize("how", ["--into", "--branch"])
def test_records_that_would_be_wrong_are_told_and_nothing_is_written(repository: Path, how: str) -> None:
    file = sent(repository, packet({RECORD: SEEN.replace('"lid"', '"lidd"')}))
    before, branches = tree(repository / "content"), git_says(repository, "branch", "-a")
    where = ["--branch"] if how == "--branch" else ["--into", str(repository)]
    told = run("receive", file, "--folder", repository, *where)
    assert told.exit_code == 1
    assert told.output.count("content/teardowns/xa-9-merrin.yml:9:") == 1
    assert told.output.endswith("the errors told above would be in the records afterwards\n")
    assert "did you mean lid?" in told.output
    assert tree(repository / "content") == before
    assert git_says(repository, "branch", "-a") == branches


def test_what_a_correction_says_that_it_corrects_is_replaced(folder: Path) -> None:
    (folder / RECORD).write_text(OLDER)
    (old,) = [r for r in check_folder(folder).register.records if r.id == "xa-9-merrin"]
    file = sent(folder, packet(corrects={RECORD: digest(old)}))
    told = run("receive", file, "--folder", folder, "--into", folder)
    assert told.exit_code == 0, told.output
    assert "content/teardowns/xa-9-merrin.yml: corrects what is there" in told.output
    assert "    its remark would be gone: # looked at by lamp\n" in told.output
    assert (folder / RECORD).read_text() == SEEN


@pytest.mark.parametrize(
    ("there", "corrects", "how"),
    [(OLDER, None, "in-the-way"), (OLDER, "0" * 16, "changed-since"), (None, "0" * 16, "changed-since")],
)
def test_nothing_is_replaced_that_nobody_meant(
    folder: Path, there: str | None, corrects: str | None, how: str
) -> None:
    if there:
        (folder / RECORD).write_text(there)
    before = tree(folder)
    file = sent(folder, packet(corrects={RECORD: corrects} if corrects else None))
    told = answer(file, "--folder", folder, "--into", folder)
    assert [one["how"] for one in told["files"]] == [how]
    assert "say --replace" in told["refused"]
    assert tree(folder) == before
    assert answer(file, "--folder", folder, "--into", folder, "--replace")["folder"] == str(folder)
    assert (folder / RECORD).read_text() == SEEN


def test_two_who_wrote_of_one_machine_on_one_day_are_laid_beside_one_another(folder: Path) -> None:
    """With its pictures, and with what was sent along and names it; sent once more, nothing is new."""
    (folder / RECORD).write_text(OLDER)
    (folder / PICTURE).parent.mkdir(parents=True)
    (folder / PICTURE).write_bytes(picture(size=(400, 300)))
    part = "content/parts/knob.yml"
    knob = 'kind: part\nid: knob\nnumber: "K-1"\nname: Knob\nevidence: [{teardown: xa-9-merrin}]\n'
    file = sent(folder, packet({RECORD: SHOWN, PICTURE: picture(), part: knob}))
    before = tree(folder)
    refused = answer(file, "--folder", folder, "--into", folder)["refused"]
    assert "say --replace if what was sent is right, or --beside" in refused
    assert tree(folder) == before
    told = run("receive", file, "--folder", folder, "--into", folder, "--beside")
    assert told.exit_code == 0, told.output
    assert "content/teardowns/xa-9-merrin-2.yml: new; it was sent as xa-9-merrin.yml" in told.output
    assert (folder / RECORD).read_text() == OLDER
    assert (folder / PICTURE).read_bytes() == picture(size=(400, 300))
    laid = (folder / RECORD.replace("merrin", "merrin-2")).read_text()
    assert laid == SHOWN.replace('"xa-9-merrin"', '"xa-9-merrin-2"').replace("cover.jpg", "cover-2.jpg")
    assert (folder / PICTURE.replace("cover", "cover-2")).read_bytes() == picture()
    assert "teardown: xa-9-merrin-2}" in (folder / part).read_text()
    again = run("receive", file, "--folder", folder, "--into", folder, "--beside")
    assert "all that is in it is there already" in again.output


def test_an_id_that_a_record_elsewhere_has_is_told_and_gets_another(folder: Path) -> None:
    elsewhere = folder / "content/teardowns/old/xa-9-merrin.yml"
    elsewhere.parent.mkdir()
    elsewhere.write_text(OLDER)
    file = sent(folder, packet())
    told = answer(file, "--folder", folder, "--into", folder)
    assert (
        "the id of content/teardowns/xa-9-merrin.yml is another record's already; --beside" in told["refused"]
    )
    assert run("receive", file, "--folder", folder, "--into", folder, "--beside").exit_code == 0
    assert elsewhere.read_text() == OLDER
    assert 'id: "xa-9-merrin-2"' in (folder / "content/teardowns/xa-9-merrin-2.yml").read_text()


@pytest.mark.parametrize(("turn", "size"), [(1, (1000, 600)), (6, (600, 1000))])
def test_what_a_pictures_file_tells_besides_is_taken_out(
    folder: Path, turn: int, size: tuple[int, int]
) -> None:
    """One that was held upright stays as it was packed; another is turned first."""
    exif = Image.Exif()
    exif[0x010F] = "A camera"
    exif[0x0112] = turn
    exif[0x8825] = {1: "N", 2: (52.0, 1.0, 2.0)}
    telling = picture(exif=exif.tobytes())
    told = answer(
        sent(folder, packet({RECORD: SHOWN, PICTURE: telling})), "--folder", folder, "--into", folder
    )
    assert [one["anew"] for one in told["files"]] == [True, False]
    made = (folder / PICTURE).read_bytes()
    assert b"A camera" not in made
    assert Image.open(io.BytesIO(made)).size == size
    assert (made == picture()) == (turn == 1)


def test_what_is_no_packet_is_told_with_everything_that_is_wrong(folder: Path) -> None:
    before = tree(folder)
    file = sent(folder, packet({RECORD: SEEN, "../evil.yml": "x", "content/a.html": "x"}))
    told = answer(file, "--folder", folder, "--into", folder)
    assert told["packet"] is None
    assert {one["path"] for one in told["problems"]} == {"p.zip/../evil.yml", "p.zip/content/a.html"}
    assert tree(folder) == before
    shown = run("receive", sent(folder, zipped({"\x1b[31m::error::x": "x"})), "--folder", folder)
    assert shown.exit_code == 1
    assert "\x1b" not in shown.output


def test_nothing_goes_through_a_link(folder: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    (folder / "content/teardowns").rename(elsewhere)
    (folder / "content/teardowns").symlink_to(elsewhere)
    before = tree(elsewhere)
    told = run("receive", sent(folder, packet()), "--folder", folder, "--into", folder)
    assert told.exit_code == 1
    assert "a link or a file is in its way" in told.output
    assert tree(elsewhere) == before


def test_one_for_another_community_is_told(folder: Path) -> None:
    told = run("receive", sent(folder, packet(site="Y")), "--folder", folder)
    assert "This community is called X: is it meant for another?\n" in told.output


def test_what_would_change_for_readers_is_told(folder: Path) -> None:
    told = answer(sent(folder, packet()), "--folder", folder)
    assert any("XA" in line for line in told["changes"]), told
    assert told["refused"] is None
