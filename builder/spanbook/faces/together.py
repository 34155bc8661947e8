"""What is wrong only with several proposals together: an id that two give, a circle that two acts close."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from itertools import combinations, islice

from spanbook.answers.diff.contradictions import Key
from spanbook.faces.reviewing import Main, same
from spanbook.reading.git_merge import Merge, Merges
from spanbook.reading.problems import Problem, errors
from spanbook.rules.checking import Checked
from spanbook.wording import proposals as words

MOST_TRIED = 60  # pairs that are checked where not all are sound together

Sides = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Apart:
    """A proposal that is sound by itself, and what it contradicts by itself."""

    branch: str
    merge: Merge
    contradicts: AbstractSet[Key] = frozenset()


@dataclass(frozen=True, slots=True)
class Merged:
    """All that can be merged one after another, which those are, and which cannot."""

    merge: Merge
    taken: tuple[Apart, ...]
    left: tuple[Apart, ...]


@dataclass(frozen=True, slots=True)
class Together:
    """By two proposals what is wrong with both, and what is wrong with all and with no two of them.

    `sound` is what was merged, with its records, where there is nothing wrong with it.
    """

    pairs: dict[Sides, tuple[str, ...]] = field(default_factory=dict)
    all: tuple[str, ...] = ()
    sound: tuple[Merged, Checked] | None = None


def found_together(court: Main, merges: Merges, each: Sequence[Apart], clashing: set[Sides]) -> Together:
    """Merge all of them one after another and check that; only where it has errors are pairs tried.

    Of those that cannot be merged after the others nothing more is known than that; `clashing` says which of
    them clash with one other.
    """
    if not each:
        return Together()
    merged = one_after_another(merges, each)
    taken = merged.taken
    alone = [p for p in merged.left if not any((q.branch, p.branch) in clashing for q in taken)]
    unmerged = tuple(words.unmerged_words(p.branch) for p in alone)
    if len(taken) < 2:
        return Together(all=unmerged)
    checked = court.opened(merged.merge)
    wrong = _wrong(court, checked)
    if not wrong:
        return Together(all=unmerged, sound=(merged, checked))
    pairs, told = dict[Sides, tuple[str, ...]](), set[tuple[str, str, str]]()
    for one, other in islice(_suspects(taken, {p.place.path for p in wrong}), MOST_TRIED):
        both, sides = merges.after(one.merge, other.merge), (one.branch, other.branch)
        found = () if both.clashes else _wrong(court, court.opened(both))
        told |= set(map(same, found))
        if found:
            pairs[sides] = tuple(map(words.together_words, found))
    rest = (words.all_words(problem) for problem in wrong if same(problem) not in told)
    return Together(pairs, (*unmerged, *rest))


def one_after_another(
    merges: Merges, each: Sequence[Apart], apart: AbstractSet[Sides] = frozenset()
) -> Merged:
    """Merge all that can be, from the first on; of two that are to stay `apart` only the first."""
    merge, taken, left = each[0].merge, [each[0]], list[Apart]()
    for one in each[1:]:
        after = None if _is_apart(one, taken, apart) else merges.after(merge, one.merge)
        if after is None or after.clashes:
            left.append(one)
        else:
            merge = after
            taken.append(one)
    return Merged(merge, tuple(taken), tuple(left))


def _is_apart(one: Apart, taken: Sequence[Apart], apart: AbstractSet[Sides]) -> bool:
    return any(apart & {(one.branch, p.branch), (p.branch, one.branch)} for p in taken)


def _suspects(taken: Sequence[Apart], files: set[str]) -> Iterator[tuple[Apart, Apart]]:
    """Pairs of which one touches a file that is wrong."""
    for one, other in combinations(taken, 2):
        if files & {*one.merge.touched, *other.merge.touched}:
            yield one, other


def _wrong(court: Main, checked: Checked) -> tuple[Problem, ...]:
    """The errors of a merge that the main branch has not."""
    had = {same(problem) for problem in court.problems}
    return tuple(p for p in errors(checked.problems) if same(p) not in had)
