"""What the tables that scripts look up in, and the files of data, cost: CPU milliseconds, and calls.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.tables CONTENT`, with the folder of
some records. What pages ask as well (breaks, standings, questions) is worked out before. Calls are those of
Python, counted by cProfile: on a busy machine they say what milliseconds do not.
"""

from __future__ import annotations

import cProfile
import gc
import pstats
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from spanbook.answers.answers import Answers
from spanbook.answers.search import Asker
from spanbook.outputs import data
from spanbook.outputs.data.about import About
from spanbook.reading import yaml
from spanbook.reading.plain import said
from spanbook.register.model import Register
from spanbook.rules.checking import check_folder
from spanbook.site import assets, record_files
from spanbook.site.common import Site
from spanbook.site.data import release_of
from spanbook.site.documents import documents
from spanbook.site.finder import tables as finder
from spanbook.site.tables import tables

_TIMES = 5
_ABOUT = About("bench", "Bench", None, None, None, "bench", None)


def main() -> None:
    register = check_folder(Path(sys.argv[1])).register
    gc.disable()
    least: dict[str, float] = {}
    for _ in range(_TIMES):
        for name, step in steps(register):
            started = time.process_time()
            step()
            least[name] = min(time.process_time() - started, least.get(name, sys.maxsize))
    for name, step in steps(register):
        with cProfile.Profile() as counted:
            step()
        calls = pstats.Stats(counted).total_calls  # type: ignore[attr-defined]
        print(f"{name:24}{least[name] * 1000:8.1f} ms{calls:12,} calls")


def steps(register: Register) -> Iterator[tuple[str, Callable[[], object]]]:
    """Each of them with what it is called, in the order of a build; none knows what an earlier run found."""
    yaml.read.cache_clear()
    site = Site(Answers(register))
    answers = site.answers
    _ = answers.breaks, answers.standings, answers.questions
    read = {record: site.said(record) for record in register.records}
    yaml.read.cache_clear()
    yield "files read again", lambda: [said(record) for record in register.records]
    asker = Asker(answers, documents(register))
    yield "the finder's index", lambda: Asker(answers, documents(register))
    yield "the finder's tables", lambda: dict(finder.files(asker, {}))
    yield "what to order for which", lambda: dict(assets.tables(site, "which"))
    yield "keys", lambda: dict(assets.tables(site, "holding"))
    yield "forms", lambda: dict(assets.tables(site, "forms"))
    values = {record: one.values for record, one in read.items()}
    made = tables(answers, values.__getitem__)
    yield "tables", lambda: tables(answers, values.__getitem__)
    yield "what a state is called", lambda: release_of(made)
    yield (
        "files of data",
        lambda: dict(data.every_file(made, _ABOUT, list(map(data.Record.of, values.values())))),
    )
    yield "records beside pages", lambda: dict(record_files.files(answers, values.__getitem__, None))


if __name__ == "__main__":
    main()
