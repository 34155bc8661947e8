"""Which teardowns are of a machine, or may be: by every number that it is known by."""

from __future__ import annotations

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.looks import Looks
from spanbook.answers.readings import read_serial
from spanbook.reading.records import Record
from tests.answers.test_units import ENGINE, world
from tests.support.registers import record, unit

BOTH = unit("XA 5", "F 118")


def looked(id_: str, serial: str, series: str) -> Record:
    head = f"kind: teardown\nid: {id_}\ndate: 2024-05-01\nseen-by: osk\ncondition: untouched\n"
    found = "found: [{position: engine/cover, assembly: lid}]\n"
    return record(f"{head}serial: {serial}\nseries: {series}\n{found}", "teardown", id_)


LOOKED = (
    looked("by-engine", "XA 5", "xa"),
    looked("by-frame", "F 118", "xf"),
    looked("another", "XA 6", "xa"),
)
WORN = (
    looked("worn-engine", "XA ?5", "xa"),
    looked("worn-frame", "F 11?", "xf"),
    looked("far", "F 12?", "xf"),
)


@pytest.mark.parametrize("serial", ["XA 5", "F 118"])
def test_a_machine_was_looked_at_whichever_of_its_numbers_was_written_down(serial: str) -> None:
    made = world(ENGINE, BOTH, *LOOKED, *WORN)
    looks, (reading,) = Looks(Fits(made)), read_serial(made, serial)
    assert [one.id for one in looks.of(reading)] == ["by-engine", "by-frame"]
    assert [one.id for one in looks.perhaps(reading)] == ["worn-engine", "worn-frame"]


def test_without_a_record_of_its_numbers_each_number_is_a_machine() -> None:
    made = world(ENGINE, *LOOKED, *WORN)
    looks, (reading,) = Looks(Fits(made)), read_serial(made, "F 118")
    assert [one.id for one in looks.of(reading)] == ["by-frame"]
    assert [one.id for one in looks.perhaps(reading)] == ["worn-frame"]
