"""What views and the insides of pages take, in CPU seconds, once the tables have asked for their answers.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.insides [RECORDS]`. As in a build,
what is no longer needed is not looked for meanwhile. The least of five is told.
"""

from __future__ import annotations

import gc
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from spanbook.answers.answers import Answers
from spanbook.rules.checking import check_folder
from spanbook.site import assets, views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.bench import community
from tests.support.command import PROJECT

T = TypeVar("T")
TRIES = 5


def main() -> None:
    records = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as name:
        community.keep_apart(Path(name))
        community.write(Path(name), records)
        for called, folder in (("invented", Path(name)), ("demonstration", PROJECT)):
            print(f"{called}: {told(folder)}", flush=True)


def told(folder: Path) -> str:
    gc.disable()
    answers = Answers(check_folder(folder).register)
    dict(assets.every_table(Site(answers), []))
    tries = [timed(lambda: list(views.all_pages(Site(answers)))) for _ in range(TRIES)]
    pages = tries[-1][1]
    inside = [timed(lambda: [len(page.to_html(Around()).encode()) for page in pages]) for _ in range(TRIES)]
    made, put = (min(seconds for seconds, _ in each) for each in (tries, inside))
    (first, sizes), *_ = inside
    return (
        f"{len(pages)} pages, views {made:.2f} s, insides {first:.2f} s with the reading of templates, "
        f"{put:.2f} s without; the largest {max(sizes) / 1000:.0f} kB"
    )


def timed(make: Callable[[], T]) -> tuple[float, T]:
    began = time.process_time()
    made = make()
    return time.process_time() - began, made


if __name__ == "__main__":
    main()
