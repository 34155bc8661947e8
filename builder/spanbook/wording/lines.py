"""Lines of parts lists: the numbers that serve on one, and the machines that it is limited to."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.answers.freed import Choice, Freed
from spanbook.answers.lines import Line
from spanbook.answers.listed import Listed
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import parted
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.wording.grammar import capital, chained, counted, listed
from spanbook.wording.spans import span_words

BY_NUMBER = marked("by the machine's number")


def number_words(register: Register, key: PartKey) -> str:
    """A number, with whose it is where that is a supplier's: `CJ 44 (castle-joint)`."""
    number = register.parts[key].number
    return number if key.by in register.makers else f"{number} ({key.by})"


def on_some(name: str) -> str:
    """A part that only some of the machines with an assembly have, in a list of any machine."""
    return f"{name} ({_(BY_NUMBER)})"


def or_words(number: str) -> str:
    """A number beside another that it may be: `or WH-2268`."""
    return _("or {}").format(number)


def limits_words(line: Line, series: Series | None = None) -> str:
    """The machines that a line is limited to, those of one series or all: `from HK 1 to HK 402`."""
    mine = [one for one in line.limits if series in (None, one.series)] or line.limits
    return chained(list(dict.fromkeys(span_words(one.span, one.series) for one in mine)), "or")


def line_words(register: Register, line: Line) -> str:
    """The numbers of a line, and what it is limited to: `WH-2264 or CJ 44 (castle-joint), from HK 1`."""
    numbers = numbers_of_line(register, line)
    return f"{numbers}, {limits_words(line)}" if line.limits else numbers


def freed_words(register: Register, freed: Freed, *, count: bool = True) -> str:
    """What comes off and how many: `2 × WH-2261 Felt end ring`.

    Of several in one place: `WH-2264 or WH-2268 Bowl joint (by the machine's number)`.
    """
    return _choices_words(register, freed.choices, count=count) + _which(freed)


def _choices_words(register: Register, choices: Sequence[Choice], *, count: bool) -> str:
    alone = len(choices) == 1
    counts = {choice.quantity if count else 1 for choice in choices}
    names = {_name(register, choice) for choice in choices}
    if len(counts) == len(names) == 1:
        numbers = [register.parts[c.key].number if alone else number_words(register, c.key) for c in choices]
        said = f"{listed(numbers, 'or')} {names.pop()}".strip()
        return _times(counts.pop(), said)
    each = (
        f"{number_words(register, c.key)} {_name(register, c)}".strip()
        if not count
        else _times(c.quantity, f"{number_words(register, c.key)} {_name(register, c)}".strip())
        for c in choices
    )
    return listed(list(each), "or")


def _times(quantity: int, thing: str) -> str:
    return thing if quantity == 1 else counted(quantity, thing)


def _name(register: Register, choice: Choice) -> str:
    return register.parts[choice.key].name


def _which(freed: Freed) -> str:
    """What decides between several lines, or that one is only perhaps there."""
    sure = all(choice.covers is Covers.YES for choice in freed.choices)
    several = len(freed.lines) > 1
    if freed.machine is None:
        limited = any(line.limited for line in freed.lines)
        return f" ({_(BY_NUMBER)})" if several else f" ({limits_words(freed.lines[0])})" if limited else ""
    if several:
        return f" ({_('which of them this machine has is not known')})"
    return "" if sure else f" ({_('perhaps: whether this machine has it is not known')})"


def not_there_words(register: Register, freed: Freed) -> str:
    """That a machine has nothing in a place where accounts tell of something."""
    numbers = listed([f"{register.parts[k].number} {register.parts[k].name}".strip() for k in freed.told])
    return _("Not on this machine by the parts list: {}.").format(numbers.rstrip("."))


def line_asked(register: Register, lines: Sequence[Line], title: str) -> str:
    """Which of two lines a machine has, or whether it has the one."""
    part = lines[0].part
    each = [numbers_of_line(register, line) for line in lines]
    if len(lines) == 1:
        one = _("is {number}, {part}, on your machine's {assembly}?")
        return one.format(number=each[0], part=part.name, assembly=title)
    which = _("which {part} has your machine's {assembly}, {numbers}?")
    return which.format(part=part.name, assembly=title, numbers=listed(each, "or"))


def only_words(one: Listed) -> str:
    """What the line of a number is limited to: `only from HK 1 to HK 402`; empty where it is not."""
    return _("only {}").format(limits_words(one.line)) if one.line.limited else ""


def instead_words(register: Register, one: Listed) -> str:
    """What is in the place of a number on other machines: `WH-2268, from HK 403 to the end, HK 2140`."""
    return parted(*(line_words(register, other.line) for other in one.instead))


def either_words(register: Register, one: Listed) -> str:
    """What serves on the line as well: `CJ 44 (castle-joint)`."""
    return listed([number_words(register, key) for key in one.either], "or")


def listed_words(register: Register, one: Listed, called: str | None = None) -> str:
    """What a list says of a number, on one machine or on any, in sentences; empty where that is nothing more
    than that it has it. The machine is `called` by its number where nothing else is said."""
    told = _on_machine(register, one, one.machine, called) if one.machine else _on_any(register, one)
    if one.either and one.covers is not Covers.NO:
        told += f" {_('On that line {} serves as well.').format(either_words(register, one))}"
    return told.strip()


def _on_any(register: Register, one: Listed) -> str:
    title, only, others = one.assembly.title, only_words(one), instead_words(register, one)
    if not one.line.limited:
        return _on_all(title) if one.either else ""
    if others:
        told = _("In the {assembly} {only}; in its place {others}.")
        return told.format(assembly=title, only=only, others=others)
    return _("In the {assembly} {only}.").format(assembly=title, only=only)


def _on_all(title: str) -> str:
    return _("In the {} on all machines that have it.").format(title)


def _on_machine(register: Register, one: Listed, machine: Reading, called: str | None) -> str:
    shown = called or machine.series.stamp.show(machine.number)
    title, number = one.assembly.title, one.use.number
    if not one.line.limited:
        return _on_all(title) if one.either else ""
    there = listed([numbers_of_line(register, other.line) for other in one.instead], "or")
    limits = limits_words(one.line, machine.series)
    match one.covers:
        case Covers.YES:
            told = _("{machine} has it in the {assembly}: {limits}.")
            return told.format(machine=capital(shown), assembly=title, limits=limits)
        case Covers.MAYBE:
            which = listed([number, there or _("none")], "or")
            told = _("Whether the {assembly} of {machine} has {which} is not known: {number} {limits}.")
            limits = limits_words(one.line)
            return told.format(assembly=title, machine=shown, which=which, number=number, limits=limits)
        case _:
            told = _("The {assembly} of {machine} does not have {number} (only {limits}).")
            said = told.format(assembly=title, machine=shown, number=number, limits=limits)
            return f"{said} {_('It has {} there.').format(there)}" if there else said


def numbers_of_line(register: Register, line: Line) -> str:
    """The numbers that serve on a line: `WH-2264 or CJ 44 (castle-joint)`."""
    return listed([number_words(register, key) for key in line.keys], "or")
