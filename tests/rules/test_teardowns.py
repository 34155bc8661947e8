"""The serial numbers of teardowns."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import machine, teardown

TEARDOWNS = {
    "one series": (teardown("XA 7"), []),
    **{
        f"looked at {date}": (teardown("XA 7").replace("2024", date), [])
        for date in ("2019/2021", "2021/2021-05", "2021-05/2021", "2019-05-11/2019-06", "2019-05~")
    },
    "from a date to an earlier one": (
        teardown("XA 7").replace("2024", "2021-05/2021-04-30"),
        [("dates-reversed", 3, "from 2021-05 back to 2021-04-30")],
    ),
    "a number never issued": (
        teardown("XA 43"),
        [("serial-unread", 5, "the serial number XA 43, which was issued in no series")],
    ),
    "not in the series named": (
        teardown("XA 7", "series: xb\n"),
        [("serial-unread", 5, "the serial number XA 7, which was issued in no series xb")],
    ),
    "in two series": (
        teardown("XA 7") + machine(stamped='"XA {number}"', first="7", last="7"),
        [
            ("stamp-clash", 6, "za is stamped like xa and has numbers in common with it"),
            ("serial-unclear", 5, "XA 7 reads in xa and za"),
        ],
    ),
    "in two series, and it says which": (
        teardown("XA 7", "series: za\n") + machine(stamped='"XA {number}"', first="7", last="7"),
        [("stamp-clash", 6, "za is stamped like xa and has numbers in common with it")],
    ),
}


@each_row(("world", "told"), TEARDOWNS.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)


def test_which_series_it_may_be_is_shown(tmp_path: Path) -> None:
    world = teardown("XA 7") + machine(stamped='"XA {number}"', first="7", last="7")
    (todo,) = (p.todo for p in worlds.check(tmp_path, world).problems if p.name == "serial-unclear")
    assert todo == "add series with the one it is, for example series: xa"
