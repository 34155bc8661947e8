"""What may have happened to a machine that holds what it should not: small tables, one for each position.

A number has a run, a run an answer for each assembly that may be found there and each condition: the stories
that can be with their shares, and those that are ruled out. All was weighed here; the script looks it up.
Where a share differs among the numbers of a run, because a break may lie among them, it is told from the
least to the most; what the command says of each number lies between. With one break these are at the ends of
the run; with two they are looked for at so many numbers of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, NamedTuple

from spanbook.answers.answers import Answers
from spanbook.answers.breaks import Break
from spanbook.answers.readings import machine_of, reading_of
from spanbook.answers.stories import Weights, weights_of
from spanbook.answers.story import ORDER, STORIES, Kind, Story
from spanbook.ground.intervals import Span
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Assembly, Condition, Series
from spanbook.site.card.lines import Once, said
from spanbook.site.common import Site
from spanbook.wording.card import found_words
from spanbook.wording.grammar import shares_of
from spanbook.wording.stories import (
    LOOKED,
    NOTHING,
    assumed_words,
    ruled_out_by,
    ruled_out_words,
    story_words,
)

CONDITIONS: tuple[Condition, ...] = tuple(LOOKED)
MOST_LOOKED_AT = 64  # numbers of a run that two breaks may be in


class Place(NamedTuple):
    """A position of the machines of a series, and which of theirs it is."""

    series: Series
    number: int
    path: str


def places(site: Site) -> Iterator[Place]:
    """Every place of every series."""
    for series in site.register.series.values():
        for number, path in enumerate(site.answers.fits.positions(site.machine_of(series))):
            yield Place(series, number, path)


def name_of(place: Place) -> str:
    """What the table of a place is called."""
    return f"{place.series.id}-found-{place.number}"


def index(site: Site, series: Series, positions: Sequence[str]) -> tuple[str, Any]:
    """The table of a series with its name: what may be found where."""
    answers = site.answers
    found = ((i, path, candidates(answers, series, path)) for i, path in enumerate(positions))
    index = [place_of(site, i, path, here) for i, path, here in found if here]
    assumed = [assumed_words(answers.assumed, condition) for condition in CONDITIONS]
    return f"{series.id}-found", {"places": index, "assumed": assumed, "words": found_words()}


def table(site: Site, place: Place) -> dict[str, Any] | None:
    """The table of a place; None where nothing may be found there."""
    found = candidates(site.answers, place.series, place.path)
    return _Table(site, place.series, place.path, found, site.answers).made() if found else None


def place_of(site: Site, i: int, position: str, found: Sequence[Assembly]) -> list[Any]:
    """The i-th position of a machine with what may be found there."""
    named = _(": ").join(link.text for link in site.position_links(position))
    return [i, named, [[one.id, one.title] for one in found]]


def candidates(answers: Answers, series: Series, position: str) -> list[Assembly]:
    """The assemblies of a series at a position, and those that conversions of its machines lead to."""
    register = answers.register
    held = {fitting.assembly.id for fitting in register.fittings.get((series.id, position), ())}
    for one in answers.fits.applying.in_series(series):
        held |= {change.to for change in one.conversion.changes}
    return [register.assemblies[id_] for id_ in register.known_at.get(position, ()) if id_ in held]


_Stories = tuple[Story, ...]
# The places of stories, in the order in which equals are told.
_PLACES = sorted(range(len(STORIES) + 1), key=lambda i: ORDER[(*STORIES, Kind.SWAPPED)[i]])


class _Ranked(NamedTuple):
    """Stories by their places: what can be, the likeliest first, with its share; and what cannot."""

    can: list[tuple[int, str]]
    cannot: list[int]


@dataclass
class _Table:
    site: Site
    series: Series
    position: str
    found: Sequence[Assembly]
    answers: Answers
    lines: Once = field(default_factory=Once)
    told: Once = field(default_factory=Once)
    said: dict[object, int] = field(default_factory=dict)

    def made(self) -> dict[str, Any]:
        runs: list[list[Any]] = []
        for cell, varying in self._cells():
            each = [self._at(number) for number in _looked_at(cell, varying)]
            told = [self._told(at) for at in zip(*each, strict=True)]
            if runs and runs[-1][2] == told:
                runs[-1][1] = cell.last
            else:
                runs.append([cell.first, cell.last, told])
        return {"runs": runs, "told": self.told.held, "lines": self.lines.held}

    def _told(self, at: Sequence[_Stories]) -> list[int]:
        """The answers for a find, by what may have happened to numbers of a cell: their places, one a
        condition. Of all numbers and conditions the same is said: what is said where it explains most."""
        stories = at[0] if len(at) == 1 else [max(each, key=_likelihood) for each in zip(*at, strict=True)]
        can: dict[int, int] = {}
        cannot: dict[int, int] = {}
        answers = []
        for ranked in self.site.once(_ranked, tuple([weights_of(one) for one in at])):
            for i, _share in ranked.can:
                if i not in can:
                    can[i] = self._can(stories[i])
            for i in ranked.cannot:
                if i not in cannot:
                    cannot[i] = self._cannot(stories[i])
            told = [(share, can[i]) for i, share in ranked.can] or [("", self._line([_(NOTHING)]))]
            out = [cannot[i] for i in ranked.cannot]
            answers.append(self.told.place((*told, *out), [told, out]))
        return answers

    def _can(self, story: Story) -> int:
        grounds = story.grounds
        if grounds not in self.said:
            self.said[grounds] = self._line(said(story_words(story)))
        return self.said[grounds]

    def _cannot(self, story: Story) -> int:
        why = story.kind, ruled_out_by(story)
        if why not in self.said:
            self.said[why] = self._line([ruled_out_words(story)])
        return self.said[why]

    def _line(self, words: list[Any]) -> int:
        return self.lines.place(str(words), words)

    def _at(self, number: int) -> list[_Stories]:
        register = self.answers.register
        reading = machine_of(register, self.series, number)
        if self.answers.fits.speaking.of(reading, self.position).own != reading.own:
            # The card asks by the number that tells.
            reading = reading_of(self.series, number)
        return self.answers.explainer.alone(reading, self.found)

    def _cells(self) -> Iterator[tuple[Span, int]]:
        """Numbers of which the same is told but for the shares, and of how many breaks these differ by."""
        breaks = self.answers.breaks_at((self.series, self.position))
        looked = {teardown for teardown, _ in self.answers.fits.finds(self.series, self.position)}
        seen = [
            n for n, of in self.answers.machines.looks.seen(self.series).items() if looked.intersection(of)
        ]
        seen += self.answers.register.units.shared(self.series)
        cuts = sorted({*seen, *(n + 1 for n in seen), *(at for one in breaks for at in _edges(one))})
        for piece in self.answers.fits.told_alike((self.series, self.position)):
            edges = [piece.first, *(at for at in cuts if at in piece and at != piece.first)]
            ends = [*(first - 1 for first in edges[1:]), piece.last]
            for first, last in zip(edges, ends, strict=True):
                cell = Span(first, last)
                yield cell, sum(_varies(one, cell) for one in breaks)


def _ranked(site: Site, each: tuple[Weights, ...]) -> list[_Ranked]:
    """In each condition, by what the stories of the numbers of a cell weigh."""
    explainer = site.answers.explainer
    return [_rank([explainer.shares(weights, one) for weights in each]) for one in CONDITIONS]


def _rank(shares: Sequence[Sequence[float]]) -> _Ranked:
    least = most = shares[0]
    if len(shares) > 1:
        least, most = ([end(*of) for of in zip(*shares, strict=True)] for end in (min, max))
    likeliest = sorted([i for i in _PLACES if most[i]], key=lambda i: -most[i])
    can = [(i, shares_of(least[i], most[i])) for i in likeliest]
    return _Ranked(can, [i for i in _PLACES if not most[i]])


def _likelihood(story: Story) -> Fraction:
    return story.likelihood


def _looked_at(cell: Span, varying: int) -> list[int]:
    """The numbers of a cell that are asked, of how many breaks the answer differs by."""
    if not varying or cell.last is None:
        return [cell.first]
    size = cell.last - cell.first
    steps = min(size, MOST_LOOKED_AT if varying > 1 else 1)
    return sorted({cell.first + size * step // max(steps, 1) for step in range(steps + 1)})


def _edges(one: Break) -> Iterator[int]:
    """Where a break comes to weigh otherwise on a number."""
    reach = one.report.prior.reach
    yield from (reach.first, reach.last + 1)
    for run in one.report.posterior.runs:
        yield from (run.first, run.last + 1)


def _varies(one: Break, cell: Span) -> bool:
    """Whether a break weighs otherwise on each number of a cell."""
    return any(run.each and run.first <= cell.first <= run.last for run in one.report.posterior.runs)
