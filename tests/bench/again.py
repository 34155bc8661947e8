"""What building again costs, and how long a saved record takes to be on the screen of whoever serves it.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.again [RECORDS …]`. An invented
community with the demonstration's navigation, in our own theme and in Material, its pictures kept already.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from tests.bench import community
from tests.bench.site import cpu
from tests.support.command import PROJECT
from tests.support.frames import OWN, settings_in

_BUILD = (sys.executable, "-m", "spanbook", "build")
_PATIENCE = 900  # seconds


def main() -> None:
    settings = (PROJECT / "mkdocs.yml").read_text(encoding="utf-8")
    for records in [int(argument) for argument in sys.argv[1:]] or [1000]:
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            community.keep_apart(folder)
            count = community.write(folder, records)
            for guide in (PROJECT / "content").glob("*.md"):
                (folder / "content" / guide.name).write_text("# A guide\n")
            for theme, chosen in {"our own": settings_in(settings, OWN), "Material": settings}.items():
                (folder / "mkdocs.yml").write_text(chosen)
                print(f"{count} records, {theme}", *measure(folder), sep="\n  ", flush=True)


def measure(folder: Path) -> list[str]:
    cpu(folder, *_BUILD, "--anew")
    whole, nothing = cpu(folder, *_BUILD, "--anew"), cpu(folder, *_BUILD)
    record = next(iter(sorted((folder / "content/assemblies").iterdir())))
    retitle(record, "another")
    one = cpu(folder, *_BUILD, "--changes", "changes.txt")
    lines = (folder / "changes.txt").read_text().splitlines()
    sorts = Counter(
        "pages" if x.endswith(".html") else "records" if x.endswith("record.json") else "others"
        for x in lines
    )
    early, late = saved(folder, record)
    return [
        f"build, all of it         {whole:8.2f} CPU s",
        f"nothing has changed      {nothing:8.2f} CPU s",
        f"one title has changed    {one:8.2f} CPU s, files: {dict(sorts)}",
        f"saved while it is served {early:8.2f} s to the screen, {late:8.2f} until all is built",
    ]


def retitle(record: Path, title: str) -> None:
    record.write_text(re.sub("(?m)^title: .*", f"title: {title}", record.read_text()))


def saved(folder: Path, record: Path) -> tuple[float, float]:
    """Seconds from saving a record until its page shows it, and until the site is of the new state."""
    address = "127.0.0.1:8765"
    command = [sys.executable, "-m", "spanbook", "serve", "--address", address]
    serving = subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    page, state = f"http://{address}/assemblies/{record.stem}/", f"http://{address}/release.json"
    try:
        until(page, lambda text: "another" in text)
        before = read(state)
        started = time.monotonic()
        retitle(record, "a third one")
        until(page, lambda text: "a third one" in text)
        early = time.monotonic() - started
        until(state, lambda text: text not in ("", before))
        return early, time.monotonic() - started
    finally:
        serving.terminate()
        serving.wait()


def until(address: str, right: Callable[[str], bool]) -> None:
    last = time.monotonic() + _PATIENCE
    while not right(read(address)):
        if time.monotonic() > last:
            raise TimeoutError(address)
        time.sleep(0.05)


def read(address: str) -> str:
    """What is at an address; nothing while nobody answers."""
    try:
        with urllib.request.urlopen(address) as answer:
            return str(answer.read().decode())
    except OSError:
        return ""


if __name__ == "__main__":
    main()
