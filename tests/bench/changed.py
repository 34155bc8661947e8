"""What judging costs where one record of many has changed: CPU seconds of whole commands, the least of three.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.changed [RECORDS …]`. What was read
before is kept, and what the rules found in the main branch; the record gets a title that it never had before
each run, so that nobody has judged this state of it.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from itertools import count
from pathlib import Path

from tests.bench import community
from tests.bench.again import retitle
from tests.bench.site import cpu

CONFIG = (
    "site_name: Bench\ndocs_dir: content\ntheme: {name: spanbook}\nplugins: [spanbook]\nnav: [index.md]\n"
)
TIMES = 3
COMMANDS = {
    "check": ("check",),
    "compare": ("compare", "main", "proposal"),
    "review": ("review", "main", "proposal"),
}


def main() -> None:
    for records in [int(argument) for argument in sys.argv[1:]] or [1000, 10000]:
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            community.keep_apart(folder)
            made = community.write(folder / "project", records)
            for command, seconds in measure(folder / "project").items():
                print(f"{made} records, {command}: {seconds:.2f} CPU s", flush=True)


def measure(project: Path) -> dict[str, float]:
    (project / "mkdocs.yml").write_text(CONFIG)
    _git(project, "init", "--quiet", "--initial-branch=main")
    _git(project, "add", ".")
    _git(project, "commit", "--quiet", "--message=all of it")
    _git(project, "checkout", "--quiet", "-b", "proposal")
    record, titles = min((project / "content/assemblies").iterdir()), map(str, count())
    return {
        name: min(_once(project, record, next(titles), command) for _ in range(TIMES + 1))
        for name, command in COMMANDS.items()
    }


def _once(project: Path, record: Path, title: str, command: tuple[str, ...]) -> float:
    retitle(record, f"Title {title}")
    _git(project, "commit", "--quiet", "--all", f"--message={title}")
    return cpu(project, sys.executable, "-m", "spanbook", *command)


def _git(project: Path, *said: str) -> None:
    own = ("-c", "user.name=bench", "-c", "user.email=bench@bench.example")
    subprocess.run(["git", *own, *said], cwd=project, check=True)


if __name__ == "__main__":
    main()
