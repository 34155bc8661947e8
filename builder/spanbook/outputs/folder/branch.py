"""Files laid as a branch of a repository: nothing of it is laid out, and no attribute or hook has a say.

The branch appears in one step, when all of it is in git; what was written before nobody sees.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.outputs.folder.refusal import NoPlace
from spanbook.reading.git import NoRevision, Repository, run


def lay(project: Path, onto: str, name: str, files: Mapping[str, bytes], message: str) -> str:
    """Make a branch of that name, one commit after `onto`, with files by their paths in the project.

    Gives the commit. Raises NoRevision where git cannot, and NoPlace where there is such a branch already.
    """
    ours = Repository(project)
    parent = ours.commit(onto)
    if _is_there(project, name):
        raise NoPlace(_("{}: there is such a branch already; look at it, or remove it first").format(name))
    top = ours.ask("rev-parse", "--show-prefix").decode("utf-8", "surrogateescape").rstrip("\n")
    with tempfile.TemporaryDirectory(prefix="spanbook-branch-") as folder:
        index = {**os.environ, "GIT_INDEX_FILE": str(Path(folder) / "index")}
        _ask(project, index, "read-tree", f"{parent}^{{tree}}")
        lines = b""
        for path, data in sorted(files.items()):
            blob = _ask(project, index, "hash-object", "-w", "--stdin", given=data)
            lines += f"100644 {blob}\t{top}{path}\0".encode("utf-8", "surrogateescape")
        _ask(project, index, "update-index", "-z", "--index-info", given=lines)
        tree = _ask(project, index, "write-tree", "--missing-ok")
        told = message.encode("utf-8", "replace")
        commit = _ask(project, index, "commit-tree", tree, "-p", parent, "-F", "-", given=told)
    ours.ask("update-ref", f"refs/heads/{name}", commit, "0" * len(commit))  # there must be none
    return commit


def _is_there(project: Path, name: str) -> bool:
    asked = "rev-parse", "--verify", "--quiet", "--end-of-options", f"refs/heads/{name}"
    return run("-C", str(project), *asked).returncode == 0


def _ask(project: Path, environment: Mapping[str, str], *arguments: str, given: bytes = b"") -> str:
    done = run("-C", str(project), *arguments, given=given, environment=environment)
    if done.returncode:
        raise NoRevision(f"git {arguments[0]}: {done.stderr.decode('utf-8', 'replace').strip()}")
    return done.stdout.decode().strip()
