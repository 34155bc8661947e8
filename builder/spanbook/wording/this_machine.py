"""One very machine: what it left the works with, what was seen on it, what it may have been changed to.

The card, the command and whoever else tells of a machine say these sentences, in this order.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from spanbook.answers.applicability import Fit, State
from spanbook.answers.meaning import Meaning, Means
from spanbook.answers.named import GOOD
from spanbook.answers.readings import Reading
from spanbook.answers.standing import Judgement, Standing
from spanbook.answers.steps import Step
from spanbook.answers.this_machine import ChangedTo, Left, SeenHere, ThisMachine, ThisPosition
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.years import Part, Years
from spanbook.reading.records import Conversion, Evidence, Find, Machine, Plant, Series, Teardown
from spanbook.register.model import Register
from spanbook.wording.conversions import start_words
from spanbook.wording.disputed import against_words
from spanbook.wording.fits import ask_by_words, segment_words, state_meaning, state_word
from spanbook.wording.grammar import capital, listed
from spanbook.wording.odds import ODDS, odds_words, percent
from spanbook.wording.parts_here import parts_words, read_words
from spanbook.wording.pieces import Pieces, Ref, joined
from spanbook.wording.places import there_words
from spanbook.wording.records import CONDITIONS, date_words, evidence_title
from spanbook.wording.spans import FITTED, span_words
from spanbook.wording.standings import standing_meaning, standing_word
from spanbook.wording.told_by_eye import TELL, told_by_eye
from spanbook.wording.years import years_words

SEEN = "Seen on this machine"
PERHAPS_SEEN = "Seen on what may be this machine"
LEFT = "Left the works with"
LEFT_BY = f"{LEFT}, going by {{}}"
OTHERS = "Recorded of its other numbers"
CHANGED = "May have been changed to"
PARTS = "Parts that go by the number"
QUESTIONS = "What this machine could settle"
NOBODY_KNOWS = "Nobody knows yet."
SEEN_AND_RECORDED = "{}; recorded: {}"
NO_RECORD = "something that no record has"
NOT_SEEN = "Nobody has told of looking at this machine."
MOST_PLACES = 4  # named of those that a teardown tells of

MEANS = {
    Means.AS_RECORDED: "as recorded",
    Means.REPLACEMENT: "a replacement sold later, as recorded",
    Means.CONVERSION: "a conversion, as recorded",
    Means.CONTRADICTION: "otherwise than recorded",
    Means.NOT_RECORDED: "not recorded",
}


def machine_words(
    machine: Machine, years: Years | None, part: Part | None = None, plants: Sequence[Plant] = ()
) -> str:
    """Which machine it is, when and where it was built; `{}` stands for its number."""
    where = f" at {listed(_names(plants), 'or')}" if plants else ""
    told = f"{years_words(years, part)}{',' if part and where else ''}" if years else ""
    built = f"Built{' ' if told else ''}{told}{where}." if told or where else ""
    unknown = "" if years else "The year is not known."
    return f"{{}}, {machine.title}. {' '.join(filter(None, (built, unknown)))}"


def _names(plants: Sequence[Plant]) -> list[str]:
    """What plants are called; of several each with its letter, which may stand on the plate."""
    if len(plants) == 1:
        return [plants[0].name]
    return [f"{plant.name} ({plant.letter})" if plant.letter else plant.name for plant in plants]


def head_words(register: Register, series: Series, number: int) -> str:
    """The same for a number of a series."""
    years = series.years
    part, plants = years.part_of(number), series.order.plants_at(number)
    return machine_words(register.machines[series.machine], years.year_of(number), part, plants)


def this_machine_words(register: Register, reading: Reading) -> str:
    """Which machine a number is, and when it was built."""
    machine, part = register.machines[reading.series.machine], reading.part_of_year
    words = machine_words(machine, reading.years, part, reading.plants)
    return words.replace("{}", reading.shown, 1)


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
        return f"{found}, {MEANS[Means.AS_RECORDED]}"
    return SEEN_AND_RECORDED.format(found, segment_words(place.segment))


def seen_short_words(register: Register, here: Iterable[SeenHere]) -> str:
    """What was surely seen at a position, in the fewest words; empty where nothing was."""
    titles = dict.fromkeys(_found_title(register, seen.find) for seen in here if seen.exact)
    return f"seen: {listed(list(titles))}" if titles else ""


def looks(register: Register, machine: ThisMachine) -> Iterator[Pieces]:
    """Who looked at a machine, a sentence for each time; or that nobody did."""
    if not machine.teardowns and not machine.perhaps:
        yield (NOT_SEEN,)
    for exact, teardowns in ((True, machine.teardowns), (False, machine.perhaps)):
        yield from (teardown_words(register, teardown, exact=exact) for teardown in teardowns)


def teardown_words(register: Register, teardown: Teardown, *, exact: bool) -> Pieces:
    """That somebody looked at this machine, or at one that may be it, when, and at what."""
    places = [register.positions[find.position].title.lower() for find in teardown.found]
    named = list(dict.fromkeys(places))
    more = len(named) - MOST_PLACES
    told = listed([*named[:MOST_PLACES], f"{more} more"] if more > 0 else named)
    whose = "" if exact else f" as {teardown.serial}, which may be this machine"
    seen = Ref(f"Seen {date_words(teardown.date)}", teardown)
    return seen, f" by {teardown.seen_by}{whose}, {_condition(teardown.condition)}: {told}."


def seen_words(register: Register, seen: SeenHere) -> Pieces:
    """What a teardown found at a position, and what that means."""
    find, teardown = seen.find, seen.teardown
    found = tuple(found_refs(register, find)) or (capital(NO_RECORD),)
    whose = "" if seen.exact else f" on {teardown.serial}"
    by = f", seen {date_words(teardown.date)} by {teardown.seen_by}{whose}, {_condition(find.condition)}"
    means = (": ", *meaning_words(seen.meaning, find)) if find.named else ()
    read = read_words(register, seen)
    return *found, by, *means, read, f". Noted: {find.note}" if find.note else "."


def found_refs(register: Register, find: Find) -> Iterator[str | Ref]:
    """The assemblies that a find may have been, each a reference: `Strainer or Duplex strainer`."""
    for i, id_ in enumerate(find.named):
        if i:
            yield " or " if i == len(find.named) - 1 else ", "
        yield Ref(register.assemblies[id_].title, register.assemblies[id_])


def meaning_words(found: Meaning, find: Find) -> Pieces:
    """What a find means: `a conversion, as recorded: Cartridge filter in place of the strainer`."""
    said = MEANS[found.means]
    if find.one_of:
        said = f"whichever it was, {said}" if found.means is Means.CONTRADICTION else f"it may be {said}"
    if found.means is Means.CONTRADICTION and find.condition not in GOOD:
        return (f"{said}, which in that condition proves nothing of the works",)
    if not found.through:
        return (said,)
    return f"{said}: ", *_listed_refs(found.through, ", then ")


def left_words(register: Register, place: ThisPosition, left: Left) -> Pieces:
    """An assembly that it left the works with: how sure, how far to be trusted, which numbers, whose word."""
    fit = left.fit
    beside = any(other.fit.span.option for other in place.left)
    sure = _sure(fit, left.judgement, "the standard one" if beside else "surely")
    span = f"; {span_words(fit.span, fit.fitting.series)}; "
    statement = register.said[fit.fitting]
    whose = whose_word(register, fit)
    return Ref(fit.assembly.title, statement), f": {sure}", *against_words(left.judgement), span, *whose


def _sure(fit: Fit, judged: Judgement, surely: str) -> str:
    """How sure, and the standing: nothing is called sure that somebody saw, or printed, otherwise."""
    order = ["to order only"] if fit.span.option else []
    if fit.covers is Covers.MAYBE:
        # What a claim surely has and another on the same run has not is a claim and no more.
        words = ["claimed" if fit.says is Covers.YES else "possibly", *order]
    else:
        words = order or ([] if judged.standing is Standing.DISPUTED else [surely])
    return ", ".join([*words, standing_word(judged.standing)])


def whose_word(register: Register, fit: Fit) -> Pieces:
    """The evidence that a span names for it; what it names against is said where it is disputed."""
    named = [_evidence(register, one) for one in fit.span.evidence if not one.against]
    return ("on the word of ", *joined(named)) if named else ("no evidence is named",)


def _evidence(register: Register, one: Evidence) -> Ref:
    by = register.sources[one.source] if one.source else register.teardowns[one.teardown or ""]
    return Ref(evidence_title(register, one), by)


def changed_words(register: Register, changed: ChangedTo) -> Pieces:
    """An assembly that it may have been given later, and what says so."""
    spans = [_later(register, fit, judged) for fit, judged in changed.fits]
    steps = [_step(register, step, judged) for step, judged in changed.steps]
    said = [piece for pieces in (*spans, *steps) for piece in ("; ", *pieces)]
    return Ref(changed.assembly.title, changed.assembly), ": ", *said[1:]


def _later(register: Register, fit: Fit, judged: Judgement) -> Pieces:
    possibly = "possibly " if fit.covers is Covers.MAYBE else ""
    how = f"{possibly}{_(FITTED[fit.span.fitted])}, {standing_word(judged.standing)}"
    span = f"; {span_words(fit.span, fit.fitting.series)}; "
    return how, *against_words(judged), span, *whose_word(register, fit)


def _step(register: Register, step: Step, judged: Judgement) -> Pieces:
    possibly = "possibly by " if step.maybe else "by "
    start = f" from {start_words(register, step.conversion)}, {standing_word(judged.standing)}"
    return possibly, Ref(step.conversion.title, step.conversion), start, *against_words(judged)


Section = tuple[str, tuple[Pieces, ...]]


def sections(register: Register, place: ThisPosition) -> Iterator[Section]:
    """All that is said of a position, under its headings; what has nothing to say is left out."""
    yield from seen_sections(register, place.seen)
    yield from recorded_sections(register, place)


def seen_sections(register: Register, seen: Sequence[SeenHere]) -> Iterator[Section]:
    """What was seen on the machine, then what was seen on one that only may be it."""
    for heading, exact in ((SEEN, True), (PERHAPS_SEEN, False)):
        if lines := tuple(seen_words(register, here) for here in seen if here.exact is exact):
            yield heading, lines


def recorded_sections(register: Register, place: ThisPosition) -> Iterator[Section]:
    """What the records have, whoever looked: the odds, what it left the works with, what came later."""
    if place.odds:
        yield ODDS, tuple(odds_words(odds) for odds in place.odds)
    left = tuple(left_words(register, place, left) for left in place.left)
    there = tuple(there_words(register, place.position, place.segment.there))
    heading = LEFT_BY.replace("{}", place.reading.own.shown) if place.reading.numbers else LEFT
    ask = ((f"{capital(ask_by_words(place.segment.ask_by))}.",),) if place.segment.ask_by else ()
    yield heading, ask or (*there, *left) or ((NOBODY_KNOWS,),)
    if place.others:
        yield OTHERS, tuple((f"{one.shown}: {segment_words(held)}",) for one, held in place.others)
    if place.changed:
        yield CHANGED, tuple(changed_words(register, changed) for changed in place.changed)
    if told := tuple(told_by_eye(place)):
        yield TELL, told
    if place.parts:
        yield PARTS, tuple(parts_words(register, parts) for parts in place.parts)


def _found_title(register: Register, find: Find) -> str:
    return listed([register.assemblies[id_].title for id_ in find.named], "or") if find.named else NO_RECORD


def _condition(condition: str) -> str:
    return _("condition {condition}").format(condition=_(CONDITIONS[condition]))


def _listed_refs(conversions: Iterable[Conversion], joint: str) -> Iterator[str | Ref]:
    for i, conversion in enumerate(conversions):
        if i:
            yield joint
        yield Ref(conversion.title, conversion)
