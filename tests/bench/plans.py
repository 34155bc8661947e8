"""Plans of conversions on a machine of 200 positions with 20 conversions each. By hand.

`.venv/bin/python -m tests.bench.plans`
"""

from __future__ import annotations

import random
import time

from spanbook.answers.conversions import as_late_as_it_can_be
from spanbook.answers.plans import convert
from spanbook.answers.readings import read_serial
from spanbook.answers.steps import Holds
from spanbook.reading import read_bytes
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register

POSITIONS = 200
CONVERSIONS = 20  # of each position, among
ASSEMBLIES = 6
MACHINE = """\
kind: machine
id: x
title: X
maker: Example Works
series: [{id: xa, stamped: "XA {number}", plate: machine, first: 1, last: 2000}]
"""


def community(needing: int) -> Register:
    """A machine on which one in `needing` conversions needs something at some other position (0: none)."""
    chance = random.Random(1)
    records = [_record("machine", "x", MACHINE)]
    places = "".join(f"- {{id: p{i}, title: P{i}}}\n" for i in range(POSITIONS))
    records.append(_record("positions", "positions", f"kind: positions\npositions:\n{places}"))
    for i in range(POSITIONS):
        for j in range(ASSEMBLIES):
            head = f"kind: assembly\nid: a{i}-{j}\ntitle: A{i}-{j}\nposition: p{i}\n"
            span = "serials: [{series: xa, first: 1, last: open}]\n"
            records.append(_record("assembly", f"a{i}-{j}", head + span))
        for k in range(CONVERSIONS):
            start, to = chance.sample(range(ASSEMBLIES), 2)
            needs = ""
            if needing and chance.random() < 1 / needing:
                other = chance.randrange(POSITIONS - 1)
                other += other >= i
                held = f"a{other}-{chance.randrange(ASSEMBLIES)}"
                needs = f"needs: [{{position: p{other}, assemblies: [{held}], why: X}}]\n"
            records.append(
                _record(
                    "conversion",
                    f"c{i}-{k:02}",
                    f"kind: conversion\nid: c{i}-{k:02}\ntitle: C\nposition: p{i}\n"
                    f"from: [a{i}-{start}]\nto: a{i}-{to}\nserials: [{{series: xa, first: 1, last: open}}]\n"
                    f"year: {chance.randint(1930, 1950)}\n"
                    f"adds: [{{number: n{chance.randrange(900)}, quantity: {chance.randint(1, 9)}}}]\n"
                    f"{needs}",
                )
            )
    return build(records)


def _record(kind: str, id_: str, text: str) -> Record:
    made = read_bytes(text.encode(), f"{id_}.yml", kind, id_)
    assert isinstance(made, Record), made
    return made


def main() -> None:
    for needing in (0, 10, 4, 2):
        made = community(needing)
        reading = read_serial(made, "XA 7")[0]
        holds: Holds = {f"p{i}": f"a{i}-0" for i in range(POSITIONS)}
        one = [_timed(made, reading, holds, {f"p{i}": f"a{i}-{1 + i % 5}"}) for i in range(POSITIONS)]
        slowest = max(seconds for seconds, _ in one)
        mean = sum(seconds for seconds, _ in one) / len(one)
        told: dict[str, int] = {}
        for _, answer in one:
            told[answer] = told.get(answer, 0) + 1
        print(
            f"needs in 1 of {needing}: one position, mean {mean * 1e3:.1f} ms, "
            f"slowest {slowest * 1e3:.0f} ms: {told}"
        )
        started = time.process_time()
        latest = as_late_as_it_can_be(made, reading, holds)
        seconds = time.process_time() - started
        taken, answer = _timed(made, reading, holds, latest)
        print(f"  the latest goal {seconds:.2f} s; the plan to it {taken:.2f} s: {answer}")


def _timed(made: Register, reading: object, holds: Holds, wanted: Holds) -> tuple[float, str]:
    started = time.process_time()
    found = convert(made, reading, holds, wanted)  # type: ignore[arg-type]
    seconds = time.process_time() - started
    why = getattr(found, "why", None)
    return seconds, str(why) if why else "plan"


if __name__ == "__main__":
    main()
