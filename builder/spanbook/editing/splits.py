"""One assembly was several: a record for each, and the one of before is retired and leads on to them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf

from spanbook.editing.names import Guides
from spanbook.editing.plan import CannotChange, Desk, Plan
from spanbook.editing.things import Thing, free, named, new_id
from spanbook.ground.language import gettext as _
from spanbook.reading.edit import Draft
from spanbook.reading.records import Assembly, Conversion, End, FittedSpan, Record, Series, StripDown
from spanbook.reading.roles import Role
from spanbook.reading.walk import Leaf, walk
from spanbook.register.model import Register

Bound = tuple[int, int]  # somewhere from the one number to the other


def split(
    register: Register,
    guides: Guides,
    what: str,
    into: Sequence[str],
    *,
    second_from: Mapping[str, Bound] | None = None,
    made: str | None = None,
    why: str | None = None,
) -> Plan:
    """Tell an assembly apart into several new ones.

    With `second_from`, by series the number with which the second of two begins, each gets its share of the
    numbers; without, each is possibly on all of them. `made` is the one that conversions to it make. Raises
    CannotChange.
    """
    thing, ids = named(register, what), [new_id(word) for word in into]
    assembly = thing.record
    if not isinstance(assembly, Assembly) or assembly.retired:
        raise CannotChange(_("{}: only an assembly that is not retired is told apart").format(what))
    if len(set(ids)) < 2 or len(set(ids)) != len(ids):
        raise CannotChange(_("name two new ids or more, each once"))
    if second_from and len(ids) != 2:
        raise CannotChange(_("a number tells two apart; name two new ids, or no number"))
    for id_ in ids:
        free(register, thing, id_)
    unknown = set(second_from or ()) - {span.series for span in assembly.serials}
    if unknown:
        raise CannotChange(
            _("{what} has no span in the series {series}").format(
                what=what, series=", ".join(sorted(unknown))
            )
        )
    if made is not None and made not in ids:
        raise CannotChange(_("{made} is none of {known}").format(made=made, known=", ".join(ids)))
    desk = Desk(register.records, guides)
    folder = assembly.origin.path.partition("/")[2].rpartition("/")[0]
    for place, id_ in enumerate(ids):
        desk.write(f"{folder}/{id_}.yml", _new(register, assembly, id_, place, second_from or {}))
    _name_them(register, desk, thing, ids, made)
    with desk.draft(assembly) as draft:
        told = why or _("More than one went under this name")
        draft.put((), "retired", told, after="position")
        draft.put((), "now", ids, after="position")
    return desk.plan()


def _new(
    register: Register, assembly: Assembly, id_: str, place: int, second_from: Mapping[str, Bound]
) -> str:
    """The file of one of the new ones: as the old one is, but for its name and its numbers."""
    draft = Draft(assembly.origin.data)
    draft.replace(("id",), id_)
    draft.replace(("title",), id_.replace("-", " ").capitalize())
    if assembly.formerly:
        draft.remove(("formerly",))
    kept = 0
    for i, span in enumerate(assembly.serials):
        series = register.series[span.series]
        if span.formerly:
            draft.remove(("serials", i, "formerly"))
        if span.series not in second_from:
            _possibly(draft, i, span, series)
            kept += 1
        elif _share(draft, i, span, series, second_from[span.series], place):
            kept += 1
        else:
            draft.remove(("serials", i))
    for i, line in enumerate(assembly.parts):
        if line.formerly:
            draft.remove(("parts", i, "formerly"))
    if not kept:
        raise CannotChange(
            _("{} would have no numbers at all; give the series another number, or none").format(id_)
        )
    return draft.result().decode()


def _possibly(draft: Draft, i: int, span: FittedSpan, series: Series) -> None:
    """Anywhere within the numbers that the span had; which of them, nobody has told yet."""
    low, high = _low(span.first, series), _high(span.last, series)
    either: object = low if low == high else [low, int(high)] if high < inf else "unknown"
    if _is_typed(series):
        either = "unknown"
    draft.retype(("serials", i, "first"), either)
    draft.retype(("serials", i, "last"), either)


def _share(draft: Draft, i: int, span: FittedSpan, series: Series, begins: Bound, place: int) -> bool:
    """The numbers before the second begins for the first, the others for it; False for none."""
    if _is_typed(series):
        raise CannotChange(
            _("the numbers of {} have several parts; split without a number, then correct").format(series.id)
        )
    low, high = _low(span.first, series), _high(span.last, series)
    if place == 0 and begins[0] > low:
        if begins[0] <= high:
            last = (begins[0] - 1, begins[1] - 1)
            draft.retype(("serials", i, "last"), list(last) if last[0] != last[1] else last[0])
        return True
    if place == 1 and begins[1] <= high:
        if begins[1] > low:
            draft.retype(("serials", i, "first"), list(begins) if begins[0] != begins[1] else begins[0])
        return True
    return False


def _is_typed(series: Series) -> bool:
    """Whether its numbers are written as on the plate, because a count alone does not tell them."""
    return isinstance(series.first_as_typed, str)


def _low(first: End, series: Series) -> int:
    ends = None if first == "open" else series.order.ends(first)
    return max(ends[0], series.first) if ends else series.first


def _high(last: End, series: Series) -> float:
    ends = None if last == "open" else series.order.ends(last)
    return ends[1] if ends else inf if series.last is None else series.last


def _name_them(register: Register, desk: Desk, thing: Thing, ids: Sequence[str], made: str | None) -> None:
    for record in register.records:
        leaves = [leaf for leaf in walk(record, Role.REFERENCE, to="assembly") if leaf.value == thing.id]
        if leaves and not isinstance(record, StripDown):
            with desk.draft(record) as draft:
                for leaf in leaves:
                    _name_one(draft, record, leaf, ids, made)


def _name_one(draft: Draft, record: Record, leaf: Leaf, ids: Sequence[str], made: str | None) -> None:
    if leaf.slot.many:
        draft.replace(leaf.steps, ids[0])
        for id_ in ids[1:]:
            draft.add(leaf.steps[:-1], id_)
    elif leaf.steps[0] == "found":
        draft.rekey(leaf.steps, "one-of", list(ids))
    elif made:
        draft.replace(leaf.steps, made)
    else:
        told = (
            _("{file} makes it: say with --made which of {ids} that is")
            if isinstance(record, Conversion)
            else _("{file} names it: say with --made which of {ids} that is")
        )
        raise CannotChange(told.format(file=record.origin.path, ids=", ".join(ids)))
