"""One of the two registers that are compared, with what is asked of both."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fit
from spanbook.answers.beyond import Beyond
from spanbook.answers.bounds import pieces
from spanbook.answers.breaks import Break, all_breaks
from spanbook.answers.counted import counted
from spanbook.answers.diff.model import Answer, Held, HeldLines, RecordKey, StatementKey
from spanbook.answers.lines_asked import lines_asked
from spanbook.answers.questions import About, Question, questions
from spanbook.answers.readings import Reading, reading_of
from spanbook.answers.standing import Judgement
from spanbook.ground.intervals import Covers, Reach, Span, SpanSet
from spanbook.ground.memo import kept
from spanbook.ground.piecewise import Piece, over
from spanbook.reading.records import Assembly, Series
from spanbook.register.statements import Statement


@dataclass(frozen=True)
class Side:
    """One of the two, with the ids that its records have today, and the anchors of its statements."""

    answers: Answers
    affected: Set[str] | None
    renamed: Mapping[RecordKey, str]
    readdressed: Mapping[StatementKey, str]

    def today(self, kind: str, id_: str) -> str:
        return self.renamed.get((kind, id_), id_)

    def now_called(self, id_: str) -> set[str]:
        """What the records that had an id are called today, of whatever kind."""
        return {now for (_, before), now in self.renamed.items() if before == id_}

    @kept
    def judged(self) -> Mapping[Statement, Judgement]:
        return {statement: self.answers.judge.of(statement) for statement in self._in_question()}

    def _in_question(self) -> Iterator[Statement]:
        """The statements that may stand otherwise: all but those of assemblies elsewhere."""
        for statement in self.answers.fits.register.statements:
            record = statement.record
            if self.affected is None or not isinstance(record, Assembly) or record.position in self.affected:
                yield statement

    def key(self, statement: Statement) -> StatementKey:
        """What a statement is known by, whatever its record was called before."""
        record = statement.record
        key = record.kind, self.today(record.kind, record.id), statement.anchor
        return (*key[:2], self.readdressed.get(key, statement.anchor))

    @kept
    def said(self) -> Mapping[StatementKey, Statement]:
        """The statements that may stand otherwise, by what they are known by."""
        return {self.key(statement): statement for statement in self.judged}

    @kept
    def breaks(self) -> tuple[Break, ...]:
        assumed = self.answers.assumed
        return tuple(all_breaks(self.answers.fits, assumed.rates, self.affected, assumed.weights))

    def questions(self) -> dict[tuple[object, ...], Question]:
        """What is open, but for sizes to measure: what is worth it follows from those that are told."""
        # What falls short may come of records at other positions, and of supersessions: all of it is asked.
        short, seen = self.answers.shortfalls.every, self._beyond()
        found = questions(
            self.answers.fits, self.judged, self.breaks, self.affected, shortfalls=short, beyond=seen
        )
        assemblies = dict.fromkeys(s.record for s in self.judged if isinstance(s.record, Assembly))
        of_lines = lines_asked(self.answers.fits, self.judged, self.answers.line_breaks(assemblies))
        every = counted(self.answers.fits, (*found, *of_lines))
        return {self._question(question): question for question in every}

    def _beyond(self) -> tuple[Beyond, ...]:
        """What was seen past its numbers where a record changed, and anywhere of what conversions make."""
        at, register = self.affected, self.answers.register
        if at is None:
            return self.answers.beyond
        held = (one for id_ in sorted(register.found) if (one := register.assemblies.get(id_)))
        asked = (one for one in held if one.position in at or one.id in register.conversions_to)
        return tuple(each for one in asked for each in self.answers.beyond_in(one))

    def _question(self, question: Question) -> tuple[object, ...]:
        held = tuple(self.today(assembly.kind, assembly.id) for assembly in question.assemblies)
        # Narrower numbers leave the same question open; but of blanks a series has several.
        by_numbers = question.about in (About.BLANK, About.CONFLICT)
        what: tuple[object, ...] = (question.first, question.last) if by_numbers else held
        if question.about is About.BEYOND:
            what = (*held, *(one.edge for one in question.beyond))
        if question.about is About.LINE:
            what = (*held, *(line.keys[0] for line in question.lines))
        of: tuple[object, ...] = ()
        if short := question.shortfall:
            record = short.told_on[0]
            of = record.kind, self.today(record.kind, record.id), question.sure, short.which
        return question.about, question.series.id, question.position, what, of

    def places(self) -> Iterator[tuple[str, str]]:
        """Every series with every position that its machine has."""
        for machine in self.answers.fits.register.machines.values():
            for series in machine.series:
                yield from ((series.id, position) for position in self.answers.fits.positions(machine))

    def pieces_at(self, series_id: str, position: str) -> Iterator[Piece[Answer]]:
        """What the issued numbers of a series have at a position, in rising order."""
        series, fits = self.answers.fits.register.series[series_id], self.answers.fits
        for piece in self._pieces(series, position):
            place = fits.at(reading_of(series, piece.first), position)
            # Equals stand in the order of their ids of today: another id is no other answer.
            fits_today = sorted(place.fits, key=lambda fit: (fit.order()[:-1], self._id(fit)))
            held = (self._held(fit, place.reading) for fit in fits_today)
            yield from over(piece, series.issued, Answer(str(place.state), tuple(dict.fromkeys(held))))

    def _pieces(self, series: Series, position: str) -> Iterator[Span]:
        """The issued numbers cut wherever the answer may change, or a line of a list there begins or ends."""
        fits = self.answers.fits
        there = (one.fitting.assembly for one in fits.placed(series, position))
        lines = fits.lists.edges(dict.fromkeys(there), series)
        runs = (SpanSet.of([span]) for span in fits.pieces(series, position))
        return pieces(series.issued, (*(Reach(run, run) for run in runs), *lines))

    def _id(self, fit: Fit) -> str:
        return self.today(fit.assembly.kind, fit.assembly.id)

    def _held(self, fit: Fit, machine: Reading) -> Held:
        lines = tuple(self._lines(fit.assembly, machine))
        return Held(self._id(fit), str(fit.covers), fit.span.fitted, fit.span.option, lines)

    def _lines(self, assembly: Assembly, machine: Reading) -> Iterator[HeldLines]:
        for held in self.answers.fits.lists.on(assembly, machine):
            if held.place.limited:
                sure = all(one.covers is Covers.YES for one in held.lines)
                numbers = tuple(said.number for one in held.lines for said in one.line.part.numbers)
                yield HeldLines(held.lines[0].line.part.name or "", numbers, sure)

    def records_at(self, series: str, position: str) -> list[object]:
        """What the answers of a series at a position come from; the same records give the same answers."""
        fits = self.answers.fits
        register = fits.register
        run = register.series[series]
        found: list[object] = [run, fits.speaking.plate_to_ask(run, position)]
        at: str | None = position
        while at:
            place = register.positions.get(at)
            found += [place, *(f.assembly for f in register.fittings.get((series, at), ()))]
            at = place.housing.position if place and place.housing else None
        return found
