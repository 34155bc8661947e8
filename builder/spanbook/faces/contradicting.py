"""What only several proposals together contradict: what one saw on a machine, against a span of another.

All that are sound together are merged once and held against the main branch. What none of them contradicts
by itself is then looked for in pairs: first in those of which one brings what speaks, and the other what it
speaks against.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations, islice

from spanbook.answers.diff.contradictions import Key, files
from spanbook.answers.diff.model import Contradictions
from spanbook.faces.diff import Before
from spanbook.faces.reviewing import Main
from spanbook.faces.together import MOST_TRIED, Apart, Merged, Sides, Together, one_after_another
from spanbook.reading.git_merge import Merges
from spanbook.reading.problems import errors
from spanbook.rules.checking import Checked
from spanbook.wording import proposals as words

Two = tuple[Apart, Apart]


@dataclass(slots=True)
class Contradicting:
    """By two proposals what both contradict, and what all do and no two of them that were tried.

    `untold` tells that some are not sound together, though no two of them are known to be to blame.
    """

    pairs: dict[Sides, tuple[str, ...]] = field(default_factory=dict)
    all: tuple[str, ...] = ()
    untold: bool = False


def found_contradicting(
    court: Main, merges: Merges, each: Sequence[Apart], together: Together
) -> Contradicting:
    """Nothing where the main branch has no records, or errors: then nothing can be held against it."""
    if not isinstance(court.before, Before) or errors(court.problems):
        return Contradicting()
    search = _Search(court, court.before, merges)
    for merged, checked in _rounds(court, merges, each, together):
        if errors(checked.problems):
            search.found.untold = True
        else:
            search.look(merged.taken, checked)
    return search.found


def _rounds(
    court: Main, merges: Merges, each: Sequence[Apart], together: Together
) -> Iterator[tuple[Merged, Checked]]:
    """Merges in which every proposal is once: what cannot be merged with some of them begins another."""
    waiting = list(each)
    if together.sound:
        yield together.sound
        waiting = list(together.sound[0].left)
    while waiting:
        names = {one.branch for one in waiting}
        others = (one for one in each if one.branch not in names)
        merged = one_after_another(merges, [*waiting, *others], together.pairs.keys())
        if len(merged.taken) > 1:
            yield merged, court.opened(merged.merge)
        waiting = [one for one in waiting if one in merged.left]


@dataclass(slots=True)
class _Search:
    court: Main
    before: Before
    merges: Merges
    found: Contradicting = field(default_factory=Contradicting)
    tried: dict[Sides, frozenset[Key]] = field(default_factory=dict)

    def look(self, taken: Sequence[Apart], checked: Checked) -> None:
        """Tell what those that were merged contradict and none of them does alone."""
        each = sorted(taken, key=lambda one: one.branch)
        fresh = self._fresh(each, checked)
        if len(each) == 2:
            self._tell((each[0].branch, each[1].branch), fresh)
            return
        told, wanted = set[Key](), self.court.named.keys(fresh)
        for two, likely in islice(_suspects(each, fresh), MOST_TRIED):
            if not likely and wanted <= told:
                break
            told |= self._both(two)
        rest = self.court.named.without(fresh, told)
        lines = map(words.all_contradict_words, words.contradiction_words(rest))
        self.found.all = tuple(dict.fromkeys((*self.found.all, *lines)))

    def _both(self, two: Two) -> frozenset[Key]:
        """What two contradict and neither does alone."""
        sides = two[0].branch, two[1].branch
        if sides not in self.tried:
            self.tried[sides] = frozenset()
            merge = self.merges.after(two[0].merge, two[1].merge)
            checked = None if merge.clashes else self.court.opened(merge)
            if checked and not errors(checked.problems):
                self._tell(sides, self._fresh(two, checked))
        return self.tried[sides]

    def _fresh(self, each: Sequence[Apart], checked: Checked) -> Contradictions:
        known = frozenset[Key]().union(*(one.contradicts for one in each))
        return self.court.named.without(self.before.contradicted(checked), known)

    def _tell(self, sides: Sides, fresh: Contradictions) -> None:
        self.tried[sides] = self.court.named.keys(fresh)
        if fresh:
            self.found.pairs[sides] = tuple(words.contradiction_words(fresh))


def _suspects(each: Sequence[Apart], fresh: Contradictions) -> Iterator[tuple[Two, bool]]:
    """All pairs, the likeliest first; the likely ones bring what speaks, and what it speaks against."""
    places = set(files(fresh))
    ranked: dict[int, list[Two]] = {2: [], 1: [], 0: []}
    for one, other in combinations(each, 2):
        mine, theirs = set(one.merge.touched), set(other.merge.touched)
        ranked[max((_share(mine, theirs, *place) for place in places), default=0)].append((one, other))
    for rank, pairs in ranked.items():
        yield from ((two, rank == 2) for two in pairs)


def _share(mine: set[str], theirs: set[str], by: frozenset[str], of: frozenset[str]) -> int:
    """How much of a contradiction two touch: 1, and the other may have taken away what explained it; or 0,
    where both did."""
    if (by & mine and of & theirs) or (by & theirs and of & mine):
        return 2
    return 1 if (by | of) & (mine | theirs) else 0
