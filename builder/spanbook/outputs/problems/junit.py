"""Problems as JUnit's XML: a failed test for each error and warning, one passed test where there is none."""

from __future__ import annotations

from collections.abc import Sequence
from xml.etree import ElementTree as ET

from spanbook.ground.punctuation import parted
from spanbook.reading.problems import Problem, Severity, one_line
from spanbook.wording.problems import all_records, count_words, place_words


def as_xml(problems: Sequence[Problem], records: int) -> str:
    failing = [problem for problem in problems if problem.severity is not Severity.ADVICE]
    counts = {"tests": str(len(failing) or 1), "failures": str(len(failing)), "errors": "0", "skipped": "0"}
    suites = ET.Element("testsuites", counts)
    suite = ET.SubElement(suites, "testsuite", {"name": "spanbook check", **counts})
    for problem in failing:
        _case(suite, problem)
    if not failing:
        ET.SubElement(suite, "testcase", {"classname": "content", "name": all_records()})
    ET.SubElement(suite, "system-out").text = count_words(problems, records)
    ET.indent(suites)
    return ET.tostring(suites, encoding="unicode", xml_declaration=False)


def _case(suite: ET.Element, problem: Problem) -> None:
    at = problem.place
    path, read, todo = one_line(at.path), one_line(problem.read), one_line(problem.todo)
    name = place_words(problem)
    case = ET.SubElement(suite, "testcase", {"classname": path, "name": name, "file": path})
    failure = ET.SubElement(case, "failure", {"type": str(problem.severity), "message": parted(read, todo)})
    failure.text = f"{path}:{at.line}:{at.column}: {parted(read, todo)}"
