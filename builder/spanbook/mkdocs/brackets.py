"""Links in guides, looked for in a time that grows with the text and not with its square.

From every opening bracket Python-Markdown looks for the one that closes it, to the end of the paragraph where
none does, and once for each sort of link: 19,000 opening brackets take it half a minute.
"""

from __future__ import annotations

from collections.abc import Callable

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import LinkInlineProcessor

LONGEST = 3000  # characters of an address with its title, in round brackets

# What was found, where it ends, and whether it was closed: `text, end, closed`.
_GetText = Callable[[str, int], tuple[str, int, bool]]


class Brackets(Extension):  # type: ignore[misc]  # without types of its own
    """Gives every sort of link a memory of the brackets that nothing closes, and a longest address."""

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 - its name there
        for pattern in md.inlinePatterns:
            if isinstance(pattern, LinkInlineProcessor):
                pattern.getText = remembering(pattern.getText)
                pattern.getLink = bounded(pattern.getLink)


def remembering(find: _GetText) -> _GetText:
    """The same finder, which reads a text to its end in vain once, and not from every bracket in it."""
    known, never_closed = "", frozenset[int]()

    def found(data: str, index: int) -> tuple[str, int, bool]:
        nonlocal known, never_closed
        if index in never_closed and data == known:
            return "", index, False
        text, end, closed = find(data, index)
        if not closed:
            known, never_closed = data, frozenset(unclosed(data, index))
        return text, end, closed

    return found


def unclosed(data: str, index: int) -> list[int]:
    """The places after those brackets that nothing closes; the first of them stands before the index."""
    open_ = [index]
    for at in range(index, len(data)):
        if data[at] == "[":
            open_.append(at + 1)
        elif data[at] == "]" and open_:
            open_.pop()
    return open_


def bounded(find: Callable[..., tuple[str, str | None, int, bool]]) -> Callable[..., object]:
    """The same finder of what stands in round brackets, which looks no farther than that may reach."""
    return lambda data, index: find(data[: index + LONGEST], index)
