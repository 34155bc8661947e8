"""What changes for readers between two states of the records: headings, and a line for each change."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.applicability import State
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
from spanbook.answers.standing import Standing
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, pgettext
from spanbook.ground.punctuation import labelled, parted
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

_SORTS = {
    "added": marked("added"),
    "removed": marked("removed"),
    "renamed": marked("renamed"),
    "changed": marked("changed"),
}
_STATES = {
    State.SETTLED: marked("settled"),
    State.CHOICE: marked("choice"),
    State.UNSURE: marked("unsure"),
    State.CONFLICT: marked("conflict"),
    State.BLANK: marked("blank"),
    State.NO_PLACE: marked("no-place"),
    State.OTHER_PLATE: marked("other-plate"),
}
_STANDINGS = {
    Standing.UNSUPPORTED: marked("unsupported"),
    Standing.RECALLED: marked("recalled"),
    Standing.PRINTED: marked("printed"),
    Standing.SEEN: marked("seen"),
    Standing.CONFIRMED: marked("confirmed"),
    Standing.DISPUTED: marked("disputed"),
}


def title() -> str:
    return _("What changes for readers")


def title_besides() -> str:
    return _("What else it touches")


def nothing() -> str:
    return _("Nothing changes for readers.")


def sections(found: Comparison) -> Iterator[Section]:
    """What changes, under headings, without those where nothing does."""
    yield from besides(found.besides)
    for heading, lines in (
        (_("Records"), map(record_words, found.records)),
        (_("Answers to a serial number"), (answer_words(found, change) for change in found.answers)),
        (_("Years"), (year_words(found, change) for change in found.years)),
        (_("Orders"), (order_words(found, change) for change in found.orders)),
        (_("Standing of statements"), map(standing_words, found.standings)),
        (_("Questions opened"), (question_words(found.new, question) for question in found.opened)),
        (_("Questions closed"), (question_words(found.old, question) for question in found.closed)),
        (_("Addresses that would die"), found.dead),
        (_("Addresses that are gone for a reason"), (labelled(one.address, one.why) for one in found.gone)),
        (_("New addresses"), found.born),
    ):
        if made := tuple(lines):
            yield Section(heading, made)


def cut_words(count: int) -> str:
    """That a text ends before all is told."""
    return plural(
        count,
        "{} more line does not fit here; `spanbook compare` tells it all.",
        "{} more lines do not fit here; `spanbook compare` tells them all.",
    )


def record_words(change: RecordChange) -> str:
    sort = _(_SORTS[change.sort])
    if change.before:
        sort = _("{change} (it was {before})").format(change=sort, before=change.before)
    return labelled(f"{change.kind} {change.id}", sort)


def answer_words(found: Comparison, at: AnswerChange) -> str:
    series, change = _series(found, at.series), at.change
    positions = {**found.old.positions, **found.new.positions}
    where = f"{positions[at.position].title}, {numbers_words(change.first, change.last, series)}"
    return labelled(where, f"{_said(found, change.before)} → {_said(found, change.after)}")


def _series(found: Comparison, id_: str) -> Series:
    return found.new.series.get(id_) or found.old.series[id_]


def _said(found: Comparison, answer: Answer | None) -> str:
    if answer is None:
        return _("no such number or place")
    held = listed([held_words(found, held) for held in answer.held], "or") or _("nothing known")
    return f"{held} [{state_words(answer)}]"


def state_words(answer: Answer) -> str:
    """In which state an answer is, in a word."""
    return _(_STATES[State(answer.state)])


def held_words(found: Comparison, held: Held) -> str:
    record = found.new.assemblies.get(held.assembly) or found.old.assemblies[held.assembly]
    terms = [
        *([_("possibly")] if held.covers == "maybe" else []),
        *([_(FITTED[held.fitted])] if held.fitted != "factory" else []),  # type: ignore[index]
        *([_("to order")] if held.option else []),
        *map(_lines, held.lines),
    ]
    return record.title + (f" ({', '.join(terms)})" if terms else "")


def _lines(one: HeldLines) -> str:
    """A part that goes by the number: `with WH-1209 Canister lid`."""
    told = _("with {part}") if one.sure else _("perhaps with {part}")
    return told.format(part=f"{listed(one.numbers, 'or')} {one.name}")


def year_words(found: Comparison, at: YearChange) -> str:
    numbers = numbers_words(at.change.first, at.change.last, _series(found, at.series))
    return labelled(numbers, f"{_dated(at.change.before)} → {_dated(at.change.after)}")


def _dated(years: Years | None) -> str:
    return years_words(years) if years else _("no known year")


def order_words(found: Comparison, change: OrderChange) -> str:
    part = found.new.parts.get(change.key) or found.old.parts[change.key]
    sides = ((found.old, change.before), (found.new, change.after))
    if change.before and change.after and change.before.ways == change.after.ways:
        before, after = (_terms(register, ordered) for register, ordered in sides)
    else:
        before, after = (_ways(register, ordered) for register, ordered in sides)
    return labelled(part.number, f"{before} → {after}")


def _ways(register: Register, ordered: Ordered | None) -> str:
    return ways_words(register, ordered.ways) if ordered else _("not known")


def _terms(register: Register, ordered: Ordered | None) -> str:
    return listed([_term(register, term) for term in ordered.terms] if ordered else []) or _("no act")


def _term(register: Register, term: Term) -> str:
    spans = [span_words(span, register.series[span.series]) for span in term.serials]
    needs = [_("with the conversion {}").format(one) for one in term.conversions if one]
    told = _("by {}").format(term.act)
    return f"{told} ({parted(*spans, *needs)})" if spans or needs else told


def standing_words(change: StandingChange) -> str:
    """How far a statement was and is to be trusted, and which reasons came and went."""
    anchor = f"#{change.anchor}" if change.anchor else ""
    before = _(_STANDINGS[change.before]) if change.before else _("not said")
    after = _(_STANDINGS[change.after]) if change.after else pgettext("a statement", "gone")
    moved = labelled(f"{change.kind} {change.record}{anchor}", f"{before} → {after}")
    reasons = [_("now {}").format(plain(reason_words(reason))) for reason in change.gained]
    reasons += [_("no longer {}").format(plain(reason_words(reason))) for reason in change.lost]
    return f"{moved} ({parted(*reasons)})" if reasons else moved
