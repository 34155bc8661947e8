"""What an import tells: what was drafted, what was left over and why, what is likely there already."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from spanbook.editing.sheets import Alike, Left, Standing, State, Why
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms
from spanbook.ground.punctuation import headed, labelled, parted
from spanbook.reading.problems import Problem, one_line
from spanbook.reading.sheets import Sheet, letter_of
from spanbook.wording.grammar import more, plural

_SHOWN = 12

_READ = {
    Why.NUMBER: marked("the number {read} in a column of text; zeros before it may be lost"),
    Why.DATE: marked("a date, {read}; what was typed may have been something else"),
    Why.TRUTH: marked("{read}, which the spreadsheet has made of a word"),
    Why.FORMULA: marked("a formula whose result is not in the file: {read}"),
    Why.ERROR: marked("a formula that failed: {read}"),
    Why.WHOLE: marked("{read}, where a whole number is asked for"),
    Why.HIDDEN: "{about}",
    Why.LONG: marked("more text than a cell of a spreadsheet can have"),
    Why.UNKNOWN: marked("“{read}”, the name of nothing that is recorded, or of several things"),
    Why.FORM: marked("“{read}”"),
    Why.CHOICE: marked("“{read}”"),
    Why.COMMA: marked("“{read}”, a decimal comma"),
    Why.THOUSANDS: marked("“{read}”, figures in threes"),
    Why.CUT: marked("“{read}”, which has no “{about}” in it"),
    Why.OTHERWISE: marked("“{read}”, where an earlier row of the same record has {about}"),
    Why.TWICE: marked("“{read}” once more, as in row {about}"),
    Why.PART: marked("“{read}” alone"),
    Why.RECORD: marked("{read} makes no record"),
    Why.UNREADABLE: marked("{read} makes no record"),
    Why.NO_ID: marked("nothing to make an id of"),
    Why.COLUMN: marked("a column that the map does not name"),
}
_TODO = {
    Why.NUMBER: marked(
        "make the cell a text and type it as it is printed, or give the column numbers: shown"
    ),
    Why.DATE: marked("make the cell a text and type it as it was meant"),
    Why.TRUTH: marked("make the cell a text and type it as it was meant"),
    Why.FORMULA: marked("open the file in its program and save it again"),
    Why.ERROR: marked("correct the formula, or type the result"),
    Why.WHOLE: marked("type a whole number"),
    Why.HIDDEN: marked("delete it in the cell"),
    Why.LONG: marked("shorten it"),
    Why.UNKNOWN: marked("{did}, or say under words what it means"),
    Why.FORM: "{about}",
    Why.CHOICE: marked("{about}; or say under words what it means"),
    Why.COMMA: marked("give the column decimals: comma, or type {about}"),
    Why.THOUSANDS: marked("give the column thousands: space, comma or point, or type {about}"),
    Why.CUT: marked("type both ends"),
    Why.OTHERWISE: marked("the earlier one was taken; correct the row, or let id name more columns"),
    Why.TWICE: marked("it was taken once; correct the row if another was meant"),
    Why.PART: marked("missing beside it, or not taken: {about}"),
    Why.RECORD: marked("missing, or not taken: {about}"),
    Why.UNREADABLE: "{about}",
    Why.NO_ID: marked("say under id which columns tell the records apart, and fill them"),
    Why.COLUMN: marked("give it a field, or name it under left"),
}


def sheet_name(sheet: Sheet) -> str:
    """A sheet as it is named: its file, and its own name where it has one."""
    told = _("{file}, sheet {sheet}")
    return one_line(told.format(file=sheet.file, sheet=sheet.name) if sheet.name else sheet.file)


def not_installed(name: str, how: str) -> str:
    """What an import needs and has not got."""
    told = _("{name} is not installed, which finds what is likely there already: {how}")
    return told.format(name=name, how=how)


def left_line(sheet: Sheet, left: Left) -> str:
    """One thing that was left over: where, what was read, what to do."""
    did = _("did you mean {}").format(left.about) if left.about else _("record it first")
    said = {"read": _short(left.read), "about": left.about, "did": did}
    read, todo = _(_READ[left.why]).format(**said), _(_TODO[left.why]).format(**said)
    return one_line(labelled(_place(left), parted(read, todo)))


def _place(left: Left) -> str:
    heading = f" ({left.heading})" if left.heading else ""
    if not left.row:
        return _("column {}").format(letter_of(left.column)) + heading
    if left.column:
        return f"{letter_of(left.column)}{left.row}{heading}"
    return _("row {}").format(left.row) + heading


def alike_line(one: Alike) -> str:
    """A draft that is likely something that is there."""
    told = (
        _("{draft} is drafted, “{said}”; {path} has “{other}”")
        if one.path
        else _("{draft} is drafted, “{said}”; so is {path}, “{other}”")
    )
    where = one.path or one.other
    return one_line(told.format(draft=one.draft, said=one.said, path=where, other=one.other_said))


def left_over(sheet: Sheet, left: Sequence[Left], same: Sequence[Alike]) -> Iterator[str]:
    """The list that is laid beside the drafts."""
    yield _("Left over of {}").format(sheet_name(sheet))
    yield ""
    yield from (left_line(sheet, one) for one in left)
    if not left:
        yield _("Nothing.")
    if same:
        yield ""
        yield _("Likely the same thing twice: look at both, and keep one.")
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
    yield labelled(sheet_name(sheet), f"{plural(rows, '{} row', '{} rows')}. {_fates(fates)}")
    if sheet.macros:
        yield _("The file holds macros; nobody ran or read them.")
    if len(sheet.names) > 1:
        others = ", ".join(name for name in sheet.names if name != sheet.name)
        yield one_line(_("The file has other sheets: {}").format(others))
    yield from _standing(standing)
    yield from _counted(_("Left over"), list(_grouped(sheet, left)), str(len(left)))
    yield from _counted(_("Likely the same thing twice"), list(map(alike_line, same)))
    said = _("The checks would say of the records with the drafts")
    yield from _counted(said, list(map(str, problems)))


def _fates(fates: Mapping[str, int]) -> str:
    forms = {
        "made": marked_forms("{} new draft", "{} new drafts"),
        "changed": marked_forms("{} draft changes", "{} drafts change"),
        "same": marked_forms("{} draft is as it was", "{} drafts are as they were"),
        "kept": marked_forms("{} that somebody has changed stays", "{} that somebody has changed stay"),
        "gone": marked_forms("{} draft goes", "{} drafts go"),
    }
    said = [plural(fates[name], *both) for name, both in forms.items() if fates.get(name)]
    return f"{', '.join(said)}." if said else _("No draft.")


def _standing(standing: Mapping[str, Standing]) -> Iterator[str]:
    taken = sum(one.state is State.TAKEN for one in standing.values())
    if taken:
        yield plural(taken, "{} is among the records already.", "{} are among the records already.")
    for state, title in (
        (
            State.OTHERWISE,
            _("Among the records, and the sheet says otherwise now; correct them by hand"),
        ),
        (State.THERE, _("Not drafted: a record that comes from no sheet has the id")),
    ):
        found = [labelled(id_, one.path) for id_, one in standing.items() if one.state is state]
        yield from _counted(title, found)


def _counted(title: str, lines: Sequence[str], count: str = "") -> Iterator[str]:
    if not lines:
        return
    yield headed(f"{title} ({count or len(lines)})")
    yield from (f"  {line}" for line in lines[:_SHOWN])
    if len(lines) > _SHOWN:
        yield f"  {more(len(lines) - _SHOWN)}"


def _grouped(sheet: Sheet, left: Iterable[Left]) -> Iterator[str]:
    """One line for what is alike in one column: how often, and the first of it."""
    groups = defaultdict[tuple[Why, int], list[Left]](list)
    for one in left:
        groups[one.why, one.column if one.row else -one.column].append(one)
    for found in groups.values():
        rest = len(found) - 1
        first = left_line(sheet, found[0])
        if rest:
            first = plural(rest, "{first}; and one more like it", "{first}; and {} more like it", first=first)
        yield first


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= 60 else f"{text[:57]}..."
