"""What the list of an assembly has on one machine by its number."""

from __future__ import annotations

from spanbook.answers.parts_here import PartsHere
from spanbook.answers.standing import Standing, weakest
from spanbook.answers.this_machine import SeenHere
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.register.model import Register
from spanbook.wording.disputed import judged_words
from spanbook.wording.grammar import listed
from spanbook.wording.lines import number_words
from spanbook.wording.pieces import Pieces, Ref, joined


def read_words(register: Register, seen: SeenHere) -> str:
    """The numbers read on a machine of lines that go by its number; empty where none was."""
    assembly = register.assemblies.get(seen.find.assembly or "")
    if assembly is None:
        return ""
    lines = (limit.line for limit in register.limits_of(assembly))
    keys = {register.key_of(assembly, said) for line in lines for said in line.numbers}
    return listed([use.number for use in seen.find.parts if register.key_of(seen.teardown, use) in keys])


def parts_words(register: Register, parts: PartsHere) -> Pieces:
    """What one place of a list has by the number, how sure and how far to be trusted:
    `Waste-packed bypass filter: WH-1209 Canister lid, surely, printed`."""
    assembly, lines = parts.assembly, parts.held.lines
    numbers = [
        Ref(number_words(register, key), register.said[limits[0][0]])
        for one, limits in zip(lines, parts.limits, strict=True)
        for key in one.line.keys
    ]
    named = Ref(assembly.title, assembly), _(": "), *joined(numbers, "or"), f" {lines[0].line.part.name}"
    if len(lines) > 1:
        return *named, _("; "), _("which of them is not known")
    judged = [judgement for limits in parts.limits for _, judgement in limits]
    weak = next((j for j in judged if j.standing is weakest(j.standing for j in judged)), judged[0])
    if lines[0].covers is Covers.MAYBE:
        sure = [_("possibly")]
    else:
        sure = [] if weak.standing is Standing.DISPUTED else [_("surely")]
    return *named, "".join(f", {word}" for word in sure), ", ", *judged_words(weak)
