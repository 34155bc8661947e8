"""What changes for readers between two states of the records: headings, and a line for each change."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.diff.model import (
    Answer,
    AnswerChange,
    Comparison,
    Held,
    HeldLines,
    OrderChange,
    Ordered,
    RecordChange,
    StandingChange,
    Term,
    YearChange,
)
from spanbook.ground.language import gettext as _
from spanbook.ground.years import Years
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.wording.grammar import listed, plural
from spanbook.wording.orders import ways_words
from spanbook.wording.pieces import plain
from spanbook.wording.proposal import Section, besides
from spanbook.wording.questions import question_words
from spanbook.wording.spans import FITTED, numbers_words, span_words
from spanbook.wording.standings import reason_words
from spanbook.wording.years import years_words

TITLE = "What changes for readers"
TITLE_BESIDES = "What else it touches"
NOTHING = "Nothing changes for readers."


def sections(found: Comparison) -> Iterator[Section]:
    """What changes, under headings, without those where nothing does."""
    yield from besides(found.besides)
    for title, lines in (
        ("Records", map(record_words, found.records)),
        ("Answers to a serial number", (answer_words(found, change) for change in found.answers)),
        ("Years", (year_words(found, change) for change in found.years)),
        ("Orders", (order_words(found, change) for change in found.orders)),
        ("Standing of statements", map(standing_words, found.standings)),
        ("Questions opened", (question_words(found.new, question) for question in found.opened)),
        ("Questions closed", (question_words(found.old, question) for question in found.closed)),
        ("Addresses that would die", found.dead),
        ("Addresses that are gone for a reason", (f"{one.address}: {one.why}" for one in found.gone)),
        ("New addresses", found.born),
    ):
        if made := tuple(lines):
            yield Section(title, made)


def cut_words(count: int) -> str:
    """That a text ends before all is told."""
    return plural(
        count,
        "{} more line does not fit here; `spanbook compare` tells it all.",
        "{} more lines do not fit here; `spanbook compare` tells them all.",
    )


def record_words(change: RecordChange) -> str:
    was = f" (it was {change.before})" if change.before else ""
    return f"{change.kind} {change.id}: {change.sort}{was}"


def answer_words(found: Comparison, at: AnswerChange) -> str:
    series, change = _series(found, at.series), at.change
    positions = {**found.old.positions, **found.new.positions}
    where = f"{positions[at.position].title}, {numbers_words(change.first, change.last, series)}"
    return f"{where}: {_said(found, change.before)} → {_said(found, change.after)}"


def _series(found: Comparison, id_: str) -> Series:
    return found.new.series.get(id_) or found.old.series[id_]


def _said(found: Comparison, answer: Answer | None) -> str:
    if answer is None:
        return "no such number or place"
    held = listed([held_words(found, held) for held in answer.held], "or") or "nothing known"
    return f"{held} [{answer.state}]"


def held_words(found: Comparison, held: Held) -> str:
    record = found.new.assemblies.get(held.assembly) or found.old.assemblies[held.assembly]
    terms = [
        *(["possibly"] if held.covers == "maybe" else []),
        *([_(FITTED[held.fitted])] if held.fitted != "factory" else []),  # type: ignore[index]
        *(["to order"] if held.option else []),
        *map(_lines, held.lines),
    ]
    return record.title + (f" ({', '.join(terms)})" if terms else "")


def _lines(one: HeldLines) -> str:
    """A part that goes by the number: `with WH-1209 Canister lid`."""
    return f"{'with' if one.sure else 'perhaps with'} {listed(one.numbers, 'or')} {one.name}"


def year_words(found: Comparison, at: YearChange) -> str:
    numbers = numbers_words(at.change.first, at.change.last, _series(found, at.series))
    return f"{numbers}: {_dated(at.change.before)} → {_dated(at.change.after)}"


def _dated(years: Years | None) -> str:
    return years_words(years) if years else "no known year"


def order_words(found: Comparison, change: OrderChange) -> str:
    part = found.new.parts.get(change.key) or found.old.parts[change.key]
    sides = ((found.old, change.before), (found.new, change.after))
    if change.before and change.after and change.before.ways == change.after.ways:
        before, after = (_terms(register, ordered) for register, ordered in sides)
    else:
        before, after = (_ways(register, ordered) for register, ordered in sides)
    return f"{part.number}: {before} → {after}"


def _ways(register: Register, ordered: Ordered | None) -> str:
    return ways_words(register, ordered.ways) if ordered else "not known"


def _terms(register: Register, ordered: Ordered | None) -> str:
    return listed([_term(register, term) for term in ordered.terms] if ordered else []) or "no act"


def _term(register: Register, term: Term) -> str:
    spans = [span_words(span, register.series[span.series]) for span in term.serials]
    needs = [f"with the conversion {one}" for one in term.conversions if one]
    return f"by {term.act}" + (f" ({'; '.join((*spans, *needs))})" if spans or needs else "")


def standing_words(change: StandingChange) -> str:
    """How far a statement was and is to be trusted, and which reasons came and went."""
    anchor = f"#{change.anchor}" if change.anchor else ""
    moved = f"{change.kind} {change.record}{anchor}: {change.before or 'not said'} → {change.after or 'gone'}"
    reasons = [f"now {plain(reason_words(reason))}" for reason in change.gained]
    reasons += [f"no longer {plain(reason_words(reason))}" for reason in change.lost]
    return f"{moved} ({'; '.join(reasons)})" if reasons else moved
