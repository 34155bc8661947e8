"""From a file's bytes to text that hides nothing: UTF-8, no byte-order mark, nothing invisible.

What a script cannot be written without is no hiding (`ground/joiners.py`).
"""

from __future__ import annotations

import re
import unicodedata

from spanbook.ground import joiners
from spanbook.ground.language import gettext as _
from spanbook.reading.problems import Rule, Severity

LARGEST = 64 * 1024

_HEAD = "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\n"
_EXAMPLE = _HEAD + "title: {title}\nclass: correspondence\n"
_GOOD = _EXAMPLE.format(title="A letter")

FILE_SIZE = Rule(
    "file-size",
    Severity.ERROR,
    "A record says one thing; a file over 64 kB is something else, and would slow every build.",
    bad=_GOOD + "notes: " + "x" * LARGEST + "\n",
    good=_GOOD,
)
TEXT_ENCODING = Rule(
    "text-encoding",
    Severity.ERROR,
    "Records are UTF-8, so that every letter reads the same on every machine.",
    bad=_EXAMPLE.format(title="A letter \udcff"),
    good=_GOOD,
)
TEXT_BYTE_ORDER_MARK = Rule(
    "text-byte-order-mark",
    Severity.ERROR,
    "A byte-order mark is invisible and becomes part of the first key.",
    bad=_GOOD.replace("kind:", "\ufeffkind:"),
    good=_GOOD,
)
TEXT_HIDDEN = Rule(
    "text-hidden",
    Severity.ERROR,
    "Control, direction-changing and invisible characters make a record read otherwise than it looks.",
    bad=_EXAMPLE.format(title="A let\u202eter"),
    good=_GOOD,
)
TEXT_TAB = Rule(
    "text-tab",
    Severity.ERROR,
    "Editors show tabs at different widths, so indentation by tabs says different things to different eyes.",
    bad=_GOOD + "evidence:\n\t- x\n",
    good=_GOOD,
)
RULES = (FILE_SIZE, TEXT_ENCODING, TEXT_BYTE_ORDER_MARK, TEXT_HIDDEN, TEXT_TAB)

# Letters and marks by Unicode category that no eye sees: fillers, variation selectors, joiners.
_INVISIBLE = "\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u2800\u3164\ufe00-\ufe0f\uffa0\U000e0100-\U000e01ef"
_FILLER = re.compile(f"[{_INVISIBLE}]")
_SUSPECT = re.compile(rf"[^\n\t\u0020-\u007e\u00a1-\u00ac\u00ae-\u034e]|[{_INVISIBLE}]")
_HIDDEN_CATEGORIES = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
_TAB_INDENT = re.compile(r"^ *\t", re.MULTILINE)


class Refusal(Exception):  # noqa: N818 - it is a refusal, told as a problem, not an error of the program
    """Why a file cannot be read on: the rule, line and column from 1, what was read, what to do.

    No frozen data class: Python sets an exception's traceback and context while it travels.
    """

    def __init__(self, rule: Rule, line: int, column: int, read: str, todo: str) -> None:
        super().__init__(f"{rule.name} at {line}:{column}: {read}; {todo}")
        self.rule = rule
        self.line = line
        self.column = column
        self.read = read
        self.todo = todo


def to_text(data: bytes) -> str:
    """The text of a file, line ends made plain. Raises Refusal."""
    if len(data) > LARGEST:
        todo = _("keep a record below {} bytes").format(LARGEST)
        # No more of it may have been read than shows that it is too large.
        raise Refusal(FILE_SIZE, 1, 1, _("the file has more than {} bytes").format(LARGEST), todo)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as wrong:
        line, column = _line_column(data[: wrong.start].decode("utf-8"), wrong.start)
        byte = _("byte {:#04x} is not UTF-8").format(data[wrong.start])
        raise Refusal(TEXT_ENCODING, line, column, byte, _("save the file as UTF-8")) from None
    if text.startswith("\ufeff"):
        read = _("the file begins with a byte-order mark, three bytes that no editor shows")
        todo = _(
            "save it again as UTF-8 without BOM, which editors offer beside UTF-8, or run: "
            "sed -i '1s/^\\xEF\\xBB\\xBF//' FILE"
        )
        raise Refusal(TEXT_BYTE_ORDER_MARK, 1, 1, read, todo)
    text = text.replace("\r\n", "\n")
    if found := hidden(text):
        raise refuse_hidden(found[1], *_line_column(text, found[0]))
    if tab := _TAB_INDENT.search(text):
        line, column = _line_column(text, tab.end() - 1)
        raise Refusal(TEXT_TAB, line, column, _("a line is indented with a tab"), _("indent with spaces"))
    return text


def hidden(text: str) -> tuple[int, str] | None:
    """Where the first character stands that no eye sees, from 0, and which one it is."""
    for match in _SUSPECT.finditer(text):
        character = match.group()
        if character in joiners.JOINERS and joiners.allowed(text, match.start()):
            continue
        if unicodedata.category(character) in _HIDDEN_CATEGORIES or _FILLER.match(character):
            name = unicodedata.name(character, "").lower() or _("a control character")
            return match.start(), _("an invisible character, U+{code} ({name})").format(
                code=f"{ord(character):04X}", name=name
            )
    return None


def refuse_hidden(read: str, line: int, column: int) -> Refusal:
    return Refusal(TEXT_HIDDEN, line, column, read, _("delete it, or write what you mean in words"))


def _line_column(text: str, index: int) -> tuple[int, int]:
    before = text[:index]
    return before.count("\n") + 1, len(before) - before.rfind("\n")
