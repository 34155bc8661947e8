"""What strangers may send as a drawing: lines come out of it, and nothing else."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from spanbook.ground.drawings.read import Flaw, Refused, read
from spanbook.rules.drawings import refusal_words
from spanbook.site.drawings import file_of, lines_of
from tests.hostile.drawings import DRAWINGS

# What a drawing of ours may be made of; path data has no other letters than these.
_TAGS = {"svg", "rect", "g", "path"}
_NAMES = {
    *("viewBox", "width", "height", "fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin"),
    *("stroke-dasharray", "fill-rule", "d"),
}
_VALUE = re.compile(r"[-MlcZz0-9. ]*|none|round|evenodd|#[0-9a-f]{6}")


def harmless(made: bytes) -> bool:
    """Whether a file holds lines and nothing else. It is ours: it may be read as any XML."""
    for element in ElementTree.fromstring(made).iter():
        tag = element.tag.removeprefix("{http://www.w3.org/2000/svg}")
        said = all(name in _NAMES and _VALUE.fullmatch(value) for name, value in element.items())
        if tag not in _TAGS or not said or (element.text or "").strip():
            return False
    return True


REFUSED = {name: wanted for name, (_, wanted) in DRAWINGS.items() if wanted != "ok"}


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_drawing_says_what_is_wrong(name: str) -> None:
    with pytest.raises(Refused) as refused:
        read(DRAWINGS[name][0]())
    assert str(refused.value.flaw) == REFUSED[name]
    said, todo = refusal_words(refused.value)
    assert said.isprintable()
    assert todo


@pytest.mark.parametrize("name", sorted(DRAWINGS.keys() - REFUSED))
def test_nothing_but_lines_comes_out_of_a_drawing(name: str) -> None:
    assert harmless(file_of(lines_of(read(DRAWINGS[name][0]()), "a.svg")))


@pytest.mark.parametrize("flaw", Flaw)
def test_every_flaw_is_met_by_a_case(flaw: Flaw) -> None:
    assert str(flaw) in set(REFUSED.values())


@pytest.mark.parametrize(
    "inside",
    ["<script/>", '<path d="M0 0" onclick="x"/>', '<path style="a"/>', '<path d="javascript:x"/>', "x"],
)
def test_what_is_not_harmless_is_found(inside: str) -> None:
    assert not harmless(f'<svg xmlns="http://www.w3.org/2000/svg">{inside}</svg>'.encode())
