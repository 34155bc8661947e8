"""The workflows of a fresh community, run step by step as a forge would: a bare remote, a clean environment.

What a proposal brings of its own (a program, settings with a hook, a virtual environment) must not run. The
first job installs the program from nothing but the lock and the wheel; the others find it there.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from tests.hostile.test_forge_log import obeyed
from tests.support.command import PROJECT, run
from tests.support.repository import git

pytestmark = pytest.mark.slow

RECORD = """\
kind: teardown
id: eo-3-tolland
date: 2026-05-21
seen-by: tolland
serial: EO 3
condition: untouched
found:
- {position: engine/inspection-cover, assembly: plain-cover, note: Four nuts}
"""
SINCE = RECORD.replace("eo-3", "eo-4").replace("EO 3", "EO 4")
MORE = "Look before you take it in"


class Forge:
    """A community in a bare repository, with two proposals: records alone, and all a stranger can bring."""

    def __init__(self, folder: Path, wheel: Path) -> None:
        self.folder = folder
        self.venv = folder / "venv"
        self._python(folder / "bin/python3")
        self.ran = folder / "ran"
        work = folder / "work"
        assert run("start", work, "--program", wheel).exit_code == 0
        git(work, "init", "-q", "-b", "main")
        self._commit(work, "The records")
        git(work, "switch", "-q", "-c", "sound")
        (work / "content/teardowns/eo-3-tolland.yml").write_text(RECORD)
        self._commit(work, "A teardown")
        git(work, "switch", "-q", "-c", "bold", "main")
        self._be_bold(work)
        self._commit(work, "A teardown and more")
        git(work, "switch", "-q", "main")
        # Both began before this was merged: no judge may say that they remove it.
        (work / "content/teardowns/eo-4-tolland.yml").write_text(SINCE)
        self._commit(work, "Another teardown")
        self.remote = folder / "us/records"
        git(folder, "clone", "-q", "--bare", str(work), str(self.remote))
        for number, branch in ((7, "sound"), (8, "bold")):
            git(self.remote, "update-ref", f"refs/pull/{number}/head", branch)

    def _python(self, shim: Path) -> None:
        """A python3 that makes its virtual environment once, and gives it to whoever asks for one later."""
        real = f"{sys.base_prefix}/bin/python3"
        shim.parent.mkdir()
        shim.write_text(
            f'#!/bin/sh\nif [ "$2" != venv ]; then exec {real} "$@"; fi\n'
            f'[ -e "{self.venv}" ] || {real} -m venv "{self.venv}"\nln -s "{self.venv}" "$3"\n'
        )
        shim.chmod(0o755)

    def _commit(self, work: Path, message: str) -> None:
        git(work, "add", "-A", "-f")
        git(work, "commit", "-q", "-m", message)

    def _be_bold(self, work: Path) -> None:
        """All that would leave a mark if it ran."""
        touch = f"touch '{self.ran}'\n"
        (work / "content/teardowns/eo-3-tolland.yml").write_text(RECORD)
        (work / "program/install.sh").write_text(touch)
        (work / "program/source.txt").write_text("./evil\n")
        (work / "hook.py").write_text(f"open({str(self.ran)!r}, 'w')\n")
        settings = work / "mkdocs.yml"
        settings.write_text(settings.read_text() + "hooks: [hook.py]\n")
        for file in (".venv/bin/spanbook", "venv/bin/spanbook", "spanbook"):
            (work / file).parent.mkdir(parents=True, exist_ok=True)
            (work / file).write_text("#!/bin/sh\n" + touch)
            (work / file).chmod(0o755)
        (work / ".gitattributes").write_text("* filter=evil\n")
        (work / "::error::x").write_text("x")

    def revision(self, name: str, repository: str = "us/records") -> str:
        command = ["git", "-C", str(self.folder / repository), "rev-parse", name]
        return subprocess.run(command, capture_output=True, text=True, check=True).stdout.strip()

    def checkout(self, revision: str) -> Path:
        """As actions/checkout and GitLab's runner lay a revision out."""
        place = self.folder / f"job-{len(list(self.folder.iterdir()))}" / "workspace"
        git(self.folder, "clone", "-q", self.remote.as_uri(), str(place))
        git(place, "checkout", "-q", "--detach", self.revision(revision))
        return place

    def bash(self, script: str, place: Path, **variables: str) -> subprocess.CompletedProcess[str]:
        """A step in an environment with nothing of ours in it but the way to the registry."""
        home = place.parent / "home"
        home.mkdir(exist_ok=True)
        ways = {k: v for k, v in os.environ.items() if k.startswith("PIP_") or k.lower().endswith("_proxy")}
        base = {"PATH": f"{self.folder}/bin:{os.defpath}", "HOME": str(home), "LANG": "C.UTF-8", **ways}
        command = ["bash", "--noprofile", "--norc", "-eo", "pipefail", "-c", script]
        kept = {"TMPDIR": str(place.parent), "PIP_CACHE_DIR": str(self.folder / "pip")}
        environment = {**base, **kept, **variables}
        return subprocess.run(
            command, cwd=place, env=environment, capture_output=True, text=True, check=False, timeout=300
        )


@pytest.fixture(scope="module")
def forge(tmp_path_factory: pytest.TempPathFactory, wheel: Path) -> Forge:
    return Forge(tmp_path_factory.mktemp("forge"), wheel)


