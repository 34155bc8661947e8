"""Where a community's workflows get the program: never by a name alone, and all it needs by hash."""

from __future__ import annotations

import json
import re
import subprocess
import tomllib
from hashlib import sha256
from importlib.metadata import requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import NormalizedName, canonicalize_name

from spanbook.faces import program
from spanbook.faces.program import STARTER, NoSource, own_source, source_of
from tests.support.command import PROJECT, run
from tests.support.rows import each_row

COMMIT = "0123456789abcdef0123456789abcdef01234567"
WHEEL = "file:WHEEL"
LOCK = STARTER / "program/dependencies.txt"
LOCKS = (LOCK, PROJECT / "builder/release.txt")


def locked(file: Path) -> dict[NormalizedName, Requirement]:
    """What a lock names, each with its hashes; anything else in the file fails."""
    found = dict[NormalizedName, Requirement]()
    for entry in re.sub(r" \\\n", "", file.read_text()).splitlines():
        if entry.startswith("#"):
            continue
        requirement, *hashes = re.split(r"\s+--hash=", entry)
        assert hashes, entry
        assert all(re.fullmatch("sha256:[0-9a-f]{64}", one) for one in hashes)
        made = Requirement(requirement)
        assert re.fullmatch(r"==[0-9][^*]*", str(made.specifier)), entry
        found[canonicalize_name(made.name)] = made
    return found


