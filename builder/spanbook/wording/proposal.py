"""What a proposal touches besides records, which somebody has to read before it is taken in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from spanbook.reading.files import CONTENT
from spanbook.reading.git_merge import Clash, How
from spanbook.reading.kinds import BY_FOLDER
from spanbook.wording.grammar import plural

_FORGE = "Workflows, hooks and what else the forge or git obeys: read each as a program"
_SETTINGS = "Settings and programs: read each as a program"
_GUIDES = "Guides and what else lies among the records: read each as readers will"
_CLASHES = "Clashes: bring the main branch into the proposal and decide each by hand"
_UNTOLD = (
    "It changes these files; what that changes for readers cannot be told while the main branch has errors"
)
_HOW = {
    How.BOTH_CHANGED: "{0} and {1} change the same lines",
    How.BOTH_ADDED: "{0} and {1} add it, each otherwise",
    How.PROPOSAL_REMOVED: "{1} removes it, and {0} changes it",
    How.MAIN_REMOVED: "{1} changes it, and {0} removes it",
    How.MOVED: "it is moved, or something else takes its place",
}
_SIDES = ("the main branch", "the proposal")


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with its lines, which are counted beside it unless that tells nothing."""

    title: str
    lines: tuple[str, ...]
    counted: bool = True

    @property
    def count(self) -> str:
        """What stands after its title."""
        return f" ({len(self.lines)})" if self.counted else ""


def headline(paths: Iterable[str]) -> str | None:
    """What has to be looked at before anything else; None where a proposal touches records alone."""
    count = len(tuple(paths))
    if not count:
        return None
    files = plural(count, "a file that is no record", "{} files that are no records")
    return f"Look before you take it in: it touches {files}, and no program judges what such a file does."


def clash_headline(clashes: Sequence[Clash]) -> str:
    """Why nothing else can be judged."""
    files = plural(len(clashes), "a file clashes", "{} files clash")
    return f"It cannot be merged: {files} with what the main branch holds by now."


def dying_headline(addresses: Sequence[str]) -> str:
    """That links which others made would lead nowhere, and what keeps them."""
    count = plural(len(addresses), "an address would die", "{} addresses would die")
    return (
        f"It breaks links: {count}. Name a record's former id under formerly in the record that takes its "
        "place, give a statement its anchor back, or say in gone.yml why it is gone."
    )


def untold_section(paths: Iterable[str]) -> Section:
    """What is known of a proposal where the main branch has errors: the files that it changes."""
    return Section(_UNTOLD, tuple(paths))


def clash_section(clashes: Iterable[Clash]) -> Section:
    return Section(_CLASHES, tuple(map(clash_words, clashes)))


def clash_words(clash: Clash, sides: tuple[str, str] = _SIDES) -> str:
    """A clash of two sides in a line, by the record it is in."""
    inside = clash.path.removeprefix(CONTENT)
    kind = BY_FOLDER.get(inside.partition("/")[0])
    stem = inside.rpartition("/")[2].removesuffix(".yml")
    called = f"{kind.name} {stem} ({clash.path})" if kind and inside != clash.path else clash.path
    return f"{called}: {_HOW[clash.how].format(*sides)}"


def besides(paths: Iterable[str]) -> Iterator[Section]:
    """The files that a proposal touches and that are no records, by how they have to be read."""
    sorts: dict[str, list[str]] = {_FORGE: [], _SETTINGS: [], _GUIDES: []}
    for path in paths:
        sorts[_sort(path)].append(path)
    yield from (Section(title, tuple(found)) for title, found in sorts.items() if found)


def _sort(path: str) -> str:
    if path.rpartition("../")[2].startswith("."):
        return _FORGE
    return _GUIDES if path.startswith(CONTENT) else _SETTINGS
