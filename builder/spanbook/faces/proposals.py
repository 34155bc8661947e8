"""All open proposals at once: each judged by itself, and every two held against one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from pathlib import Path

from spanbook.answers.diff.claims import About, Claim, claims, clashing
from spanbook.answers.diff.contradictions import Key
from spanbook.answers.diff.model import StatementChange
from spanbook.faces.contradicting import found_contradicting
from spanbook.faces.diff import NotComparable
from spanbook.faces.reviewing import Main, Review
from spanbook.faces.together import Apart, Sides, found_together
from spanbook.reading.git import NoRevision
from spanbook.reading.git_branches import open_branches
from spanbook.reading.git_merge import Clash, Merge, Merges, merging
from spanbook.reading.problems import errors
from spanbook.reading.record_cache import known_of
from spanbook.wording import proposals as words
from spanbook.wording.headline import in_short

MOST_LINES = 4  # of what two proposals clash in


@dataclass(frozen=True, slots=True)
class Proposal:
    """An open proposal: its branch, what it is in a line, and whether its own review would end well.

    `merge` is None where it cannot be merged, or has errors: nothing is merged with it. `things` are the
    words for each of its claims, so that no register has to be kept; `contradicts` is what it alone does;
    `touches_more` tells that it touches files that are no records.
    """

    branch: str
    line: str
    sound: bool
    merge: Merge | None = None
    claims: tuple[Claim, ...] = ()
    things: tuple[tuple[str, str], ...] = ()
    contradicts: frozenset[Key] = frozenset()
    touches_more: bool = False


@dataclass(frozen=True, slots=True)
class Pair:
    """Two proposals that clash or contradict one another, and in what, a line each."""

    one: str
    other: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Proposals:
    """What is open to the main branch, by the patterns that branches were looked for with.

    `pairs` are those that clash. `together` tells what is wrong only with several of them, as far as no two
    are enough for it. `against` and `against_together` tell the same of what only several make the records
    contradict, of which none is an error. `left_off` counts the older branches that were not looked at.
    """

    main: str
    patterns: tuple[str, ...]
    each: tuple[Proposal, ...]
    pairs: tuple[Pair, ...]
    together: tuple[str, ...]
    left_off: int
    against: tuple[Pair, ...] = ()
    against_together: tuple[str, ...] = ()


def review_all(project: str | Path, main: str, branches: Sequence[str] = ()) -> Proposals:
    """Judge every branch that is not merged into `main` and matches a pattern, and every two of them.

    Without patterns the branches of `origin`, or, where nothing was fetched from there, all. Raises
    NoRevision, and BuildFailed for settings.
    """
    folder = Path(project)
    found = open_branches(folder, main, branches)
    with known_of(folder / "content") as known, merging(folder, main) as merges:
        court = Main(folder, main, known)
        each = tuple(_judged(court, merges, called, name) for called, name in found.names.items())
        pairs = dict(_pairs(merges, each))
        apart = [Apart(p.branch, p.merge, p.contradicts) for p in each if p.merge]
        more = found_together(court, merges, apart, set(pairs))
        against = found_contradicting(court, merges, apart, more)
    for sides, lines in more.pairs.items():
        pairs[sides] = (*lines, *pairs.get(sides, ()))
    together = (*more.all, words.contradictions_untold()) if against.untold else more.all
    return Proposals(
        *(main, found.patterns, each, _as_pairs(pairs), together, found.left_off),
        against=_as_pairs(against.pairs),
        against_together=against.all,
    )


def _as_pairs(found: Mapping[Sides, tuple[str, ...]]) -> tuple[Pair, ...]:
    return tuple(Pair(*sides, _few(lines)) for sides, lines in sorted(found.items()))


def _few(lines: tuple[str, ...]) -> tuple[str, ...]:
    more = len(lines) - MOST_LINES
    return (*lines[:MOST_LINES], words.more_words(more)) if more > 0 else lines


def _judged(court: Main, merges: Merges, called: str, name: str) -> Proposal:
    try:
        merge = merges.of(name)
        return _told(court, called, court.review(called, merge), merge)
    except (NoRevision, NotComparable) as missing:
        return Proposal(called, str(missing), sound=False)


def _told(court: Main, called: str, review: Review, merge: Merge) -> Proposal:
    found, wrong = review.comparison, errors(review.fresh)
    short = in_short(found) if found else (words.untold(),)
    line = words.in_a_line(review.clashes, wrong, review.dying, review.touched, short)
    made = tuple(claims(found)) if found else ()
    things = tuple(words.claim_words(found, claim) for claim in made) if found else ()
    sound = not (review.broken or review.dying)
    alone = court.named.keys(found.contradictions) if found else frozenset[Key]()
    merged = None if review.clashes or wrong else merge
    return Proposal(called, line, sound, merged, made, things, alone, bool(review.touched))


def _pairs(merges: Merges, each: Sequence[Proposal]) -> Iterator[tuple[Sides, tuple[str, ...]]]:
    """Every two that clash: in files that cannot both be had, or in things that they make otherwise."""
    for one, other in combinations(each, 2):
        files = _files(merges, one.merge, other.merge)
        sides = one.branch, other.branch
        lines = [words.file_words(clash, sides) for clash in files]
        lines += _things(one, other, {clash.path for clash in files})
        if lines:
            yield sides, tuple(lines)


def _files(merges: Merges, one: Merge | None, other: Merge | None) -> tuple[Clash, ...]:
    """What git cannot merge. Only what both touch is tried: of hundreds of pairs few do."""
    if one is None or other is None or not _touch(one.touched, other.touched):
        return ()
    return merges.after(one, other).clashes


def _touch(one: Sequence[str], other: Sequence[str]) -> bool:
    """Whether they share a file, or one has a file where the other has a folder."""
    sides = [{*paths, *(above for path in paths for above in _above(path))} for paths in (one, other)]
    return bool(set(one) & sides[1] or set(other) & sides[0])


def _above(path: str) -> Iterator[str]:
    return (path[:at] for at, letter in enumerate(path) if letter == "/")


def _things(one: Proposal, other: Proposal, files: set[str]) -> Iterator[str]:
    """The things that both make something else of; what follows from one told already is not told."""
    sides, told = (one.branch, other.branch), set[object]()
    for i, j in clashing(one.claims, other.claims):
        claim, change = one.claims[i], one.claims[i].change
        if claim.about is About.ID and one.claims[i].path in files:
            continue
        if claim.about is About.ANSWER and claim.key[1] in told:
            continue
        if isinstance(change, StatementChange):
            told.add(change.after.position)
        yield words.both_words(one.things[i][0], sides, (one.things[i][1], other.things[j][1]))
