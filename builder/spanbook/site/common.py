"""What several views show alike: links, evidence, parts, and segments computed once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import Any, TypeVar

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Segment
from spanbook.answers.part_keys import worn_forms
from spanbook.answers.standing import Standing
from spanbook.ground.language import gettext as _
from spanbook.ground.memo import Memo, kept
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.plain import Said, said
from spanbook.reading.records import (
    Assembly,
    GonePage,
    Machine,
    OtherNumber,
    PartRecord,
    PartUse,
    Record,
    Series,
)
from spanbook.reading.releases import Release
from spanbook.register.model import Part, Register
from spanbook.register.statements import part_anchor
from spanbook.site import addresses, cutting
from spanbook.site.drawings import Album
from spanbook.site.former import former_anchors, former_pages
from spanbook.site.page import Link
from spanbook.site.photographs import Shelf
from spanbook.site.scale import Scale
from spanbook.site.small_pictures import pictures_at
from spanbook.wording.beyond import beyond_line
from spanbook.wording.pieces import Pieces
from spanbook.wording.records import record_title
from spanbook.wording.shortfalls import shortfall_lines
from spanbook.wording.spans import span_words

K = TypeVar("K")
T = TypeVar("T")
Linked = tuple[str | Link, ...]  # a sentence with its references as links


@dataclass(frozen=True, slots=True)
class Trust:
    """A standing by name and in a word, what the word means, and the reasons one step away."""

    standing: Standing
    word: str
    meaning: str
    reasons: tuple[Linked, ...]

    @property
    def disputed(self) -> bool:
        """Then both sides are shown without another step, where there is room."""
        return self.standing is Standing.DISPUTED


@dataclass(frozen=True, slots=True)
class PartLine:
    link: Link
    by: str | None
    name: str
    quantity: int
    anchor: str
    note: str | None
    trust: Trust | None = None
    others: tuple[PartLine, ...] = ()
    limits: tuple[LimitLine, ...] = ()


@dataclass(frozen=True, slots=True)
class LimitLine:
    """A span that a line of a parts list is limited to."""

    anchor: str
    words: str
    note: str | None
    trust: Trust


@dataclass(frozen=True)
class Site:
    """What views are made from: a register's answers, and what all pages share, made once."""

    answers: Answers
    shelf: Shelf = field(default_factory=dict)
    album: Album = field(default_factory=dict)
    releases: tuple[Release, ...] = ()

    @property
    def register(self) -> Register:
        return self.answers.register

    @kept
    def said(self) -> Memo[Record, Said]:
        """What the file of each record says; it is read again for that."""
        return Memo(said)

    @kept
    def replaced_by(self) -> Memo[Part, tuple[Part, ...]]:
        """Those that a number replaces by one act; the same ones are asked for again and again."""
        return Memo(self._replaced_by)

    def _replaced_by(self, part: Part) -> tuple[Part, ...]:
        return tuple(dict.fromkeys(self.part_of(act, use) for act in part.new_in for use in act.old))

    @kept
    def gone_on(self) -> Mapping[str, tuple[GonePage, ...]]:
        """For every page that is there the statements that stood on it once."""
        found: dict[str, tuple[GonePage, ...]] = {}
        for entry in self.register.gone.values():
            if entry.anchor:
                page = self.former_pages.get(entry.page, entry.page)
                found[page] = (*found.get(page, ()), entry)
        return found

    @kept
    def former_pages(self) -> Mapping[str, str]:
        """Where the page of every address that one had before is today."""
        return former_pages(self.register)

    @kept
    def former_anchors(self) -> Mapping[str, Mapping[str, tuple[str, ...]]]:
        """For every page the anchors that its statements had before."""
        return former_anchors(self.register)

    @kept
    def keys(self) -> Mapping[tuple[str, bool], str]:
        """Where one is helped to find which assembly he holds from a position, or (True) which part."""
        return {
            (path, parts): addresses.of_key(path, parts=parts)
            for parts in (False, True)
            for path in addresses.with_keys(self.register, parts=parts)
        }

    @kept
    def readable(self) -> Mapping[str, None]:
        """All that is recorded to be read on anything, as a worn stamp leaves it."""
        return dict.fromkeys(sorted(worn_forms(self.register)))

    @kept
    def pictures_at(self) -> Mapping[str, Mapping[str, str]]:
        """The small pictures of what may be at each position, by the addresses of pages."""
        return pictures_at(self.register, self.shelf, self.album)

    @kept
    def series_cut(self) -> Memo[Series, bool]:
        """Whether the page of a series is too long in one piece."""
        return Memo(lambda series: cutting.of_series(self.answers, series) > cutting.BOUND)

    @kept
    def position_cut(self) -> Memo[str, bool]:
        """Whether the page of a position is too long in one piece."""
        return Memo(lambda path: cutting.of_position(self.answers, path) > cutting.BOUND)

    def apart(self, series: Series, path: str) -> bool:
        """Whether a position has a page of its own in a series."""
        return self.series_cut(series) or self.position_cut(path)

    def places_apart(self, series: Series) -> Iterator[str]:
        """The positions that have a page of their own in a series."""
        positions = self.answers.fits.positions(self.machine_of(series))
        return (path for path in positions if self.apart(series, path))

    @kept
    def scale(self) -> Memo[Series, Scale]:
        """How the numbers of a series are laid out in every chart."""
        return Memo(lambda series: Scale.of(self.register, series))

    def segments(self, series: Series, position: str) -> tuple[Segment, ...]:
        return self.answers.fits.segments(series, position)

    def machine_of(self, series: Series) -> Machine:
        return self.register.machines[series.machine]

    def once(self, make: Callable[[Site, K], T], key: K) -> T:
        """What `make` gives for a key, which several pages show: made when the first of them asks."""
        made: T = self._once(make)(key)
        return made

    @kept
    def _once(self) -> Memo[Callable[[Site, Any], Any], Memo[Any, Any]]:
        return Memo(lambda make: Memo(partial(make, self)))

    @kept
    def position_links(self) -> Memo[str, tuple[Link, ...]]:
        """The groups around a position and itself, outermost first."""
        return Memo(self._position_links)

    def _position_links(self, path: str) -> tuple[Link, ...]:
        position = self.register.positions[path]
        above = self.position_links(position.above) if position.above else ()
        return (*above, Link(position.title, addresses.of_position(position)))

    def groups_of(self, path: str) -> str:
        """The groups that a position stands in: what stands over its row among those of one machine."""
        positions, above = self.register.positions, self.register.positions[path].above
        groups: list[str] = []
        while above:
            # What holds an assembly is a row of its own, and no heading over what is inside of it.
            if not positions[above].holds:
                groups.insert(0, positions[above].title)
            above = positions[above].above
        return _(": ").join(groups)

    @kept
    def record_link(self) -> Memo[Record, Link]:
        return Memo(self._record_link)

    def _record_link(self, record: Record) -> Link:
        if isinstance(record, PartRecord):
            return part_link(self.register.parts[self.register.key_of_record(record)])
        return Link(record_title(record), addresses.of_record(record))

    @kept
    def series_link(self) -> Memo[Series, Link]:
        return Memo(lambda series: Link(series.name, addresses.of_series(series)))

    @kept
    def spans_told(self) -> Memo[Assembly, tuple[str, ...]]:
        """The spans of an assembly in words, in the order of its record."""
        return Memo(lambda one: tuple(span_words(f.span, f.series) for f in self.register.fittings_of(one)))

    def shortfalls(self, record: Record) -> tuple[Linked, ...]:
        """Where a conversion or act falls short of what it is for, as lines on a record's page."""
        found = self.answers.shortfalls.told_on(record)
        return tuple(linked(line) for one in found for line in shortfall_lines(one, record))

    def beyond(self, record: Record) -> tuple[Linked, ...]:
        """What was seen past the numbers of an assembly or a conversion, as lines on its page."""
        return tuple(linked(beyond_line(one, record)) for one in self.answers.beyond_of(record))

    def renewed(self, assembly: Assembly) -> tuple[PartKey, ...]:
        """What never goes back when it was taken off, as far as anybody has told."""
        sheet = self.answers.any_sheet(assembly)
        return tuple(key for freed in sheet.renewed for key in freed.keys) if sheet else ()

    def part_of(self, record: Record, use: PartUse | OtherNumber) -> Part:
        return self.register.parts[self.register.key_of(record, use)]

    def part_lines(self, record: Record, uses: Iterable[PartUse]) -> tuple[PartLine, ...]:
        return tuple(self.part_line(record, use) for use in uses)

    def part_line(self, record: Record, use: PartUse) -> PartLine:
        part = self.part_of(record, use)
        return PartLine(
            link=part_link(part, use.number),
            by=use.by,
            name=use.name or part.name,
            quantity=use.quantity,
            anchor=part_anchor(PartKey.of(use.by or "", use.number)),
            note=use.note,
        )


def part_link(part: Part, number: str | None = None) -> Link:
    return Link(number or part.number, addresses.of_part(part.key))


def linked(pieces: Pieces) -> Linked:
    """A sentence whose references lead to the pages of what they name."""
    return tuple(
        piece if isinstance(piece, str) else Link(piece.text, addresses.of(piece.to)) for piece in pieces
    )
