"""How an assembly comes apart: each step of the sheet, what must be, who says so, and what goes back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from spanbook.answers.accounts import Must, Said, SheetStep
from spanbook.answers.freed import Freed
from spanbook.answers.orders import Orders
from spanbook.answers.strip_down import Sheet
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.measures import MM_OF, both_ways, read
from spanbook.ground.punctuation import labelled, parted
from spanbook.ground.standards import Dimension, Sort, standards
from spanbook.reading.records import Assembly, Catch, StripDown, ToolUsed
from spanbook.register.model import Register
from spanbook.wording.grammar import capital, decimals, inside, listed, plural, times
from spanbook.wording.leaves import number_words
from spanbook.wording.lines import freed_words, line_words, not_there_words
from spanbook.wording.orders import ways_words
from spanbook.wording.records import date_words, size_title, size_words

LOCAL_RULES = marked(
    "Read the cautions first. Local rules and the practice of licensed trades come before anything told here."
)
UNTICK = marked("Untick all steps")
STACK = marked(
    "Drawn from the order of its parts; dashed where nobody has measured, a ring where it is renewed."
)
TAKEN_APART = marked("Strip-down: how it comes apart, what to catch, what to renew")
NO_TORQUE = marked("No tightness is given that nobody has recorded.")
TRAY = marked("Lay the parts out in this order:")
PUTTING_BACK = marked("Putting back, in reverse:")
RENEW = marked("Renew:")
_HOW = {
    "loose": marked("it is loose"),
    "spring": marked("it is under spring"),
    "pressure": marked("it is under pressure"),
    "hidden": marked("it stays hidden"),
    "fluid": marked("it runs out"),
}


STRIP_DOWN = marked("Strip-down")


def sheet_title(assembly: Assembly) -> str:
    """`Full-flow cartridge filter: strip-down`."""
    return _("{assembly}: strip-down").format(assembly=assembly.title)


def stack_title(assembly: Assembly) -> str:
    """What the picture of a stack shows, for whoever cannot see it."""
    message = _("{assembly}: its parts along the axis, the first to come off on top")
    return message.format(assembly=assembly.title)


def account_title(register: Register, account: StripDown) -> str:
    """One account, by what was taken apart and who told it."""
    title = register.assemblies[account.assembly].title
    return _("{assembly}, taken apart by {who}").format(assembly=title, who=account.seen_by)


def accounts_words(sheet: Sheet) -> str:
    """Whose word the sheet is: `From 2 accounts: merrin, 2024-05, on HK 640; osk, 2019-11.`"""
    told = parted(*(account_words(one) for one in sheet.accounts))
    return labelled(plural(len(sheet.accounts), "From one account", "From {} accounts"), f"{told}.")


def account_words(account: StripDown) -> str:
    """Who took it apart, when, and on which machine."""
    who = f"{account.seen_by}, {date_words(account.date)}"
    return _("{who}, on {serial}").format(who=who, serial=account.serial) if account.serial else who


@dataclass(frozen=True, slots=True)
class StepWords:
    """A step as a reader goes through it: what to do, then lines below it."""

    do: str
    lines: tuple[str, ...]


def step_words(register: Register, sheet: Sheet, at: int) -> StepWords:
    """One step; `at` is its place on the sheet."""
    step = sheet.steps[at]
    fullest = max(step.said, key=lambda one: len(one.step.do))
    return StepWords(fullest.step.do, tuple(_lines(register, sheet, at, fullest)))


def _lines(register: Register, sheet: Sheet, at: int, fullest: Said) -> Iterator[str]:
    step = sheet.steps[at]
    if there := [freed for freed in step.frees if freed.choices]:
        freed = listed([freed_words(register, freed) for freed in there])
        yield _("Comes off: {parts}.").format(parts=freed.rstrip("."))
    yield from (not_there_words(register, freed) for freed in step.frees if not freed.choices)
    yield from (f"{capital(words)}." for words in _each(tool_words(tool) for tool in _tools(step)))
    if left := [one for one in step.said if one.step.hand == "left"]:
        yield _told_by(_("Left-hand thread: it undoes clockwise"), _who(sheet, left))
    caught = [catch_words(catch) for one in step.said for catch in one.step.catch]
    yield from _each(_("Catch: {what}.").format(what=what) for what in caught)
    yield from (_must(sheet, must) for must in sheet.musts if must.then == at)
    yield from (_dropped(sheet, must) for must in sheet.dropped if must.then == at)
    if step.renew:
        yield _told_by(_("Renew it"), _who(sheet, [one for one in step.said if one.step.renew]))
    for one in step.said:
        if one is not fullest and one.step.do != fullest.step.do:
            yield _("In the words of {who}: {words}.").format(who=one.account.seen_by, words=one.step.do)
    if len(sheet.accounts) > 1 and len(step.said) == 1:
        yield _("Told by {who} alone.").format(who=fullest.account.seen_by)


def _who(sheet: Sheet, said: Sequence[Said]) -> str:
    """`by 1 of 2 accounts`, where not all say it."""
    every = len(sheet.accounts)
    if len(said) == every:
        return ""
    return _("by {some} of {every} accounts").format(some=len(said), every=every)


def _told_by(words: str, who: str) -> str:
    return f"{words}, {who}." if who else f"{words}."


def _each(words: Iterator[str]) -> Iterator[str]:
    yield from dict.fromkeys(words)


def _tools(step: SheetStep) -> Iterator[ToolUsed]:
    return (tool for one in step.said for tool in one.step.tools)


def tool_words(tool: ToolUsed) -> str:
    """A tool with its size, and the standard jaw of that size: `spanner, 0.820 in (20.8 mm): 7/16 W`."""
    words = inside(tool.what)
    if tool.value and tool.unit:
        words += f", {decimals(both_ways(tool.value, tool.unit))}"
        if jaw := _jaw(tool.value, tool.unit):
            words += f"{_(': ')}{jaw}"
    return parted(words, _("made for it: {tool}").format(tool=tool.made)) if tool.made else words


def _jaw(value: str, unit: str) -> str | None:
    """The standard jaw of a spanner's size, if there is one within a wear of 0.06 mm."""
    size = float(read(value) * MM_OF[unit])
    jaws = (
        (abs(zone.high - size), one.name)
        for one in standards()
        if one.sort is Sort.JAW and (zone := one.zone(Dimension.ACROSS))
    )
    off, name = min(jaws)
    return name if off <= 0.06 else None