def steps(forge: Forge, file: str, job: str, number: int, place: Path) -> Iterator[str]:
    """Run the steps of a job as GitHub and Forgejo do, up to the first that fails, and give what they print.

    The last item is what the failing step ended with, or 0.
    """
    made = yaml.safe_load((forge.folder / "work" / file).read_text())["jobs"][job]
    temp = place.parent / "temp"
    temp.mkdir()
    told = {
        "github.event.pull_request.number": str(number),
        "github.event.pull_request.base.ref": "main",
    }
    variables = {
        "GITHUB_ACTIONS": "true",
        "GITHUB_SERVER_URL": forge.folder.as_uri(),
        "GITHUB_REPOSITORY": "us/records",
        "GITHUB_STEP_SUMMARY": str(place.parent / "summary.md"),
        "RUNNER_TEMP": str(temp),
    }
    for step in made["steps"]:
        if "run" not in step:
            assert step["uses"].startswith("actions/"), "what is no command is one of the forge's own actions"
            continue
        asked = step.get("env", {}).items()
        given = {name: re.sub(r"\$\{\{ (.*?) \}\}", lambda m: told[m[1]], text) for name, text in asked}
        done = forge.bash(step["run"], place, **variables, **given)
        yield done.stdout + done.stderr
        if done.returncode:
            yield str(done.returncode)
            return
    yield "0"


@pytest.mark.parametrize(("number", "code"), [(7, "0"), (8, "3")], ids=["records", "more"])
def test_githubs_judge(forge: Forge, number: int, code: str) -> None:
    place = forge.checkout("main")
    *told, ended = steps(forge, ".github/workflows/records.yml", "review", number, place)
    assert ended == code, told
    summary = (place.parent / "summary.md").read_text()
    assert summary == (place / "review.md").read_text()
    assert "teardown eo\\-3\\-tolland\\: added" in summary
    assert "removed" not in summary
    assert summary.startswith(f"# {MORE}") == (number == 8)
    assert len(obeyed(told[-1])) == (number == 8)
    assert not forge.ran.exists()


@pytest.mark.parametrize(("number", "code"), [(7, "0"), (8, "3")], ids=["records", "more"])
def test_forgejos_judge(forge: Forge, number: int, code: str) -> None:
    place = forge.folder / f"forgejo-{number}" / "workspace"
    place.mkdir(parents=True)
    *told, ended = steps(forge, ".forgejo/workflows/records.yml", "review", number, place)
    assert ended == code, told
    assert "eo-3-tolland: added" in told[-1]
    assert "removed" not in told[-1]
    assert (MORE in told[-1]) == (number == 8)
    assert not forge.ran.exists()


@pytest.mark.parametrize(("branch", "code"), [("sound", 0), ("bold", 3)])
def test_gitlabs_judge(forge: Forge, branch: str, code: int) -> None:
    place = forge.checkout(branch)
    job = yaml.safe_load((forge.folder / "work/.gitlab-ci.yml").read_text())["records"]
    assert job["allow_failure"] == {"exit_codes": [3]}
    done = forge.bash(
        "\n".join(job["script"]),
        place,
        CI_MERGE_REQUEST_TARGET_BRANCH_NAME="main",
        CI_COMMIT_SHA=forge.revision(branch),
    )
    assert done.returncode == code, done.stdout + done.stderr
    report = (place / "review.md").read_text()
    assert "eo\\-3\\-tolland\\: added" in report
    assert "removed" not in report
    assert (place / "quality.json").read_text().startswith("[")
    assert not forge.ran.exists()


def test_the_sites_are_built(forge: Forge) -> None:
    place = forge.checkout("main")
    *told, ended = steps(forge, ".github/workflows/site.yml", "build", 0, place)
    assert ended == "0", told
    assert (place / "site/index.html").is_file()
    place = forge.checkout("main")
    job = yaml.safe_load((forge.folder / "work/.gitlab-ci.yml").read_text())["pages"]
    done = forge.bash("\n".join(job["script"]), place)
    assert done.returncode == 0, done.stdout + done.stderr
    assert (place / "public/index.html").is_file()


def test_a_changed_wheel_is_not_installed(forge: Forge) -> None:
    place = forge.checkout("main")
    (wheel,) = (place / "program").glob("*.whl")
    wheel.write_bytes(wheel.read_bytes() + b"more")
    forge.bash(f"{forge.venv}/bin/python -m pip uninstall --quiet --yes spanbook", place)
    done = forge.bash("sh program/install.sh ../venv", place)
    assert done.returncode != 0
    assert "DO NOT MATCH THE HASHES" in done.stderr
    assert not (forge.venv / "bin/spanbook").exists()


def test_a_commit_is_built_with_what_is_locked_and_nothing_else(forge: Forge) -> None:
    source = forge.folder / "source"
    source.mkdir()
    for name in ("builder", "schema"):
        shutil.copytree(PROJECT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(PROJECT / name, source / name)
    git(source, "init", "-q", "-b", "main")
    git(source, "add", "-A")
    git(source, "commit", "-q", "-m", "The program")
    git(forge.folder, "clone", "-q", "--bare", str(source), str(forge.folder / "us/program"))
    place = forge.checkout("main")
    address = f"git+file://localhost{forge.folder}/us/program@{forge.revision('main', 'us/program')}"
    (place / "program/source.txt").write_text(f"spanbook @ {address}\n")
    forge.bash(f"{forge.venv}/bin/python -m pip uninstall --quiet --yes spanbook", place)
    done = forge.bash("sh program/install.sh ../venv && ../venv/bin/spanbook check", place)
    assert done.returncode == 0, done.stderr
    assert "nothing to complain of" in done.stdout
