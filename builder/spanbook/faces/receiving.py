"""Receiving what people send: judged as it would stand among the records, and laid where it can be looked at.

Nothing is written before one of a receipt's own functions is called, and then all of it or nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from hashlib import sha256
from pathlib import Path

from spanbook.answers.diff.model import Comparison
from spanbook.editing import CannotChange, FileChange
from spanbook.editing.beside import lay_beside, read_sent
from spanbook.faces.diff import Before
from spanbook.faces.reviewing import same
from spanbook.ground import images
from spanbook.ground.bare import bare
from spanbook.ground.part_numbers import hyphened
from spanbook.ground.zipped import MOST_BYTES
from spanbook.mkdocs.asked import site_name
from spanbook.mkdocs.failures import BuildFailed
from spanbook.outputs.folder import branch, edited, laid
from spanbook.outputs.folder.refusal import NoPlace
from spanbook.reading import git_tree, packets
from spanbook.reading.edit import comments
from spanbook.reading.files import CONTENT, PICTURES, Folder, Tree
from spanbook.reading.laid_over import LaidOver
from spanbook.reading.packets import NoPacket, Packet
from spanbook.reading.problems import Finding, Place, Problem, errors
from spanbook.reading.record_cache import known_of
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.rules.checking import Checked, check_tree, content_of
from spanbook.site.forms.records import digest
from spanbook.wording import receiving as words


class How(StrEnum):
    """What becomes of a file that was sent."""

    NEW = "new"
    CORRECTS = "corrects"
    SAME = "same"  # it is there already, and says the same
    CHANGED_SINCE = "changed-since"  # it corrects a record that somebody has changed since it was read
    IN_THE_WAY = "in-the-way"  # another file of that name is there, which it does not say that it corrects


OVERWRITES = (How.CHANGED_SINCE, How.IN_THE_WAY)


@dataclass(frozen=True, slots=True)
class Sent:
    """A file that was sent, by its path in the content folder, as it would be laid.

    `anew` tells that a picture's file held more than the picture, which is gone; `remarks` are the
    comments of the file in its place that would be gone; `sent_as` is the path that it came with, where it
    is laid beside what has that name.
    """

    path: str
    how: How
    data: bytes = field(repr=False)
    was: bytes | None = field(repr=False)
    anew: bool = False
    remarks: tuple[str, ...] = ()
    sent_as: str | None = None


@dataclass(frozen=True)
class Receipt:
    """A packet held against the records of a project, which may be those at a git revision, `onto`.

    `problems` are those that it brings, `comparison` what it changes for readers: None where records have
    errors. `site` is what the project calls its site, empty where it does not say. `taken` are the paths of
    records whose id another record has already, in another file.
    """

    project: Path
    onto: str | None
    packet: Packet
    files: tuple[Sent, ...]
    problems: tuple[Problem, ...]
    comparison: Comparison | None
    site: str
    taken: tuple[str, ...] = ()

    @property
    def overwrites(self) -> tuple[Sent, ...]:
        """The files that would take the place of others without anybody having meant it."""
        return tuple(one for one in self.files if one.how in OVERWRITES)

    @property
    def refused(self) -> str | None:
        """Why it cannot be laid without `replace`; None where it can."""
        return self._why_not(replace=False)

    @property
    def spoils(self) -> bool:
        """Whether it is refused for the errors among its problems."""
        return not self.taken and any(errors(self.problems))

    @property
    def branch(self) -> str:
        """The name of the branch that it is laid as: the same files give the same one."""
        who = hyphened(self.packet.by)[:40].strip("-") or "somebody"
        told = sha256()
        for path, data in self.packet.files.items():
            told.update(f"{path} {len(data)}\n".encode() + data)
        return f"packet/{self.packet.made}-{who}-{told.hexdigest()[:8]}"

    def lay_branch(self, *, replace: bool = False) -> str:
        """Lay it as a branch of its own, one commit after `onto`. Gives its name.

        Raises CannotChange and NoRevision; nothing is changed then.
        """
        if not self.onto:
            raise CannotChange(words.judged_by_folder())
        self._allow(replace=replace)
        message = words.commit_message(self.packet, [one.path for one in self._changing()])
        files = {f"{CONTENT}{one.path}": one.data for one in self._changing()}
        try:
            branch.lay(self.project, self.onto, self.branch, files, message)
        except NoPlace as why:
            raise CannotChange(str(why)) from None
        return self.branch

    def lay_folder(self, folder: str | Path, *, replace: bool = False) -> None:
        """Lay its files in a new folder, as they would lie in the project; or in the project itself.

        Raises CannotChange and OSError; nothing is changed then.
        """
        self._allow(replace=replace)
        folder = Path(folder)
        try:
            if folder.resolve() != self.project.resolve():
                laid.lay(folder, {f"{CONTENT}{one.path}": one.data for one in self._changing()})
            elif self.onto:
                raise CannotChange(words.judged_elsewhere(self.onto))
            else:
                edited.edit(content_of(self.project), self._changes(), lambda _: None)
        except NoPlace as why:
            raise CannotChange(str(why)) from None

    def _changes(self) -> Iterator[FileChange]:
        for one in self._changing():
            before = None if one.was is None else one.path
            yield FileChange(before, one.path, one.was or b"", one.data)

    def _changing(self) -> tuple[Sent, ...]:
        return tuple(one for one in self.files if one.how is not How.SAME)

    def _allow(self, *, replace: bool) -> None:
        if why := self._why_not(replace=replace):
            raise CannotChange(why)

    def _why_not(self, *, replace: bool) -> str | None:
        if self.taken:
            return words.taken(self.taken)
        if self.spoils:
            return words.spoilt(errors(self.problems))
        if self.overwrites and not replace:
            return words.in_the_way([one.path for one in self.overwrites])
        if self.comparison and self.comparison.dead:
            return words.dying(self.comparison.dead)
        return None if self._changing() else words.nothing_new()


def receive(
    project: str | Path, packet: str | Path, *, onto: str | None = None, beside: bool = False
) -> Receipt:
    """Judge a packet that somebody sent as it would stand among the records of a project.

    They are those on the disk, or those at the git revision `onto`. With `beside` what would take the place
    of something else, or has its id, gets a name of its own, and is called so in the packet. Raises
    NoPacket with everything that is wrong with the file, NoRevision, BuildFailed for settings, and OSError.
    """
    project, file = Path(project), Path(packet)
    with file.open("rb") as opened:
        data = opened.read(2 * MOST_BYTES)  # a text is by a third longer than the archive in it
    sent = packets.read(data, file.name)
    content = content_of(project)
    tree: Tree = git_tree.content_at(project, onto) if onto else Folder(content)
    _through_no_link(tree, sent, file.name)
    with known_of(content) as known:
        was = check_tree(tree, "content", known)
        files = tuple(_sent(sent, tree, was.register))
        taken = tuple(_taken(sent, was.register))
        if beside and (clashing := [*taken, *(one.path for one in files if one.how is How.IN_THE_WAY)]):
            there = _there(tree)

            def is_there(path: str, data: bytes) -> bool:
                return path in there and tree.read(path, images.MOST_BYTES + 1) == _bare(path, data)

            laid_so = lay_beside(sent.files, clashing, there, is_there, was.register)
            sent = replace(sent, files=laid_so.files)
            called = laid_so.sent_as.get
            files = tuple(replace(one, sent_as=called(one.path)) for one in _sent(sent, tree, was.register))
            taken = tuple(_taken(sent, was.register))
        put = {one.path: one.data for one in files}
        now = check_tree(LaidOver(tree, put), "content", known, was.register)
    return Receipt(
        project=project,
        onto=onto,
        packet=sent,
        files=files,
        problems=tuple(_fresh(was, now, put)),
        comparison=_compared(project, was, now),
        site=_called(project),
        taken=taken,
    )


def _taken(packet: Packet, register: Register) -> Iterator[str]:
    """The records of a packet whose id a record in another file has."""
    for path, record in read_sent(packet.files).items():
        holds = register.things.get(record.kind, {}).get(record.id)
        if holds and holds.origin.path.removeprefix(CONTENT) != path:
            yield path


def _through_no_link(tree: Tree, sent: Packet, called: str) -> None:
    """What lies behind a link is not the project's, and a folder cannot take the place of a file."""
    named = dict(tree.yaml_files())
    found = [
        Finding(Place(f"{called}/{CONTENT}{path}"), *words.under_a_file())
        for path in sent.files
        if named.get(path) or any(above in named for above in _above(path))
    ]
    if found:
        raise NoPacket(tuple(found))


