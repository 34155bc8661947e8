"""Characters that no eye sees and that a script needs all the same: where they may stand.

Persian, the scripts of India and emoji cannot be written without a zero-width joiner, a zero-width non-joiner
or a presentation selector. Where the published rules allow one it says something; anywhere else it hides.

- Zero-width non-joiner and joiner: RFC 5892, appendix A.1 and A.2 (the rules of internationalized names, on
  the same ground as UTS #39 and UAX #31): after a virama; the non-joiner also between letters that would else
  join.
- Joiner between emoji: UTS #51, ED-16 (emoji ZWJ sequence), with the characters of UAX #29, GB11.
- Presentation selectors: UTS #51, section 1.4.9 and ED-8a to ED-9a, after a character of the property Emoji.
  A digit takes one only as a keycap (ED-14c): elsewhere it would be a part number that looks like another.
"""

from __future__ import annotations

import regex

JOINERS = "\u200c\u200d\ufe0e\ufe0f"
_PICTURE = r"\p{Extended_Pictographic}(?:\ufe0f|\p{Emoji_Modifier})?"
_ALLOWED = regex.compile(
    rf"""
      (?<= \p{{Canonical_Combining_Class=Virama}} ) [\u200c\u200d]
    | (?<= [\p{{Joining_Type=L}}\p{{Joining_Type=D}}] \p{{Joining_Type=T}}* ) \u200c
      (?= \p{{Joining_Type=T}}* [\p{{Joining_Type=R}}\p{{Joining_Type=D}}] )
    | (?<= {_PICTURE} ) \u200d (?= \p{{Extended_Pictographic}} )
    | (?<= [\p{{Emoji}}--[0-9#*]] ) [\ufe0e\ufe0f]
    | (?<= [0-9#*] ) \ufe0f (?= \u20e3 )
    """,
    regex.VERBOSE | regex.VERSION1,
)
_DROPPED = str.maketrans("", "", JOINERS)


def allowed(text: str, at: int) -> bool:
    """Whether the character there, one of JOINERS, stands where its script's rules want it."""
    return _ALLOWED.match(text, at) is not None


def without(text: str) -> str:
    """The text as it is compared: nobody can type what nobody sees."""
    return text.translate(_DROPPED)
