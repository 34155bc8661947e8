"""A repository of the demonstration's records with open proposals, as a maintainer finds them."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from tests.support.repository import git

PROJECT = Path(__file__).parents[2]
STRAINER = "content/assemblies/lubrication/edge-strainer.yml"
FILTER = "content/assemblies/lubrication/waste-packed-filter.yml"
SPLIT = "content/supersessions/pack-2240-split.yml"
MACHINE = "content/machines/wexmoor-h.yml"


class Community:
    """The records in a repository with a main branch; `folder` is laid out there."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        shutil.copytree(PROJECT / "content", folder / "content")
        shutil.copy(PROJECT / "mkdocs.yml", folder)
        git(folder, "init", "-q", "-b", "main")
        self.commit("The records")

    def commit(self, message: str) -> None:
        git(self.folder, "add", "-A")
        git(self.folder, "commit", "-q", "-m", message)

    def propose(self, branch: str, *changes: Callable[[], object]) -> None:
        """A branch from where the main branch stands now."""
        git(self.folder, "switch", "-q", "-c", branch, "main")
        for change in changes:
            change()
        self.commit(branch)
        git(self.folder, "switch", "-q", "main")

    def edit(self, path: str, old: str, new: str) -> Callable[[], object]:
        def change() -> None:
            text = (self.folder / path).read_text()
            assert old in text, f"{path} does not hold {old}"
            (self.folder / path).write_text(text.replace(old, new))

        return change

    def write(self, path: str, text: str) -> Callable[[], object]:
        def change() -> None:
            (self.folder / path).parent.mkdir(parents=True, exist_ok=True)
            (self.folder / path).write_text(text)

        return change

    def teardown(
        self, who: str, number: int, assembly: str, position: str = "lubrication/oil-filter"
    ) -> Callable[[], object]:
        id_ = f"hk-{number}-{who}"
        head = f"kind: teardown\nid: {id_}\ndate: 2026-02-01\nseen-by: {who}\nserial: HK {number}\n"
        found = f"condition: untouched\nfound:\n  - position: {position}\n    assembly: {assembly}\n"
        return self.write(f"content/teardowns/{id_}.yml", head + found)

    def letter(self, path: str, title: str) -> Callable[[], object]:
        head = f"kind: source\nid: {Path(path).stem}\ntitle: {title}\n"
        return self.write(f"content/sources/{path}", f"{head}class: correspondence\nyear: 1936\n")

    def act(self, id_: str, old: str, new: str) -> Callable[[], object]:
        uses = "\n".join(
            f'{key}:\n  - {{number: "{n}", quantity: 1}}' for key, n in (("old", old), ("new", new))
        )
        tail = "year: 1940\nevidence:\n  - {source: service-letter-31, at: para. 9}\n"
        return self.write(
            f"content/supersessions/{id_}.yml", f"kind: supersession\nid: {id_}\n{uses}\n{tail}"
        )


def morning(folder: Path) -> Community:
    """An old branch, a proposal of three records, and pairs that clash in every way."""
    made = Community(folder)
    made.propose("old", made.teardown("tolland", 590, "edge-strainer"))
    made.edit(FILTER, "A tall plain canister", "A very tall plain canister")()
    made.letter("letter-y.yml", "Merged since")()
    made.commit("Merged since")
    made.propose(
        "three",
        made.teardown("brindle", 760, "edge-strainer"),
        made.edit(SPLIT, "quantity: 2}", "quantity: 3}"),
        made.edit(MACHINE, "1932: 118", "1932: 120"),
    )
    for name, last in (("a", 590), ("b", 596)):
        made.propose(f"bound-{name}", made.edit(STRAINER, "[588, 612]", f"[588, {last}]"))
    made.propose("find-a", made.teardown("anna", 595, "edge-strainer"))
    made.propose("find-b", made.teardown("bert", 595, "waste-packed-filter"))
    made.propose("id-a", made.letter("letter-x.yml", "A letter"))
    made.propose("id-b", made.letter("more/letter-x.yml", "Another letter"))
    made.propose("ring-a", made.act("ring-there", "WH-1183", "WH-1190"))
    made.propose("ring-b", made.act("ring-back", "WH-1190", "WH-1183"))
    made.propose("broken", made.edit(STRAINER, "last: [588, 612]", "last: 588 to 612"))
    made.propose("text", made.edit(STRAINER, "cleaned by half a turn", "cleaned by half a turn or so"))
    return made
