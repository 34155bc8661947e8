"""Several open proposals: each in a line, and which of them clash with one another."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.answers.diff.claims import About, Claim
from spanbook.answers.diff.model import (
    AnswerChange,
    Comparison,
    OrderChange,
    StandingChange,
    StatementChange,
)
from spanbook.reading.git_merge import Clash
from spanbook.reading.nodes import at_path, plain
from spanbook.reading.problems import Problem
from spanbook.reading.records import Record, Teardown
from spanbook.reading.write import flow
from spanbook.register.statements import Statement
from spanbook.wording import diff
from spanbook.wording.grammar import plural
from spanbook.wording.grounds import called, changed_words
from spanbook.wording.headline import shift_words
from spanbook.wording.proposal import Section, clash_headline, clash_words, dying_headline, headline
from spanbook.wording.records import record_title
from spanbook.wording.spans import numbers_words

NONE_CLASH = "No two of them clash."
UNTOLD = "what it changes for readers cannot be told while the main branch has errors"
TOGETHER = "All together"


def none_open(patterns: Sequence[str]) -> str:
    """That there is nothing to judge, and where else it may be."""
    return (
        f"No branch that is not merged matches {' or '.join(patterns)}: name others with --branches, as in "
        "--branches 'proposals/*'. What is proposed at a forge has to be fetched first."
    )


def left_off_words(count: int) -> str:
    return plural(
        count,
        "{} older branch is left off; name fewer with --branches.",
        "{} older branches are left off; name fewer with --branches.",
    )


def title(count: int, main: str) -> str:
    return f"{plural(count, '{} proposal', '{} proposals')} open to {main}"


def in_a_line(
    clashes: Sequence[Clash],
    errors: Sequence[Problem],
    dying: Sequence[str],
    touched: Sequence[str],
    short: Sequence[str],
) -> str:
    """What a proposal is, by the worst of what there is to say of it."""
    if clashes:
        return clash_headline(clashes)
    if errors:
        worst = f"{errors[0].place.path}:{errors[0].place.line}: {errors[0].read}"
        return f"{plural(len(errors), 'an error', '{} errors')} to be mended first ({worst})"
    if dying:
        return dying_headline(dying)
    more = f"; {plural(len(short) - 1, '{} thing more', '{} things more')} to decide" if short[1:] else ""
    said = f"{short[0]}{more}" if short else "nothing changes for readers"
    files = headline(touched)
    return f"{files} And: {said}" if files else said


def claim_words(found: Comparison, claim: Claim) -> tuple[str, str]:
    """A thing that a proposal makes something else of, and what it makes of it."""
    match change := claim.change:
        case StatementChange():
            return called(change.after), changed_words(change)
        case StandingChange():
            anchor = f"#{change.anchor}" if change.anchor else ""
            return f"{change.kind} {change.record}{anchor}", "no longer said"
        case Statement():
            node = at_path(change.record.origin.node, change.path)
            return called(change), f"says {flow(plain(node))}" if node else "says it anew"
        case Teardown() if claim.about is About.FIND:
            assembly = found.new.assemblies[str(claim.made)].title
            position = found.new.positions[str(claim.key[2])].title.lower()
            return f"{change.serial}, {position}", f"{change.seen_by} saw the {assembly}"
        case OrderChange():
            part = found.new.parts.get(change.key) or found.old.parts[change.key]
            return f"what is ordered for {part.number}", diff.order_words(found, change).removeprefix(
                f"{part.number}: "
            )
        case AnswerChange():
            return _answer_words(found, change)
        case Record():
            return f"{change.kind} {change.id}", f"{record_title(change)} ({change.origin.path})"


def _answer_words(found: Comparison, change: AnswerChange) -> tuple[str, str]:
    series = found.new.series.get(change.series) or found.old.series[change.series]
    position = {**found.old.positions, **found.new.positions}[change.position]
    numbers = numbers_words(change.change.first, change.change.last, series)
    return f"{position.title}, {series.name}", f"{numbers}: {shift_words(found, change)}"


def both_words(thing: str, sides: tuple[str, str], made: tuple[str, str]) -> str:
    """What two proposals make of one thing."""
    return f"{thing}: {made[0]} ({sides[0]}); {made[1]} ({sides[1]})"


def file_words(clash: Clash, sides: tuple[str, str]) -> str:
    """A file that two proposals cannot both have."""
    return f"they cannot both be merged: {clash_words(clash, sides)}"


def together_words(problem: Problem) -> str:
    """What is wrong only when both are merged."""
    at = f"{problem.place.path}:{problem.place.line}"
    return f"sound each by itself, and not together: {at}: {problem.read}; {problem.todo}"


def all_words(problem: Problem) -> str:
    """What is wrong only when all of them are merged, and with no two of them that were tried."""
    at = f"{problem.place.path}:{problem.place.line}"
    return f"no two are to blame, and all together are not sound: {at}: {problem.read}; {problem.todo}"


def unmerged_words(branch: str) -> str:
    return f"{branch} cannot be merged after the others"


def pair_section(one: str, other: str, lines: Sequence[str]) -> Section:
    return Section(f"{one} and {other} clash", tuple(lines))


def more_words(count: int) -> str:
    return plural(count, "and {} thing more", "and {} things more")
