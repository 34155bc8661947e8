"""Several open proposals: each in a line, and which of them clash with one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce

from spanbook.answers.diff.claims import About, Claim
from spanbook.answers.diff.model import (
    AnswerChange,
    Comparison,
    Contradictions,
    OrderChange,
    StandingChange,
    StatementChange,
)
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.git_merge import Clash
from spanbook.reading.nodes import at_path, plain
from spanbook.reading.problems import Problem
from spanbook.reading.records import Record, Teardown
from spanbook.reading.write import flow
from spanbook.register.statements import Statement
from spanbook.wording import diff
from spanbook.wording.grammar import listed, plural, small
from spanbook.wording.grounds import against_words, break_words, called, changed_words
from spanbook.wording.headline import shift_words
from spanbook.wording.proposal import Section, clash_headline, clash_words, dying_headline, headline
from spanbook.wording.records import record_title
from spanbook.wording.spans import numbers_words


def none_clash() -> str:
    return _("No two of them clash.")


def untold() -> str:
    return _("what it changes for readers cannot be told while the main branch has errors")


def together() -> str:
    return _("All together")


def none_open(patterns: Sequence[str]) -> str:
    """That there is nothing to judge, and where else it may be."""
    told = _(
        "No branch that is not merged matches {}: name others with --branches, as in "
        "--branches 'proposals/*'. What is proposed at a forge has to be fetched first."
    )
    either = _("{first} or {last}")
    return told.format(reduce(lambda one, other: either.format(first=one, last=other), patterns))


def left_off_words(count: int) -> str:
    return plural(
        count,
        "{} older branch is left off; name fewer with --branches.",
        "{} older branches are left off; name fewer with --branches.",
    )


def title(count: int, main: str) -> str:
    return plural(count, "{} proposal open to {main}", "{} proposals open to {main}", main=main)


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
        return plural(
            len(errors),
            "an error to be mended first ({worst})",
            "{} errors to be mended first ({worst})",
            worst=worst,
        )
    if dying:
        return dying_headline(dying)
    said = short[0] if short else _("nothing changes for readers")
    if short[1:]:
        said = plural(
            len(short) - 1,
            "{first}; {} thing more to decide",
            "{first}; {} things more to decide",
            first=said,
        )
    files = headline(touched)
    return _("{files} And: {said}").format(files=files, said=said) if files else said


def claim_words(found: Comparison, claim: Claim) -> tuple[str, str]:
    """A thing that a proposal makes something else of, and what it makes of it."""
    match change := claim.change:
        case StatementChange():
            return called(change.after), changed_words(change)
        case StandingChange():
            anchor = f"#{change.anchor}" if change.anchor else ""
            return f"{change.kind} {change.record}{anchor}", _("no longer said")
        case Statement():
            node = at_path(change.record.origin.node, change.path)
            return called(change), _("says {}").format(flow(plain(node))) if node else _("says it anew")
        case Teardown() if claim.about is About.FIND:
            assembly = found.new.assemblies[str(claim.made)].title
            position = found.new.positions[str(claim.key[2])].title
            told = _("{who} saw the {assembly}").format(who=change.seen_by, assembly=assembly)
            return f"{change.serial}, {small(position)}", told
        case OrderChange():
            part = found.new.parts.get(change.key) or found.old.parts[change.key]
            return _("what is ordered for {}").format(part.number), diff.order_words(
                found, change
            ).removeprefix(labelled(part.number, ""))
        case AnswerChange():
            return _answer_words(found, change)
        case Record():
            return f"{change.kind} {change.id}", f"{record_title(change)} ({change.origin.path})"


def _answer_words(found: Comparison, change: AnswerChange) -> tuple[str, str]:
    series = found.new.series.get(change.series) or found.old.series[change.series]
    position = {**found.old.positions, **found.new.positions}[change.position]
    numbers = numbers_words(change.change.first, change.change.last, series)
    return f"{position.title}, {series.name}", labelled(numbers, shift_words(found, change))


def both_words(thing: str, sides: tuple[str, str], made: tuple[str, str]) -> str:
    """What two proposals make of one thing."""
    return labelled(thing, parted(f"{made[0]} ({sides[0]})", f"{made[1]} ({sides[1]})"))


def file_words(clash: Clash, sides: tuple[str, str]) -> str:
    """A file that two proposals cannot both have."""
    return _("they cannot both be merged: {}").format(clash_words(clash, sides))


def together_words(problem: Problem) -> str:
    """What is wrong only when both are merged."""
    return _("sound each by itself, and not together: {}").format(_problem(problem))


def all_words(problem: Problem) -> str:
    """What is wrong only when all of them are merged, and with no two of them that were tried."""
    return _("no two are to blame, and all together are not sound: {}").format(_problem(problem))


def _problem(problem: Problem) -> str:
    return f"{problem.place.path}:{problem.place.line}: {parted(problem.read, problem.todo)}"


def contradiction_words(found: Contradictions) -> Iterator[str]:
    """What is contradicted, and at which positions, in the words that tell it of one proposal."""
    for one in found.against:
        places = dict.fromkeys(s.position for s in one.statements if s.position)
        where = listed([small(found.new.positions[place].title) for place in places])
        yield against_words(found.new, one) + (f" ({where})" if where else "")
    for moved in found.breaks:
        where = small(found.new.positions[moved.position].title)
        yield f"{_('moves {}').format(break_words(found, moved))} ({where})"


def all_contradict_words(told: str) -> str:
    """What all of them contradict, and no two of them that were tried."""
    return _("of no two that were tried, but of all together: {}").format(told)


def contradictions_untold() -> str:
    return _("What only several of them contradict cannot be told before they are sound together.")


def unmerged_words(branch: str) -> str:
    return _("{} cannot be merged after the others").format(branch)


def pair_section(one: str, other: str, lines: Sequence[str]) -> Section:
    return Section(_("{first} and {last} clash").format(first=one, last=other), tuple(lines))


def contradict_section(one: str, other: str, lines: Sequence[str]) -> Section:
    return Section(_("{first} and {last} contradict one another").format(first=one, last=other), tuple(lines))


def more_words(count: int) -> str:
    return plural(count, "and {} thing more", "and {} things more")
