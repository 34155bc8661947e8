"""Places inside assemblies: what a position is within, and what is inside an assembly."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.applicability import Segment, State
from spanbook.ground.intervals import Covers
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.records import Assembly
from spanbook.register.model import Housing, Position, Register
from spanbook.wording.fits import ask_by_words
from spanbook.wording.grammar import capital, small
from spanbook.wording.pieces import Pieces, Ref, filled, joined

INSIDE = marked("Inside it, under some of its assemblies only:")
NOT_YET = marked("Nothing is recorded for this series yet.")
NOWHERE = marked("By the records no machine of this series left the works with such a place.")


def within_words(register: Register, position: Position) -> Pieces:
    """Inside of what a place is; nothing where every machine has it."""
    if position.housing is None:
        return ()
    around = register.positions[position.housing.position]
    under = _either(register, position.housing)
    told = _("Within the {place}: only under {assemblies}.")
    return filled(told, place=Ref(small(around.title), around), assemblies=under)


def there_words(register: Register, position: str, there: Covers) -> Iterator[Pieces]:
    """That a place within some assemblies was not there, or only with these; nothing where it surely was."""
    housing = register.positions[position].housing
    if housing is None or there is Covers.YES:
        return
    held = _either(register, housing)
    if there is Covers.NO:
        yield filled(_("No such place: only {assemblies} has one."), assemblies=held)
    else:
        around = small(register.positions[housing.position].title)
        yield filled(_("Only where the {place} is {assemblies}."), place=around, assemblies=held)


def inside_words(register: Register, assembly: Assembly) -> Pieces:
    """The places that an assembly has inside it; nothing where it has none."""
    inside = [
        one
        for one in register.positions.values()
        if one.holds and one.housing and assembly.id in one.housing.assemblies
    ]
    places = joined([Ref(small(one.title), one) for one in inside])
    return filled(_("Inside it: {places}."), places=places) if inside else ()


def nothing_recorded(segments: Iterable[Segment]) -> str:
    """What is said of a series of which no assembly is recorded at a position."""
    found = tuple(segments)
    if found and (plate := found[0].ask_by):
        return f"{capital(ask_by_words(plate))}."
    return _(NOWHERE) if all(segment.state is State.NO_PLACE for segment in found) else _(NOT_YET)


def _either(register: Register, housing: Housing) -> Pieces:
    held = [register.assemblies[id_] for id_ in housing.assemblies]
    return joined([Ref(_("the {title}").format(title=one.title), one) for one in held], "or")
