"""Tables in: the rows of a spreadsheet become drafts of records, in a folder of their own beside the records.

Nothing is written before `Imported.write`, and then all of it or nothing. What somebody has changed in a
draft is never written over.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from importlib.util import find_spec
from pathlib import Path

from spanbook.editing import CannotChange, FileChange
from spanbook.editing.sheets import (
    Alike,
    Draft,
    Filled,
    Left,
    Names,
    Standing,
    State,
    alike,
    filled,
    standing_of,
)
from spanbook.editing.sheets.begun import map_text
from spanbook.editing.sheets.citing import cites
from spanbook.editing.sheets.columns import laid
from spanbook.editing.sheets.guess import guesses, headings_row
from spanbook.editing.sheets.standing import marked, untouched
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import hyphened
from spanbook.mkdocs.asked import schema_address
from spanbook.outputs.folder import edited
from spanbook.outputs.folder.refusal import NoPlace
from spanbook.reading.entered import place_of
from spanbook.reading.files import Folder
from spanbook.reading.laid_over import LaidOver
from spanbook.reading.problems import Problem, Problems, Severity, one_line
from spanbook.reading.record_cache import known_of
from spanbook.reading.sheets import Map, NotASheet, OtherEncoding, Sheet, read_map, read_sheet
from spanbook.reading.sheets.read import NEEDED
from spanbook.register.model import Register
from spanbook.rules.checking import Checked, check_tree, content_of, open_folder
from spanbook.wording import sheets as words

DRAFTS = "drafts"
LEFT_OVER = "left-over.txt"
WESTERN = "windows-1252"
_MOST = 1_000_000  # bytes of a map, and of what is read again of a draft


class Fate(StrEnum):
    """What becomes of a draft's file.

    made, changed, gone: it is written, written anew, or taken away because the sheet gives it no more or it
    is among the records. same: it is there as it is. kept: somebody has changed it, and it stays.
    """

    MADE = "made"
    CHANGED = "changed"
    GONE = "gone"
    SAME = "same"
    KEPT = "kept"


@dataclass(frozen=True, slots=True)
class DraftFile:
    """A file by its path in the folder of the drafts; `draft` is None where the sheet gives it no more."""

    path: str
    fate: Fate
    text: str
    was: bytes | None
    draft: Draft | None


@dataclass(frozen=True, slots=True)
class Imported:
    """What a sheet gives by a map. `folder` is where the drafts go; `standing` says how those that are not
    drafted stand to the records, `problems` what the checks would say of the records with the drafts among
    them."""

    folder: Path
    sheet: Sheet
    rows: int
    files: tuple[DraftFile, ...]
    standing: Mapping[str, Standing]
    left: tuple[Left, ...]
    alike: tuple[Alike, ...]
    problems: tuple[Problem, ...]

    @property
    def fates(self) -> Mapping[str, int]:
        """How many files have each fate."""
        return Counter(str(file.fate) for file in self.files)

    def write(self) -> int:
        """Write the drafts and the list of what was left over. Gives how many files of drafts changed.

        Raises CannotChange where somebody has changed them meanwhile, and OSError; nothing is changed then.
        """
        changes = list(self._changes())
        self.folder.mkdir(parents=True, exist_ok=True)
        try:
            edited.edit(self.folder, changes, lambda _: None)
        except NoPlace as why:
            raise CannotChange(str(why)) from None
        return sum(change.after != LEFT_OVER for change in changes)

    def _changes(self) -> Iterator[FileChange]:
        for file in self.files:
            if file.fate in (Fate.MADE, Fate.CHANGED):
                before = file.path if file.was is not None else None
                yield FileChange(before, file.path, file.was or b"", file.text.encode())
            elif file.fate is Fate.GONE:
                yield FileChange(file.path, None, file.was or b"", b"")
        there = self.folder / LEFT_OVER
        was = there.read_bytes() if there.is_file() else None
        now = "".join(f"{line}\n" for line in words.left_over(self.sheet, self.left, self.alike)).encode()
        if was != now:
            yield FileChange(LEFT_OVER if was is not None else None, LEFT_OVER, was or b"", now)


def import_sheet(project: str | Path, sheet: str | Path, map_: str | Path) -> Imported:
    """What the rows of a sheet become by a map, held against the records of a project; nothing is written.

    Raises NotASheet for a file that cannot be read as one, and where what reads it is not installed, Problems
    with what is wrong with the map, and OSError.
    """
    if find_spec("rapidfuzz") is None:
        raise NotASheet(words.not_installed("rapidfuzz", NEEDED))
    project, map_file = Path(project), Path(map_)
    with map_file.open("rb") as opened:
        law = read_map(opened.read(_MOST), str(map_file))
    read = read_sheet(Path(sheet), law.sheet, separator=law.separator, encoding=law.encoding)
    found = laid(read, law)
    content = content_of(project)
    with known_of(content) as known:
        was = check_tree(Folder(content), content.name, known)
        made = filled(read, law, found, Names(was.register))
        drafts = (*_source(law, was.register), *made.drafts)
        standing = {kind: standing_of(was.register, kind, drafts) for kind in (law.kind, "source")}
        fresh = tuple(one for one in drafts if standing[one.kind][one.id].state is State.NEW)
        folder = project / DRAFTS / (hyphened(map_file.name.partition(".")[0]) or "sheet")
        files = tuple(_files(folder, project, read, fresh))
        put = {f.path.partition("/")[2]: f.text.encode() for f in files if f.draft}
        now = check_tree(LaidOver(Folder(content), put), content.name, known)
    return _imported(folder, read, made, files, standing[law.kind], was, now, law)


def _imported(
    folder: Path,
    sheet: Sheet,
    made: Filled,
    files: tuple[DraftFile, ...],
    standing: Mapping[str, Standing],
    was: Checked,
    now: Checked,
    map_: Map,
) -> Imported:
    fresh = [file.draft for file in files if file.draft and file.draft.kind == map_.kind]
    known = Counter((p.name, p.place.path, p.read) for p in was.problems)
    told = tuple(p for p in now.problems if not known[p.name, p.place.path, p.read])
    return Imported(
        folder=folder,
        sheet=sheet,
        rows=made.rows,
        files=files,
        standing={id_: one for id_, one in standing.items() if one.state is not State.NEW},
        left=made.left,
        alike=tuple(alike(was.register, map_.kind, fresh)),
        problems=told,
    )


def guess_map(project: str | Path, sheet: str | Path, kind: str, name: str | None = None) -> str:
    """A map to begin with for a sheet whose rows become records of a kind, by what its columns are headed.

    Raises NotASheet and OSError.
    """
    try:
        read, encoding = read_sheet(Path(sheet), name), None
    except OtherEncoding:
        # What spreadsheets of western Europe save where nobody asks for UTF-8; the map says so.
        read, encoding = read_sheet(Path(sheet), name, encoding=WESTERN), WESTERN
    headings = headings_row(read)
    found = guesses(read, kind, headings, Names(open_folder(Path(project)).register))
    return "".join(f"{one_line(line)}\n" for line in map_text(read, kind, headings, found, encoding))


def _source(map_: Map, register: Register) -> Iterator[Draft]:
    """A record of the sheet as a source, where there is none and the map says enough."""
    origin = map_.origin
    if not origin or origin.id in register.sources or not cites(map_.kind):
        return
    if not origin.title or not origin.class_:
        read = _("there is no source {}").format(origin.id)
        todo = _("give it a title and a class, so that one is drafted")
        raise Problems([Problem(map_.place, Severity.ERROR, "sheet-map", read, todo)])
    yield Draft("source", origin.id, {"title": origin.title, "class": origin.class_}, ())


def _files(folder: Path, project: Path, sheet: Sheet, drafts: tuple[Draft, ...]) -> Iterator[DraftFile]:
    there = {str(file.relative_to(folder).as_posix()): file for file in sorted(folder.rglob("*.yml"))}
    where = words.sheet_name(sheet)
    address = {kind: schema_address(project, kind) for kind in {one.kind for one in drafts}}
    for draft in drafts:
        path = place_of(draft.kind, draft.id)
        text = marked(draft, where, address[draft.kind])
        file = there.pop(path, None)
        was = _read(file) if file else None
        yield DraftFile(path, _fate(was, text), text, was, draft)
    for path, file in there.items():
        was = _read(file)
        yield DraftFile(path, Fate.GONE if untouched(was) else Fate.KEPT, "", was, None)


def _fate(was: bytes | None, text: str) -> Fate:
    if was is None:
        return Fate.MADE
    if was == text.encode():
        return Fate.SAME
    return Fate.CHANGED if untouched(was) else Fate.KEPT


def _read(file: Path) -> bytes:
    with file.open("rb") as opened:
        return opened.read(_MOST)