def test_a_fresh_community_names_no_program_before_somebody_does(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(program, "own_source", lambda: None)
    result = run("start", tmp_path / "a")
    assert result.exit_code == 0
    assert "do nothing before: spanbook program SOURCE" in result.output
    text = (tmp_path / "a/program/source.txt").read_text()
    assert all(line.startswith("#") for line in text.splitlines())
    installing = ["sh", str(tmp_path / "a/program/install.sh"), str(tmp_path / "venv")]
    done = subprocess.run(installing, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "source.txt does not say where the program comes from" in done.stderr
    assert not (tmp_path / "venv").exists()


@pytest.mark.slow
def test_no_file_of_a_fresh_community_installs_the_program_by_its_name(tmp_path: Path, wheel: Path) -> None:
    for i, source in enumerate((str(wheel), f"git+https://forge.example/us/spanbook@{COMMIT}")):
        folder = tmp_path / str(i)
        assert run("start", folder, "--program", source).exit_code == 0
        for file in folder.rglob("*"):
            if file.is_file() and file.suffix != ".whl" and "content" not in file.parts:
                text = file.read_text()
                assert not re.search(r"(?m)^\s*spanbook\s*(==|>=|~=|$)", text), file
                for line in re.findall(r".*\bpip\b.* install\b.*", text):
                    assert file.name == "install.sh", (file, line)


@pytest.mark.slow
def test_a_wheel_is_laid_in_with_its_hash(tmp_path: Path, wheel: Path) -> None:
    assert run("start", tmp_path / "a").exit_code == 0
    old = tmp_path / "a/program/spanbook-0.0.1-py3-none-any.whl"
    old.write_bytes(b"old")
    result = run("program", wheel, "--folder", tmp_path / "a")
    assert result.exit_code == 0, result.output
    assert f"program/{wheel.name}" in result.output
    assert not old.exists()
    laid = (tmp_path / "a/program" / wheel.name).read_bytes()
    lines = (tmp_path / "a/program/source.txt").read_text().splitlines()
    assert lines[-1] == f"./{wheel.name} --hash=sha256:{sha256(laid).hexdigest()}"
    assert laid == wheel.read_bytes()
    # Its own lock goes with a wheel, whichever program lays it in.
    assert (tmp_path / "a/program/dependencies.txt").read_bytes() == LOCK.read_bytes()


def test_a_commit_in_git_is_named_whole(tmp_path: Path) -> None:
    source = f"git+https://forge.example/us/spanbook@{COMMIT}"
    assert run("start", tmp_path / "a", "--program", source).exit_code == 0
    lines = (tmp_path / "a/program/source.txt").read_text().splitlines()
    assert lines[-1] == f"spanbook @ {source}"


@each_row(
    "named",
    [
        "spanbook",
        "spanbook==0.1.0",
        "git+https://forge.example/us/spanbook",
        "git+https://forge.example/us/spanbook@main",
        "git+https://forge.example/us/spanbook@v1.0",
        f"git+https://forge.example/us/spanbook@{COMMIT[:12]}",
        f"git+https://forge.example/us/spanbook@{COMMIT}x",
        f"git+https://forge.example/us/spanbook@{COMMIT}\nother",
        f"git+https://forge.example@other.example/us/spanbook@{COMMIT}",
        f"git+http://forge.example/us/spanbook@{COMMIT}",
        f"git+file:///us/spanbook@{COMMIT}",
        f"git+https://forge.example/us/spanbook@{COMMIT}#egg=other",
        "https://forge.example/spanbook-0.1.0-py3-none-any.whl",
        "spanbook-0.1.0.tar.gz",
        "other-0.1.0-py3-none-any.whl",
        "nowhere/spanbook-0.1.0-py3-none-any.whl",
    ],
)
def test_what_may_be_another_program_tomorrow_is_no_source(tmp_path: Path, named: str) -> None:
    with pytest.raises(NoSource):
        source_of(named)
    result = run("start", tmp_path / "a", "--program", named)
    assert result.exit_code == 1
    assert not (tmp_path / "a").exists()


def test_a_file_that_is_no_wheel_of_this_program_is_no_source(tmp_path: Path) -> None:
    file = tmp_path / "spanbook-0.1.0-py3-none-any.whl"
    file.write_bytes(b"PK")
    with pytest.raises(NoSource, match="cannot be read as a wheel of spanbook"):
        source_of(str(file))


@pytest.mark.slow
def test_a_folder_that_is_no_community_is_left_alone(tmp_path: Path, wheel: Path) -> None:
    result = run("program", wheel, "--folder", tmp_path)
    assert result.exit_code == 1
    assert "it is no community" in result.output
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("noted", "requirement"),
    [
        ({"url": "https://forge.example/us/spanbook", "vcs_info": {"commit_id": COMMIT}}, f"@{COMMIT}"),
        pytest.param({"url": WHEEL, "archive_info": {}}, "--hash=sha256:", marks=pytest.mark.slow),
        ({"url": "file:///nowhere", "dir_info": {"editable": True}}, None),
        ({"url": "file:///gone/spanbook-1-py3-none-any.whl", "archive_info": {}}, None),
        ({}, None),
    ],
)
def test_where_this_program_came_from_is_said_again(
    request: pytest.FixtureRequest,
    monkeypatch: pytest.MonkeyPatch,
    noted: dict[str, object],
    requirement: str | None,
) -> None:
    """As PEP 610 notes it (https://peps.python.org/pep-0610/)."""
    if noted.get("url") == WHEEL:  # only then one is built
        noted = {**noted, "url": request.getfixturevalue("wheel").as_uri()}

    class Installed:
        def read_text(self, name: str) -> str:
            assert name == "direct_url.json"
            return json.dumps(noted)

    monkeypatch.setattr(program, "distribution", lambda name: Installed())
    found = own_source()
    assert (found is None) == (requirement is None)
    assert found is None or (requirement and requirement in found.requirement)


def test_the_lock_holds_all_that_the_program_needs_and_nothing_looser() -> None:
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text())
    found = locked(LOCK)
    wanted = [Requirement(text) for text in project["project"]["dependencies"]]
    wanted += [Requirement(text) for text in project["build-system"]["requires"]]
    seen = set[NormalizedName]()
    while wanted:
        requirement = wanted.pop()
        name = canonicalize_name(requirement.name)
        if requirement.marker and not requirement.marker.evaluate({"extra": ""}):
            continue
        assert name in found, name
        (version,) = (specifier.version for specifier in found[name].specifier)
        assert requirement.specifier.contains(version, prereleases=True), f"{requirement} at {version}"
        if name not in seen:
            seen.add(name)
            wanted += [Requirement(text) for text in requires(name) or ()]


@pytest.mark.parametrize("lock", LOCKS, ids=lambda file: file.name)
def test_a_lock_agrees_with_the_constraints_and_its_command_stands_in_the_guide(lock: Path) -> None:
    constraints = (PROJECT / "builder/constraints.txt").read_text().splitlines()
    pinned = {canonicalize_name(n): v for n, v in (line.split("==") for line in constraints)}
    for name, requirement in locked(lock).items():
        if name in pinned:
            assert str(requirement.specifier) == f"=={pinned[name]}", name
    command = lock.read_text().splitlines()[1].removeprefix("#").strip()
    assert command.startswith("uv pip compile ")
    guide = (PROJECT / "builder/RELEASING.md").read_text()
    assert command in re.sub(r" \\\n\s*", " ", guide)


def test_the_build_backend_is_pinned_and_locked() -> None:
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text())
    (backend,) = project["build-system"]["requires"]
    assert re.fullmatch(r"hatchling==[0-9.]+", backend)
    assert project["dependency-groups"]["build"] == [backend]
    for lock in LOCKS:
        assert str(locked(lock)[canonicalize_name("hatchling")]) == backend
