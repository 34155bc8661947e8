"""Which machine a number is, and when and where that was built."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.answers.readings import Reading
from spanbook.ground.language import gettext as _
from spanbook.ground.years import Part, Years
from spanbook.reading.records import Machine, Plant, Series
from spanbook.register.model import Register
from spanbook.wording.grammar import listed
from spanbook.wording.years import years_words


def machine_words(
    machine: Machine, years: Years | None, part: Part | None = None, plants: Sequence[Plant] = ()
) -> str:
    """Which machine it is, when and where it was built; `{}` stands for its number."""
    said = (_built(years, part, plants), "" if years else _("The year is not known."))
    return f"{{}}, {machine.title}. {' '.join(filter(None, said))}"


def _built(years: Years | None, part: Part | None, plants: Sequence[Plant]) -> str:
    """When and where it was built, as far as anything is known of it."""
    where = listed(_names(plants), "or")
    when = years_words(years, part) if years else ""
    if not where:
        return _("Built {when}.").format(when=when) if when else ""
    if not when:
        return _("Built at {where}.").format(where=where)
    told = _("Built {when}, at {where}.") if part else _("Built {when} at {where}.")
    return told.format(when=when, where=where)


def _names(plants: Sequence[Plant]) -> list[str]:
    """What plants are called; of several each with its letter, which may stand on the plate."""
    if len(plants) == 1:
        return [plants[0].name]
    return [f"{plant.name} ({plant.letter})" if plant.letter else plant.name for plant in plants]


def head_words(register: Register, series: Series, number: int) -> str:
    """The same for a number of a series."""
    years = series.years
    part, plants = years.part_of(number), series.order.plants_at(number)
    return machine_words(register.machines[series.machine], years.year_of(number), part, plants)


def this_machine_words(register: Register, reading: Reading) -> str:
    """Which machine a number is, and when it was built."""
    machine, part = register.machines[reading.series.machine], reading.part_of_year
    words = machine_words(machine, reading.years, part, reading.plants)
    return words.replace("{}", reading.shown, 1)
