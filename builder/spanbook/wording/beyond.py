"""What was seen past the last number that is recorded, or before the first, on a page and in a question."""

from __future__ import annotations

from spanbook.answers.beyond import Beyond, Sighting
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.records import Assembly, Conversion, Record
from spanbook.wording.grammar import plural
from spanbook.wording.pieces import Pieces, Ref, filled, joined, plain
from spanbook.wording.records import CONDITIONS

# Whether it was past the last number or before the first, and whether that is a conversion's.
_PAST = {
    (True, True): marked(
        "The {assembly} was seen on {machines} past {number}, "
        "the last number that {conversion} is for: {seen}."
    ),
    (False, True): marked(
        "The {assembly} was seen on {machines} before {number}, "
        "the first number that {conversion} is for: {seen}."
    ),
    (True, False): marked(
        "The {assembly} was seen on {machines} past {number}, the last number recorded for it: {seen}."
    ),
    (False, False): marked(
        "The {assembly} was seen on {machines} before {number}, the first number recorded for it: {seen}."
    ),
}


def beyond_line(one: Beyond, here: Record | None = None) -> Pieces:
    """How many machines, past what, and each with its condition; what the page is about leads nowhere."""
    machines = plural(len({s.number for s in one.seen}), "{} machine", "{} machines")
    seen = tuple(
        piece for i, s in enumerate(one.seen) for piece in ([", "] if i else []) + [*_sighting(one, s)]
    )
    told = filled(
        _(_PAST[one.past, isinstance(one.of, Conversion)]),
        assembly=_named(one.assembly, here),
        machines=machines,
        number=one.series.stamp.show(one.edge),
        conversion=_named(one.of, here),
        seen=seen,
    )
    if one.of is not one.assembly or any(sighting.through for sighting in one.seen):
        return told
    alone = len(one.seen) == 1
    return *told, " ", _("No conversion explains it.") if alone else _("No conversion explains them.")


def _named(record: Conversion | Assembly, here: Record | None) -> str | Ref:
    return record.title if record is here else Ref(record.title, record)


def _sighting(one: Beyond, sighting: Sighting) -> Pieces:
    serial = one.series.stamp.show(sighting.number)
    condition = _(CONDITIONS[sighting.find.condition])
    shown = condition if sighting.find.condition != "unknown" else _("condition not known")
    named = Ref(serial, sighting.teardown)
    if not sighting.through:
        return named, f" ({shown})"
    kits = joined([Ref(kit.title, kit) for kit in sighting.through])
    return filled(_("{number} ({condition}, by {kits})"), number=named, condition=shown, kits=kits)


def beyond_words(one: Beyond) -> str:
    """The same where nothing can be followed."""
    return plain(beyond_line(one))
