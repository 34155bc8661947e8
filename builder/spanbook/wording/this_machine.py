"""One very machine: what it left the works with, what was seen on it, what it may have been changed to.

The card, the command and whoever else tells of a machine say these sentences, in this order.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from spanbook.answers.applicability import Fit, State
from spanbook.answers.meaning import Meaning, Means
from spanbook.answers.named import GOOD
from spanbook.answers.standing import Judgement, Standing
from spanbook.answers.steps import Step
from spanbook.answers.this_machine import ChangedTo, Left, SeenHere, ThisMachine, ThisPosition
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Evidence, Find, Teardown
from spanbook.register.model import Register
from spanbook.wording.conversions import start_words
from spanbook.wording.disputed import judged_words
from spanbook.wording.fits import ask_by_words, segment_words, state_meaning, state_word
from spanbook.wording.grammar import capital, listed, plural, small
from spanbook.wording.odds import ODDS, odds_words, percent
from spanbook.wording.parts_here import parts_words, read_words
from spanbook.wording.pieces import Pieces, Ref, filled, in_turn, joined
from spanbook.wording.places import there_words
from spanbook.wording.records import CONDITIONS, date_words, evidence_title
from spanbook.wording.spans import FITTED, span_words
from spanbook.wording.standings import standing_meaning, standing_word
from spanbook.wording.told_by_eye import TELL, told_by_eye

SEEN = marked("Seen on this machine")
PERHAPS_SEEN = marked("Seen on what may be this machine")
LEFT = marked("Left the works with")
LEFT_BY = marked("Left the works with, going by {}")
OTHERS = marked("Recorded of its other numbers")
CHANGED = marked("May have been changed to")
PARTS = marked("Parts that go by the number")
QUESTIONS = marked("What this machine could settle")
NOBODY_KNOWS = marked("Nobody knows yet.")
SEEN_AND_RECORDED = marked("{}; recorded: {}")
NO_RECORD = marked("something that no record has")
NOT_SEEN = marked("Nobody has told of looking at this machine.")
MOST_PLACES = 4  # named of those that a teardown tells of

MEANS = {
    Means.AS_RECORDED: marked("as recorded"),
    Means.REPLACEMENT: marked("a replacement sold later, as recorded"),
    Means.CONVERSION: marked("a conversion, as recorded"),
    Means.CONTRADICTION: marked("otherwise than recorded"),
    Means.NOT_RECORDED: marked("not recorded"),
}


def badge_words(place: ThisPosition) -> tuple[str, str]:
    """How well it is known what a position left the works with, in a word, and what that word means."""
    known = place.known
    if isinstance(known, State):
        return state_word(known), state_meaning(known)
    return standing_word(known), standing_meaning(known)


def this_position_words(register: Register, place: ThisPosition) -> str:
    """A position and how well it is known what it left the works with: `Oil filter (disputed)`."""
    return f"{register.positions[place.position].title} ({badge_words(place)[0]})"


def short_words(register: Register, place: ThisPosition) -> str:
    """What a position has, in the fewest words: what was seen there, else what it left the works with."""
    here = [seen for seen in place.seen if seen.exact]
    if here:
        return _short_seen(register, place, here)
    standards = {left.fit.assembly for left in place.left}
    for odds in place.odds:
        likelier = odds.at.earlier if odds.before >= Fraction(1, 2) else odds.at.later
        if len(place.odds) == 1 and standards == {odds.at.earlier, odds.at.later}:
            return f"{likelier.title}, {percent(max(odds.before, 1 - odds.before))}"
    return segment_words(place.segment)


def _short_seen(register: Register, place: ThisPosition, here: Sequence[SeenHere]) -> str:
    found = seen_short_words(register, here)
    if all(seen.meaning.means is Means.AS_RECORDED for seen in here):
        return f"{found}, {_(MEANS[Means.AS_RECORDED])}"
    return _(SEEN_AND_RECORDED).format(found, segment_words(place.segment))


def seen_short_words(register: Register, here: Iterable[SeenHere]) -> str:
    """What was surely seen at a position, in the fewest words; empty where nothing was."""
    titles = dict.fromkeys(_found_title(register, seen.find) for seen in here if seen.exact)
    return _("seen: {}").format(listed(list(titles))) if titles else ""


def looks(register: Register, machine: ThisMachine) -> Iterator[Pieces]:
    """Who looked at a machine, a sentence for each time; or that nobody did."""
    if not machine.teardowns and not machine.perhaps:
        yield (_(NOT_SEEN),)
    for exact, teardowns in ((True, machine.teardowns), (False, machine.perhaps)):
        yield from (teardown_words(register, teardown, exact=exact) for teardown in teardowns)


def teardown_words(register: Register, teardown: Teardown, *, exact: bool) -> Pieces:
    """That somebody looked at this machine, or at one that may be it, when, and at what."""
    places = [small(register.positions[find.position].title) for find in teardown.found]
    named = list(dict.fromkeys(places))
    more = len(named) - MOST_PLACES
    told = listed([*named[:MOST_PLACES], plural(more, "{} more", "{} more")] if more > 0 else named)
    message = (
        _("{seen} by {who}, {condition}: {places}.")
        if exact
        else _("{seen} by {who} as {serial}, which may be this machine, {condition}: {places}.")
    )
    return filled(
        message,
        seen=Ref(_("Seen {}").format(date_words(teardown.date)), teardown),
        who=teardown.seen_by,
        serial=teardown.serial,
        condition=_condition(teardown.condition),
        places=told,
    )


def seen_words(register: Register, seen: SeenHere) -> Pieces:
    """What a teardown found at a position, and what that means."""
    find, teardown = seen.find, seen.teardown
    message = (
        _("{found}, seen {date} by {who}, {condition}")
        if seen.exact
        else _("{found}, seen {date} by {who} on {serial}, {condition}")
    )
    said = filled(
        message,
        found=found_refs(register, find) or (capital(_(NO_RECORD)),),
        date=date_words(teardown.date),
        who=teardown.seen_by,
        serial=teardown.serial,
        condition=_condition(find.condition),
    )
    means = (_(": "), *meaning_words(seen.meaning, find)) if find.named else ()
    said = *said, *means
    if read := read_words(register, seen):
        said = filled(_("{said}, and {numbers} was read on it"), said=said, numbers=read)
    return *said, (". " + _("Noted: {}").format(find.note)) if find.note else "."


def found_refs(register: Register, find: Find) -> Pieces:
    """The assemblies that a find may have been, each a reference: `Strainer or Duplex strainer`."""
    named = (register.assemblies[id_] for id_ in find.named)
    return joined([Ref(one.title, one) for one in named], "or")


def meaning_words(found: Meaning, find: Find) -> Pieces:
    """What a find means: `a conversion, as recorded: Cartridge filter in place of the strainer`."""
    said = _(MEANS[found.means])
    if find.one_of:
        against = found.means is Means.CONTRADICTION
        said = (_("whichever it was, {}") if against else _("it may be {}")).format(said)
    if found.means is Means.CONTRADICTION and find.condition not in GOOD:
        return (_("{}, which in that condition proves nothing of the works").format(said),)
    if not found.through:
        return (said,)
    return f"{said}{_(': ')}", *in_turn([Ref(one.title, one) for one in found.through])


def left_words(register: Register, place: ThisPosition, left: Left) -> Pieces:
    """An assembly that it left the works with: how sure, how far to be trusted, which numbers, whose word."""
    fit = left.fit
    beside = any(other.fit.span.option for other in place.left)
    sure = _sure(fit, left.judgement, _("the standard one") if beside else _("surely"))
    span = f"{_('; ')}{span_words(fit.span, fit.fitting.series)}{_('; ')}"
    statement = register.said[fit.fitting]
    return Ref(fit.assembly.title, statement), _(": "), *sure, span, *whose_word(register, fit)


def _sure(fit: Fit, judged: Judgement, surely: str) -> Pieces:
    """How sure, and the standing: nothing is called sure that somebody saw, or printed, otherwise."""
    order = [_("to order only")] if fit.span.option else []
    if fit.covers is Covers.MAYBE:
        # What a claim surely has and another on the same run has not is a claim and no more.
        words = [_("claimed") if fit.says is Covers.YES else _("possibly"), *order]
    else:
        words = order or ([] if judged.standing is Standing.DISPUTED else [surely])
    return *(f"{word}, " for word in words), *judged_words(judged)


def whose_word(register: Register, fit: Fit) -> Pieces:
    """The evidence that a span names for it; what it names against is said where it is disputed."""
    named = [_evidence(register, one) for one in fit.span.evidence if not one.against]
    if not named:
        return (_("no evidence is named"),)
    return filled(_("on the word of {sources}"), sources=joined(named))


def _evidence(register: Register, one: Evidence) -> Ref:
    by = register.sources[one.source] if one.source else register.teardowns[one.teardown or ""]
    return Ref(evidence_title(register, one), by)


def changed_words(register: Register, changed: ChangedTo) -> Pieces:
    """An assembly that it may have been given later, and what says so."""
    spans = [_later(register, fit, judged) for fit, judged in changed.fits]
    steps = [_step(register, step, judged) for step, judged in changed.steps]
    said = [piece for pieces in (*spans, *steps) for piece in (_("; "), *pieces)]
    return Ref(changed.assembly.title, changed.assembly), _(": "), *said[1:]


def _later(register: Register, fit: Fit, judged: Judgement) -> Pieces:
    how = _(FITTED[fit.span.fitted])
    how = _("possibly {}").format(how) if fit.covers is Covers.MAYBE else how
    span = f"{_('; ')}{span_words(fit.span, fit.fitting.series)}{_('; ')}"
    return f"{how}, ", *judged_words(judged), span, *whose_word(register, fit)


def _step(register: Register, step: Step, judged: Judgement) -> Pieces:
    conversion = step.conversion
    return filled(
        _("possibly by {conversion} from {start}, {standing}")
        if step.maybe
        else _("by {conversion} from {start}, {standing}"),
        conversion=Ref(conversion.title, conversion),
        start=start_words(register, conversion),
        standing=judged_words(judged),
    )


Section = tuple[str, tuple[Pieces, ...]]


def sections(register: Register, place: ThisPosition) -> Iterator[Section]:
    """All that is said of a position, under its headings; what has nothing to say is left out."""
    yield from seen_sections(register, place.seen)
    yield from recorded_sections(register, place)


def seen_sections(register: Register, seen: Sequence[SeenHere]) -> Iterator[Section]:
    """What was seen on the machine, then what was seen on one that only may be it."""
    for heading, exact in ((SEEN, True), (PERHAPS_SEEN, False)):
        if lines := tuple(seen_words(register, here) for here in seen if here.exact is exact):
            yield _(heading), lines


def recorded_sections(register: Register, place: ThisPosition) -> Iterator[Section]:
    """What the records have, whoever looked: the odds, what it left the works with, what came later."""
    if place.odds:
        yield _(ODDS), tuple(odds_words(odds) for odds in place.odds)
    left = tuple(left_words(register, place, left) for left in place.left)
    there = tuple(there_words(register, place.position, place.segment.there))
    heading = _(LEFT_BY).format(place.reading.own.shown) if place.reading.numbers else _(LEFT)
    ask = ((f"{capital(ask_by_words(place.segment.ask_by))}.",),) if place.segment.ask_by else ()
    yield heading, ask or (*there, *left) or ((_(NOBODY_KNOWS),),)
    if place.others:
        yield _(OTHERS), tuple((labelled(one.shown, segment_words(held)),) for one, held in place.others)
    if place.changed:
        yield _(CHANGED), tuple(changed_words(register, changed) for changed in place.changed)
    if told := tuple(told_by_eye(place)):
        yield _(TELL), told
    if place.parts:
        yield _(PARTS), tuple(parts_words(register, parts) for parts in place.parts)


def _found_title(register: Register, find: Find) -> str:
    return (
        listed([register.assemblies[id_].title for id_ in find.named], "or") if find.named else _(NO_RECORD)
    )


def _condition(condition: str) -> str:
    return _("condition {condition}").format(condition=_(CONDITIONS[condition]))
