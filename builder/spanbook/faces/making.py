"""Making: the site of a community, and new records."""

from __future__ import annotations

from collections.abc import Mapping
from concurrent.futures import Executor
from pathlib import Path

from spanbook.mkdocs import build as _build
from spanbook.mkdocs import serve as _serve
from spanbook.mkdocs.build import Built
from spanbook.mkdocs.plugin import Step
from spanbook.mkdocs.settings import BuildFailed, Say, schema_address, site_address
from spanbook.outputs import whole_file
from spanbook.reading import read_bytes
from spanbook.reading.entered import place_of
from spanbook.reading.problems import Problems
from spanbook.reading.records import Record
from spanbook.reading.write import Value, to_yaml
from spanbook.site.addresses import RULES


def build(
    project: str | Path,
    site: Path | None = None,
    *,
    strict: bool = False,
    anew: bool = False,
    say: Say | None = None,
    step: Step | None = None,
    jobs: int | None = None,
    executor: Executor | None = None,
) -> Built:
    """Build the site of a project into `site`, or into its folder `site/`, telling the steps through `say`.

    `step` is told how many pages are made, of how many. Where all that the site is made from is as it was,
    nothing is built, unless it is to be made `anew`. `jobs` is how many processes make it; where it is left
    out, as many as there are cores to use if a second saves time. An `executor` makes it instead, in shares
    for so many at a time: whatever has the interface of `concurrent.futures`, on other machines too, such as
    a `dask.distributed.Client`. The same program must be there; the records travel to it.

    Raises BuildFailed; the previous site is then whole.
    """
    return _build.build(Path(project), site, strict, say or _silent, step, anew, jobs, executor)


def serve(project: str | Path, address: str = "127.0.0.1:8000", *, say: Say | None = None) -> None:
    """Serve the site of a project until it is ended, and build it again when a file changes.

    Raises BuildFailed where it cannot begin.
    """
    _serve.serve(Path(project), address, say or _silent)


def rules_address(project: str | Path) -> str | None:
    """Where the site of a project explains its rules; None where its settings do not say it."""
    try:
        site = site_address(Path(project))
    except BuildFailed:
        return None
    return f"{site}{RULES}" if site else None


def record_text(project: str | Path, values: Mapping[str, Value]) -> str:
    """The file of a record, its `kind` and `id` among the values, as `write_record` writes it.

    Raises BuildFailed for settings that cannot be read: they say where the schema is published.
    """
    return to_yaml(values, schema_address(Path(project), str(values["kind"])))


def write_record(project: str | Path, values: Mapping[str, Value]) -> Path:
    """Write a new record into its place in a project.

    Raises Problems with what is wrong with it, FileExistsError where there is one already, and BuildFailed
    as record_text. Nothing is written then.
    """
    kind, id_ = str(values["kind"]), str(values["id"])
    text, place = record_text(project, values), place_of(kind, id_)
    found = read_bytes(text.encode(), place, kind, id_)
    if not isinstance(found, Record):
        raise Problems(found)
    file = Path(project) / place
    whole_file.create(file, text)
    return file


def _silent(text: str) -> None:
    """Nobody is told the steps."""
