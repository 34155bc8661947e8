"""What a proposal touches besides records, which somebody has to read before it is taken in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled
from spanbook.reading.files import CONTENT
from spanbook.reading.git_merge import Clash, How
from spanbook.reading.kinds import BY_FOLDER
from spanbook.wording.grammar import plural

_FORGE = marked("Workflows, hooks and what else the forge or git obeys: read each as a program")
_SETTINGS = marked("Settings and programs: read each as a program")
_GUIDES = marked("Guides and what else lies among the records: read each as readers will")
_CLASHES = marked("Clashes: bring the main branch into the proposal and decide each by hand")
_UNTOLD = marked(
    "It changes these files; what that changes for readers cannot be told while the main branch has errors"
)
_HOW = {
    How.BOTH_CHANGED: marked("{main} and {proposal} change the same lines"),
    How.BOTH_ADDED: marked("{main} and {proposal} add it, each otherwise"),
    How.PROPOSAL_REMOVED: marked("{proposal} removes it, and {main} changes it"),
    How.MAIN_REMOVED: marked("{proposal} changes it, and {main} removes it"),
    How.MOVED: marked("it is moved, or something else takes its place"),
}
_SIDES = (marked("the main branch"), marked("the proposal"))


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
    return plural(
        count,
        "Look before you take it in: it touches a file that is no record, and no program judges what such a "
        "file does.",
        "Look before you take it in: it touches {} files that are no records, and no program judges what "
        "such a file does.",
    )


def clash_headline(clashes: Sequence[Clash]) -> str:
    """Why nothing else can be judged."""
    return plural(
        len(clashes),
        "It cannot be merged: a file clashes with what the main branch holds by now.",
        "It cannot be merged: {} files clash with what the main branch holds by now.",
    )


def dying_headline(addresses: Sequence[str]) -> str:
    """That links which others made would lead nowhere, and what keeps them."""
    return plural(
        len(addresses),
        "It breaks links: an address would die. Name a record's former id under formerly in the record that "
        "takes its place, give a statement its anchor back, or say in gone.yml why it is gone.",
        "It breaks links: {} addresses would die. Name a record's former id under formerly in the "
        "record that "
        "takes its place, give a statement its anchor back, or say in gone.yml why it is gone.",
    )


def untold_section(paths: Iterable[str]) -> Section:
    """What is known of a proposal where the main branch has errors: the files that it changes."""
    return Section(_(_UNTOLD), tuple(paths))


def clash_section(clashes: Iterable[Clash]) -> Section:
    return Section(_(_CLASHES), tuple(map(clash_words, clashes)))


def clash_words(clash: Clash, sides: tuple[str, str] = _SIDES) -> str:
    """A clash of two sides in a line, by the record it is in."""
    inside = clash.path.removeprefix(CONTENT)
    kind = BY_FOLDER.get(inside.partition("/")[0])
    stem = inside.rpartition("/")[2].removesuffix(".yml")
    called = f"{kind.name} {stem} ({clash.path})" if kind and inside != clash.path else clash.path
    main, proposal = (_(side) for side in sides)
    return labelled(called, _(_HOW[clash.how]).format(main=main, proposal=proposal))


def besides(paths: Iterable[str]) -> Iterator[Section]:
    """The files that a proposal touches and that are no records, by how they have to be read."""
    sorts: dict[str, list[str]] = {_FORGE: [], _SETTINGS: [], _GUIDES: []}
    for path in paths:
        sorts[_sort(path)].append(path)
    yield from (Section(_(title), tuple(found)) for title, found in sorts.items() if found)


def _sort(path: str) -> str:
    if path.rpartition("../")[2].startswith("."):
        return _FORGE
    return _GUIDES if path.startswith(CONTENT) else _SETTINGS
