"""What was seen past the last number that is recorded, or before the first, on a page and in a question."""

from __future__ import annotations

from spanbook.answers.beyond import Beyond, Sighting
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Conversion, Record
from spanbook.wording.grammar import plural
from spanbook.wording.pieces import Pieces, Ref, plain
from spanbook.wording.records import CONDITIONS


def beyond_line(one: Beyond, here: Record | None = None) -> Pieces:
    """How many machines, past what, and each with its condition; what the page is about leads nowhere."""
    machines = plural(len({s.number for s in one.seen}), "{} machine", "{} machines")
    edge = one.series.stamp.show(one.edge)
    end = f"past {edge}, the last" if one.past else f"before {edge}, the first"
    title = one.assembly.title
    held = title if one.assembly is here else Ref(title, one.assembly)
    found: list[str | Ref] = ["The ", held, f" was seen on {machines} {end} number "]
    if isinstance(one.of, Conversion):
        found += ["that ", one.of.title if one.of is here else Ref(one.of.title, one.of), " is for: "]
    else:
        found.append("recorded for it: ")
    for i, sighting in enumerate(one.seen):
        found += [", " if i else "", *_sighting(one, sighting)]
    found.append(".")
    if one.of is one.assembly and not any(sighting.through for sighting in one.seen):
        found.append(" No conversion explains it." if len(one.seen) == 1 else " No conversion explains them.")
    return tuple(piece for piece in found if piece)


def _sighting(one: Beyond, sighting: Sighting) -> Pieces:
    serial = one.series.stamp.show(sighting.number)
    condition = _(CONDITIONS[sighting.find.condition])
    shown = f" ({condition})" if sighting.find.condition != "unknown" else " (condition not known)"
    if not sighting.through:
        return Ref(serial, sighting.teardown), shown
    kits: list[str | Ref] = []
    for kit in sighting.through:
        kits += [" and " if kits else "", Ref(kit.title, kit)]
    return Ref(serial, sighting.teardown), f"{shown[:-1]}, by ", *kits, ")"


def beyond_words(one: Beyond) -> str:
    """The same where nothing can be followed."""
    return plain(beyond_line(one))
