"""Problems in the forms that forges read, where a stranger's text stays text."""

from __future__ import annotations

import json
import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.outputs.problems import github
from spanbook.outputs.problems.forms import FORMS
from spanbook.reading.problems import Place, Problem, Severity, one_line
from spanbook.rules import RULES
from spanbook.site.addresses import of_rule
from tests.support import worlds
from tests.support.command import BAD, run

TEXT = st.text(max_size=40)
PROBLEMS = st.lists(
    st.builds(
        Problem,
        st.builds(Place, TEXT, st.integers(1, 99), st.integers(1, 99)),
        st.sampled_from(Severity),
        st.sampled_from(["span-reversed", "id-form"]),
        TEXT,
        TEXT,
    ),
    max_size=25,
)
EVIL = Problem(
    Place("content/a,b:c%\n::error::x.yml", 3, 9),
    Severity.ERROR,
    "file-place",
    "“100%\r\n::stop-commands::x”",
    "mend <b>it</b> | now",
)


def test_a_workflow_command_to_the_character() -> None:
    """As GitHub's "Workflow commands" page and its toolkit's command.ts escape; from memory."""
    (line, count) = github.as_commands([EVIL], 7).splitlines()
    assert line == (
        "::error file=content/a%2Cb%3Ac%25\\u000a%3A%3Aerror%3A%3Ax.yml,line=3,col=9,title=file-place"
        "::“100%25\\u000d\\u000a::stop-commands::x”; mend <b>it</b> | now"
    )
    assert count == "7 records: 1 error."


@given(PROBLEMS)
def test_no_text_makes_a_command_of_its_own(problems: list[Problem]) -> None:
    told = github.as_commands(problems, 3)
    commands = [line for line in re.split(r"[\r\n\x85\u2028\u2029]", told) if line.startswith("::")]
    for severity in Severity:
        shown = min(10, sum(problem.severity is severity for problem in problems))
        name = {"error": "error", "warning": "warning", "advice": "notice"}[severity]
        assert sum(line.startswith(f"::{name} file=") for line in commands) == shown
    assert all(re.match("::(error|warning|notice) file=", line) for line in commands)


def test_the_summary_thanks_tells_all_and_is_cut_with_a_count() -> None:
    many = [EVIL] * 300
    whole = github.as_summary(many, 7)
    assert whole.count("**error**") == 300
    assert "Thank you" in whole
    assert r"mend \<b\>it\</b\> \| now" in whole
    assert whole.count("(file-place)\n") == 300
    linked = github.as_summary([EVIL], 7, rules="https://example.org/x/rules/")
    assert f"([file-place](https://example.org/x/{of_rule(RULES['file-place'])}))" in linked
    short = github.as_summary(many, 7, limit=4000)
    assert len(short.encode()) <= 4000
    (more,) = re.findall(r"(\d+) more do not fit", short)
    assert int(more) + short.count("**error**") == 300
    assert "Everything could be read" in github.as_summary([], 7)


@given(PROBLEMS)
def test_code_quality_has_a_fingerprint_of_its_own_for_each(problems: list[Problem]) -> None:
    listed = json.loads(FORMS["gitlab"](problems, 3))
    assert len({one["fingerprint"] for one in listed}) == len(problems)
    for one, problem in zip(listed, problems, strict=True):
        assert one["location"] == {"path": problem.place.path, "lines": {"begin": problem.place.line}}
        assert one["severity"] in {"info", "minor", "major", "critical", "blocker"}


def test_a_fingerprint_survives_moving_down_the_file() -> None:
    moved = Problem(Place(EVIL.place.path, 90, 1), EVIL.severity, EVIL.name, EVIL.read, EVIL.todo)
    one, other = (json.loads(FORMS["gitlab"]([p], 1))[0]["fingerprint"] for p in (EVIL, moved))
    assert one == other


@given(PROBLEMS)
def test_junit_is_xml_with_a_failure_for_each_error_and_warning(problems: list[Problem]) -> None:
    suites = ET.fromstring(FORMS["junit"](problems, 3))
    failing = [problem for problem in problems if problem.severity is not Severity.ADVICE]
    assert len(suites.findall(".//failure")) == len(failing) == int(suites.attrib["failures"])
    assert len(suites.findall(".//testcase")) == int(suites.attrib["tests"]) >= 1


@pytest.mark.parametrize("form", FORMS)
def test_check_tells_it_in_every_form(tmp_path: Path, form: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = tmp_path / "summary.md"
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(page))
    worlds.lay(tmp_path, BAD)
    result = run("check", tmp_path, "--format", form)
    assert result.exit_code == 1
    assert "content/assemblies/lid.yml" in result.output
    assert "read “one”" in result.output
    assert page.exists() == (form == "github")
    if page.exists():
        assert "lid" in page.read_text()


def test_a_file_name_never_breaks_a_line() -> None:
    assert "\n" not in str(EVIL)


def test_the_spaces_that_french_sets_are_spaces_and_hidden_ones_are_shown() -> None:
    told = "lu\u00a0: «\u00a0WH\u00a01180\u00a0»; n’est-ce pas\u00a0? Plus de 64\u00a0000 à 5\u00a0%"
    assert one_line(told) == told.replace("WH\u00a0", "WH\\u00a0")
