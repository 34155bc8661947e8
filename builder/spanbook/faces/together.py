"""What is wrong only with several proposals together: an id that two give, a circle that two acts close."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations, islice

from spanbook.faces.reviewing import Main, same
from spanbook.reading import git_tree
from spanbook.reading.git_merge import Merge, Merges
from spanbook.reading.problems import Problem, errors
from spanbook.rules.checking import open_tree
from spanbook.wording import proposals as words

MOST_TRIED = 60  # pairs that are checked where not all are sound together

Sides = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Apart:
    """A proposal that is sound by itself."""

    branch: str
    merge: Merge


@dataclass(frozen=True, slots=True)
class Together:
    """By two proposals what is wrong with both, and what is wrong with all and with no two of them."""

    pairs: dict[Sides, tuple[str, ...]] = field(default_factory=dict)
    all: tuple[str, ...] = ()


def found_together(court: Main, merges: Merges, each: Sequence[Apart], clashing: set[Sides]) -> Together:
    """Merge all of them one after another and check that; only where it has errors are pairs tried.

    Of those that cannot be merged after the others nothing more is known than that; `clashing` says which of
    them clash with one other.
    """
    merge, taken, left = _all(merges, each)
    alone = [p for p in left if not any((q.branch, p.branch) in clashing for q in taken)]
    unmerged = tuple(words.unmerged_words(p.branch) for p in alone)
    wrong = _wrong(court, merge) if merge and len(taken) > 1 else ()
    if not wrong:
        return Together(all=unmerged)
    pairs, told = dict[Sides, tuple[str, ...]](), set[tuple[str, str, str]]()
    for one, other in islice(_suspects(taken, {p.place.path for p in wrong}), MOST_TRIED):
        both, sides = merges.after(one.merge, other.merge), (one.branch, other.branch)
        found = () if both.clashes else _wrong(court, both)
        told |= set(map(same, found))
        if found:
            pairs[sides] = tuple(map(words.together_words, found))
    rest = (words.all_words(problem) for problem in wrong if same(problem) not in told)
    return Together(pairs, (*unmerged, *rest))


def _all(merges: Merges, each: Sequence[Apart]) -> tuple[Merge | None, list[Apart], list[Apart]]:
    """All that can be merged one after another, which those are, and which cannot."""
    merge: Merge | None = None
    taken, left = list[Apart](), list[Apart]()
    for one in each:
        after = merges.after(merge, one.merge) if merge else one.merge
        if after.clashes:
            left.append(one)
        else:
            merge = after
            taken.append(one)
    return merge, taken, left


def _suspects(taken: Sequence[Apart], files: set[str]) -> Iterator[tuple[Apart, Apart]]:
    """Pairs of which one touches a file that is wrong."""
    for one, other in combinations(taken, 2):
        if files & {*one.merge.touched, *other.merge.touched}:
            yield one, other


def _wrong(court: Main, merge: Merge) -> tuple[Problem, ...]:
    """The errors of a merge that the main branch has not."""
    tree = git_tree.content_of(merge.repository, merge.tree, court.called)
    had = {same(problem) for problem in court.problems}
    return tuple(p for p in errors(open_tree(tree, "content", court.known).problems) if same(p) not in had)
