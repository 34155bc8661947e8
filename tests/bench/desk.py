"""What a saved record takes until it is a page, as `spanbook serve` makes it between two builds.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.desk [RECORDS …]`. CPU seconds of
looking at all files, reading what changed, linking and making the page, each the least of five saves; then
of a file that comes, and goes again.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TypeVar

from spanbook.answers.answers import Answers
from spanbook.outputs.serving import Seen, look
from spanbook.reading import Reading
from spanbook.reading.again import Again, states_below
from spanbook.reading.files import Folder
from spanbook.register.link import build
from spanbook.register.relink import linked
from spanbook.rules.checking import collector_resting
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.bench import community
from tests.bench.again import retitle

T = TypeVar("T")
_SAVES = 5
_KINDS = ("assemblies", "teardowns", "sources", "supersessions", "parts")


def main() -> None:
    for records in [int(argument) for argument in sys.argv[1:]] or [1000]:
        with tempfile.TemporaryDirectory() as name, collector_resting():
            folder = Path(name)
            community.keep_apart(folder)
            print(f"{community.write(folder, records)} records", flush=True)
            measure((folder / "content").resolve())


def reading(again: Again, seen: Seen) -> Reading:
    return again.read(states_below(str(again.folder.path), seen))


def measure(content: Path) -> None:
    again = Again(Folder(content), "content")
    read = reading(again, look([content]))
    register = build(read.records, read.unread)
    for kind in (kind for kind in _KINDS if (content / kind).is_dir()):
        record = next(iter(sorted((content / kind).iterdir())))
        least: dict[str, float] = {}

        def timed(what: str, do: Callable[[], T], least: dict[str, float] = least) -> T:
            started = time.process_time()
            made = do()
            least[what] = min(least.get(what, 1e9), time.process_time() - started)
            return made

        for save in range(_SAVES):
            retitle(record, f"another {save}")
            record.write_text(f"{record.read_text()}\n")
            seen = timed("look", partial(look, [content]))
            now = timed("read", partial(reading, again, seen))
            register = timed("link", partial(linked, now.records, now.unread, register))
            page = timed("page", partial(views.page_at, Site(Answers(register)), f"{kind}/{record.stem}/"))
            assert page is not None, record
            timed("inside", partial(page.to_html, Around()))
        told = ", ".join(f"{what} {seconds:.3f}" for what, seconds in least.items())
        print(f"  {kind}: {sum(least.values()):.3f} ({told})", flush=True)
        least.clear()
        other, text = record.with_stem("more"), record.read_text()
        for _ in range(_SAVES):
            for what in ("came", "went"):
                if what == "came":
                    other.write_text(text.replace(f"id: {record.stem}", "id: more", 1))
                else:
                    other.unlink()
                now = timed(f"{what}, read", lambda: reading(again, look([content])))
                register = timed(f"{what}, link", partial(linked, now.records, now.unread, register))
        print("   ", ", ".join(f"{what} {seconds:.3f}" for what, seconds in least.items()), flush=True)


if __name__ == "__main__":
    main()
