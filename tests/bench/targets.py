"""What a build takes, beside Hugo framing the same pages ready made: for the table of aims in the guide here.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.targets [--hugo PROGRAM] [RECORDS …]`.
An invented community in our own frame. Memory is the largest process's, clock seconds mean little on a
machine that does something else.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.bench import community, hugo

_CONFIG = """
site_name: Bench
site_url: https://bench.example/
docs_dir: content
theme: {name: spanbook}
plugins: [spanbook]
nav: [index.md]
"""
_BUILD = (sys.executable, "-m", "spanbook", "build")
_LIST = "changes.txt"


@dataclass(frozen=True, slots=True)
class Taken:
    """CPU and clock seconds of a command with all that it started, and megabytes of the largest process."""

    cpu: float
    clock: float
    memory: float

    def __str__(self) -> str:
        return f"{self.cpu:8.2f} CPU s {self.clock:8.2f} s {self.memory:8.0f} MB"


def main() -> None:
    given = sys.argv[1:]
    program = given[given.index("--hugo") + 1] if "--hugo" in given else None
    for records in [int(one) for one in given if one.isdigit()] or [1000]:
        with tempfile.TemporaryDirectory() as name:
            for line in table(Path(name), records, program):
                print(line, flush=True)


def table(folder: Path, records: int, program: str | None) -> Iterator[str]:
    community.keep_apart(folder)
    count = community.write(folder, records)
    (folder / "content/index.md").write_text("# Bench\n")
    (folder / "mkdocs.yml").write_text(_CONFIG)
    yield f"{count} records"
    yield f"  nothing kept        {taken(folder, *_BUILD, '--jobs', '1')}"
    for jobs in ("1", "2"):
        yield f"  all of it, {jobs} at once {taken(folder, *_BUILD, '--anew', '--jobs', jobs)}"
    yield f"  nothing has changed {taken(folder, *_BUILD)}"
    for what in (_retitled, _more, _less):
        told = what(folder / "content")
        yield f"  {told:19} {taken(folder, *_BUILD, '--changes', _LIST)}, files: {_sorts(folder / _LIST)}"
    yield f"  the site: {hugo.bytes_of(folder / 'site')}"
    if program:
        given = hugo.lay(folder / "site", folder / "hugo")
        yield f"  Hugo, {given:6} pages {taken(folder / 'hugo', program, 'build')}"


def taken(folder: Path, *command: str) -> Taken:
    """Raises CalledProcessError when the command fails."""
    started = time.monotonic()
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as run:
        _, status, used = os.wait4(run.pid, 0)
        run.returncode = os.waitstatus_to_exitcode(status)
    if run.returncode:
        raise subprocess.CalledProcessError(run.returncode, command)
    return Taken(used.ru_utime + used.ru_stime, time.monotonic() - started, used.ru_maxrss / 1000)


def _retitled(content: Path) -> str:
    record = min((content / "assemblies").iterdir())
    record.write_text(re.sub("(?m)^title: .*", "title: another", record.read_text()))
    return "a title has changed"


def _more(content: Path) -> str:
    record = min((content / "teardowns").iterdir())
    record.with_name("one-more.yml").write_text(re.sub("(?m)^id: .*", "id: one-more", record.read_text()))
    return "a teardown more"


def _less(content: Path) -> str:
    (content / "teardowns" / "one-more.yml").unlink()
    return "and gone again"


def _sorts(changes: Path) -> dict[str, int]:
    found = Counter(
        "pages" if line.endswith(".html") else "records" if line.endswith("record.json") else "others"
        for line in changes.read_text().splitlines()
    )
    return dict(found)


if __name__ == "__main__":
    main()
