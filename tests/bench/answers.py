"""The computations alone: what to order for every number, one long break, standings, a comparison. By hand.

`.venv/bin/python -m tests.bench.answers`
"""

from __future__ import annotations

import random
import re
import resource
import subprocess
import tempfile
import time
from pathlib import Path

from spanbook.answers.applicability import Fits
from spanbook.answers.changepoint import Observation, Rates, agreed, report
from spanbook.answers.orders import Ordering
from spanbook.answers.standing import standings
from spanbook.faces.diff import compare
from spanbook.ground.intervals import Run
from spanbook.reading import read_bytes
from spanbook.reading.records import Record, Supersession
from spanbook.register.link import build
from spanbook.rules.checking import check_folder
from tests.bench import community

ACTS = 100_000


def main() -> None:
    supersessions()
    breaks()
    standing()
    comparison()


def supersessions() -> None:
    """200,000 numbers and 100,000 acts: chains, splits and merges drawn at random."""
    chance = random.Random(1)
    records: list[Record] = []
    for i in range(ACTS):
        old, new = 2 * i, 2 * i + chance.choice([1, 1, 1, 2, 4])
        split = f", {{number: n{new + 1}}}" if chance.random() < 0.1 else ""
        text = f"kind: supersession\nid: a{i}\nold: [{{number: n{old}}}]\nnew: [{{number: n{new}}}{split}]\n"
        made = read_bytes(text.encode(), f"a{i}.yml", "supersession", f"a{i}")
        assert isinstance(made, Supersession)
        records.append(made)
    register = build(records)
    started = time.process_time()
    ordering = Ordering(register)
    found = [ordering.of(key) for key in register.parts]
    seconds = time.process_time() - started
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6
    print(f"{len(register.parts)} numbers, {ACTS} acts: {len(found)} orders")
    print(f"  in {seconds:.2f} CPU s, the whole process at most {peak:.2f} GB")


def breaks() -> None:
    """A range of 100,000 numbers with 40 teardowns."""
    seen = [Observation(i * 2500 + 7, i > 20, i % 3 == 0) for i in range(40)]
    started = time.process_time()
    report(agreed(Run(1, 100_000), [Run(1, 100_000)]), seen, Rates())
    print(f"a break in 100,000 numbers, 40 teardowns: {time.process_time() - started:.3f} CPU s")


def standing() -> None:
    """Every standing of a community of 10,000 records."""
    with tempfile.TemporaryDirectory() as folder:
        community.keep_apart(Path(folder))
        count = community.write(Path(folder), 10_000)
        fits = Fits(check_folder(Path(folder)).register)
    started = time.process_time()
    found = standings(fits)
    print(f"{len(found)} standings of {count} records: {time.process_time() - started:.2f} CPU s")


def comparison() -> None:
    """One assembly with another bound among 10,000 records, between two git revisions."""
    with tempfile.TemporaryDirectory() as folder:
        project = Path(folder)
        community.keep_apart(project)
        count = community.write(project, 10_000)
        git = ["git", "-C", folder, "-c", "user.name=m", "-c", "user.email=m@example.org"]
        subprocess.run([*git, "init", "-q", "-b", "main"], check=True)
        _commit(git)
        changed = next((project / "content/assemblies").rglob("*.yml"))
        changed.write_text(re.sub(r"last: .*", "last: unknown", changed.read_text(), count=1))
        subprocess.run([*git, "switch", "-q", "-c", "proposal"], check=True)
        _commit(git)
        for cache in ("cold", "warm"):
            started, cpu = time.monotonic(), time.process_time()
            found = compare("main", "proposal", project)
            took = f"{time.monotonic() - started:.2f} s, {time.process_time() - cpu:.2f} CPU s"
            print(f"compare of one changed record among {count}, cache {cache}: {took}")
    print(f"  {len(found.answers)} answers change")


def _commit(git: list[str]) -> None:
    subprocess.run([*git, "add", "-A"], check=True)
    subprocess.run([*git, "commit", "-q", "-m", "The records"], check=True)


if __name__ == "__main__":
    main()
