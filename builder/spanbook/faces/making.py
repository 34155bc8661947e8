"""Making the site of a community."""

from __future__ import annotations

from concurrent.futures import Executor
from pathlib import Path

from spanbook.mkdocs.built import Built, Step, unchanged
from spanbook.outputs.folder.workshop import Say


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
    say = say or _silent
    if not anew and (left := unchanged(Path(project), site, strict, say)):
        return left
    from spanbook.mkdocs import build as _build  # it loads MkDocs and all pages

    return _build.build(Path(project), site, strict, say, step, anew, jobs, executor)


def serve(project: str | Path, address: str = "127.0.0.1:8000", *, say: Say | None = None) -> None:
    """Serve the site of a project until it is ended, and build it again when a file changes.

    Raises BuildFailed where it cannot begin.
    """
    from spanbook.mkdocs import serve as _serve  # as above

    _serve.serve(Path(project), address, say or _silent)


def _silent(text: str) -> None:
    """Nobody is told the steps."""
