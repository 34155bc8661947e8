"""What a query transfers: gzipped bytes of the tables it loads, by kind of query and size of community.

Run by hand: `.venv/bin/python -m tests.bench.finder [RECORDS …]`. How long it takes on a slow line, beside
the theme's own search, is measured by `tests.bench.browser`.
"""

from __future__ import annotations

import gzip
import sys
import tempfile
import time
from pathlib import Path

from spanbook.answers.answers import Answers
from spanbook.answers.search import Asker
from spanbook.rules.checking import check_folder
from spanbook.site import assets
from spanbook.site.card import tables as card
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
        asker = Asker(Answers(register), documents(register))
        tables = finder.files(asker, {})
        seconds = time.process_time() - started
        cards = card.files(Site(Answers(register)))
        print(f"{count} records, {len(tables)} tables made in {seconds:.1f} CPU s")
        for line in report(tables, cards):
            print(line, flush=True)


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
