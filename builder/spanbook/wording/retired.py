"""What is retired: that nothing is answered from it any more, why, and what is asked for instead."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.reading.records import Assembly, Machine, Series
from spanbook.register.model import Register
from spanbook.register.units import Number
from spanbook.wording.pieces import Pieces, Ref, joined


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
    return f"{number.shown}, {machine}: {number.series.name}. ", *told


def retired_summary(machine: Machine, series: Series) -> str:
    return f"{machine.title}: {series.name}, a series that is retired."


def _heirs(register: Register, series: Series) -> Sequence[Ref]:
    return [Ref(register.series[id_].name, register.said[register.series[id_]]) for id_ in series.now]


def _led_on(why: str | None, heirs: Sequence[Ref]) -> Pieces:
    now = (". Now: ", *joined(heirs, "or")) if heirs else ()
    return f"Retired: {(why or '').rstrip('.')}", *now, "."
