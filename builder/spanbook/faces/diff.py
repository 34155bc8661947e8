"""Two project folders or git revisions, read, checked and compared."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from spanbook.answers.diff.compute import compare
from spanbook.answers.diff.model import Comparison
from spanbook.mkdocs.build import rates_of
from spanbook.reading import git_tree
from spanbook.reading.problems import errors
from spanbook.reading.record_cache import Known, known_of
from spanbook.register.model import Register
from spanbook.rules.checking import collector_resting, open_folder, open_tree
from spanbook.site import permanent


class NotComparable(Exception):  # noqa: N818 - it says what it is
    """One of the two is not there or has errors. The message says which, and what to do."""


def compare_places(project: Path, old: str, new: str) -> Comparison:
    """What changes from `old` to `new`, each a folder or a revision of the project.

    Raises NotComparable, and BuildFailed for a mkdocs.yml that cannot be read.
    """
    with collector_resting(), known_of(project / "content") as known:
        before, after = (_register(project, place, known) for place in (old, new))
        addresses = permanent.public(before), permanent.public(after)
        found = compare(before, after, addresses, rates_of(project))
    if _is_folder(old) or _is_folder(new):
        return found
    return replace(found, besides=git_tree.touched_besides(project, old, new))


def _register(project: Path, place: str, known: Known) -> Register:
    if _is_folder(place):
        checked = open_folder(Path(place), known)
    else:
        try:
            checked = open_tree(git_tree.content_at(project, place), "content", known)
        except git_tree.NoRevision as missing:
            raise NotComparable(f"{missing}; give a folder, or a revision of {project}") from None
    if broken := errors(checked.problems):
        told = "\n".join(map(str, broken[:10]))
        raise NotComparable(f"the records of {place} have errors; mend them first:\n{told}")
    return checked.register


def _is_folder(place: str) -> bool:
    return bool(place) and Path(place).is_dir()
