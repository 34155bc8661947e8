"""Signs: answers that a sign has, each sign said once and used, and pairs that no sign tells apart."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.named import GOOD
from spanbook.answers.signs.things import Thing, assemblies_at, parted
from spanbook.answers.signs_seen import SeenOn, signs_seen
from spanbook.ground.language import gettext as _
from spanbook.reading.nodes import Step
from spanbook.reading.phrases import all_of, any_of
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.records import Assembly, PartRecord, Sign, Signs, Teardown
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
REWORDED = Rule(
    "sign-reworded",
    Severity.ERROR,
    "A former answer leads to one of today, so that what was once seen is still understood.",
    bad=_GOOD.replace(
        "[four nuts, one bolt]}", "[four nuts, one bolt], reworded: [{was: 4 nuts, now: nuts}]}"
    ),
    good=_GOOD.replace(
        "[four nuts, one bolt]}", "[four nuts, one bolt], reworded: [{was: 4 nuts, now: four nuts}]}"
    ),
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
_FOUND = (
    "# file: content/teardowns/x-7-merrin.yml\nkind: teardown\nid: x-7-merrin\ndate: 2024\nseen-by: merrin\n"
    "serial: XA 7\ncondition: untouched\nfound:\n"
    "- {position: body/cover, assembly: plain, signs: [{sign: %s, seen: %s}]}\n"
)
SEEN_OTHERWISE = Rule(
    "sign-seen-otherwise",
    Severity.WARNING,
    "Where something else was seen than is recorded of a thing, it is another, or was made in several ways.",
    bad=_GOOD + _FOUND % ("lid-held", "one bolt"),
    good=_GOOD + _FOUND % ("lid-held", "four nuts"),
)
_BOWLS = "- {id: bowls, asks: How many bowls there are, answers: [one, two]}\n"
_RIBBED_BOWLS = _RIBBED.replace("one bolt}]", "one bolt}, {sign: bowls, seen: two}]")
SEEN_UNSAID = Rule(
    "sign-seen-unsaid",
    Severity.ADVICE,
    "What was seen on a thing and stands only in a teardown helps nobody to tell the thing.",
    bad=_SIGNS + _BOWLS + _PLAIN + _RIBBED_BOWLS + _FOUND % ("bowls", "one"),
    good=_SIGNS
    + _BOWLS
    + _PLAIN.replace("four nuts}]", "four nuts}, {sign: bowls, seen: one}]")
    + _RIBBED_BOWLS
    + _FOUND % ("bowls", "one"),
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
                    yield _unknown(record.origin.place("signs", i, *step), sign, answer)
    for one in signs_seen(register):
        sign = register.signs.get(one.seen.sign)
        if sign and one.seen.seen not in sign.answers:
            yield _unknown(one.teardown.origin.place(*one.at, "seen"), sign, one.seen.seen)


def _unknown(place: Place, sign: Sign, answer: str) -> Finding:
    todo = _("write one of {}, or add it to that sign").format(", ".join(sign.answers))
    return Finding(place, _("{answer} is no answer of {id}").format(answer=answer, id=sign.id), todo)


def _twice(register: Register) -> Iterator[Finding]:
    for record in _with_signs(register):
        known: set[str] = set()
        for i, shown in enumerate(record.signs):
            if shown.sign in known:
                place = record.origin.place("signs", i, "sign")
                yield Finding(
                    place, _("a second answer for {}").format(shown.sign), _("put it under or of the first")
                )
            elif len(set(shown.every)) < len(shown.every):
                place = record.origin.place("signs", i, "or")
                yield Finding(
                    place,
                    _("{seen} twice for {sign}").format(seen=shown.seen, sign=shown.sign),
                    _("say it once"),
                )
            known.add(shown.sign)
    had: set[tuple[Teardown, Step, str, str | None]] = set()
    for one in signs_seen(register):
        if (once := (one.teardown, one.at[1], one.seen.sign, one.seen.number)) in had:
            place = one.teardown.origin.place(*one.at, "sign")
            yield Finding(place, _("a second answer for {}").format(one.seen.sign), _("keep what was seen"))
        had.add(once)


def _otherwise(register: Register) -> Iterator[Finding]:
    for one in signs_seen(register):
        if one.otherwise:
            recorded = (
                _("{id} with {seen}").format(id=thing.id, seen=any_of(_shown(one, thing)))
                for thing in one.things
            )
            read = _("{seen} was seen, and {sign} is recorded of {recorded}").format(
                seen=one.seen.seen, sign=one.seen.sign, recorded=all_of(recorded)
            )
            others = _that_show(register, one)
            which = (
                _("if it was {}, name that").format(any_of(others))
                if others
                else _("if it was none of them, say so")
            )
            todo = _("{}; if it was made so too, add that under or in its record").format(which)
            yield Finding(one.teardown.origin.place(*one.at, "seen"), read, todo)


def _shown(one: SeenOn, thing: Assembly | PartRecord) -> tuple[str, ...]:
    shown = one.recorded(thing)
    return shown.every if shown else ()


def _that_show(register: Register, one: SeenOn) -> list[str]:
    """The assemblies at the position that are recorded as it was seen."""
    here = () if one.seen.number else assemblies_at(register, one.find.position)
    return [thing.assemblies[0].id for thing in here if one.seen.seen in thing.answers(one.seen.sign)]


def _unsaid(register: Register) -> Iterator[Finding]:
    for one in signs_seen(register):
        if len(one.things) == 1 and one.find.condition in GOOD and one.recorded(one.things[0]) is None:
            (thing,) = one.things
            read = _("{sign} was seen on {id}, whose record does not say it").format(
                sign=one.seen.sign, id=thing.id
            )
            todo = _("add it to {} with this teardown as its evidence").format(thing.id)
            yield Finding(one.teardown.origin.place(*one.at), read, todo)


def _reworded(register: Register) -> Iterator[Finding]:
    for record in register.of(Signs).values():
        for i, sign in enumerate(record.signs):
            had: set[str] = set()
            for j, one in enumerate(sign.reworded):
                place = record.origin.place("signs", i, "reworded", j)
                if one.now not in sign.answers:
                    yield _unknown(record.origin.place("signs", i, "reworded", j, "now"), sign, one.now)
                elif one.was in sign.answers:
                    yield Finding(
                        place,
                        _("{was} is an answer of {id} still").format(was=one.was, id=sign.id),
                        _("leave it out here"),
                    )
                elif one.was in had:
                    yield Finding(
                        place,
                        _("{was} twice for {id}").format(was=one.was, id=sign.id),
                        _("keep it in one place only"),
                    )
                had.add(one.was)


def _unused(register: Register) -> Iterator[Finding]:
    used = {shown.sign for record in _with_signs(register) for shown in record.signs}
    for record in register.of(Signs).values():
        for i, sign in enumerate(record.signs):
            if sign.id not in used:
                read = _("nothing is recorded to show {}").format(sign.id)
                yield Finding(
                    record.origin.place("signs", i), read, _("say which things do, or leave it out")
                )


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
        read = _("no sign tells {one} from {others}").format(
            one=record.id, others=", ".join(one.assemblies[0].id for one in alike)
        )
        todo = _("record a sign that both show, each in its own way, or leave it an open question")
        yield Finding(record.origin.place(*key, key=True), read, todo)


CHECKS = (
    Check(ANSWER_UNKNOWN, _answers),
    Check(SIGN_TWICE, _twice),
    Check(REWORDED, _reworded),
    Check(SIGN_UNUSED, _unused),
    Check(NOT_PARTED, _not_parted),
    Check(SEEN_OTHERWISE, _otherwise),
    Check(SEEN_UNSAID, _unsaid),
)
