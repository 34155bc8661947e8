"""A comparison as text for a terminal, or as Markdown for the page of a proposal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.ground.markdown_escape import escaped
from spanbook.reading.problems import one_line
from spanbook.wording.diff import cut_words, nothing, title
from spanbook.wording.proposal import Section

MOST_MARKDOWN = 64_000  # bytes: a forge cuts longer summaries, or refuses them


def as_text(found: Iterable[Section]) -> str:
    """Every change, one a line."""
    told = [line for s in found for line in (one_line(s.title) + s.count, *_indented(s))]
    return "\n".join(told) if told else nothing()


def _indented(section: Section) -> Iterator[str]:
    return (f"  {one_line(line)}" for line in section.lines)


def as_list(lines: Iterable[str], called: str) -> str:
    """A few lines under a title, as Markdown."""
    return "\n".join([f"# {called}\n", *map(_item, lines)]) + "\n"


def _item(line: str) -> str:
    return f"- {escaped(one_line(line))}"


def as_markdown(found: Iterable[Section], called: str = "", limit: int = MOST_MARKDOWN) -> str:
    """The same as Markdown below `limit` bytes; what is cut is counted. Strangers' text stays text."""
    told, room, cut = [f"# {escaped(one_line(called or title()))}"], limit - 200, 0
    for section in found:
        heading = f"\n## {escaped(one_line(section.title))}{section.count}\n"
        for line in (heading, *map(_item, section.lines)):
            room -= len(line.encode()) + 1
            if room < 0:
                cut += line is not heading
            else:
                told.append(line)
    if len(told) == 1 and not cut:
        told.append(f"\n{nothing()}")
    if cut:
        told.append(f"\n{cut_words(cut)}")
    return "\n".join(told) + "\n"
