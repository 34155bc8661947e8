"""What was found in a place is all that any teardown found there, by whatever number of its machine."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.applicability import Fits
from spanbook.answers.finds import Found
from spanbook.reading.records import Series
from tests.support.demo import demo

FITS = Fits(demo())
REGISTER = FITS.register


def _every() -> Iterator[Found]:
    return ((teardown, find) for teardown in REGISTER.teardowns.values() for find in teardown.found)


def _tells(found: Found, series: Series) -> bool:
    teardown, find = found
    return any(one.series is series for one in FITS.possible_at((teardown, find.position)))


def test_what_a_series_tells_of_a_place_is_found_there() -> None:
    positions = {find.position for _, find in _every()}
    by_another = 0
    for series in REGISTER.series.values():
        for position in positions:
            mine = [one for one in _every() if one[1].position == position and _tells(one, series)]
            assert [one for one in FITS.finds(series, position) if _tells(one, series)] == mine
            by_another += sum(
                all(read.series is not series for read in FITS.possible(teardown)) for teardown, _ in mine
            )
    assert by_another, "no machine of the demonstration was seen under one number and told of by another"


def test_no_place_is_told_of_machines_of_another_series() -> None:
    fewer = 0
    for series in REGISTER.series.values():
        for position in REGISTER.positions:
            found = FITS.finds(series, position)
            fewer += len(REGISTER.found_at.get(position, ())) > len({teardown for teardown, _ in found})
            machines = {read.series.machine for teardown, _ in found for read in FITS.possible(teardown)}
            assert not found or series.machine in machines
    assert fewer


def test_what_was_found_as_an_assembly() -> None:
    for assembly in REGISTER.assemblies.values():
        mine = [
            (teardown, find)
            for teardown, find in _every()
            if (find.assembly, find.position) == (assembly.id, assembly.position)
        ]
        assert list(FITS.finds_of(assembly.id, assembly.position)) == mine
