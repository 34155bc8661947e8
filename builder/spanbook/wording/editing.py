"""What a command that changes many files tells before it does, and why it does not."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Sequence

from spanbook.editing import FileChange
from spanbook.ground.language import gettext as _
from spanbook.reading.problems import Problem
from spanbook.register.model import Part
from spanbook.wording.grammar import first_of, more, plural

_MOST = 5


def not_clean(problems: Sequence[Problem]) -> str:
    """Why nothing is changed where files cannot be read."""
    told = _("nothing was changed: some files cannot be read, and may mention anything. Mend them first:")
    return f"{told}\n{_some(problems)}"


def spoilt(problems: Sequence[Problem]) -> str:
    """Why a change is refused that would make errors."""
    return f"{_('nothing was changed: these would be wrong afterwards:')}\n{_some(problems)}"


def comment_lost(comment: str) -> str:
    told = _("nothing was changed: the comment “{}” would be lost; move it to another line")
    return told.format(comment)


def dying(dead: Sequence[str]) -> str:
    told = _("nothing was changed: these addresses would lead nowhere: {}")
    return told.format(first_of(dead, _MOST))


def _some(problems: Sequence[Problem]) -> str:
    lines = [f"  {problem}" for problem in problems[:_MOST]]
    return "\n".join([*lines, *([f"  {more(len(problems) - _MOST)}"] if len(problems) > _MOST else [])])


def plan_lines(
    files: Sequence[FileChange],
    led_on: Sequence[str],
    problems: Sequence[Problem],
    joined: Sequence[tuple[Part, Part]] = (),
) -> Iterator[str]:
    """The whole plan: every line of every file that changes, what leads on, which parts would be one (the
    second is there already), and what the checks would add."""
    for change in files:
        yield from _file(change)
    yield _counted(files)
    if led_on:
        yield plural(
            len(led_on),
            "{} address leads on: {addresses}",
            "{} addresses lead on: {addresses}",
            addresses=", ".join(led_on),
        )
    for part, other in joined:
        told = _("{other} is recorded already: {part} would be one part with it.")
        yield told.format(other=_named(other), part=_named(part))
    if problems:
        yield _("The checks would say then:")
        yield from (f"  {problem}" for problem in problems)


def _named(part: Part) -> str:
    return f"{part.number} {part.name}".rstrip()


def _file(change: FileChange) -> Iterator[str]:
    if change.before is None:
        yield _("{} (new)").format(change.after)
    elif change.after is None:
        yield _("{} (taken away)").format(change.before)
    elif change.before == change.after:
        yield change.before
    else:
        yield _("{before} becomes {after}").format(before=change.before, after=change.after)
    was, now = (text.decode().splitlines() for text in (change.was, change.now))
    for sort, i1, i2, j1, j2 in difflib.SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
        if sort != "equal":
            yield from (f"  {n + 1:>4} - {was[n]}" for n in range(i1, i2))
            yield from (f"  {n + 1:>4} + {now[n]}" for n in range(j1, j2))


def _counted(files: Sequence[FileChange]) -> str:
    made = sum(change.before is None for change in files)
    gone = sum(change.after is None for change in files)
    moved = sum(None not in (c.before, c.after) and c.before != c.after for c in files)
    told = [plural(len(files), "{} file changes", "{} files change")]
    told += [plural(made, "{} of them is new", "{} of them are new")] if made else []
    told += [plural(gone, "{} is taken away", "{} are taken away")] if gone else []
    told += [plural(moved, "{} gets another name", "{} get other names")] if moved else []
    return ", ".join(told) + "."
