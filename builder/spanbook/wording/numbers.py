"""What records say of part numbers: other numbers of one thing, misprints, meanings, hands and sets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.pairs import hand_of, mirrors_of
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.matching import squeezed
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import AlsoNumber, Misprint, PartRecord, Reuse, SetPart
from spanbook.register.led import Led, LedNumber
from spanbook.register.model import Part, Register
from spanbook.register.numbering import Sense
from spanbook.register.statements import OfNumber
from spanbook.wording.grammar import capital, chained, counted, listed, plural, times
from spanbook.wording.pages import PageWords
from spanbook.wording.spans import span_words

SORTS = {
    "maker": marked("maker's number"),
    "supplier": marked("supplier's number"),
    "army": marked("army number"),
    "trade": marked("trade number"),
}
UNCLEAR = marked("which of the things that it has meant is not known")
_HAND = {"left": marked("the left-hand one"), "right": marked("the right-hand one")}
_HANDS = {
    "left": marked("the left-hand one; the right-hand one is {numbers}"),
    "right": marked("the right-hand one; the left-hand one is {numbers}"),
}
_LED = {
    Led.ALSO: marked("{number} is another number of {part}."),
    Led.MISPRINT: marked("{number} is a misprint for {part}."),
    Led.SPELT: marked("{number} is another spelling of {part}."),
}


def of_number_words(subject: OfNumber) -> str:
    """What a part's record says of a number, in a phrase."""
    match said := subject.said:
        case AlsoNumber():
            return _("also goes by {number}").format(number=said.number)
        case Misprint():
            return _("{number} is a misprint for it").format(number=said.number)
        case Reuse():
            return _("when the number means this")
        case SetPart():
            return _("the set holds {part}").format(part=times(said.quantity, said.number))
    if said in subject.part.mirrors:
        return _("{number} is its mirror image").format(number=said.number)
    if said in subject.part.only_in:
        return _("sold only in the set {number}").format(number=said.number)
    return _("not to be confused with {number}").format(number=said.number)


def also_words(register: Register, part: PartRecord, one: AlsoNumber) -> str:
    """Whose number another one is, what sort, and since when: `army number, of army-stores, since 1940`."""
    by = one.by or register.owner(part) or ""
    told = [_(SORTS[one.sort])] if one.sort else []
    told += [_("of {maker}").format(maker=register.makers.get(by, by))] if by else []
    told += [_("since {year}").format(year=one.since)] if one.since else []
    return ", ".join(told)


def reuse_words(register: Register, reuse: Reuse) -> str:
    """When a number means one of the things that it has meant: `on HK 1 to HK 612, until 1936`."""
    return ", ".join(_limits(register, reuse)) or _("nobody has said when")


def _limits(register: Register, reuse: Reuse) -> Iterator[str]:
    if machines := [register.machines[id_].title for id_ in reuse.machines if id_ in register.machines]:
        yield _("on the {machines}").format(machines=listed(machines))
    spans = (span for span in reuse.serials if span.series in register.series)
    if told := [span_words(span, register.series[span.series]) for span in spans]:
        yield chained(told, "and")
    if reuse.since and reuse.until:
        yield _("from {first} to {last}").format(first=reuse.since, last=reuse.until)
    elif reuse.since:
        yield _("since {year}").format(year=reuse.since)
    elif reuse.until:
        yield _("until {year}").format(year=reuse.until)


def sense_words(register: Register, part: PartRecord) -> str:
    """One of the things that a number has meant: `Settling pot, until 1936`."""
    when = chained([reuse_words(register, one) for one in part.reused], "or")
    return f"{part.title}, {when}" if when else part.title


def asked_words(register: Register, number: str, key: PartKey) -> str:
    """What a number that was asked for is, where it is not the one that the records write; else empty."""
    asked, part = squeezed(number), register.parts[key]
    if asked == squeezed(part.number):
        return ""
    record = part.record
    misprint = record and any(squeezed(one.number) == asked for one in record.misprints)
    how = Led.MISPRINT if misprint else Led.ALSO
    return _(_LED[how]).format(number=number, part=f"{part.number} {part.name}".rstrip())


def unclear_words(register: Register, number: str, senses: Sequence[Sense], *, chosen: bool) -> str:
    """That nothing tells which of the things is meant that a number has meant, and how to say it."""
    told = chained([f"{sense_words(register, one.part)} (--means {one.part.id})" for one in senses], "or")
    message = (
        _("{number} has meant several things: {things}; say which, or for which machine")
        if chosen
        else _("{number} has meant several things: {things}; none of them is for that machine: say which")
    )
    return message.format(number=number, things=told)


def senses_page(number: str, count: int) -> PageWords:
    """The page of a number that has meant several things."""
    return PageWords(
        _("{number}: which one?").format(number=number),
        plural(
            count,
            "The number {number} has meant {} thing.",
            "The number {number} has meant {} things.",
            number=number,
        ),
    )


def led_page(led: LedNumber) -> PageWords:
    """The page of a number that leads to the part it is of."""
    title = f"{led.part.number} {led.part.name}".strip()
    return PageWords(labelled(led.number, title), _(_LED[led.how]).format(number=led.number, part=title))


def part_title(part: Part) -> str:
    """A part by its number, with its name where the number has meant several things."""
    return f"{part.number} ({part.name})" if part.key.sense else part.number


def held_words(quantity: int, part: Part) -> str:
    """So many of a part: `2 × Felt end ring`."""
    return counted(quantity, part.name or part.number)


def held_in_words(quantity: int, of: Part) -> str:
    """A set, and how many of a part it holds: `Joint set, which holds 2 of it`."""
    return ", ".join(filter(None, (of.name, _("which holds {quantity} of it").format(quantity=quantity))))


def match_remarks(register: Register, part: Part) -> Iterator[str]:
    """What whoever asks for a number has to know of it at once, a sentence each."""
    if record := part.record:
        if record.reused:
            when = chained([reuse_words(register, one) for one in record.reused], "or")
            yield _("The number means this {when}.").format(when=when)
        if record.only_in:
            sets = [register.parts[register.key_of(record, one)] for one in record.only_in]
            yield _("Sold only in the set {number}.").format(
                number=listed([one.number for one in sets], "or")
            )
    elif part.key in register.numbering.senses:
        yield f"{capital(_(UNCLEAR))}."
    if pair := pair_words(register, part):
        yield f"{capital(pair)}."


def pair_words(register: Register, part: Part) -> str:
    """Which hand a part is, and the other: `the left-hand one; the right-hand one is WH-1702`."""
    hand, others = hand_of(register, part), mirrors_of(register, part)
    numbers = listed([part_title(one) for one in others], "or")
    if hand is None:
        return _("its mirror image is {numbers}").format(numbers=numbers) if others else ""
    return _(_HANDS[hand]).format(numbers=numbers) if others else _(_HAND[hand])
