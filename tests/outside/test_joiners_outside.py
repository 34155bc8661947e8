"""Where joiners may stand, against published examples and another reading of the same rules."""

from __future__ import annotations

import idna
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.ground import joiners
from spanbook.reading.text import hidden
from tests.support.rows import each_row
from tests.support.tries import tries

WANTED = {
    # Unicode document L2/06-353 (M. Davis, 2006), the example of its rule for ZWNJ: Farsi, "a letter".
    "Noon, Alef, Meem, Heh, ZWNJ, Alef, Farsi Yeh": "\u0646\u0627\u0645\u0647\u200c\u0627\u06cc",
    # RFC 5892, appendix A.1 and A.2: any virama; the words are from memory.
    "Devanagari half form, KA, virama, ZWJ, SSA": "\u0915\u094d\u200d\u0937",
    "Devanagari with a visible virama, KA, virama, ZWNJ, SSA": "\u0915\u094d\u200c\u0937",
    "Sinhala SHA, al-lakuna, ZWJ, RA": "\u0dc1\u0dca\u200d\u0dbb",
    # UTS #51: sequences of emoji-zwj-sequences.txt and emoji-variation-sequences.txt, from memory.
    "woman mechanic": "\U0001f469\u200d\U0001f527",
    "man firefighter, medium skin tone": "\U0001f468\U0001f3fd\u200d\U0001f692",
    "heart on fire": "\u2764\ufe0f\u200d\U0001f525",
    "family": "\U0001f468\u200d\U0001f469\u200d\U0001f467\u200d\U0001f466",
    "telephone as a picture": "\u260e\ufe0f",
    "telephone as a sign": "\u260e\ufe0e",
    "keycap one": "1\ufe0f\u20e3",
}
REFUSED = {
    # RFC 5892 A.1 as its authors meant it (list idna-update, August 2012): ALEF joins to nothing after it,
    # so the second non-joiner, at 3, stands for nothing.
    "BEH, ZWNJ, ALEF, ZWNJ, ALEF": ("\u0628\u200c\u0627\u200c\u0627", 3),
    "between Latin letters": ("A\u200cB", 1),
    "a joiner between Latin letters": ("A\u200dB", 1),
    "at the beginning": ("\u200cA", 0),
    "at the end of a Persian word": ("\u0646\u0627\u0645\u0647\u200c", 4),
    "two in a row": ("\u0647\u200c\u200c\u0627", 1),
    "a joiner between Arabic letters": ("\u0647\u200d\u0627", 1),
    "a joiner between digits": ("1\u200d2", 1),
    "a joiner between an emoji and a letter": ("\U0001f469\u200dA", 1),
    "a selector after a digit": ("WH-1\ufe0f181", 4),
    "a selector after a letter": ("A\ufe0f", 1),
    "two selectors": ("\u260e\ufe0f\ufe0f", 2),
    "another variation selector": ("\u260e\ufe00", 1),
}


@each_row("name", WANTED)
def test_what_a_script_needs_is_taken(name: str) -> None:
    assert hidden(WANTED[name]) is None


@each_row("name", REFUSED)
def test_what_only_hides_is_refused_where_it_stands(name: str) -> None:
    text, at = REFUSED[name]
    found = hidden(text)
    assert found is not None
    assert found[0] == at


# Letters of every joining type, marks, viramas, and letters that never join.
LETTERS = "AbÄ1-\u0301\u0628\u0627\u0647\u06cc\u0640\u064e\u0710\u07ca\u0915\u094d\u093f\u0dca\u0d4d\ua872"


@given(st.text(LETTERS + "\u200c\u200d", min_size=1, max_size=9))
@settings(max_examples=tries(500))
def test_the_rules_of_rfc_5892_as_another_program_reads_them(text: str) -> None:
    """idna (PyPI, BSD-3-Clause), which registries of names rely on."""
    for at, character in enumerate(text):
        if character in "\u200c\u200d":
            assert joiners.allowed(text, at) == idna.core.valid_contextj(text, at), (text, at)
