"""How long a community's spreadsheet takes to come in: CPU seconds and the clock, of whole commands.

    python -m tests.bench.sheets [5000]

Three sheets of so many rows: a parts list in sections of ten lines (XLSX), a register of machines with three
places each (ODS), a list of acts (CSV). Each is read, drafted, held against the records and written.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.support import sheets
from tests.support.command import project

LIDS = """\
kind: assembly
source: {id: the-list, title: A list, class: recollection}
columns:
- {column: No., field: parts.number}
- {column: Name, field: parts.name}
- {column: Qty, field: parts.quantity}
section: title
fixed: {position: body/cover, serials.1.series: xa, serials.1.first: unknown, serials.1.last: unknown}
"""
LOOKS = """\
kind: teardown
columns:
- {column: Serial, field: serial}
- {column: Day, field: date}
- {column: Who, field: seen-by}
- {column: State, field: condition}
- {column: Cover, field: found.1.assembly, words: {flat: lid}}
- {column: Drain, field: found.2.note}
- {column: Pump, field: found.3.note}
fixed: {found.1.position: body/cover, found.2.position: body/drain, found.3.position: pump}
"""
ACTS = """\
kind: supersession
source: {id: book}
id: [Old, New]
columns:
- {column: Old, field: old.number}
- {column: New, field: new.number}
- {column: Year, field: year}
"""


def lids(count: int) -> sheets.Rows:
    rows: list[list[object]] = [["No.", "Name", "Qty"]]
    for i in range(count):
        if i % 10 == 0:
            rows.append([f"LID OF SORT {i // 10}"])
        rows.append([f"L-{i:05}", f"Part {i % 700}", 1 + i % 4])
    return rows


def looks(count: int) -> sheets.Rows:
    head: list[object] = ["Serial", "Day", "Who", "State", "Cover", "Drain", "Pump"]
    return [
        head,
        *(
            [f"XA {1 + i % 40}", f"20{i % 20:02}", f"owner{i}", "altered", "flat", f"a cock {i}", None]
            for i in range(count)
        ),
    ]


def acts(count: int) -> sheets.Rows:
    return [["Old", "New", "Year"], *([f"A-{i:05}", f"B-{i:05}", 1930 + i % 9] for i in range(count))]


SHAPES: dict[str, tuple[Callable[..., Path], Callable[[int], sheets.Rows], str]] = {
    "a parts list, XLSX": (sheets.xlsx, lids, LIDS),
    "a register of machines, ODS": (sheets.ods, looks, LOOKS),
    "a list of acts, CSV": (sheets.csv, acts, ACTS),
}


def main(count: int) -> None:
    for name, (make, rows, text) in SHAPES.items():
        with tempfile.TemporaryDirectory() as folder:
            place = project(Path(folder) / "p")
            sheet = make(Path(folder) / "sheet", rows(count))
            map_ = Path(folder) / "a.map.yml"
            map_.write_text(text)
            command = [
                sys.executable,
                "-m",
                "spanbook",
                "import",
                sheet,
                "--map",
                map_,
                "--folder",
                place,
                "--yes",
            ]
            for again in ("", ", again"):
                print(f"{name}{again}: {_timed([str(word) for word in command])}")


def _timed(command: list[str]) -> str:
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    told = subprocess.run(command, check=True, capture_output=True, text=True).stdout.splitlines()[0]
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return f"{cpu:.1f} CPU s, {time.monotonic() - began:.1f} s by the clock ({told})"


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5000)
