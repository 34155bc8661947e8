"""Signs: answers that a sign has, each sign said once and used, and pairs that no sign tells apart."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.signs.things import Thing, assemblies_at, parted
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Assembly, PartRecord, Signs
from spanbook.register.model import Register
from spanbook.rules.check import Check

_SIGNS = (
    "# file: content/signs.yml\nkind: signs\nsigns:\n"
    "- {id: lid-held, asks: How the lid is held, answers: [four nuts, one bolt]}\n"
)
_SPAN = "serials:\n- {series: xa, first: %s, last: %s, evidence: [{source: book}]}\n"
_COVER = "# file: content/assemblies/{0}.yml\nkind: assembly\nid: {0}\ntitle: {0}\nposition: body/cover\n"
_PLAIN = _COVER.format("plain") + _SPAN % (1, 20) + "signs: [{sign: lid-held, seen: four nuts}]\n"
_RIBBED = _COVER.format("ribbed") + _SPAN % (21, 30) + "signs: [{sign: lid-held, seen: one bolt}]\n"
_GOOD = _SIGNS + _PLAIN + _RIBBED

ANSWER_UNKNOWN = Rule(
    "sign-answer-unknown",
    Severity.ERROR,
    "Things are told apart by the same words: an answer is one of those that its sign has in signs.yml.",
    bad=_GOOD.replace("seen: four nuts", "seen: 4 nuts"),
    good=_GOOD,
)
SIGN_TWICE = Rule(
    "sign-twice",
    Severity.ERROR,
    "A record says once what a thing shows of a sign; where it was made in several ways they stand under or.",
    bad=_GOOD.replace("four nuts}]", "four nuts}, {sign: lid-held, seen: one bolt}]"),
    good=_GOOD.replace("four nuts}]", "four nuts, or: [one bolt]}]"),
)
SIGN_UNUSED = Rule(
    "sign-unused",
    Severity.ADVICE,
    "A sign that nothing is recorded to show is never asked.",
    bad=_SIGNS,
    good=_GOOD,
)
NOT_PARTED = Rule(
    "signs-part-nothing",
    Severity.ADVICE,
    "Who holds one of two things that no sign tells apart cannot be told which it is.",
    bad=_GOOD.replace("seen: one bolt", "seen: four nuts"),
    good=_GOOD,
)


def _with_signs(register: Register) -> Iterator[Assembly | PartRecord]:
    for record in register.records:
        if isinstance(record, Assembly | PartRecord) and record.signs:
            yield record


def _answers(register: Register) -> Iterator[Finding]:
    for record in _with_signs(register):
        for i, shown in enumerate(record.signs):
            sign = register.signs.get(shown.sign)
            steps = [("seen",), *(("or", j) for j in range(len(shown.others)))]
            for step, answer in zip(steps, shown.every, strict=True):
                if sign and answer not in sign.answers:
                    place = record.origin.place("signs", i, *step)
                    todo = f"write one of {', '.join(sign.answers)}, or add it to that sign"
                    yield Finding(place, f"{answer} is no answer of {sign.id}", todo)


def _twice(register: Register) -> Iterator[Finding]:
    for record in _with_signs(register):
        known: set[str] = set()
        for i, shown in enumerate(record.signs):
            if shown.sign in known:
                place = record.origin.place("signs", i, "sign")
                yield Finding(place, f"a second answer for {shown.sign}", "put it under or of the first")
            elif len(set(shown.every)) < len(shown.every):
                place = record.origin.place("signs", i, "or")
                yield Finding(place, f"{shown.seen} twice for {shown.sign}", "say it once")
            known.add(shown.sign)


def _unused(register: Register) -> Iterator[Finding]:
    used = {shown.sign for record in _with_signs(register) for shown in record.signs}
    for record in register.of(Signs).values():
        for i, sign in enumerate(record.signs):
            if sign.id not in used:
                read = f"nothing is recorded to show {sign.id}"
                yield Finding(record.origin.place("signs", i), read, "say which things do, or leave it out")


def _not_parted(register: Register) -> Iterator[Finding]:
    for position, assemblies in register.at_position.items():
        if any(one.signs for one in assemblies):
            things = assemblies_at(register, position)
            for i, thing in enumerate(things):
                yield from _like(register, thing, things[:i])


def _like(register: Register, thing: Thing, earlier: tuple[Thing, ...]) -> Iterator[Finding]:
    alike = [one for one in earlier if not parted(thing, one, register.signs)]
    if alike:
        (record,) = thing.assemblies
        key = ("signs",) if record.signs else ("id",)
        read = f"no sign tells {record.id} from {', '.join(one.assemblies[0].id for one in alike)}"
        todo = "record a sign that both show, each in its own way, or leave it an open question"
        yield Finding(record.origin.place(*key, key=True), read, todo)


CHECKS = (
    Check(ANSWER_UNKNOWN, _answers),
    Check(SIGN_TWICE, _twice),
    Check(SIGN_UNUSED, _unused),
    Check(NOT_PARTED, _not_parted),
)
