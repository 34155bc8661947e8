"""An invented community of any size, for the benchmarks: the same records for the same number."""

from __future__ import annotations

import os
import random
from collections.abc import Iterator
from pathlib import Path

GROUPS, PLACES = 8, 5
SERIES_LENGTH = 4000
PARTS_OF_AN_ASSEMBLY = 6


def keep_apart(folder: Path) -> None:
    """What is kept of the records between runs goes with the folder, for this process and those it starts."""
    os.environ["XDG_CACHE_HOME"] = str(folder / "cache")


def write(folder: Path, records: int, seed: int = 1) -> int:
    """Write about `records` records below `folder/content`; the exact number comes back."""
    count = 0
    for path, text in _records(records, random.Random(seed)):
        file = folder / "content" / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
        count += 1
    return count


def _records(records: int, chance: random.Random) -> Iterator[tuple[str, str]]:
    yield "positions.yml", _positions()
    machines = max(1, records // 400)
    series = [f"s{m}-{i}" for m in range(machines) for i in range(2)]
    for machine in range(machines):
        yield f"machines/machine-{machine}.yml", _machine(machine)
    sources = max(4, records // 100)
    for source in range(sources):
        yield f"sources/source-{source}.yml", _source(source)
    assemblies = list(_assemblies(records * 6 // 10, series, sources, chance))
    for id_, _, _, text in assemblies:
        yield f"assemblies/{id_}.yml", text
    for i in range(records * 2 // 10):
        yield f"teardowns/seen-{i}.yml", _teardown(i, assemblies, chance)
    for i in range(records * 15 // 100):
        yield f"supersessions/act-{i}.yml", _supersession(i, sources)


def _positions() -> str:
    lines = ["kind: positions", "positions:"]
    for group in range(GROUPS):
        lines += [f"- id: group-{group}", f"  title: Group {group}", "  positions:"]
        lines += [f"  - {{id: place-{place}, title: Place {group} {place}}}" for place in range(PLACES)]
    return "\n".join([*lines, ""])


def _machine(machine: int) -> str:
    runs = "".join(
        f'- {{id: s{machine}-{i}, stamped: "{chr(65 + i)}{machine} {{number}}", plate: engine, first: 1, '
        f"last: {SERIES_LENGTH}, years: {{1931: 1, 1932: 900, 1933: 2100}}, "
        "evidence: [{source: source-0}]}\n"
        for i in range(2)
    )
    head = f"kind: machine\nid: machine-{machine}\ntitle: Machine {machine}\nmaker: Bench Works\nseries:\n"
    return head + runs


def _source(source: int) -> str:
    return (
        f"kind: source\nid: source-{source}\ntitle: Parts book {source}\nclass: parts-book\n"
        f"year: {1930 + source % 20}\n"
    )


def _assemblies(
    count: int, series: list[str], sources: int, chance: random.Random
) -> Iterator[tuple[str, str, tuple[str, int, int], str]]:
    """Successive assemblies of each place of each series, with breaks that are not known to the number."""
    places = [(run, f"group-{g}/place-{p}") for run in series for g in range(GROUPS) for p in range(PLACES)]
    each = max(1, -(-count // len(places)))
    made = 0
    for run, position in places:
        edges = sorted(chance.sample(range(50, SERIES_LENGTH - 50, 40), each - 1))
        for i, (first, last) in enumerate(zip([1, *edges], [*edges, SERIES_LENGTH], strict=True)):
            if made == count:
                return
            id_ = f"{run}-{position.replace('/', '-')}-{i}"
            yield id_, position, (run, first, last), _assembly(id_, position, run, first, last, made, sources)
            made += 1


def _assembly(id_: str, position: str, run: str, first: int, last: int, made: int, sources: int) -> str:
    start = str(first) if first == 1 else f"[{first - 9}, {first + 10}]"
    end = "open" if last == SERIES_LENGTH else f"[{last - 10}, {last + 9}]"
    parts = "".join(
        f'- {{number: "{made * PARTS_OF_AN_ASSEMBLY + p:06d}", name: Part {made} {p}, quantity: {p + 1}}}\n'
        for p in range(PARTS_OF_AN_ASSEMBLY)
    )
    return (
        f"kind: assembly\nid: {id_}\ntitle: Assembly {made}\nposition: {position}\n"
        f"number: A{made:06d}\nserials:\n- series: {run}\n  first: {start}\n  last: {end}\n"
        f"  evidence:\n  - {{source: source-{made % sources}, at: p. {made % 90}}}\n"
        f"tell:\n- A rib on the lid of {made}\n- Three studs\nparts:\n{parts}"
        f"notes: |\n  The lid of *{made}* lifts with two fingers; [its place](/positions/{position}/).\n"
    )


def _teardown(
    i: int, assemblies: list[tuple[str, str, tuple[str, int, int], str]], chance: random.Random
) -> str:
    id_, position, (run, first, last), _ = assemblies[i % len(assemblies)]
    machine, letter = run[1:].split("-")
    number = chance.randint(first, last)
    return (
        f"kind: teardown\nid: seen-{i}\ndate: 2024-05\nseen-by: bench\n"
        f"serial: {chr(65 + int(letter))}{machine} {number}\ncondition: untouched\n"
        f"found:\n- {{position: {position}, assembly: {id_}}}\n"
    )


def _supersession(i: int, sources: int) -> str:
    old, new = i * PARTS_OF_AN_ASSEMBLY, i * PARTS_OF_AN_ASSEMBLY + 1
    return (
        f'kind: supersession\nid: act-{i}\nold:\n- number: "{old:06d}"\nnew:\n- number: "{new:06d}"\n'
        f"year: 1940\nevidence:\n- {{source: source-{i % sources}}}\n"
    )
