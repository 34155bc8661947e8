"""What is retired is led on from, and named by nothing that answers are made from: assemblies and series."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import StripDown
from spanbook.reading.roles import Role
from spanbook.reading.walk import Walk
from spanbook.register.model import Register
from spanbook.rules.check import Check

_SERIES, _ASSEMBLIES = Walk(Role.REFERENCE, to="series"), Walk(Role.REFERENCE, to="assembly")


def _lid(id_: str, first: int, last: int, more: str = "") -> str:
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_}\n"
        f"position: body/cover\n{more}serials:\n"
        f"- {{series: xa, first: {first}, last: {last}, evidence: [{{source: book}}]}}\n"
    )


_OLD = _lid("lid", 1, 40, "retired: Two lids went under one name\nnow: [cap, hat]\n")
_WORLD = _OLD + _lid("cap", 1, 20) + _lid("hat", 21, 40)
_SEEN = (
    "# file: content/teardowns/x-7-merrin.yml\nkind: teardown\nid: x-7-merrin\ndate: 2024\n"
    "seen-by: merrin\nserial: XA 7\ncondition: untouched\nfound:\n- {{position: body/cover, {}}}\n"
)

RETIRED_NAMED = Rule(
    "retired-named",
    Severity.ERROR,
    "Nothing is answered from what is retired: who names it would be passed over in silence.",
    bad=_WORLD + _SEEN.format("assembly: lid"),
    good=_WORLD + _SEEN.format("one-of: [cap, hat]"),
)
RETIRED_LEADS_NOWHERE = Rule(
    "retired-leads-nowhere",
    Severity.ERROR,
    "What is retired leads to what is not, so that a reader arrives.",
    bad=_WORLD.replace("[cap, hat]", "[cap, lid]"),
    good=_WORLD,
)


def _named(register: Register) -> Iterator[Finding]:
    if not register.retired_series and not any(one.retired for one in register.assemblies.values()):
        return
    for record in register.records:
        if isinstance(record, StripDown):
            continue  # what was done to it was done, whichever it was
        for leaf in _SERIES(record):
            run = register.retired_series.get(leaf.value)
            if run and leaf.steps[-2] != "now":
                now = ", ".join(run.now)
                todo = (
                    _("name what it was: {}").format(now)
                    if now
                    else _("take it out: there was no such series")
                )
                yield Finding(
                    record.origin.place(*leaf.steps), _("{}, which is retired").format(leaf.value), todo
                )
        for leaf in _ASSEMBLIES(record):
            held = register.assemblies.get(leaf.value)
            if held and held.retired and leaf.steps[0] != "now":
                now = ", ".join(held.now)
                todo = _("name what it was: {}").format(now) if now else _("take it out: it was none")
                if len(held.now) > 1 and leaf.steps[0] == "found":
                    todo = _("write one-of: [{}], or which of them it was").format(now)
                yield Finding(
                    record.origin.place(*leaf.steps), _("{}, which is retired").format(leaf.value), todo
                )


def _leads(register: Register) -> Iterator[Finding]:
    for machine in register.machines.values():
        for i, run in enumerate(machine.every_series):
            for j, id_ in enumerate(run.now):
                place = machine.origin.place("series", i, "now", j)
                if id_ in register.retired_series:
                    yield Finding(
                        place, _("{}, which is retired as well").format(id_), _("name what it was in the end")
                    )
                elif not run.retired:
                    todo = _("say under retired why, or take it out")
                    yield Finding(place, _("now {}, and it is not retired").format(id_), todo)
    for assembly in register.assemblies.values():
        for i, id_ in enumerate(assembly.now):
            led = register.assemblies.get(id_)
            place = assembly.origin.place("now", i)
            if led and led.retired:
                yield Finding(
                    place, _("{}, which is retired as well").format(id_), _("name what it was in the end")
                )
            elif not assembly.retired:
                todo = _("say under retired why, or take it out")
                yield Finding(place, _("now {}, and it is not retired").format(id_), todo)


CHECKS = (Check(RETIRED_NAMED, _named), Check(RETIRED_LEADS_NOWHERE, _leads))
