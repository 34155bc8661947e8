"""What is not known, as questions to the owners of machines."""

from __future__ import annotations

from spanbook.answers.questions import About, Question
from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.records import Absence, Series
from spanbook.register.model import Register
from spanbook.wording.beyond import beyond_words
from spanbook.wording.flow_measures import measure_asked, told_of_measuring
from spanbook.wording.grammar import inside, listed, plural, small
from spanbook.wording.lines import line_asked
from spanbook.wording.records import the_title
from spanbook.wording.shortfalls import shortfall_asked
from spanbook.wording.spans import runs_words

ABOUT = {
    About.BREAK: marked("where it changed"),
    About.CONFLICT: marked("sources disagree"),
    About.BLANK: marked("nothing known"),
    About.DISPUTED: marked("disputed"),
    About.UNSUPPORTED: marked("no evidence"),
    About.NEVER_SEEN: marked("never seen"),
    About.PARTS: marked("parts never read"),
    About.UNREACHED: marked("no conversion reaches it"),
    About.PAST_BASE: marked("a conversion past what it starts from"),
    About.NEED_UNMET: marked("a need that nothing meets"),
    About.NEVER_HAD: marked("a replacement of what was never there"),
    About.BEYOND: marked("seen past its numbers"),
    About.LINE: marked("which part is on it"),
    About.MEASURE: marked("a size to measure"),
    About.ALIKE: marked("nothing tells them apart"),
}
MOST_NUMBERS = 8  # of those that nobody has read


def question_words(register: Register, question: Question) -> str:
    """Who is asked, and what: `Owners of HK 593 to HK 606: which of these two is your oil filter, …?`"""
    asked = [_asked(register, question), *map(beyond_words, question.beyond)]
    return labelled(owners(question.series, question.runs), " ".join(asked))


def about_word(about: About) -> str:
    """What a question is about, in short."""
    return _(ABOUT[about])


def owners(series: Series, numbers: SpanSet) -> str:
    told = runs_words(numbers, series)
    one = numbers.count() == 1
    return plural(1 if one else 2, "Owner of {numbers}", "Owners of {numbers}", numbers=told)


def _asked(register: Register, question: Question) -> str:
    if question.measure:
        return measure_asked(question.measure)
    assert question.position is not None, "only of a way between positions nobody asks at a position"
    place = small(register.positions[question.position].title)
    titles = [the_title(assembly) for assembly in question.assemblies]
    nothing = isinstance(question.assemblies[0], Absence) if question.assemblies else False
    if question.shortfall:
        return shortfall_asked(question.shortfall, place, surely=question.sure)
    match question.about:
        case About.BREAK:
            return _("which of these two is your {place}, {first} or {last}?").format(
                place=place, first=titles[0], last=titles[1]
            )
        case About.CONFLICT if len(titles) == 1:
            return _("is there a place for {assembly} at your {place}? The sources disagree.").format(
                assembly=titles[0], place=place
            )
        case About.CONFLICT:
            return _("which of these is your {place}, {assemblies}? The sources disagree.").format(
                place=place, assemblies=listed(titles, "or")
            )
        case About.BLANK:
            return _("what sort of {} is on your machine?").format(place)
        case About.DISPUTED if nothing:
            return _("look where the {} goes: is really none fitted?").format(place)
        case About.BEYOND if nothing:
            return _("is no {} fitted?").format(place)
        case About.UNSUPPORTED if nothing:
            told = _("look where the {} goes: is none fitted? Nothing is named that says so.")
            return told.format(place)
        case About.NEVER_SEEN if nothing:
            told = _("look where the {} goes: is none fitted, as printed? Nobody has told of seeing that.")
            return told.format(place)
        case About.DISPUTED:
            return _("look at your {place}: is it really {assembly}?").format(place=place, assembly=titles[0])
        case About.BEYOND:
            return _("is your {place} {assembly}?").format(place=place, assembly=titles[0])
        case About.ALIKE:
            told = _("what is to be seen on your {place} that tells {first} from {last}?")
            return told.format(place=place, first=titles[0], last=titles[1])
        case About.LINE:
            return line_asked(register, question.lines, question.assemblies[0].title)
        case About.UNSUPPORTED:
            told = _("look at your {place}: is it {assembly}? Nothing is named that says so.")
            return told.format(place=place, assembly=titles[0])
        case About.NEVER_SEEN:
            told = _("look at your {place}: is it {assembly}, as printed? Nobody has told of seeing one.")
            return told.format(place=place, assembly=titles[0])
        case _:  # what falls short is asked above, and no part was read
            told = _(
                "can a number be read on any part of your {assembly}? Nobody has told of reading {numbers}."
            )
            return told.format(assembly=question.assemblies[0].title, numbers=_numbers(question))


def _numbers(question: Question) -> str:
    told = ", ".join(question.unread[:MOST_NUMBERS])
    return _("{} and more").format(told) if len(question.unread) > MOST_NUMBERS else told


def forum_words(register: Register, question: Question) -> str:
    """A question as somebody puts it to a forum: with how the assemblies are told apart by eye."""
    signs = parted(*(labelled(a.title, inside(a.tell[0])) for a in question.assemblies if a.tell))
    told = f" {_('How to tell: {}.').format(signs)}" if signs else ""
    asked = question_words(register, question)
    if question.measure:
        return f"{asked} {told_of_measuring(question.measure)}"
    return f"{asked}{told} {_('A photograph and the number from the plate would settle it.')}"
