"""How an assembly comes apart: each step of the sheet, what must be, who says so, and what goes back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from spanbook.answers.accounts import Must, Said, SheetStep
from spanbook.answers.freed import Freed
from spanbook.answers.orders import Orders
from spanbook.answers.strip_down import Sheet
from spanbook.ground.measures import MM_OF, both_ways, read
from spanbook.ground.standards import Dimension, Sort, standards
from spanbook.reading.records import Assembly, Catch, StripDown, ToolUsed
from spanbook.register.model import Register
from spanbook.wording.grammar import capital, listed, plural, times
from spanbook.wording.leaves import number_words
from spanbook.wording.lines import freed_words, line_words, not_there_words
from spanbook.wording.orders import ways_words
from spanbook.wording.records import date_words, size_title, size_words

LOCAL_RULES = (
    "Read the cautions first. Local rules and the practice of licensed trades come before anything told here."
)
UNTICK = "Untick all steps"
STACK = "Drawn from the order of its parts; dashed where nobody has measured, a ring where it is renewed."
TAKEN_APART = "Strip-down: how it comes apart, what to catch, what to renew"
NO_TORQUE = "No tightness is given that nobody has recorded."
TRAY = "Lay the parts out in this order:"
PUTTING_BACK = "Putting back, in reverse:"
RENEW = "Renew:"
_HOW = {
    "loose": "it is loose",
    "spring": "it is under spring",
    "pressure": "it is under pressure",
    "hidden": "it stays hidden",
    "fluid": "it runs out",
}


STRIP_DOWN = "Strip-down"


def sheet_title(assembly: Assembly) -> str:
    """`Full-flow cartridge filter: strip-down`."""
    return f"{assembly.title}: strip-down"


def stack_title(assembly: Assembly) -> str:
    """What the picture of a stack shows, for whoever cannot see it."""
    return f"{assembly.title}: its parts along the axis, the first to come off on top"


def account_title(register: Register, account: StripDown) -> str:
    """One account, by what was taken apart and who told it."""
    return f"{register.assemblies[account.assembly].title}, taken apart by {account.seen_by}"


def accounts_words(sheet: Sheet) -> str:
    """Whose word the sheet is: `From 2 accounts: merrin, 2024-05, on HK 640; osk, 2019-11.`"""
    told = "; ".join(account_words(one) for one in sheet.accounts)
    return f"{plural(len(sheet.accounts), 'From one account', 'From {} accounts')}: {told}."


def account_words(account: StripDown) -> str:
    """Who took it apart, when, and on which machine."""
    on = f", on {account.serial}" if account.serial else ""
    return f"{account.seen_by}, {date_words(account.date)}{on}"


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
        yield f"Comes off: {freed.rstrip('.')}."
    yield from (not_there_words(register, freed) for freed in step.frees if not freed.choices)
    yield from (f"{capital(words)}." for words in _each(tool_words(tool) for tool in _tools(step)))
    if left := [one for one in step.said if one.step.hand == "left"]:
        yield f"Left-hand thread: it undoes clockwise{_who(sheet, left)}."
    yield from _each(f"Catch: {catch_words(catch)}." for one in step.said for catch in one.step.catch)
    yield from (_must(sheet, must) for must in sheet.musts if must.then == at)
    yield from (_dropped(sheet, must) for must in sheet.dropped if must.then == at)
    if step.renew:
        yield f"Renew it{_who(sheet, [one for one in step.said if one.step.renew])}."
    for one in step.said:
        if one is not fullest and one.step.do != fullest.step.do:
            yield f"In the words of {one.account.seen_by}: {one.step.do}."
    if len(sheet.accounts) > 1 and len(step.said) == 1:
        yield f"Told by {fullest.account.seen_by} alone."


def _who(sheet: Sheet, said: Sequence[Said]) -> str:
    """`, by one account of 2`, where not all say it."""
    return f", by {len(said)} of {len(sheet.accounts)} accounts" if len(said) < len(sheet.accounts) else ""


def _each(words: Iterator[str]) -> Iterator[str]:
    yield from dict.fromkeys(words)


def _tools(step: SheetStep) -> Iterator[ToolUsed]:
    return (tool for one in step.said for tool in one.step.tools)


def tool_words(tool: ToolUsed) -> str:
    """A tool with its size, and the standard jaw of that size: `spanner, 0.820 in (20.8 mm): 7/16 W`."""
    words = tool.what[:1].lower() + tool.what[1:]
    if tool.value and tool.unit:
        words += f", {both_ways(tool.value, tool.unit)}"
        if jaw := _jaw(tool.value, tool.unit):
            words += f": {jaw}"
    return f"{words}; made for it: {tool.made}" if tool.made else words


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
    how = f", {_HOW[catch.how]}" if catch.how else ""
    return f"{catch.what[:1].lower()}{catch.what[1:]}{how}"


def caution_words(register: Register, sheet: Sheet) -> Iterator[str]:
    """Every caution that the assembly or a step calls for, with its text on one line."""
    for caution in (register.cautions[id_] for id_ in sheet.cautions if id_ in register.cautions):
        yield f"{caution.title}: {' '.join(caution.text.split())}"


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
            ordered.append(f"today {ways}" if alone else f"today for {number} {ways}")
    own = "; ".join([freed_words(register, freed), *_limits(register, freed)])
    if who := _who(sheet, sheet.renewed_by(freed)):
        own += f" ({who.removeprefix(', ')})"
    return f"{own}: {'; '.join(ordered)}" if ordered else own


def _limits(register: Register, freed: Freed) -> Iterator[str]:
    """Which machines have which of several lines."""
    if len(freed.lines) > 1:
        yield from (line_words(register, line) for line in freed.lines)


def _must(sheet: Sheet, must: Must) -> str:
    told = f"Only after step {must.first + 1}: {_reasons(must)}"
    if reverse := _reverse(sheet, must):
        others = listed([account.seen_by for account, _ in reverse.said])
        return f"{told}. Disputed: {others} says the reverse; more accounts count first, then the older one."
    if must.disputed:
        against = listed([one.seen_by for one in must.against])
        return f"{told}. Disputed: {against} did it the other way round; the stricter is kept."
    return f"{told}."


def _reverse(sheet: Sheet, must: Must) -> Must | None:
    """What somebody else says must be, the other way round."""
    return next((one for one in sheet.dropped if (one.first, one.then) == (must.then, must.first)), None)


def _dropped(sheet: Sheet, must: Must) -> str:
    return f"Disputed: to come only after step {must.first + 1} by {_reasons(must)}; others say the reverse."


def _reasons(must: Must) -> str:
    """Why, and by whom: `it hangs on the bolt (merrin and osk)`."""
    by: dict[str, list[str]] = {}
    for account, why in must.said:
        by.setdefault(why[:1].lower() + why[1:], []).append(account.seen_by)
    return "; ".join(f"{why} ({listed(who)})" for why, who in by.items())


def either_words(sheet: Sheet) -> Iterator[str]:
    """Which steps were done both ways round: `Step 5, and steps 6, 7 and 8: either may come first.`"""
    with_first: dict[int, list[str]] = {}
    for first, then in sheet.either:
        with_first.setdefault(first, []).append(str(then + 1))
    for first, others in with_first.items():
        steps = f"{'step' if len(others) == 1 else 'steps'} {listed(others)}"
        yield f"Step {first + 1}, and {steps}: either may come first; both ways were done."


def back_words(sheet: Sheet) -> Iterator[str]:
    """What to see to when it goes back, the last step first: `5: the groove dry and clean (merrin)`."""
    for at in reversed(range(len(sheet.steps))):
        for one in sheet.steps[at].said:
            if one.step.back:
                yield f"{at + 1}: {one.step.back} ({one.account.seen_by})"
            for size in one.step.sizes:
                yield f"{at + 1}: {size_title(size)} {size_words(size)} ({one.account.seen_by})"


def rest_words(register: Register, sheet: Sheet) -> Iterator[str]:
    """What stays on, and what nobody tells of."""
    for heading, places in (("Stays on", sheet.stays), ("Nobody tells of", sheet.untold)):
        if there := [freed for freed in places if freed.choices]:
            named = listed([freed_words(register, freed, count=False) for freed in there])
            yield f"{heading}: {named.rstrip('.')}."


def minutes_words(sheet: Sheet) -> str | None:
    """How long it took by the accounts that say so for every step: `about 36 minutes (merrin)`."""
    told = [
        f"{sum(step.minutes or 0 for step in one.steps)} minutes ({one.seen_by})"
        for one in sheet.accounts
        if all(step.minutes for step in one.steps)
    ]
    return f"It took {listed(told)}." if told else None
