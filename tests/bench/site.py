"""CPU seconds for reading, checking and building, beside plain MkDocs on the same pages.

Run by hand from the project's folder: `.venv/bin/python -m tests.bench.site [RECORDS …]`.

"plain MkDocs" is the theme with its own search over the same pages: once as the Markdown that a person
would have written for them (made by markdownify from the insides), once with the insides standing in the
Markdown files as they are. "writing" puts the bytes of the finished site on the disk and nothing else.
Every step runs in a process of its own, and its user and system time are added.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.bench import community

CONFIG = """
site_name: Bench
site_url: https://bench.example/
theme: {name: material, font: false}
plugins: [%s]
nav: [index.md]
"""
_READ = """
from pathlib import Path
from spanbook.reading import files, read_tree
read_tree(files.Folder(Path('content')))
"""
_WRITE = """
from pathlib import Path
for file in sorted(Path('site').rglob('*.html')):
    copy = Path('copy') / file
    copy.parent.mkdir(parents=True, exist_ok=True)
    copy.write_bytes(file.read_bytes())
"""
_INSIDES = """
import sys
from pathlib import Path
from markdownify import markdownify
from spanbook.answers.answers import Answers
from spanbook.rules.checking import check_folder
from spanbook.answers.applicability import Fits
from spanbook.site import views
from spanbook.site.page import Around
from spanbook.site.common import Site
for page in views.all_pages(Site(Answers(check_folder(Path('.')).register))):
    file = Path(sys.argv[1]) / 'docs' / f'{page.address}index.md'
    file.parent.mkdir(parents=True, exist_ok=True)
    html = page.to_html(Around())
    text = markdownify(html, heading_style='atx') if sys.argv[1] == 'markdown' else html
    file.write_text(text, encoding='utf-8')
"""


def main() -> None:
    for records in [int(argument) for argument in sys.argv[1:]] or [1000, 10000]:
        with tempfile.TemporaryDirectory() as folder:
            for line in measure(Path(folder), records):
                print(line, flush=True)


def measure(folder: Path, records: int) -> list[str]:
    community.keep_apart(folder)
    count = community.write(folder, records)
    (folder / "content/index.md").write_text("# Bench\n")
    (folder / "mkdocs.yml").write_text("docs_dir: content\n" + CONFIG % "spanbook")
    read = cpu(folder, sys.executable, "-c", _READ)
    check, again, ours = (
        cpu(folder, sys.executable, "-m", "spanbook", command) for command in ("check", "check", "build")
    )
    pages = sum(1 for _ in (folder / "site").rglob("*.html"))
    write = cpu(folder, sys.executable, "-c", _WRITE)
    markdown, raw = plain(folder, "markdown"), plain(folder, "raw")
    return [
        f"{count} records, {pages} pages (CPU seconds)",
        f"  read                      {read:8.2f}",
        f"  read and check            {check:8.2f}",
        f"  the same again            {again:8.2f}",
        f"  build, all of it          {ours:8.2f}   {ours / pages * 1000:6.2f} ms a page",
        f"  plain MkDocs, as Markdown {markdown:8.2f}   {markdown / ours:6.1f} times as much",
        f"  plain MkDocs, as they are {raw:8.2f}   {raw / ours:6.1f} times as much",
        f"  writing the same bytes    {write:8.2f}",
    ]


def plain(folder: Path, form: str) -> float:
    """CPU seconds of plain MkDocs over the same pages, in one of two forms."""
    subprocess.run([sys.executable, "-c", _INSIDES, form], cwd=folder, check=True)
    (folder / form / "docs/index.md").write_text("# Bench\n")
    (folder / form / "mkdocs.yml").write_text(CONFIG % "search")
    return cpu(folder / form, sys.executable, "-m", "mkdocs", "build", "-q")


def cpu(folder: Path, *command: str) -> float:
    """User and system seconds of a command. Raises CalledProcessError when it fails."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, cwd=folder, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


if __name__ == "__main__":
    main()