def catch_words(catch: Catch) -> str:
    """What falls, springs or runs out."""
    how = f", {_(_HOW[catch.how])}" if catch.how else ""
    return inside(catch.what) + how


def caution_words(register: Register, sheet: Sheet) -> Iterator[str]:
    """Every caution that the assembly or a step calls for, with its text on one line."""
    for caution in (register.cautions[id_] for id_ in sheet.cautions if id_ in register.cautions):
        yield labelled(caution.title, " ".join(caution.text.split()))


def renew_words(register: Register, sheet: Sheet, freed: Freed, today: Sequence[Orders]) -> str:
    """What is renewed, who says so where not all do, and what is ordered for it today where that is not the
    number itself.

    `today` is what is ordered for each of the numbers that it may be.
    """
    alone = len(freed.choices) == 1
    ordered = []
    for choice, orders in zip(freed.choices, today, strict=True):
        number, ways = register.parts[choice.key].number, ways_words(register, orders.alternatives)
        if ways != times(choice.quantity, number_words(register, choice.key)):
            message = _("today {ways}") if alone else _("today for {number} {ways}")
            ordered.append(message.format(number=number, ways=ways))
    own = parted(freed_words(register, freed), *_limits(register, freed))
    if who := _who(sheet, sheet.renewed_by(freed)):
        own += f" ({who})"
    return labelled(own, parted(*ordered)) if ordered else own


def _limits(register: Register, freed: Freed) -> Iterator[str]:
    """Which machines have which of several lines."""
    if len(freed.lines) > 1:
        yield from (line_words(register, line) for line in freed.lines)


def _must(sheet: Sheet, must: Must) -> str:
    told = _("Only after step {step}: {reasons}.").format(step=must.first + 1, reasons=_reasons(must))
    if reverse := _reverse(sheet, must):
        others = listed([account.seen_by for account, why in reverse.said])
        message = _("Disputed: {others} says the reverse; more accounts count first, then the older one.")
        return f"{told} {message.format(others=others)}"
    if must.disputed:
        against = listed([one.seen_by for one in must.against])
        message = _("Disputed: {others} did it the other way round; the stricter is kept.")
        return f"{told} {message.format(others=against)}"
    return told


def _reverse(sheet: Sheet, must: Must) -> Must | None:
    """What somebody else says must be, the other way round."""
    return next((one for one in sheet.dropped if (one.first, one.then) == (must.then, must.first)), None)


def _dropped(sheet: Sheet, must: Must) -> str:
    message = _("Disputed: to come only after step {step} by {reasons}; others say the reverse.")
    return message.format(step=must.first + 1, reasons=_reasons(must))


def _reasons(must: Must) -> str:
    """Why, and by whom: `it hangs on the bolt (merrin and osk)`."""
    by: dict[str, list[str]] = {}
    for account, why in must.said:
        by.setdefault(inside(why), []).append(account.seen_by)
    return parted(*(f"{why} ({listed(who)})" for why, who in by.items()))


def either_words(sheet: Sheet) -> Iterator[str]:
    """Which steps were done both ways round: `Step 5, and steps 6, 7 and 8: either may come first.`"""
    with_first: dict[int, list[str]] = {}
    for first, then in sheet.either:
        with_first.setdefault(first, []).append(str(then + 1))
    for first, others in with_first.items():
        yield plural(
            len(others),
            "Step {first}, and step {others}: either may come first; both ways were done.",
            "Step {first}, and steps {others}: either may come first; both ways were done.",
            first=first + 1,
            others=listed(others),
        )


def back_words(sheet: Sheet) -> Iterator[str]:
    """What to see to when it goes back, the last step first: `5: the groove dry and clean (merrin)`."""
    for at in reversed(range(len(sheet.steps))):
        for one in sheet.steps[at].said:
            if one.step.back:
                yield labelled(str(at + 1), f"{one.step.back} ({one.account.seen_by})")
            for size in one.step.sizes:
                yield labelled(str(at + 1), f"{size_title(size)} {size_words(size)} ({one.account.seen_by})")


def rest_words(register: Register, sheet: Sheet) -> Iterator[str]:
    """What stays on, and what nobody tells of."""
    stays, untold = _("Stays on: {parts}."), _("Nobody tells of: {parts}.")
    for message, places in ((stays, sheet.stays), (untold, sheet.untold)):
        if there := [freed for freed in places if freed.choices]:
            named = listed([freed_words(register, freed, count=False) for freed in there])
            yield message.format(parts=named.rstrip("."))


def minutes_words(sheet: Sheet) -> str | None:
    """How long it took by the accounts that say so for every step: `about 36 minutes (merrin)`."""
    told = [
        plural(
            sum(step.minutes or 0 for step in one.steps),
            "{} minute ({who})",
            "{} minutes ({who})",
            who=one.seen_by,
        )
        for one in sheet.accounts
        if all(step.minutes for step in one.steps)
    ]
    return _("It took {times}.").format(times=listed(told)) if told else None