def _above(path: str) -> Iterator[str]:
    return (path[:at] for at, letter in enumerate(path) if letter == "/")


def _sent(packet: Packet, tree: Tree, register: Register) -> Iterator[Sent]:
    there = _there(tree)
    records = {record.origin.path.removeprefix(CONTENT): record for record in register.records}
    for path, data in packet.files.items():
        made = _bare(path, data)
        was = tree.read(path, images.MOST_BYTES + 1) if path in there else None
        record = records.get(path)
        how = _how(was, made, record, packet.corrects.get(path))
        lost = tuple(comments(was)) if was is not None and record and how is not How.SAME else ()
        yield Sent(path, how, made, was, made != data, lost)


def _how(was: bytes | None, made: bytes, record: Record | None, corrects: str | None) -> How:
    if was == made:
        return How.SAME
    if corrects is None:
        return How.NEW if was is None else How.IN_THE_WAY
    return How.CORRECTS if record and digest(record) == corrects else How.CHANGED_SINCE


def _there(tree: Tree) -> set[str]:
    return {path for path, _ in tree.yaml_files()} | {one.path for one in tree.pictures()}


def _bare(path: str, data: bytes) -> bytes:
    """A picture without what its file holds besides; of what is no sound picture the rules tell."""
    if not path.endswith(PICTURES) or (made := bare(data)) == data:
        return data
    try:
        if made is None or images.is_turned(data):
            return next(images.anew(data)).data
        images.check(data)
    except images.Refused:
        return data
    return made


def _fresh(was: Checked, now: Checked, put: Mapping[str, bytes]) -> Iterator[Problem]:
    """What would be wrong and is not, and all that is wrong with what was sent."""
    known = {same(problem) for problem in was.problems}
    for problem in now.problems:
        if same(problem) not in known or problem.place.path.removeprefix(CONTENT) in put:
            yield problem


def _compared(project: Path, was: Checked, now: Checked) -> Comparison | None:
    if errors(was.problems) or errors(now.problems):
        return None
    return Before(project, was).compared(now)


def _called(project: Path) -> str:
    try:
        return site_name(project)
    except BuildFailed:
        return ""
