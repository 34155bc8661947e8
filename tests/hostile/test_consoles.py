"""Alphabets: of the console, of what is typed and piped in, of the files and names a command is given."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from collections.abc import Sequence
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from spanbook.cli import main
from spanbook.outputs.json_text import json_text
from tests.support.command import BAD, LID, project
from tests.support.repository import git

NINES = "9" * 5000
# Typographic quotes, a multiplication sign, Persian with its joiner, a picture beyond 16 bits.
FOREIGN = LID.replace("title: Lid", "title: Lid × “\u0646\u0627\u0645\u0647\u200c\u0627\u06cc” \U0001f527")
LATIN = b"M\xe4rz"


def told(*arguments: str | Path, charset: str = "utf-8", given: bytes = b"") -> Result:
    """What a command tells; anything that would be a traceback is raised here."""
    runner = CliRunner(charset=charset)
    result = runner.invoke(main, [str(argument) for argument in arguments], input=given)
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return project(tmp_path / "p", FOREIGN)


COMMANDS = (
    ("check",),
    ("check", "--format", "json"),
    ("check", "--format", "sarif"),
    ("check", "--format", "junit"),
    ("check", "--explain", "all"),
    ("check", "--explain", "text-hidden"),
    ("check", "--explain", "“none”"),
    ("ask", "XA 5", "--folder"),
    ("ask", "--json", "XA 5", "--folder"),
    ("ask", "“×”", "--folder"),
    ("questions", "--folder"),
    ("convert", "XA 5", "--to", "latest", "--folder"),
    ("compare", "HEAD", ".", "--folder"),
    ("review", "HEAD", "HEAD", "--folder"),
    ("build",),
)


@pytest.mark.slow
@pytest.mark.parametrize("charset", ["cp437", "cp1252", "ascii", "utf-8"])
@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_every_command_prints_on_every_console(folder: Path, charset: str, command: Sequence[str]) -> None:
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "A letter")
    (folder / "content/assemblies/lid.yml").write_text(FOREIGN.split("\n", 1)[1] + "number: 1 × 2″\n")
    result = told(*command, folder, charset=charset)
    assert result.output.strip()
    if "json" in command or "--json" in command:
        json.loads(result.stdout)


def test_what_the_console_lacks_stands_in_json_as_the_same_letters(folder: Path) -> None:
    one, other = (
        told("ask", "--json", "“×” \U0001f527", "--folder", folder, charset=c) for c in ("cp437", "utf-8")
    )
    assert "\\u" in one.stdout
    assert json.loads(one.stdout) == json.loads(other.stdout)


@pytest.mark.slow
def test_a_real_console_in_another_alphabet(folder: Path) -> None:
    (folder / "content/assemblies/lid.yml").write_text(BAD.split("\n", 1)[1].replace("Lid", "Lid “1”"))
    done = subprocess.run(
        [sys.executable, "-m", "spanbook", "check", folder],
        env={**os.environ, "PYTHONIOENCODING": "cp437"},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 1
    assert b"Traceback" not in done.stderr
    assert b"read \\u201cone\\u201d" in done.stdout


@pytest.mark.parametrize(
    "asked",
    [
        ("ask", f"XA {NINES}"),
        ("ask", "--json", f"XA {NINES}"),
        ("ask", f"XA {NINES[1:]}?"),
        ("ask", "--order", "1", "--for", f"XA {NINES}", "P 1"),
        ("ask", "--order", NINES, "P 1"),
        ("convert", f"XA {NINES}", "--to", "latest"),
        ("serve", "--address", f"127.0.0.1:{NINES}"),
    ],
    ids=lambda asked: " ".join(asked)[:24],
)
def test_numbers_of_5000_digits_are_answered(folder: Path, asked: Sequence[str]) -> None:
    """Python turns no text of more than 4,300 digits into a number (its own documentation, since 3.11)."""
    last = [folder] if asked[0] == "serve" else ["--folder", folder]
    assert told(*asked, *last).output.strip()


def test_quantities_of_5000_digits_are_answered(folder: Path) -> None:
    result = told("ask", "-", "--folder", folder, given=f"P 1\t{NINES}\n".encode())
    assert result.exit_code == 1
    assert "is not a whole number above 0" in result.output
    assert len(result.output) < 200


def test_queries_that_are_not_utf_8_are_told_by_their_line(folder: Path) -> None:
    result = told("ask", "-", "--folder", folder, given=b"XA 5\nXA \xe45\nXA 5\n")
    assert result.exit_code == 1
    assert "line 2 of standard input is not UTF-8: byte 0xe4 after 3 others" in result.stderr
    assert "Lid" in result.stdout


def test_a_mark_before_the_first_query_is_passed_over(folder: Path) -> None:
    with_mark = told("ask", "-", "--folder", folder, given=b"\xef\xbb\xbfXA 5\n")
    assert with_mark.output == told("ask", "XA 5", "--folder", folder).output


@pytest.mark.parametrize("asked", [("ask", "XA {}"), ("ask", "--for", "{}", "XA 5"), ("convert", "{}")])
def test_arguments_that_are_not_utf_8_are_told(folder: Path, asked: Sequence[str]) -> None:
    arguments = [argument.format(os.fsdecode(LATIN)) for argument in asked]
    result = told(*arguments, *(["--to", "latest"] if asked[0] == "convert" else []), "--folder", folder)
    assert result.exit_code == 2
    assert "M\\udce4rz is not UTF-8" in result.stderr


def test_an_older_list_of_addresses_in_another_alphabet_is_told(folder: Path, tmp_path: Path) -> None:
    older = tmp_path / "addresses.txt"
    older.write_bytes(b"assemblies/l\xe4/\n")
    result = told("check", folder, "--addresses", older)
    assert result.exit_code == 1
    assert f"{older} is not UTF-8: byte 0xe4 after 12 others; save it as UTF-8" in result.output
    older.write_bytes(b"\xef\xbb\xbfassemblies/lid/\n")
    assert told("check", folder, "--addresses", older).exit_code == 0


@pytest.mark.parametrize("command", [("build",), ("questions", "--folder"), ("new", "source", "--folder")])
@pytest.mark.parametrize(
    "data", [b"plugins: [spanbook]\nsite_name: L\xe4\n", "site_name: L".encode("utf-16")]
)
def test_settings_in_another_alphabet_are_told(folder: Path, command: Sequence[str], data: bytes) -> None:
    (folder / "mkdocs.yml").write_bytes(data)
    result = told(*command, folder)
    assert result.exit_code == 1
    line = 2 if data.startswith(b"plugins") else 1
    assert "mkdocs.yml is not UTF-8 (byte 0x" in result.output
    assert f"in line {line}); save it as UTF-8" in result.output


def test_an_answer_in_another_alphabet_is_asked_for_again(folder: Path) -> None:
    typed = LATIN + b"\nA letter\ncorrespondence\n" + b"\n" * 12
    result = told("new", "source", "--folder", folder, given=typed)
    assert "that is not UTF-8" in result.output
    assert (folder / "content/sources/a-letter.yml").is_file(), result.output


@pytest.fixture
def named_in_latin(tmp_path: Path) -> Path:
    """A project in a folder with such a name, with a record, a photograph and a guide named so."""
    folder = project(Path(os.fsdecode(os.fsencode(tmp_path) + b"/" + LATIN)))
    for name in (b"sources/%s.yml", b"photographs/%s.jpg", b"%s.md"):
        file = Path(os.fsdecode(os.fsencode(folder / "content") + b"/" + name % LATIN))
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(b"kind: source\nid: m\ntitle: M\nclass: manual\n")
    return folder


@pytest.mark.parametrize("form", ["text", "json", "github", "gitlab", "junit", "sarif"])
@pytest.mark.parametrize("charset", ["utf-8", "cp437"])
def test_names_in_another_alphabet_are_told_in_every_form(
    named_in_latin: Path, form: str, charset: str
) -> None:
    result = told("check", named_in_latin, "--format", form, charset=charset)
    assert result.exit_code == 1
    assert "name the file m.yml" in result.stdout
    assert "or give the id" not in result.stdout  # no id can be called so
    text = result.stdout_bytes.decode(charset)
    if form in ("json", "gitlab", "sarif"):
        assert not any("\ud800" <= c <= "\udfff" for c in json_text(json.loads(text)))
        assert json.dumps(json.loads(text), ensure_ascii=False).encode()  # whole characters only
    if form == "junit":
        ET.fromstring(text)
    if form == "sarif":
        assert '"content/sources/M%E4rz.yml"' in text  # RFC 3986: the bytes of the name


def test_a_revision_with_such_names_is_told(named_in_latin: Path) -> None:
    files = [file for file in named_in_latin.rglob("*") if os.fsencode(file.name).startswith(LATIN)]
    held = {file: file.read_bytes() for file in files if file.is_file()}
    for file in held:
        file.unlink()
    git(named_in_latin, "init", "-q", "-b", "main")
    git(named_in_latin, "add", "-A")
    git(named_in_latin, "commit", "-q", "-m", "Before")
    for file, data in held.items():
        file.write_bytes(data)
    git(named_in_latin, "switch", "-q", "-c", "letter")
    git(named_in_latin, "add", "-A")
    git(named_in_latin, "commit", "-q", "-m", "A letter")
    assert "M\\udce4rz.yml" in told("check", named_in_latin, "--at", "letter").output
    assert "M\\udce4rz.yml" in told("review", "main", "letter", "--folder", named_in_latin).output


def test_a_project_in_a_folder_with_such_a_name_is_built(named_in_latin: Path) -> None:
    for file in sorted(named_in_latin.rglob("*")):
        if os.fsencode(file.name).startswith(LATIN):
            file.unlink()
    result = told("build", named_in_latin)
    assert result.exit_code == 0, result.output
    assert (named_in_latin / "site/index.html").is_file()
    assert told("questions", "--folder", named_in_latin).exit_code == 0
    made = named_in_latin.with_name(f"{named_in_latin.name}-2")
    assert told("start", made).exit_code == 0
    assert "M\\\\udce4rz-2" in (made / "mkdocs.yml").read_text(encoding="utf-8")


@pytest.mark.slow
def test_two_programs_tell_the_same_to_the_letter(tmp_path: Path) -> None:
    """Fingerprints stand for problems from run to run: no object's address, no order of a set is in them."""
    told_twice = []
    for seed in ("1", "2"):
        env = {**os.environ, "PYTHONHASHSEED": seed, "XDG_CACHE_HOME": str(tmp_path / seed)}
        done = subprocess.run(
            [sys.executable, "-m", "tests.hostile.told"],
            env=env,
            cwd=Path(__file__).parents[2],
            capture_output=True,
            text=True,
            check=True,
        )
        told_twice.append(json.loads(done.stdout))
    one, other = told_twice
    assert len(one) > 200
    assert one == other
    assert not [words for _, words in one if " object at 0x" in words]
