"""How problems are told: in words, or in the form that another program reads.

A form takes the problems in order and how many records were read, and gives the text for standard output.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from spanbook.outputs.problems import github, gitlab, json, junit, sarif, text
from spanbook.reading.problems import Problem

FORMS: Mapping[str, Callable[[Sequence[Problem], int], str]] = {
    "text": text.as_text,
    "json": json.as_json,
    "github": github.as_commands,
    "gitlab": gitlab.as_code_quality,
    "junit": junit.as_xml,
    "sarif": sarif.as_sarif,
}
