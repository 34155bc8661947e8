"""A comparison in words: as text for a terminal, or as Markdown for the page of a proposal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from spanbook.answers.diff.model import (
    Answer,
    AnswerChange,
    Comparison,
    Held,
    OrderChange,
    Ordered,
    RecordChange,
    StandingChange,
    YearChange,
)
from spanbook.answers.supersession import Leaf
from spanbook.ground.markdown_escape import escaped
from spanbook.reading.problems import one_line
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.wording.grammar import listed
from spanbook.wording.spans import FITTED, numbers_words, span_words

MOST_MARKDOWN = 64_000  # bytes: a forge cuts longer summaries, or refuses them
TITLE = "What changes for readers"
NOTHING = "Nothing changes for readers."


@dataclass(frozen=True, slots=True)
class Section:
    title: str
    lines: tuple[str, ...]


def sections(found: Comparison) -> Iterator[Section]:
    """What changes, under headings, without those where nothing does."""
    yield from besides(found.besides)
    for title, lines in (
        ("Records", (_record(change) for change in found.records)),
        ("Answers to a serial number", (_answer(found, change) for change in found.answers)),
        ("Years", (_year(found, change) for change in found.years)),
        ("Orders", (_order(found, change) for change in found.orders)),
        ("Standing of statements", (_standing(change) for change in found.standings)),
        ("Questions opened", (question.words for question in found.opened)),
        ("Questions closed", (question.words for question in found.closed)),
        ("Addresses that would die", found.dead),
        ("New addresses", found.born),
    ):
        if made := tuple(one_line(line) for line in lines):
            yield Section(title, made)


def besides(paths: Iterable[str]) -> Iterator[Section]:
    """The files that a proposal touches and that are no records."""
    if paths := tuple(one_line(path) for path in paths):
        yield Section("Files that are no records: look at each", paths)


def as_text(found: Iterable[Section]) -> str:
    """Every change, one a line."""
    told = [line for s in found for line in (f"{s.title} ({len(s.lines)})", *_indented(s))]
    return "\n".join(told) if told else NOTHING


def _indented(section: Section) -> Iterator[str]:
    return (f"  {line}" for line in section.lines)


def as_markdown(found: Iterable[Section], title: str = TITLE, limit: int = MOST_MARKDOWN) -> str:
    """The same as Markdown below `limit` bytes; what is cut is counted. Strangers' text stays text."""
    told, room, cut = [f"# {title}"], limit - 200, 0
    for section in found:
        heading = f"\n## {section.title} ({len(section.lines)})\n"
        for line in (heading, *(f"- {escaped(line)}" for line in section.lines)):
            room -= len(line.encode()) + 1
            if room < 0:
                cut += line is not heading
            else:
                told.append(line)
    if len(told) == 1 and not cut:
        told.append(f"\n{NOTHING}")
    if cut:
        told.append(f"\n{cut} more lines do not fit here; `spanbook compare` tells them all.")
    return "\n".join(told) + "\n"


def _record(change: RecordChange) -> str:
    was = f" (it was {change.before})" if change.before else ""
    return f"{change.kind} {change.id}: {change.sort}{was}"


def _series(found: Comparison, id_: str) -> Series:
    return found.new.series.get(id_) or found.old.series[id_]


def _answer(found: Comparison, at: AnswerChange) -> str:
    series, change = _series(found, at.series), at.change
    positions = {**found.old.positions, **found.new.positions}
    where = f"{positions[at.position].title}, {numbers_words(change.first, change.last, series)}"
    return f"{where}: {_said(found, change.before)} → {_said(found, change.after)}"


def _said(found: Comparison, answer: Answer | None) -> str:
    if answer is None:
        return "no such number or place"
    held = listed([_held(found, held) for held in answer.held], "or") or "nothing known"
    return f"{held} [{answer.state}]"


def _held(found: Comparison, held: Held) -> str:
    record = found.new.assemblies.get(held.assembly) or found.old.assemblies[held.assembly]
    terms = [
        *(["possibly"] if held.covers == "maybe" else []),
        *([FITTED[held.fitted]] if held.fitted != "factory" else []),  # type: ignore[index]
        *(["to order"] if held.option else []),
    ]
    return record.title + (f" ({', '.join(terms)})" if terms else "")


def _year(found: Comparison, at: YearChange) -> str:
    numbers = numbers_words(at.change.first, at.change.last, _series(found, at.series))
    return f"{numbers}: {at.change.before or 'no known year'} → {at.change.after or 'no known year'}"


def _order(found: Comparison, change: OrderChange) -> str:
    part = found.new.parts.get(change.key) or found.old.parts[change.key]
    if change.before and change.after and change.before.ways == change.after.ways:
        before, after = (_terms(r, o) for r, o in ((found.old, change.before), (found.new, change.after)))
    else:
        before, after = _ways(found.old, change.before), _ways(found.new, change.after)
    return f"{part.number}: {before} → {after}"


def _ways(register: Register, ordered: Ordered | None) -> str:
    if ordered is None:
        return "not known"
    return "; or ".join(listed([_leaf(register, leaf) for leaf in way]) for way in ordered.ways)


def _leaf(register: Register, leaf: Leaf) -> str:
    counted = "" if leaf.quantity == 1 else f"{leaf.quantity} × "
    ended = " (no longer supplied)" if leaf.supplied == "no" else ""
    return f"{counted}{register.parts[leaf.key].number}{ended}"


def _terms(register: Register, ordered: Ordered) -> str:
    told = []
    for term in ordered.terms:
        spans = [span_words(span, register.series[span.series]) for span in term.serials]
        needs = [f"with the conversion {one}" for one in term.conversions if one]
        told.append(f"by {term.act}" + (f" ({'; '.join((*spans, *needs))})" if spans or needs else ""))
    return listed(told) or "no act"


def _standing(change: StandingChange) -> str:
    anchor = f"#{change.anchor}" if change.anchor else ""
    return f"{change.kind} {change.record}{anchor}: {change.before or 'not said'} → {change.after or 'gone'}"
