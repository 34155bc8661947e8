"""What a query transfers: gzipped bytes of the tables it loads, by kind of query and size of community; and
how many of the tables a changed record moves.

Run by hand: `.venv/bin/python -m tests.bench.finder [RECORDS …]`. How long it takes on a slow line, beside
the theme's own search, is measured by `tests.bench.browser`.
"""

from __future__ import annotations

import gzip
import re
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from spanbook.answers.answers import Answers
from spanbook.answers.search import Asker
from spanbook.register.model import Register
from spanbook.rules.checking import check_folder
from spanbook.site import assets
from spanbook.site.common import Site
from spanbook.site.documents import documents
from spanbook.site.finder import tables as finder
from spanbook.site.scripts import EVERY_PAGE
from tests.bench import community


def main() -> None:
    for records in [int(argument) for argument in sys.argv[1:]] or [1000, 10000, 50000]:
        with tempfile.TemporaryDirectory() as folder:
            community.keep_apart(Path(folder))
            count = community.write(Path(folder), records)
            register = check_folder(Path(folder)).register
            started = time.process_time()
            tables = finder_of(register)
            seconds = time.process_time() - started
            moves = list(moved(Path(folder), tables))
        cards = dict(assets.tables(Site(Answers(register)), "card"))
        print(f"{count} records, {len(tables)} tables made in {seconds:.1f} CPU s")
        for line in [*report(tables, cards), *moves]:
            print(line, flush=True)


def finder_of(register: Register) -> dict[str, bytes]:
    return dict(finder.files(Asker(Answers(register), documents(register)), {}))


def moved(folder: Path, before: dict[str, bytes]) -> Iterator[str]:
    """How many tables are others after an assembly got a title of other words, and after it went."""
    file = sorted((folder / "content/assemblies").iterdir())[5]
    text = file.read_text()
    file.write_text(re.sub("title: .*", "title: Zyx renewed quillon", text))
    yield f"  another title moves             {_moved(folder, before):8} tables"
    file.unlink()
    yield f"  an assembly less moves          {_moved(folder, before):8} tables"


def _moved(folder: Path, before: dict[str, bytes]) -> int:
    after = finder_of(check_folder(folder).register)
    return sum(before.get(name) != after.get(name) for name in before.keys() | after.keys())


def report(tables: dict[str, bytes], cards: dict[str, bytes]) -> list[str]:
    size = {name.removeprefix(finder.FOLDER): len(gzip.compress(data)) for name, data in tables.items()}
    scripts = len(gzip.compress(assets.scripts()[EVERY_PAGE]))

    def largest(kind: str, blocks: int) -> int:
        """The directory of a table and the largest blocks of it."""
        found = sorted((v for k, v in size.items() if k.startswith(f"{kind}-")), reverse=True)
        return size.get(f"{kind}.js", 0) + sum(found[:blocks])

    first = scripts + size["series.js"] + largest("number", 2) + largest("word", 2) + largest("page", 8)
    card_size = max(len(gzip.compress(data)) for data in cards.values())
    return [
        f"  a first query at the most       {first / 1000:8.1f} kB, {scripts / 1000:.1f} kB of them scripts",
        f"  a worn number besides           {largest('turned', 2) / 1000:8.1f} kB",
        f"  a serial number                 {size['series.js'] / 1000:8.1f} kB",
        f"  and its card                    {card_size / 1000:8.1f} kB",
    ]


if __name__ == "__main__":
    main()
