"""How often the likeliest thing is the one that is held: sixty things, and people who answer wrong. By hand.

`.venv/bin/python -m tests.bench.signs`

Somebody holds one of sixty things, or one in sixty-one times what nobody has recorded, looks at what he is
told to look at, and is wrong in 7 of 100 answers. Compared are what the key says, and striking out whatever
is recorded otherwise. In the second world signs go together in threes: who takes one for another's takes all.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass

from spanbook.answers.applicability import Fits
from spanbook.answers.part_keys import worn_forms
from spanbook.answers.signs.key import Key, Seen
from spanbook.answers.signs.things import Thing, assemblies_at
from spanbook.reading.records import Assembly, Record
from tests.support.registers import record, register

THINGS = 60
SIGNS = 24
RECORDED = 0.85  # of the signs of a thing
WRONG = 0.07
MOST = 12  # questions that somebody answers
Truth = Mapping[str, str]


@dataclass(frozen=True)
class Went:
    """Shares of those who were told right, by the key and by striking out, what the key said of how sure it
    is, and how many questions it asked, each the mean of all."""

    right: float
    struck: float
    said: float
    questions: float


@dataclass(frozen=True)
class World:
    key: Key
    truths: Mapping[str, Truth]
    answers: Mapping[str, tuple[str, ...]]
    together: int


def world(chance: random.Random, together: int = 1) -> World:
    """Things with a random answer to each sign; `together` signs in a row are answered alike."""
    answers = {f"s{i:02}": tuple(f"w{k}" for k in range(2 + i // together % 3)) for i in range(SIGNS)}
    truths = {f"a{i:02}": _truth(chance, answers, together) for i in range(THINGS)}
    lines = "".join(
        f"- {{id: {id_}, asks: {id_}, answers: [{', '.join(of)}]}}\n" for id_, of in answers.items()
    )
    signs = record(f"kind: signs\nsigns:\n{lines}", "signs", "signs")
    held = register(signs, *(_thing(chance, id_, truth) for id_, truth in truths.items()))
    key = Key(Fits(held), "cover", assemblies_at(held, "cover"), lambda: worn_forms(held))
    return World(key, truths, answers, together)


def _truth(chance: random.Random, answers: Mapping[str, tuple[str, ...]], together: int) -> Truth:
    first = {i: chance.random() for i in range(0, SIGNS, together)}
    return {sign: of[int(first[i - i % together] * len(of))] for i, (sign, of) in enumerate(answers.items())}


def _thing(chance: random.Random, id_: str, truth: Truth) -> Record:
    shown = "".join(f"- {{sign: {s}, seen: {a}}}\n" for s, a in truth.items() if chance.random() < RECORDED)
    head = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\n"
    return record(f"{head}serials: [{{series: xa, first: 1, last: 5}}]\nsigns:\n{shown}", "assembly", id_)


def went(world: World, chance: random.Random, people: int) -> Went:
    """What became of so many people."""
    right, struck, said, questions = 0, 0.0, 0.0, 0
    for _ in range(people):
        of = chance.choice([*world.truths, None])
        truth = world.truths[of] if of else _truth(chance, world.answers, world.together)
        answers: dict[str, str | None] = {}
        answered = _answered(world, chance, truth)
        told = world.key.told(Seen(answers))
        while told.looks and len(answers) < MOST:
            sign = told.looks[0].sign.id
            answers[sign] = answered[sign]
            told = world.key.told(Seen(answers))
        right += _id(told.likely[0].thing) == of
        said += told.likely[0].stated
        questions += len(answers)
        struck += _struck(world, answered, of)
    return Went(right / people, struck / people, said / people, questions / people)


def _answered(world: World, chance: random.Random, truth: Truth) -> Truth:
    """What one person answers to each sign, wrong ones too: signs that go together are taken for one."""
    said: dict[str, str] = {}
    for i, (sign, of) in enumerate(world.answers.items()):
        if i % world.together == 0:
            off = chance.randrange(1, len(of)) if chance.random() < WRONG else 0
        said[sign] = of[(of.index(truth[sign]) + off) % len(of)]
    return said


def _struck(world: World, answered: Truth, of: str | None) -> float:
    """How likely striking out tells right, asking what parts what is left into the most even halves."""
    left, asked = list(world.key.things), set[str]()
    while len(left) > 1 and len(asked) < MOST:
        sign = min((s for s in world.answers if s not in asked), key=lambda s: _largest(left, s))
        asked.add(sign)
        left = [one for one in left if sign not in one.shows or answered[sign] in one.shows[sign].every]
    ids = [_id(one) for one in left]
    return (of is None) if not ids else (of in ids) / len(ids)


def _largest(left: list[Thing], sign: str) -> int:
    """How many are left whatever is answered, at most."""
    known = [one.shows[sign].seen for one in left if sign in one.shows]
    return max(map(known.count, set(known)), default=0) + len(left) - len(known)


def _id(thing: Thing | None) -> str | None:
    return thing.of.id if thing and isinstance(thing.of, Assembly) else None


def main() -> None:
    for together in (1, 3):
        chance = random.Random(together)
        found = [went(world(chance, together), chance, 200) for _ in range(5)]
        means = [sum(getattr(one, name) for one in found) / len(found) for name in Went.__dataclass_fields__]
        right, struck, said, questions = means
        print(
            f"signs that go together: {together}. right {right:.1%}, said {said:.1%}, "
            f"questions {questions:.1f}; striking out {struck:.1%} right"
        )


if __name__ == "__main__":
    main()
