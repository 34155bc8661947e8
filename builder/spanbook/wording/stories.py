"""What may have happened to a machine that holds what it should not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from spanbook.answers.assumed import Assumed, StoryOdds
from spanbook.answers.breaks import Break
from spanbook.answers.standing import Standing
from spanbook.answers.stories import Explained, Explanation
from spanbook.answers.story import Kind, Story
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Absence, Assembly, Condition
from spanbook.register.model import Register
from spanbook.wording.breaks import whose_guess
from spanbook.wording.grammar import general, listed, share_of
from spanbook.wording.pieces import Pieces, Ref, filled, in_turn, joined
from spanbook.wording.records import CONDITIONS, inner_title
from spanbook.wording.spans import span_words
from spanbook.wording.standings import standing_word

TOLD = {
    Kind.WORKS: marked("It left the works with it"),
    Kind.BREAK: marked("The break lies so that it left the works with it"),
    Kind.CONVERSION: marked("It was converted"),
    Kind.SOLD_LATER: marked("It is a part sold later"),
    Kind.EXCHANGE: marked("It was taken from another machine"),
    Kind.TAKEN_OFF: marked("What was there was taken off"),
    Kind.SWAPPED: marked("It bears another's number, the plate or what it stands on was changed"),
    Kind.RECORD: marked("The record is wrong"),
    Kind.UNRECORDED: marked("Something happened that nobody has recorded"),
}
# Why a story cannot be.
RULED_OUT = {
    Kind.WORKS: marked("no record has it on this number from the works"),
    Kind.BREAK: marked("by what is printed and seen no break can lie so"),
    Kind.CONVERSION: marked("no recorded conversion of this number leads to it"),
    Kind.SOLD_LATER: marked("no record has it as a part sold later for this number"),
    Kind.EXCHANGE: marked("by the records none of the sort left the works with one"),
    Kind.TAKEN_OFF: marked("by the records it left the works with nothing there"),
    Kind.SWAPPED: marked("by the records none of the sort left the works with all that was found"),
    Kind.RECORD: marked("no record of this number says otherwise"),
    Kind.UNRECORDED: marked("nothing says that it cannot be"),
}
# How it looked, where each choice is weighed in its own way.
LOOKED: Mapping[Condition, str] = {
    "untouched": marked("untouched"),
    "unknown": marked("likely original, or nobody knows"),
    "altered": marked("altered"),
}
BY_SETTINGS = marked("by what is assumed it never happens")
IMPOSSIBLE = marked("Ruled out:")
NOTHING = marked(
    "By the records and by what is assumed none of these can be: look again at the number and at the find."
)


def head_words(register: Register, explained: Explanation, one: Explained) -> str:
    """What was found: `HK 701, Oil filter: Metal-edge strainer, found untouched.`"""
    stamp, number = explained.reading.series.stamp, explained.reading.number
    position = register.positions[one.place.position].title
    condition = _(CONDITIONS[explained.condition])
    how = _("condition not known") if explained.condition == "unknown" else condition
    return labelled(f"{stamp.show(number)}, {position}", f"{one.found.title}, {how}.")


def story_words(story: Story) -> Pieces:
    """A story that can be, and what speaks for it, without its probability."""
    because = tuple(_because(story))
    return (_(TOLD[story.kind]), *((_(": "), *because) if because else ()), ".")


def ruled_out_words(story: Story) -> str:
    """A story that cannot be, and why."""
    return labelled(_(TOLD[story.kind]), f"{_(ruled_out_by(story))}.")


def ruled_out_by(story: Story) -> str:
    return BY_SETTINGS if story.likelihood and not story.odds else RULED_OUT[story.kind]


def _because(story: Story) -> Iterator[str | Ref]:
    match story.kind:
        case Kind.WORKS | Kind.BREAK if story.breaks:
            changes = joined([_change(one) for one in story.breaks])
            yield from filled(_("by the break from {changes}"), changes=changes)
        case Kind.WORKS if story.fits:
            yield _recorded(story)
        case Kind.WORKS:
            yield _("nothing is recorded of this number")
        case Kind.CONVERSION if story.through:
            yield from in_turn([Ref(one.title, one) for one in story.through])
        case Kind.CONVERSION | Kind.SOLD_LATER:
            yield _recorded(story)
        case Kind.EXCHANGE:
            told = _("by the records {} of all left the works with one")
            yield told.format(share_of(story.likelihood))
        case Kind.SWAPPED:
            told = _("by the records {} of all left the works with what was found")
            yield told.format(share_of(story.likelihood))
        case Kind.RECORD if story.standing:
            held = joined([_the(one) for one in dict.fromkeys(fit.assembly for fit in story.fits)], "or")
            told = _("it has {assemblies} there, and that is {standing}")
            yield from filled(told, assemblies=held, standing=standing_word(story.standing))
        case _:
            return


def _change(one: Break) -> Pieces:
    earlier, later = (Ref(each.title, each) for each in (one.earlier, one.later))
    return filled(_("{earlier} to {later}"), earlier=earlier, later=later)


def _the(assembly: Assembly) -> Pieces:
    named = Ref(inner_title(assembly), assembly)
    return (named,) if isinstance(assembly, Absence) else filled(_("the {title}"), title=named)


def _recorded(story: Story) -> str:
    spans = [span_words(fit.span, fit.fitting.series) for fit in story.fits]
    return _("recorded {}").format(listed(spans))


def assumed_words(assumed: Assumed, condition: Condition) -> str:
    """What was assumed of machines in a condition, and whose guess it is."""
    rates, odds = assumed.rates, assumed.odds
    if condition == "altered":
        changed = _("an altered machine tells nothing of how often it was changed")
    else:
        f, r = rates.of(condition == "untouched")
        told = _("of a hundred such machines {converted} were converted and {robbed} robbed")
        changed = told.format(converted=general(f * 100), robbed=general(r * 100))
    return _(
        "Assumed ({whose}): {changed}; for each one converted, {sold_later} got a part sold "
        "later and {unrecorded} what nobody has recorded; of a hundred "
        "{swapped} bear another's number; of a hundred records so many are wrong, by "
        "how they stand: {wrong}."
    ).format(
        whose=whose_guess(odds == StoryOdds()),
        changed=changed,
        sold_later=general(odds.sold_later),
        unrecorded=general(odds.unrecorded),
        swapped=general(odds.swapped * 100),
        wrong=listed([f"{standing_word(one)} {general(odds.wrong[one] * 100)}" for one in Standing]),
    )
