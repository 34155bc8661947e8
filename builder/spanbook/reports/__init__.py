"""How problems are told: in words, or in the form that another program reads.

A form takes the problems in order and how many records were read, and gives the text for standard output.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from spanbook.problems import Problem
from spanbook.reports import github, gitlab, junit, plain_json, sarif, words

FORMS: Mapping[str, Callable[[Sequence[Problem], int], str]] = {
    "text": words.as_text,
    "json": plain_json.as_json,
    "github": github.as_commands,
    "gitlab": gitlab.as_code_quality,
    "junit": junit.as_xml,
    "sarif": sarif.as_sarif,
}
