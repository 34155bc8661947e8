"""What an import tells: what was drafted, what was left over and why, what is likely there already."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from spanbook.editing.sheets import Alike, Left, Standing, State, Why
from spanbook.reading.problems import Problem, one_line
from spanbook.reading.sheets import Sheet, letter_of
from spanbook.wording.grammar import plural

_SHOWN = 12

_READ = {
    Why.NUMBER: "the number {read} in a column of text; zeros before it may be lost",
    Why.DATE: "a date, {read}; what was typed may have been something else",
    Why.TRUTH: "{read}, which the spreadsheet has made of a word",
    Why.FORMULA: "a formula whose result is not in the file: {read}",
    Why.ERROR: "a formula that failed: {read}",
    Why.WHOLE: "{read}, where a whole number is asked for",
    Why.HIDDEN: "{about}",
    Why.LONG: "more text than a cell of a spreadsheet can have",
    Why.UNKNOWN: "“{read}”, the name of nothing that is recorded, or of several things",
    Why.FORM: "“{read}”",
    Why.CUT: "“{read}”, which has no “{about}” in it",
    Why.OTHERWISE: "“{read}”, where an earlier row of the same record has {about}",
    Why.TWICE: "“{read}” once more, as in row {about}",
    Why.PART: "“{read}” alone",
    Why.RECORD: "{read} makes no record",
    Why.UNREADABLE: "{read} makes no record",
    Why.NO_ID: "nothing to make an id of",
    Why.COLUMN: "a column that the map does not name",
}
_TODO = {
    Why.NUMBER: "make the cell a text and type it as it is printed, or give the column numbers: shown",
    Why.DATE: "make the cell a text and type it as it was meant",
    Why.TRUTH: "make the cell a text and type it as it was meant",
    Why.FORMULA: "open the file in its program and save it again",
    Why.ERROR: "correct the formula, or type the result",
    Why.WHOLE: "type a whole number",
    Why.HIDDEN: "delete it in the cell",
    Why.LONG: "shorten it",
    Why.UNKNOWN: "{did}, or say under words what it means",
    Why.FORM: "{about}",
    Why.CUT: "type both ends",
    Why.OTHERWISE: "the earlier one was taken; correct the row, or let id name more columns",
    Why.TWICE: "it was taken once; correct the row if another was meant",
    Why.PART: "missing beside it, or not taken: {about}",
    Why.RECORD: "missing, or not taken: {about}",
    Why.UNREADABLE: "{about}",
    Why.NO_ID: "say under id which columns tell the records apart, and fill them",
    Why.COLUMN: "give it a field, or name it under left",
}


def sheet_name(sheet: Sheet) -> str:
    """A sheet as it is named: its file, and its own name where it has one."""
    return one_line(f"{sheet.file}, sheet {sheet.name}" if sheet.name else sheet.file)


def not_installed(name: str, how: str) -> str:
    """What an import needs and has not got."""
    return f"{name} is not installed, which finds what is likely there already: {how}"


def left_line(sheet: Sheet, left: Left) -> str:
    """One thing that was left over: where, what was read, what to do."""
    did = f"did you mean {left.about}?" if left.about else "record it first"
    said = {"read": _short(left.read), "about": left.about, "did": did.removesuffix("?")}
    return one_line(f"{_place(left)}: {_READ[left.why].format(**said)}; {_TODO[left.why].format(**said)}")


def _place(left: Left) -> str:
    heading = f" ({left.heading})" if left.heading else ""
    if not left.row:
        return f"column {letter_of(left.column)}{heading}"
    return f"{letter_of(left.column)}{left.row}{heading}" if left.column else f"row {left.row}{heading}"


def alike_line(one: Alike) -> str:
    """A draft that is likely something that is there."""
    there = f"{one.path} has “{one.other_said}”" if one.path else f"so is {one.other}, “{one.other_said}”"
    return one_line(f"{one.draft} is drafted, “{one.said}”; {there}")


def left_over(sheet: Sheet, left: Sequence[Left], same: Sequence[Alike]) -> Iterator[str]:
    """The list that is laid beside the drafts."""
    yield f"Left over of {sheet_name(sheet)}"
    yield ""
    yield from (left_line(sheet, one) for one in left)
    if not left:
        yield "Nothing."
    if same:
        yield ""
        yield "Likely the same thing twice: look at both, and keep one."
        yield from map(alike_line, same)


def told(
    sheet: Sheet,
    rows: int,
    fates: Mapping[str, int],
    standing: Mapping[str, Standing],
    left: Sequence[Left],
    same: Sequence[Alike],
    problems: Sequence[Problem],
) -> Iterator[str]:
    """The whole of an import in some lines; of long lists the beginning, and how many more there are."""
    yield f"{sheet_name(sheet)}: {plural(rows, '{} row', '{} rows')}. {_fates(fates)}"
    if sheet.macros:
        yield "The file holds macros; nobody ran or read them."
    if len(sheet.names) > 1:
        others = ", ".join(name for name in sheet.names if name != sheet.name)
        yield one_line(f"The file has other sheets: {others}")
    yield from _standing(standing)
    yield from _counted("Left over", list(_grouped(sheet, left)), str(len(left)))
    yield from _counted("Likely the same thing twice", list(map(alike_line, same)))
    yield from _counted("The checks would say of the records with the drafts", list(map(str, problems)))


def _fates(fates: Mapping[str, int]) -> str:
    forms = {
        "made": ("{} new draft", "{} new drafts"),
        "changed": ("{} draft changes", "{} drafts change"),
        "same": ("{} draft is as it was", "{} drafts are as they were"),
        "kept": ("{} that somebody has changed stays", "{} that somebody has changed stay"),
        "gone": ("{} draft goes", "{} drafts go"),
    }
    said = [plural(fates[name], *both) for name, both in forms.items() if fates.get(name)]
    return f"{', '.join(said)}." if said else "No draft."


def _standing(standing: Mapping[str, Standing]) -> Iterator[str]:
    taken = sum(one.state is State.TAKEN for one in standing.values())
    if taken:
        yield plural(taken, "{} is among the records already.", "{} are among the records already.")
    for state, title in (
        (State.OTHERWISE, "Among the records, and the sheet says otherwise now; correct them by hand"),
        (State.THERE, "Not drafted: a record that comes from no sheet has the id"),
    ):
        found = [f"{id_}: {one.path}" for id_, one in standing.items() if one.state is state]
        yield from _counted(title, found)


def _counted(title: str, lines: Sequence[str], count: str = "") -> Iterator[str]:
    if not lines:
        return
    yield f"{title} ({count or len(lines)}):"
    yield from (f"  {line}" for line in lines[:_SHOWN])
    if len(lines) > _SHOWN:
        yield f"  and {len(lines) - _SHOWN} more"


def _grouped(sheet: Sheet, left: Iterable[Left]) -> Iterator[str]:
    """One line for what is alike in one column: how often, and the first of it."""
    groups = defaultdict[tuple[Why, int], list[Left]](list)
    for one in left:
        groups[one.why, one.column if one.row else -one.column].append(one)
    for found in groups.values():
        rest = len(found) - 1
        more = plural(rest, "; and one more like it", "; and {} more like it") if rest else ""
        yield left_line(sheet, found[0]) + more


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= 60 else f"{text[:57]}..."
