"""Acts that lead back to their start, run against the years, or give what nobody uses."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.act_years import ActYears
from spanbook.answers.circles import Circle, circles_of_needs, cycles
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.phrases import all_of
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Supersession
from spanbook.register.model import Register
from spanbook.rules.check import Check
from spanbook.rules.years import when

OPEN = marked(
    "correct or delete one of these acts, or give the years where a number was withdrawn and brought back"
)


def _act(id_: str, old: str, new: str, more: str = "") -> str:
    return (
        f"# file: content/supersessions/{id_}.yml\nkind: supersession\nid: {id_}\nold: [{{number: {old}}}]\n"
        f"new: [{new}]\nevidence: [{{source: book}}]\n{more}"
    )


_FIRST = _act("p-to-q", "P-1", "{number: Q-1}", "year: 1934\n")
_LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
    "parts: [{number: R-1, name: Bolt}, {number: R-2, name: Nut}]\n"
)

SUPERSESSION_CYCLE = Rule(
    "supersession-cycle",
    Severity.ERROR,
    "Acts that lead back to their start leave nothing to order, unless their years tell that a number was "
    "withdrawn and brought back.",
    bad=_FIRST + _act("q-to-p", "Q-1", "{number: P-1}", "year: 1934\n"),
    good=_FIRST + _act("q-to-p", "Q-1", "{number: P-1}", "year: 1937\n"),
)
NEEDS_CIRCLE = Rule(
    "supersession-needs-circle",
    Severity.WARNING,
    "Acts that need one another's old numbers have no end; mostly the new number is meant.",
    bad=_act("p-to-q", "P-1", "{number: P-2}", "needs: [{number: Q-1}]\n")
    + _act("q-to-r", "Q-1", "{number: Q-2}", "needs: [{number: P-1}]\n"),
    good=_act("p-to-q", "P-1", "{number: P-2}", "needs: [{number: Q-2}]\n")
    + _act("q-to-r", "Q-1", "{number: Q-2}", "needs: [{number: P-2}]\n"),
)
CURRENT_AND_REPLACED = Rule(
    "current-and-replaced",
    Severity.ERROR,
    "An act that says a number is still current gives no other: what replaces it is an act of its own.",
    bad=_act("p-still", "P-1", "{number: Q-1}", "current: true\n"),
    good=_act("p-still", "P-1", "", "current: true\n"),
)
AGAIN_AND_REPLACED = Rule(
    "again-and-replaced",
    Severity.ERROR,
    "An act that says a number was supplied again says nothing else of it.",
    bad=_FIRST + _act("p-again", "P-1", "{number: R-1}", "again: true\nyear: 1937\n"),
    good=_FIRST + _act("p-again", "P-1", "", "again: true\nyear: 1937\n"),
)
AGAIN_WITHOUT_BEFORE = Rule(
    "again-without-before",
    Severity.WARNING,
    "A number is supplied again after it was replaced or given up; by the years here it was not.",
    bad=_FIRST + _act("p-again", "P-1", "", "again: true\nyear: 1930\n"),
    good=_FIRST + _act("p-again", "P-1", "", "again: true\nyear: 1937\n"),
)
SUPERSESSION_SAME = Rule(
    "supersession-same",
    Severity.ERROR,
    "A number that replaces itself says nothing; one of the two is mistyped.",
    bad=_act("p-to-q", "P-1", "{number: P-1}"),
    good=_FIRST,
)
SUPERSEDED_BY_OLDER = Rule(
    "superseded-by-older",
    Severity.WARNING,
    "A part replaced by one that had itself been replaced before: the years or the numbers are wrong.",
    bad=_FIRST + _act("q-to-r", "Q-1", "{number: R-1}", "year: 1930\n"),
    good=_FIRST + _act("q-to-r", "Q-1", "{number: R-1}", "year: 1935\n"),
)
SPLIT_UNUSED = Rule(
    "split-unused",
    Severity.WARNING,
    "A split into parts of which none is used anywhere: most are mistyped numbers.",
    bad=_act("p-split", "P-1", "{number: R-1}, {number: R-2}"),
    good=_LID + _act("p-split", "P-1", "{number: R-1}, {number: R-2}"),
)


def _cycle(register: Register) -> Iterator[Finding]:
    for circle in cycles(register):
        if len(circle) > 1:
            yield _told(register, circle, _(OPEN))


def _needing(register: Register) -> Iterator[Finding]:
    for circle in circles_of_needs(register):
        yield _told(register, circle, _("name the new numbers under needs, or correct one of these acts"))


def _told(register: Register, circle: Circle, todo: str) -> Finding:
    steps = ", ".join(_left(register, key, act) for key, act in circle)
    read = _("{steps}, and so back to {number}").format(
        steps=steps, number=register.parts[circle[0][0]].number
    )
    return Finding(circle[0][1].origin.place("old"), read, todo)


def _left(register: Register, key: PartKey, act: Supersession) -> str:
    """A number on a circle, and the act that leaves it."""
    said = _("{number} by {place} {year}") if act.year else _("{number} by {place}")
    place = f"{act.origin.path}:{act.origin.place('old').line}"
    year = when(act.year) if act.year else ""
    return said.format(number=register.parts[key].number, place=place, year=year)


def _current(register: Register) -> Iterator[Finding]:
    for act in register.supersessions.values():
        if act.current and act.new:
            read = _("{old} said to be still current, and replaced by {new}").format(
                old=act.old[0].number, new=act.new[0].number
            )
            todo = _("leave out current, or leave new empty and replace it by an act of its own")
            yield Finding(act.origin.place("current"), read, todo)


def _again(register: Register) -> Iterator[Finding]:
    for act in register.supersessions.values():
        if act.again and (act.new or act.current):
            told = (
                _("{number} said to be supplied again, and replaced by {new}")
                if act.new
                else _("{number} said to be supplied again, and still current")
            )
            read = told.format(number=act.old[0].number, new=act.new[0].number if act.new else "")
            todo = _("leave out again, or say the other by an act of its own")
            yield Finding(act.origin.place("again"), read, todo)


def _without_before(register: Register) -> Iterator[Finding]:
    years = ActYears(register)
    for act in register.supersessions.values():
        for i, use in enumerate(act.old if act.again else ()):
            part = register.parts[register.key_of(act, use)]
            if act not in years.returns(part.key) and not register.unread.may_number(part.number):
                year = when(act.year) if act.year else _("in no year that is told")
                read = _("{number} supplied again {year}, and no act of an earlier year on it").format(
                    number=use.number, year=year
                )
                yield Finding(
                    act.origin.place("old", i), read, _("give the years, or the act that withdrew it")
                )


def _same(register: Register) -> Iterator[Finding]:
    for act in register.supersessions.values():
        olds = {register.key_of(act, use) for use in act.old}
        for i, use in enumerate(act.new):
            if register.key_of(act, use) in olds:
                read = _("{} replaced by itself").format(use.number)
                yield Finding(act.origin.place("new", i), read, _("correct the old or the new number"))


def _older(register: Register) -> Iterator[Finding]:
    years = ActYears(register)
    for act in register.supersessions.values():
        for i, use in enumerate(act.new):
            key = register.key_of(act, use)
            for later in register.parts[key].old_in:
                back = any(not years.before(act, one) for one in years.past_by((later, key)))
                if act.year and later.year and years.said_before(later, act) and not back:
                    was, then = when(act.year), when(later.year)
                    read = _("{was} replaced by {number}, which was itself replaced {then}").format(
                        was=was, number=use.number, then=then
                    )
                    yield Finding(act.origin.place("new", i), read, _("correct the years or the numbers"))


def _split(register: Register) -> Iterator[Finding]:
    for act in register.supersessions.values():
        parts = [register.parts[register.key_of(act, use)] for use in act.new]
        used = any(p.uses or p.whole or p.record or p.conversions or p.old_in for p in parts)
        unread = any(register.unread.may_number(part.number) for part in parts)
        if len(parts) > 1 and not used and not unread:
            numbers = all_of(part.number for part in parts)
            read = _("a split into {}, which nothing uses").format(numbers)
            yield Finding(act.origin.place("new"), read, _("correct the numbers, or record where they go"))


CHECKS = (
    Check(SUPERSESSION_CYCLE, _cycle),
    Check(NEEDS_CIRCLE, _needing),
    Check(CURRENT_AND_REPLACED, _current),
    Check(AGAIN_AND_REPLACED, _again),
    Check(AGAIN_WITHOUT_BEFORE, _without_before),
    Check(SUPERSESSION_SAME, _same),
    Check(SUPERSEDED_BY_OLDER, _older),
    Check(SPLIT_UNUSED, _split),
)
