"""Calling things otherwise, telling them apart and putting them together, in a project's own files.

Every function gives a `Correction`: what would change, checked as if it were done. Nothing is written before
`write`, which leaves everything or nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from spanbook.editing import CannotChange, FileChange, Plan, merges, moves, names, numbers, splits
from spanbook.outputs.folder import edited
from spanbook.outputs.folder.refusal import NoPlace
from spanbook.reading.edit import comments
from spanbook.reading.files import Folder
from spanbook.reading.laid_over import LaidOver
from spanbook.reading.problems import Problem, Severity
from spanbook.reading.record_cache import known_of
from spanbook.register.model import Part, Register
from spanbook.rules.checking import Checked, check_tree, content_of
from spanbook.site import permanent
from spanbook.site.former import former_pages
from spanbook.wording.editing import comment_lost, dying, not_clean, spoilt

_Make = Callable[[Register, names.Guides], Plan]


@dataclass(frozen=True, slots=True)
class Correction:
    """What a command would change in the files below `content`.

    `led_on` are those of today's pages that would lead on, `problems` what the checks would say and do not
    say now; `was` and `now` are the records before and after.
    """

    content: Path
    files: tuple[FileChange, ...]
    led_on: tuple[str, ...]
    problems: tuple[Problem, ...]
    was: Register = field(repr=False)
    now: Register = field(repr=False)

    @property
    def joined(self) -> tuple[tuple[Part, Part], ...]:
        """Parts of today that would be one with another of today: their number leads to that one's."""
        leads = self.now.former.numbers
        today = self.was.parts
        return tuple((part, today[leads[key]]) for key, part in today.items() if leads.get(key) in today)

    def write(self) -> None:
        """Change the files, all of them or none.

        Raises CannotChange where somebody has changed them meanwhile, and OSError; nothing is changed then.
        """
        try:
            edited.edit(self.content, self.files, lambda _: None)
        except NoPlace as why:
            raise CannotChange(str(why)) from None


def rename(project: str | Path, what: str, word: str) -> Correction:
    """Give `what` another id: a record, series or position by its address (assemblies/lid), a span's anchor
    by the address with its # (assemblies/lid#span-xa), a sign (signs/lid-held), or an answer other
    words (signs/lid-held=four nuts). Raises CannotChange."""
    return _corrected(project, lambda register, guides: names.rename(register, guides, what, word))


def renumber(
    project: str | Path,
    old: str,
    new: str,
    *,
    by: str | None = None,
    new_by: str | None = None,
    means: str | None = None,
    only: Collection[str] = (),
) -> Correction:
    """Give a part another number, everywhere or in `only` some records; `by` tells whose the old number is,
    `new_by` whose the new one is, `means` the id of the part where the old one has meant several. Raises
    CannotChange."""
    return _corrected(
        project,
        lambda register, guides: numbers.renumber(
            register, guides, old, new, by=by, new_by=new_by, means=means, only=only
        ),
    )


def merge(project: str | Path, what: str, into: str) -> Correction:
    """Put what `what` names together with what `into` names, because they are one thing: records of one kind,
    two series or two positions. What only the first says comes to the other. Raises CannotChange."""
    return _corrected(project, lambda register, guides: merges.merge(register, guides, what, into))


def move(project: str | Path, what: str, where: str) -> Correction:
    """Move a position into a group (`positions` for the outermost), or an assembly to another position.
    Raises CannotChange."""
    return _corrected(project, lambda register, guides: moves.move(register, guides, what, where))


def split(
    project: str | Path,
    what: str,
    into: Sequence[str],
    *,
    second_from: Mapping[str, tuple[int, int]] | None = None,
    made: str | None = None,
    why: str | None = None,
) -> Correction:
    """Tell an assembly apart `into` new ids; it is retired and leads on, and who saw it saw one of them.

    `second_from` gives by series the first number of the second of two, from and to where it may lie; `made`
    is the one that conversions to it make, `why` what was found out. Raises CannotChange.
    """
    return _corrected(
        project,
        lambda register, guides: splits.split(
            register, guides, what, into, second_from=second_from, made=made, why=why
        ),
    )


def _corrected(project: str | Path, make: _Make) -> Correction:
    edited.mend(Path(project) / "content")
    content = content_of(Path(project)).resolve()
    folder = Folder(content)
    with known_of(content) as known:
        was = check_tree(folder, content.name, known)
        if bad := _unread(was):
            raise CannotChange(not_clean(bad))
        guides = {path: folder.read(path, _MOST) for path in folder.others() if path.endswith(".md")}
        plan = make(was.register, guides)
        now = check_tree(_changed(folder, plan), content.name, known, was.register)
    lost = Counter(_comments(plan, after=False)) - Counter(_comments(plan, after=True))
    if lost:
        raise CannotChange(comment_lost(next(iter(lost))))
    return _judged(content, plan, was, now)


_MOST = 10_000_000  # bytes of a guide


def _judged(content: Path, plan: Plan, was: Checked, now: Checked) -> Correction:
    fresh = tuple(_fresh(content, plan, was, now))
    if bad := [problem for problem in fresh if problem.severity is Severity.ERROR]:
        raise CannotChange(spoilt(bad))
    had, has = set(permanent.public(was.register)), set(permanent.public(now.register))
    if dead := sorted(had - has):
        raise CannotChange(dying(dead))
    led_on = former_pages(now.register).keys() - former_pages(was.register).keys()
    return Correction(content, plan.files, tuple(sorted(led_on & had)), fresh, was.register, now.register)


def _fresh(content: Path, plan: Plan, was: Checked, now: Checked) -> Iterator[Problem]:
    """What would be wrong and is not; what is wrong with a file may say so in other words afterwards."""
    paths = {f"{content.name}/{one.before}": f"{content.name}/{one.after}" for one in plan.files}
    known = Counter((p.name, paths.get(p.place.path, p.place.path)) for p in was.problems)
    for problem in now.problems:
        known[problem.name, problem.place.path] -= 1
        if known[problem.name, problem.place.path] < 0:
            yield problem


def _unread(checked: Checked) -> list[Problem]:
    """What is wrong with files of which no record could be made: they may mention anything."""
    read = {record.origin.path for record in checked.register.records}
    wrong = (p for p in checked.problems if p.severity is Severity.ERROR and p.place.path.endswith(".yml"))
    return [problem for problem in wrong if problem.place.path not in read]


def _comments(plan: Plan, *, after: bool) -> Iterator[str]:
    for change in plan.files:
        path, data = (change.after, change.now) if after else (change.before, change.was)
        if path and path.endswith(".yml"):
            yield from comments(data)


def _changed(folder: Folder, plan: Plan) -> LaidOver:
    """A content folder as a plan would leave it."""
    put = {change.after: change.now for change in plan.files if change.after}
    return LaidOver(folder, put, frozenset(change.before for change in plan.files if change.before))
