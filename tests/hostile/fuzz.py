"""Random cases, made from good and bad ones by small damages, and what must come of every one of them.

    python -m tests.hostile.fuzz --minutes 30 [--seed 7] records|pictures|drawings|packets|projects|sheets

Whatever breaks its promise is written into `corpus/`, which the tests replay for ever after.
"""

from __future__ import annotations

import argparse
import os
import random
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

LONGEST = 10  # CPU seconds that one case may take, on any machine we know
CORPUS = Path(__file__).parent / "corpus"


@dataclass(frozen=True, slots=True)
class Fuzzer:
    """`make` gives a case; `judge` says in a word what came of it, and raises where a promise is broken."""

    make: Callable[[random.Random], bytes]
    judge: Callable[[bytes], str]


@dataclass(slots=True)
class Report:
    """What came of a run: how often each word, the slowest case, and the first case of each break."""

    outcomes: Counter[str] = field(default_factory=Counter)
    slowest: tuple[float, bytes] = (0.0, b"")
    broken: dict[str, bytes] = field(default_factory=dict)

    def __str__(self) -> str:
        told = ", ".join(f"{count:,} {word}" for word, count in self.outcomes.most_common())
        return f"{self.outcomes.total():,} cases: {told}; the slowest {self.slowest[0]:.2f} s"


def run(fuzzer: Fuzzer, seconds: float, seed: int) -> Report:
    chance, report, end = random.Random(seed), Report(), time.monotonic() + seconds
    while time.monotonic() < end:
        case = fuzzer.make(chance)
        started = time.process_time()
        try:
            report.outcomes[fuzzer.judge(case)] += 1
        except Exception as failure:
            report.outcomes["broken"] += 1
            report.broken.setdefault(_where(failure), case)
        report.slowest = max(report.slowest, (time.process_time() - started, case))
    if report.slowest[0] > LONGEST:
        report.broken[f"took {report.slowest[0]:.0f} s"] = report.slowest[1]
    return report


def _where(failure: Exception) -> str:
    """One name for all failures at one place."""
    last = traceback.extract_tb(failure.__traceback__)[-1]
    return f"{type(failure).__name__} at {Path(last.filename).name}:{last.lineno}: {failure!s:.200}"


def keep(name: str, case: bytes) -> Path:
    file = CORPUS / name / sha256(case).hexdigest()[:12]
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(case)
    return file


def fuzzers() -> dict[str, Fuzzer]:
    from tests.hostile import (
        fuzz_drawings,
        fuzz_packets,
        fuzz_pictures,
        fuzz_projects,
        fuzz_records,
        fuzz_sheets,
    )

    return {
        "records": fuzz_records.FUZZER,
        "pictures": fuzz_pictures.FUZZER,
        "drawings": fuzz_drawings.FUZZER,
        "packets": fuzz_packets.FUZZER,
        "projects": fuzz_projects.FUZZER,
        "sheets": fuzz_sheets.FUZZER,
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("which", choices=fuzzers())
    parser.add_argument("--minutes", type=float, default=30)
    parser.add_argument("--seed", type=int, default=int(time.time()))
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="spanbook-fuzz-cache-") as cache:
        os.environ["XDG_CACHE_HOME"] = cache
        report = run(fuzzers()[asked.which], asked.minutes * 60, asked.seed)
    print(f"{asked.which}, seed {asked.seed}: {report}")
    for where, case in report.broken.items():
        print(f"{keep(asked.which, case)}: {where}")
    sys.exit(bool(report.broken))


if __name__ == "__main__":
    main()
