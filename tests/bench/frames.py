"""What a frame costs: CPU seconds of a build, and the bytes of its pages and of what stands around a page.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.frames [RECORDS]`. The community has
the demonstration's navigation, which is most of what is around a page. The first build is the cold one.
"""

from __future__ import annotations

import re
import shutil
import sys
import tempfile
from pathlib import Path
from statistics import median

from tests.bench import community
from tests.bench.site import cpu
from tests.support.command import PROJECT
from tests.support.frames import THEMES, settings_in

_INSIDE = re.compile(
    r'<div class="sb-page">.*<footer class="sb-foot".*?</footer>(<script type="application/ld.*?</script>)?',
    re.DOTALL,
)


def main() -> None:
    records = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    settings = (PROJECT / "mkdocs.yml").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        community.keep_apart(folder)
        count = community.write(folder, records)
        for guide in (PROJECT / "content").glob("*.md"):
            (folder / "content" / guide.name).write_text("# A guide\n")
        print(f"{count} records")
        for theme, named in {"material": None, **THEMES}.items():
            chosen = settings if named is None else settings_in(settings, named)
            (folder / "mkdocs.yml").write_text(chosen)
            print(f"  {theme:12} {told(folder)}", flush=True)


def told(folder: Path) -> str:
    shutil.rmtree(folder / "site", ignore_errors=True)
    seconds = cpu(folder, sys.executable, "-m", "spanbook", "build")
    pages = [page.read_text(encoding="utf-8") for page in (folder / "site").rglob("*.html")]
    around = median(len(_INSIDE.sub("", page).encode()) for page in pages)
    whole = sum(len(page.encode()) for page in pages)
    return (
        f"{seconds:6.2f} CPU s, {len(pages)} pages of {whole / 1e6:.1f} MB, around a page {around:.0f} bytes"
    )


if __name__ == "__main__":
    main()
