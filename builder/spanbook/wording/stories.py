"""What may have happened to a machine that holds what it should not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from spanbook.answers.assumed import Assumed, StoryOdds
from spanbook.answers.likelihoods import Kind, Story
from spanbook.answers.standing import Standing
from spanbook.answers.stories import Explained, Explanation
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Condition
from spanbook.register.model import Register
from spanbook.wording.grammar import listed, share_of
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import CONDITIONS, article, inner_title
from spanbook.wording.spans import span_words
from spanbook.wording.standings import standing_word

TOLD = {
    Kind.WORKS: "It left the works with it",
    Kind.BREAK: "The break lies so that it left the works with it",
    Kind.CONVERSION: "It was converted",
    Kind.SOLD_LATER: "It is a part sold later",
    Kind.EXCHANGE: "It was taken from another machine",
    Kind.TAKEN_OFF: "What was there was taken off",
    Kind.SWAPPED: "It bears another's number, the plate or what it stands on was changed",
    Kind.RECORD: "The record is wrong",
    Kind.UNRECORDED: "Something happened that nobody has recorded",
}
# Why a story cannot be.
RULED_OUT = {
    Kind.WORKS: "no record has it on this number from the works",
    Kind.BREAK: "by what is printed and seen no break can lie so",
    Kind.CONVERSION: "no recorded conversion of this number leads to it",
    Kind.SOLD_LATER: "no record has it as a part sold later for this number",
    Kind.EXCHANGE: "by the records none of the sort left the works with one",
    Kind.TAKEN_OFF: "by the records it left the works with nothing there",
    Kind.SWAPPED: "by the records none of the sort left the works with all that was found",
    Kind.RECORD: "no record of this number says otherwise",
    Kind.UNRECORDED: "nothing says that it cannot be",
}
# How it looked, where each choice is weighed in its own way.
LOOKED: Mapping[Condition, str] = {
    "untouched": "untouched",
    "unknown": "likely original, or nobody knows",
    "altered": "altered",
}
BY_SETTINGS = "by what is assumed it never happens"
IMPOSSIBLE = "Ruled out:"
NOTHING = (
    "By the records and by what is assumed none of these can be: look again at the number and at the find."
)


def head_words(register: Register, explained: Explanation, one: Explained) -> str:
    """What was found: `HK 701, Oil filter: Metal-edge strainer, found untouched.`"""
    stamp, number = explained.reading.series.stamp, explained.reading.number
    position = register.positions[one.place.position].title
    condition = _(CONDITIONS[explained.condition])
    how = "condition not known" if explained.condition == "unknown" else condition
    return f"{stamp.show(number)}, {position}: {one.found.title}, {how}."


def story_words(story: Story) -> Pieces:
    """A story that can be, and what speaks for it, without its probability."""
    because = tuple(_because(story))
    return (TOLD[story.kind], *((": ", *because) if because else ()), ".")


def ruled_out_words(story: Story) -> str:
    """A story that cannot be, and why."""
    why = BY_SETTINGS if story.likelihood and not story.odds else RULED_OUT[story.kind]
    return f"{TOLD[story.kind]}: {why}."


def _because(story: Story) -> Iterator[str | Ref]:
    match story.kind:
        case Kind.WORKS | Kind.BREAK if story.breaks:
            for i, one in enumerate(story.breaks):
                yield " and " if i else "by the break from "
                yield Ref(one.earlier.title, one.earlier)
                yield " to "
                yield Ref(one.later.title, one.later)
        case Kind.WORKS if story.fits:
            yield f"recorded {listed([_span(story, i) for i in range(len(story.fits))])}"
        case Kind.WORKS:
            yield "nothing is recorded of this number"
        case Kind.CONVERSION if story.through:
            for i, conversion in enumerate(story.through):
                yield ", then " if i else ""
                yield Ref(conversion.title, conversion)
        case Kind.CONVERSION | Kind.SOLD_LATER:
            yield f"recorded {listed([_span(story, i) for i in range(len(story.fits))])}"
        case Kind.EXCHANGE:
            yield f"by the records {share_of(story.likelihood)} of all left the works with one"
        case Kind.SWAPPED:
            yield f"by the records {share_of(story.likelihood)} of all left the works with what was found"
        case Kind.RECORD if story.standing:
            yield "it has "
            for i, assembly in enumerate(dict.fromkeys(fit.assembly for fit in story.fits)):
                yield f"{' or ' if i else ''}{article(assembly)}"
                yield Ref(inner_title(assembly), assembly)
            yield f" there, and that is {standing_word(story.standing)}"
        case _:
            return


def _span(story: Story, at: int) -> str:
    fit = story.fits[at]
    return span_words(fit.span, fit.fitting.series)


def assumed_words(assumed: Assumed, condition: Condition) -> str:
    """What was assumed of machines in a condition, and whose guess it is."""
    rates, odds = assumed.rates, assumed.odds
    if condition == "altered":
        changed = "an altered machine tells nothing of how often it was changed"
    else:
        f, r = rates.of(condition == "untouched")
        changed = (
            f"of a hundred such machines {float(f) * 100:g} were converted and {float(r) * 100:g} robbed"
        )
    whose = "our own guess, which a community can set" if odds == StoryOdds() else "set by this community"
    wrong = listed([f"{standing_word(one)} {float(odds.wrong[one]) * 100:g}" for one in Standing])
    return (
        f"Assumed ({whose}): {changed}; for each one converted, {float(odds.sold_later):g} got a part sold "
        f"later and {float(odds.unrecorded):g} what nobody has recorded; of a hundred "
        f"{float(odds.swapped) * 100:g} bear another's number; of a hundred records so many are wrong, by "
        f"how they stand: {wrong}."
    )
