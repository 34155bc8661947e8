"""Strip-downs: steps that name one another, what comes off against the parts list, springs and joints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import reduce

from spanbook.answers.lines import Lists
from spanbook.ground.knots import knots
from spanbook.ground.language import gettext as _
from spanbook.ground.matching import words
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.phrases import any_of
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Absence, StripDown
from spanbook.register.model import Register
from spanbook.rules.check import Check

_LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
    "parts:\n- {number: P-1, name: Bolt}\n- {number: P-2, name: Gasket}\n"
)
_GOOD = _LID + (
    "# file: content/strip-downs/lid-merrin.yml\nkind: strip-down\nid: lid-merrin\nassembly: lid\n"
    "date: 2024-05-11\nseen-by: merrin\nsteps:\n"
    "- {id: bolt, do: Undo it, frees: [{number: P-1}]}\n"
    "- {id: gasket, do: Lift it, renew: true, frees: [{number: P-2}], after: [{step: bolt, why: It holds}]}\n"
)
_BARE = (
    "# file: content/absences/no-lid.yml\nkind: absence\nid: no-lid\ntitle: No lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 50, last: 60, evidence: [{source: book}]}\n"
)

STRIP_DOWN_OF_NOTHING = Rule(
    "strip-down-of-nothing",
    Severity.ERROR,
    "Where nothing is fitted there is nothing to take apart.",
    bad=_BARE + _GOOD.replace("assembly: lid", "assembly: no-lid"),
    good=_BARE + _GOOD,
)
STEP_UNKNOWN = Rule(
    "step-unknown",
    Severity.ERROR,
    "What a step comes after is a step of the same record, done before it.",
    bad=_GOOD.replace("step: bolt", "step: nut"),
    good=_GOOD,
)
STEP_TWICE = Rule(
    "step-twice",
    Severity.ERROR,
    "Two steps of one name cannot be told apart when another comes after one of them.",
    bad=_GOOD.replace("id: gasket, do", "id: bolt, do").replace(", after: [{step: bolt, why: It holds}]", ""),
    good=_GOOD,
)
STEP_CIRCLE = Rule(
    "step-circle",
    Severity.ERROR,
    "Steps that wait for one another could never be begun.",
    bad=_GOOD.replace("do: Undo it,", "do: Undo it, after: [{step: gasket, why: It sticks}],"),
    good=_GOOD,
)
FREED_NOT_LISTED = Rule(
    "freed-not-listed",
    Severity.WARNING,
    "What came off is in the parts list, as many as came off: the list or the number read is wrong.",
    bad=_GOOD.replace("frees: [{number: P-1}]", "frees: [{number: P-1, quantity: 2}]"),
    good=_GOOD,
)
NEITHER_FREED_NOR_STAYS = Rule(
    "neither-freed-nor-stays",
    Severity.ADVICE,
    "Whoever goes by an account wants to know of every part: it came off, or it stays on.",
    bad=_GOOD.replace(
        "- {number: P-2, name: Gasket}", "- {number: P-2, name: Gasket}\n- {number: P-3, name: Pin}"
    ),
    good=_GOOD,
)
SPRING_WITHOUT_CAUTION = Rule(
    "spring-without-caution",
    Severity.WARNING,
    "A spring that is let go can hurt: the step or the assembly names the caution for it.",
    bad=_GOOD.replace("do: Undo it,", "do: Undo it, catch: [{what: A spring, how: spring}],"),
    good=_GOOD,
)
JOINT_NOT_RENEWED = Rule(
    "joint-not-renewed",
    Severity.ADVICE,
    "A gasket, joint or packing that came off hardly ever goes back: say renew, or why it did go back.",
    bad=_GOOD.replace("renew: true, ", ""),
    good=_GOOD,
)
# The head of a name says what a thing is: a packing cage is a cage.
_SEALS = {"gasket", "joint", "packing", "seal"}


def _accounts(register: Register) -> Iterator[StripDown]:
    return (record for record in register.records if isinstance(record, StripDown))


def _unknown(register: Register) -> Iterator[Finding]:
    for one in _accounts(register):
        known = [step.id for step in one.steps]
        for i, step in enumerate(one.steps):
            for k, earlier in enumerate(step.after):
                if earlier.step not in known:
                    place = one.origin.place("steps", i, "after", k, "step")
                    yield Finding(
                        place,
                        _("no step {} in this record").format(earlier.step),
                        _("one of {}").format(", ".join(known)),
                    )


def _twice(register: Register) -> Iterator[Finding]:
    for one in _accounts(register):
        known: set[str] = set()
        for i, step in enumerate(one.steps):
            if step.id in known:
                yield Finding(
                    one.origin.place("steps", i, "id"),
                    _("a second step {}").format(step.id),
                    _("give it another word"),
                )
            known.add(step.id)


def _a_circle(arrows: list[tuple[str, str]]) -> list[str]:
    """The steps of one circle, if there is any."""
    own = any(one == other for one, other in arrows)
    if not own and all(len(knot) == 1 for knot in knots(arrows)):
        return []
    import networkx as nx  # it takes longer to load than all the rules: only where there is a circle

    return next(nx.simple_cycles(nx.DiGraph(arrows)))


def _circle(register: Register) -> Iterator[Finding]:
    for one in _accounts(register):
        if circle := _a_circle([(earlier.step, step.id) for step in one.steps for earlier in step.after]):
            turn = circle.index(min(circle))  # the graph begins it anywhere
            circle = [*circle[turn:], *circle[:turn]]
            shown = reduce(
                lambda later, step: _("{later} after {earlier}").format(later=later, earlier=step),
                [*circle[::-1], circle[-1]],
            )
            yield Finding(
                one.origin.place("steps"),
                _("steps that wait for one another: {}").format(shown),
                _("drop one"),
            )


def _not_listed(register: Register) -> Iterator[Finding]:
    lists = Lists(register)
    for one in _accounts(register):
        assembly = register.assemblies.get(one.assembly)
        if assembly is None or not assembly.parts:
            continue
        listed = Counter[PartKey]()
        for place in lists.places(assembly):
            for key in place.keys:
                listed[key] += max(line.part.quantity for line in place.lines if key in line.keys)
        freed = Counter[PartKey]()
        for i, step in enumerate(one.steps):
            for k, use in enumerate(step.frees):
                key = register.key_of(one, use)
                freed[key] += use.quantity
                if freed[key] > listed[key]:
                    said = _("{quantity} × {number} came off, and the list of {id} has {listed}").format(
                        quantity=freed[key], number=use.number, id=assembly.id, listed=listed[key]
                    )
                    at = one.origin.place("steps", i, "frees", k)
                    yield Finding(at, said, _("mend the list or the number"))


def _left(register: Register) -> Iterator[Finding]:
    lists = Lists(register)
    for one in _accounts(register):
        assembly = register.assemblies.get(one.assembly)
        if assembly is None:
            continue
        told = {register.key_of(one, use) for use in (*one.stays, *(u for s in one.steps for u in s.frees))}
        untold = (place for place in lists.places(assembly) if not told & set(place.keys))
        left = [place.lines[0].part.number for place in untold]
        if left:
            said = _("nothing is told of {}").format(", ".join(left))
            yield Finding(one.origin.place("steps"), said, _("say where it came off, or list it under stays"))


def _spring(register: Register) -> Iterator[Finding]:
    about = {c.id for c in register.cautions.values() if {"spring", "springs"} & set(words(c.title))}
    for one in _accounts(register):
        assembly = register.assemblies.get(one.assembly)
        named = set(assembly.cautions if assembly else ())
        for i, step in enumerate(one.steps):
            sprung = any(catch.how == "spring" for catch in step.catch)
            if sprung and not about & (named | set(step.cautions)):
                which = _("name {}").format(any_of(sorted(about))) if about else _("write one and name it")
                yield Finding(one.origin.place("steps", i), _("a spring, and no caution for it"), which)


def _joint(register: Register) -> Iterator[Finding]:
    for one in _accounts(register):
        for i, step in enumerate(one.steps):
            for k, use in enumerate(step.frees):
                name = register.parts[register.key_of(one, use)].name
                if not step.renew and _SEALS & set(words(name.partition(",")[0])[-1:]):
                    place = one.origin.place("steps", i, "frees", k)
                    yield Finding(
                        place,
                        _("{number}, {name}, goes back").format(number=use.number, name=name),
                        _("write renew: true if it does not"),
                    )


def _of_nothing(register: Register) -> Iterator[Finding]:
    for one in _accounts(register):
        if isinstance(register.assemblies.get(one.assembly), Absence):
            read = _("{}, where nothing is fitted").format(one.assembly)
            yield Finding(one.origin.place("assembly"), read, _("name the assembly that was taken apart"))


CHECKS = (
    Check(STRIP_DOWN_OF_NOTHING, _of_nothing),
    Check(STEP_UNKNOWN, _unknown),
    Check(STEP_TWICE, _twice),
    Check(STEP_CIRCLE, _circle),
    Check(FREED_NOT_LISTED, _not_listed),
    Check(NEITHER_FREED_NOR_STAYS, _left),
    Check(SPRING_WITHOUT_CAUTION, _spring),
    Check(JOINT_NOT_RENEWED, _joint),
)
