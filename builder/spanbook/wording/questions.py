"""What is not known, as questions to the owners of machines."""

from __future__ import annotations

from spanbook.answers.questions import About, Question
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Absence, Series
from spanbook.register.model import Register
from spanbook.wording.beyond import beyond_words
from spanbook.wording.flow_measures import measure_asked, told_of_measuring
from spanbook.wording.grammar import listed
from spanbook.wording.lines import line_asked
from spanbook.wording.records import the_title
from spanbook.wording.shortfalls import shortfall_asked
from spanbook.wording.spans import runs_words

ABOUT = {
    About.BREAK: "where it changed",
    About.CONFLICT: "sources disagree",
    About.BLANK: "nothing known",
    About.DISPUTED: "disputed",
    About.UNSUPPORTED: "no evidence",
    About.NEVER_SEEN: "never seen",
    About.PARTS: "parts never read",
    About.UNREACHED: "no conversion reaches it",
    About.PAST_BASE: "a conversion past what it starts from",
    About.NEED_UNMET: "a need that nothing meets",
    About.NEVER_HAD: "a replacement of what was never there",
    About.BEYOND: "seen past its numbers",
    About.LINE: "which part is on it",
    About.MEASURE: "a size to measure",
    About.ALIKE: "nothing tells them apart",
}
MOST_NUMBERS = 8  # of those that nobody has read


def question_words(register: Register, question: Question) -> str:
    """Who is asked, and what: `Owners of HK 593 to HK 606: which of these two is your oil filter, …?`"""
    asked = [_asked(register, question), *map(beyond_words, question.beyond)]
    return f"{owners(question.series, question.runs)}: {' '.join(asked)}"


def owners(series: Series, numbers: SpanSet) -> str:
    who = "Owner" if numbers.count() == 1 else "Owners"
    return f"{who} of {runs_words(numbers, series)}"


def _asked(register: Register, question: Question) -> str:
    if question.measure:
        return measure_asked(question.measure)
    assert question.position is not None, "only of a way between positions nobody asks at a position"
    place = register.positions[question.position].title.lower()
    titles = [the_title(assembly) for assembly in question.assemblies]
    nothing = isinstance(question.assemblies[0], Absence) if question.assemblies else False
    if question.shortfall:
        return shortfall_asked(question.shortfall, place, surely=question.sure)
    match question.about:
        case About.BREAK:
            return f"which of these two is your {place}, {titles[0]} or {titles[1]}?"
        case About.CONFLICT if len(titles) == 1:
            return f"is there a place for {titles[0]} at your {place}? The sources disagree."
        case About.CONFLICT:
            return f"which of these is your {place}, {listed(titles, 'or')}? The sources disagree."
        case About.BLANK:
            return f"what sort of {place} is on your machine?"
        case About.DISPUTED if nothing:
            return f"look where the {place} goes: is really none fitted?"
        case About.BEYOND if nothing:
            return f"is no {place} fitted?"
        case About.UNSUPPORTED if nothing:
            return f"look where the {place} goes: is none fitted? Nothing is named that says so."
        case About.NEVER_SEEN if nothing:
            return f"look where the {place} goes: is none fitted, as printed? Nobody has told of seeing that."
        case About.DISPUTED:
            return f"look at your {place}: is it really {titles[0]}?"
        case About.BEYOND:
            return f"is your {place} {titles[0]}?"
        case About.ALIKE:
            return f"what is to be seen on your {place} that tells {titles[0]} from {titles[1]}?"
        case About.LINE:
            return line_asked(register, question.lines, question.assemblies[0].title)
        case About.UNSUPPORTED:
            return f"look at your {place}: is it {titles[0]}? Nothing is named that says so."
        case About.NEVER_SEEN:
            return f"look at your {place}: is it {titles[0]}, as printed? Nobody has told of seeing one."
        case _:  # what falls short is asked above, and no part was read
            return (
                f"can a number be read on any part of your {question.assemblies[0].title}? "
                f"Nobody has told of reading {_numbers(question)}."
            )


def _numbers(question: Question) -> str:
    more = " and more" if len(question.unread) > MOST_NUMBERS else ""
    return ", ".join(question.unread[:MOST_NUMBERS]) + more


def forum_words(register: Register, question: Question) -> str:
    """A question as somebody puts it to a forum: with how the assemblies are told apart by eye."""
    signs = "; ".join(f"{a.title}: {_small(a.tell[0])}" for a in question.assemblies if a.tell)
    told = f" How to tell: {signs}." if signs else ""
    asked = question_words(register, question)
    if question.measure:
        return f"{asked} {told_of_measuring(question.measure)}"
    return f"{asked}{told} A photograph and the number from the plate would settle it."


def _small(sign: str) -> str:
    """A sign as it reads inside a sentence."""
    return sign[0].lower() + sign[1:]
