"""What two spellings have in common, in the builder and in the page alike."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.ground.matching import JOINTS, QUOTES, misread, plain, squeezed, terms, words, worn
from spanbook.ground.part_numbers import PartKey
from tests.support.rows import each_row
from tests.support.stamps import stamp_of

READ = Path(__file__).parents[2] / "builder/spanbook/site/finder/matching.js"
PERSIAN = "\u0646\u0627\u0645\u0647\u200c\u0627\u06cc"  # L2/06-353: see tests/outside/test_joiners_outside.py
HINDI = "\u0915\u094d\u200d\u0937\u093f"


def test_nobody_has_to_type_what_nobody_sees() -> None:
    assert plain(PERSIAN) == PERSIAN.replace("\u200c", "")
    assert words(f"{PERSIAN} \u260e\ufe0f A") == [PERSIAN.replace("\u200c", ""), "a"]
    assert words(HINDI) == ["\u0915\u0937"]
    assert PERSIAN.replace("\u200c", "") in terms(PERSIAN, joined=False)
    assert squeezed("\u260e\ufe0f 4-1") == "\u260e41"
    assert PartKey.of("x", PERSIAN) == PartKey.of("x", PERSIAN.replace("\u200c", ""))
    assert stamp_of(f"{PERSIAN} {{number}}").read(f"{PERSIAN.replace(chr(0x200C), '')} 12") == 12


def test_the_page_passes_over_the_same_joints() -> None:
    script = READ.read_text(encoding="utf-8")
    assert f"const JOINTS = /{JOINTS.pattern}/gu;" in script
    assert f"const QUOTES = /{QUOTES.pattern}/gu;" in script


def test_what_a_worn_stamp_leaves() -> None:
    assert worn("WH-O3 B.") == "wh088"


def test_neighbours_are_joined_where_they_are_asked_for() -> None:
    assert terms("Big end", joined=True) == {"big", "end", "bigend"}
    assert terms("Big end", joined=False) == {"big", "end"}


@each_row(
    ("one", "other", "is_misread"),
    [
        ("X-10", "X-1O", True),
        ("10852", "IOBSZ", True),
        ("WH-67", "WH-GT", True),
        ("X-10", "X-10", False),  # one number
        ("X-10", "X-14", False),
        ("X-1", "X-A", False),
        ("WH-1130", "WH-1180", False),  # two digits: two parts of one drawer
        ("Bail", "Ball", False),  # two letters: two words
        ("1B", "I3", True),
        ("1B3", "IB8", False),
        ("X-1O", "X 10", False),  # a joint is read, if no part of the number
        ("X-10", "X-1OO", False),
        ("X  10", "x 1o", True),
    ],
)
def test_a_digit_read_for_a_letter_and_nothing_else(one: str, other: str, is_misread: bool) -> None:
    assert misread(one, other) is misread(other, one) is is_misread


ALPHABET = (
    "aÄßİΣσ1②ﬁ-. _\u260e\ufe0e\ufe0f\u200c\u200d"
    "\"'\u2019\u201d\u2033\u2013\u301c\u0301\u0628\u0647\u064e\u0915\u094d\u093f\u093c\u0e33\u0e34\u05b0"
)


@pytest.mark.slow  # node
def test_the_page_folds_as_the_builder_does() -> None:
    samples: list[str] = []

    @given(st.text(ALPHABET, max_size=12))
    @settings(max_examples=400, database=None)
    def gather(text: str) -> None:
        samples.append(text)

    gather()
    named = ("JOINTS", "QUOTES", "without", "plain", "squeezed", "words")
    wanted = tuple(f"const {name} =" for name in named)
    script = READ.read_text(encoding="utf-8").splitlines()
    lines = [line for line in script if line.strip().startswith(wanted)]
    assert len(lines) == len(wanted)
    ask = f"{json.dumps(samples)}.map((text) => [plain(text), squeezed(text), words(text)])"
    code = "\n".join([*lines, f"console.log(JSON.stringify({ask}))"])
    found = subprocess.run(["node", "-e", code], capture_output=True, text=True, check=True).stdout
    assert json.loads(found) == [[plain(text), squeezed(text), words(text)] for text in samples]


# A character after them that no short way takes, and that stands for itself.
PLAIN = st.text(st.characters(max_codepoint=127)).filter(lambda text: text == text.strip())


@given(PLAIN)
def test_plain_letters_take_a_short_way_to_the_same(text: str) -> None:
    assert plain(f"{text}ж") == f"{plain(text)}ж"
    assert squeezed(f"{text}ж") == f"{squeezed(text)}ж"
