"""What a built site weighs: its files by what they are, and of each kind of page what its bytes are spent on.

Run by hand: `.venv/bin/python -m tests.bench.weight SITE`. Of a kind at most 300 pages are looked into.
"""

from __future__ import annotations

import gzip
import random
import re
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

LOOKED_INTO = 300
LONG = 150_000
# What a page's bytes are spent on; what is in none of them are the tables and texts of its record.
PARTS = {
    "head": r"^.*?</head>",
    "before": r'<body.*?(?=<nav class="sb-crumbs"|<header class="sb-head)',
    "foot": r'<footer class="sb-foot".*?</footer>',
    "JSON-LD": r'<script type="application/ld\+json">.*?</script>',
    "after": r"</div>\s*</main>.*$",
    "figures": r"<svg.*?</svg>",
    "standing": r'<details class="sb-trust".*?</details>',
}


def main() -> None:
    site = Path(sys.argv[1])
    files = [file for file in site.rglob("*") if file.is_file()]
    for line in [*told(site, files), *pages(site, files)]:
        print(line, flush=True)


def told(site: Path, files: list[Path]) -> Iterator[str]:
    bytes_of: Counter[str] = Counter()
    count: Counter[str] = Counter()
    for file in files:
        bytes_of[file.suffix] += file.stat().st_size
        count[file.suffix] += 1
    yield f"{len(files)} files, {sum(bytes_of.values()) / 1e6:.1f} MB"
    for suffix, size in bytes_of.most_common(6):
        yield f"  {suffix:6} {count[suffix]:7} files {size / 1e6:8.1f} MB"


def pages(site: Path, files: list[Path]) -> Iterator[str]:
    every = [file for file in files if file.suffix == ".html"]
    yield f"{sum(file.stat().st_size > LONG for file in every)} pages of more than {LONG} bytes"
    kinds: dict[str, list[Path]] = {}
    for file in every:
        kinds.setdefault(file.relative_to(site).parts[0], []).append(file)
    for kind, found in sorted(kinds.items(), key=lambda one: -len(one[1]))[:8]:
        some = random.Random(1).sample(found, min(LOOKED_INTO, len(found)))
        whole = [file.read_text(encoding="utf-8") for file in some]
        mean = sum(len(text.encode()) for text in whole) // len(some)
        zipped = sum(len(gzip.compress(text.encode())) for text in whole) // len(some)
        yield f"{kind}: {len(found)} pages of {mean} bytes in the mean, {zipped} gzipped"
        spent = {name: sum(map(len, _found(part, whole))) // len(some) for name, part in PARTS.items()}
        yield "  " + ", ".join(f"{name} {size}" for name, size in spent.items())


def _found(part: str, texts: list[str]) -> Iterator[str]:
    return (found[0] for text in texts for found in re.finditer(part, text, re.DOTALL))


if __name__ == "__main__":
    main()
