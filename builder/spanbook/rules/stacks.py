"""The stack of an assembly: its parts are those of the list, and it comes apart as accounts tell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from spanbook.answers.accounts import SheetStep
from spanbook.answers.lines import Lists
from spanbook.answers.strip_down import sheet_of
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Assembly
from spanbook.register.model import Register
from spanbook.rules.check import Check

_LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
    "parts:\n- {number: P-1, name: Bolt}\n- {number: P-2, name: Cap}\n"
    "stack:\n- {number: P-1, shape: bolt}\n- {number: P-2, shape: lid}\n"
)
_TOLD = (
    "# file: content/strip-downs/lid-merrin.yml\nkind: strip-down\nid: lid-merrin\nassembly: lid\n"
    "date: 2024-05-11\nseen-by: merrin\nsteps:\n"
    "- {id: bolt, do: Undo it, frees: [{number: P-1}]}\n"
    "- {id: cap, do: Lift it, frees: [{number: P-2}], after: [{step: bolt, why: It holds}]}\n"
)

STACK_NOT_LISTED = Rule(
    "stack-not-listed",
    Severity.WARNING,
    "What is drawn in the stack is in the parts list, and what sits in a side sits in a part that is drawn.",
    bad=_LID.replace("{number: P-2, shape: lid}", "{number: P-3, shape: lid}"),
    good=_LID,
)
STACK_AGAINST_STEPS = Rule(
    "stack-against-steps",
    Severity.ADVICE,
    "What has to come off first stands nearer to the hand: the stack, or what an account says, is wrong.",
    bad=_LID.replace(
        "- {number: P-1, shape: bolt}\n- {number: P-2, shape: lid}",
        "- {number: P-2, shape: lid}\n- {number: P-1, shape: bolt}",
    )
    + _TOLD,
    good=_LID + _TOLD,
)


def _not_listed(register: Register) -> Iterator[Finding]:
    for assembly in register.assemblies.values():
        if not assembly.stack:
            continue
        listed = {register.key_of(assembly, use.said) for use in register.uses_of(assembly)}
        drawn = {part.number for part in assembly.stack}
        for i, part in enumerate(assembly.stack):
            key = register.key_of(assembly, part)
            if listed and key not in listed:
                place = assembly.origin.place("stack", i, "number")
                yield Finding(
                    place,
                    _("{}, which the parts list does not have").format(part.number),
                    _("mend one of the two"),
                )
            if part.inside is not None and part.inside not in drawn:
                place = assembly.origin.place("stack", i, "in")
                yield Finding(
                    place,
                    _("{}, which is not in the stack").format(part.inside),
                    _("name a part of the stack"),
                )


def _against_steps(register: Register) -> Iterator[Finding]:
    lists = Lists(register)
    for id_, accounts in register.strip_downs.items():
        assembly = register.assemblies.get(id_)
        sheet = sheet_of(lists, assembly, accounts) if assembly and assembly.stack else None
        if assembly is None or sheet is None:
            continue
        places = _along(register, assembly)
        for must in sheet.musts:
            for first in _numbers(sheet.steps[must.first]):
                for then in _numbers(sheet.steps[must.then]):
                    # Of a part that is there twice one piece is enough.
                    if min(places.get(first, [0])) > max(places.get(then, [len(assembly.stack)])):
                        off, on = register.parts[first].number, register.parts[then].number
                        said = _("{off} below {on}, and it must come off before it").format(off=off, on=on)
                        place = assembly.origin.place("stack")
                        yield Finding(place, said, _("turn the two round, or mend the account"))


def _numbers(step: SheetStep) -> tuple[PartKey, ...]:
    return tuple(key for freed in step.frees for key in freed.keys)


def _along(register: Register, assembly: Assembly) -> Mapping[PartKey, list[int]]:
    """How far along the axis each part stands, the first at the hand's end; not what sits in a side."""
    places: dict[PartKey, list[int]] = {}
    for at, part in enumerate(assembly.stack):
        if part.inside is None:
            key = register.key_of(assembly, part)
            places.setdefault(key, []).append(at)
    return places


CHECKS = (Check(STACK_NOT_LISTED, _not_listed), Check(STACK_AGAINST_STEPS, _against_steps))
