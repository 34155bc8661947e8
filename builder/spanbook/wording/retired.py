"""What is retired: that nothing is answered from it any more, why, and what is asked for instead."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Assembly, Machine, Series
from spanbook.register.model import Register
from spanbook.register.units import Number
from spanbook.wording.pieces import Pieces, Ref, filled, joined


def retired_words(register: Register, assembly: Assembly) -> Pieces:
    """Of an assembly: `Retired: It was two. Now: one or the other.`"""
    heirs = (register.assemblies[id_] for id_ in assembly.now)
    return _led_on(assembly.retired, [Ref(one.title, one) for one in heirs])


def retired_series_words(register: Register, series: Series) -> Pieces:
    """Of a series: `Retired: Its numbers are engines rebuilt. Now: HK ····.`"""
    return _led_on(series.retired, _heirs(register, series))


def retired_number_words(register: Register, number: Number) -> Pieces:
    """Of a number that reads only in a series that is retired."""
    machine = register.machines[number.series.machine].title
    told = retired_series_words(register, number.series)
    return labelled(f"{number.shown}, {machine}", f"{number.series.name}. "), *told


def retired_summary(machine: Machine, series: Series) -> str:
    told = _("{machine}: {series}, a series that is retired.")
    return told.format(machine=machine.title, series=series.name)


def _heirs(register: Register, series: Series) -> Sequence[Ref]:
    return [Ref(register.series[id_].name, register.said[register.series[id_]]) for id_ in series.now]


def _led_on(why: str | None, heirs: Sequence[Ref]) -> Pieces:
    reason = (why or "").rstrip(".")
    if heirs:
        return filled(_("Retired: {why}. Now: {heirs}."), why=reason, heirs=joined(heirs, "or"))
    return (_("Retired: {}.").format(reason),)
