"""What to order for each part number of which that goes by the machine: tables by series and number.

They say what the command says for a machine, word for word.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import Any

from spanbook.answers.condition import Applies
from spanbook.answers.listed import at_line, listed
from spanbook.answers.order_edges import order_edges
from spanbook.answers.orders import Ordering, Orders
from spanbook.answers.readings import machine_of
from spanbook.ground.intervals import Reach
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Series
from spanbook.register.model import Part
from spanbook.site import addresses
from spanbook.site.card.lines import Once
from spanbook.site.common import Site
from spanbook.site.each import EachTable, File
from spanbook.site.finder.tables import script
from spanbook.site.sheet.runs import Runs, alone, edge
from spanbook.wording import order_here

FOLDER = "assets/which/"


def table_of(part: Part) -> str:
    """What the table of a part is called."""
    return f"which-{addresses.of_part(part.key).strip('/').replace('/', '--')}"


def _files(site: Site, part: Part) -> Iterator[File]:
    """The table of a part, if it has one, by its address."""
    if goes_by_machine(site, part):
        yield f"{FOLDER}{table_of(part)}.js", script(table_of(part), table(site, part))


EACH = EachTable(lambda site: site.register.parts.values(), table_of, _files)


def goes_by_machine(site: Site, part: Part) -> bool:
    """Whether what is ordered for a number is not the same for all machines, as far as records say."""
    if part.key in site.register.numbering.senses:
        return False
    return any(use.line.serials for use in part.uses) or _acts_limited(site, part)


def _acts_limited(site: Site, part: Part) -> bool:
    """Whether an act on the number, or on what it leads to, is for some machines only."""
    if not part.old_in:
        return False
    ways = site.answers.ordering.of(part.key).alternatives
    return any(one.meant is Applies.SOME for way in ways for one in way.conditions)


def table(site: Site, part: Part) -> dict[str, Any]:
    """By series the runs of numbers with what is said of each, by its place among all that is said."""
    said, series = Once(), {}
    for one in site.register.series.values():
        runs = Runs(one, _edges(site, part, one), partial(_said, site, part, one))
        series[one.id] = [[run.first, run.last, said.place(run.said, list(run.said))] for run in runs.all]
    return {"words": order_here.words(), "series": series, "said": said.held}


def _edges(site: Site, part: Part, series: Series) -> Iterator[Reach]:
    lists, ever = site.answers.fits.lists, site.answers.ever
    yield from order_edges(site.register, _keys(site, part), series)
    yield from lists.edges([use.assembly for use in part.uses], series)
    for use in part.uses:
        yield from map(edge, ever.any_of((series, use.assembly.position), [use.assembly.id]))
    yield from alone(site.register.units.shared(series))


def _keys(site: Site, part: Part) -> Iterable[PartKey]:
    """The number, and those that machines have in its place."""
    yield part.key
    for use in part.uses:
        for other in at_line(site.answers.fits.lists, use).instead:
            yield from other.line.keys


def _said(site: Site, part: Part, series: Series, number: int) -> tuple[str, ...]:
    register, answers = site.register, site.answers
    machine = machine_of(register, series, number)
    ordering = Ordering(register, machine)
    lists = listed(answers.ever, part.key, machine)

    def ordered(key: PartKey) -> Orders:
        return ordering.of(key)

    told = order_here.lines(
        register,
        part.key,
        lists,
        ordered,
        lambda act: answers.standing(act).standing,
        _(order_here.THIS),
    )
    return tuple(words for _, words in told)
