"""Part numbers and names that a reader would take for one another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sized
from typing import TypeVar

from spanbook.answers.pairs import told_apart
from spanbook.ground.language import gettext as _
from spanbook.ground.matching import misread, worn
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Part, Register
from spanbook.rules.check import Check

G = TypeVar("G", bound=Sized)
_FILE = "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
_LID = _FILE + "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\nparts:\n"
_HAT = _LID.replace("lid", "hat").replace("Lid", "Hat").replace("first: 1, last: 20", "first: 21, last: 40")

PART_TWO_NAMES = Rule(
    "part-two-names",
    Severity.WARNING,
    "One part number under two names is two parts to a reader; one of the names is most likely wrong.",
    bad=_LID + '- {number: "X-1", name: Bolt}\n' + _HAT + '- {number: "X-1", name: Screw}\n',
    good=_LID + '- {number: "X-1", name: Bolt}\n' + _HAT + '- {number: "X-1", name: Bolt}\n',
)
NAMES_WORN_ALIKE = Rule(
    "names-worn-alike",
    Severity.WARNING,
    "Numbers or names that differ only in a digit and a letter that wears like it (0 and O, 1 and I, 8 and "
    "B) cannot be told apart on a worn part; most such pairs are one misread.",
    bad=_LID + '- {number: "X-10", name: Bolt}\n- {number: "X-1O", name: Nut}\n',
    good=_LID + '- {number: "X-10", name: Bolt}\n- {number: "X-14", name: Nut}\n',
)

_DIGITS = str.maketrans("123456789", "0" * 9)


def _two_names(register: Register) -> Iterator[Finding]:
    for part in register.parts.values():
        for use in part.uses:
            if use.said.name not in (None, part.name):
                place = use.assembly.origin.place(*register.said[use].path, "name")
                read = _("{number} is called {here} here and {elsewhere} elsewhere").format(
                    number=part.number, here=use.said.name, elsewhere=part.name
                )
                yield Finding(place, read, _("use one name, or correct the number"))


def _worn(register: Register) -> Iterator[Finding]:
    numbers: defaultdict[tuple[str, str], list[Part]] = defaultdict(list)
    names: defaultdict[str, dict[str, Part]] = defaultdict(dict)
    for part in register.parts.values():
        numbers[part.key.by, worn(part.number)].append(part)
        if part.name:
            names[worn(part.name)].setdefault(part.name.casefold(), part)
    for parts in _several(numbers.values()):
        for one, other in _misread(parts, lambda part: part.number):
            if told_apart(register, one, other):
                continue
            alike = _("the numbers {one} and {other} differ only in worn twins")
            yield _finding(register, other, alike.format(one=one.number, other=other.number))
    for named in _several(names.values()):
        for one, other in _misread(list(named.values()), lambda part: part.name):
            alike = _("the names {one} and {other} differ only in worn twins")
            yield _finding(register, other, alike.format(one=one.name, other=other.name))


def _several(groups: Iterable[G]) -> Iterator[G]:
    return (group for group in groups if len(group) > 1)


def _misread(parts: list[Part], text: Callable[[Part], str]) -> Iterator[tuple[Part, Part]]:
    """Each part that an earlier one may be, with the first such."""
    # Where they differ in digits alone, which most do, none is another misread.
    if len({text(part).translate(_DIGITS) for part in parts}) == 1:
        return
    for i, other in enumerate(parts[1:], 1):
        one = next((one for one in parts[:i] if misread(text(one), text(other))), None)
        if one:
            yield one, other


def _finding(register: Register, part: Part, alike: str) -> Finding:
    todo = _("look again at the part or the page, and correct the one misread")
    return Finding(_place(register, part), alike, todo)


def _place(register: Register, part: Part) -> Place:
    """Where a part is first mentioned."""
    record = part.records[0]
    steps = (
        leaf.steps
        for leaf in walk(record, Role.NUMBER)
        if part.key
        == register.numbering.of(record, leaf.beside(Role.OWNER), leaf.value, leaf.beside(Role.SENSE))
    )
    return record.origin.place(*next(steps, ()))


CHECKS = (Check(PART_TWO_NAMES, _two_names), Check(NAMES_WORN_ALIKE, _worn))
