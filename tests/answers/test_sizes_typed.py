"""Sizes typed into the box: every standard size is found by its name and by its own sizes."""

from __future__ import annotations

import pytest

from spanbook.answers.sizes_typed import MEASURED, folded, standards_typed, typeable, typed, zones
from spanbook.ground.standards import Dimension, Sort, Standard, threads
from tests.support.rows import each_row
from tests.support.tries import some


def middles(standard: Standard) -> list[float]:
    zones = (standard.zone(dimension) for dimension in MEASURED[standard.sort])
    return [zone.middle for zone in zones if zone]


def test_every_size_is_found_by_its_name() -> None:
    for standard in typeable():
        assert [one.name for one in standards_typed(standard.name)] == [standard.name]
        assert standards_typed(standard.name.lower().replace(" ", "-")) == standards_typed(standard.name)


@pytest.mark.slow
def test_every_thread_is_found_by_its_size_and_its_count() -> None:
    """As BS 84, BS 93, ISO 228-1, ASME B1.1 and B1.20.1 call them: 5/16, 18 to the inch."""
    tried = 0
    for thread in threads():
        count = f"{float(thread.per_inch):.4g}"
        if thread.series in ("M", "BA") or not thread.size[0].isdigit() or "." in count.replace(".5", ""):
            continue
        for text in (f"{thread.size} {count} tpi", f"{thread.size} in x {count}"):
            assert f"{thread.size} {thread.series}" in [one.name for one in standards_typed(text)], text
        tried += 1
    assert tried > 80


@pytest.mark.parametrize("sort", [Sort.BEARING, Sort.O_RING])
def test_every_bearing_and_ring_is_found_by_its_sizes(sort: Sort) -> None:
    for standard in some(one for one in typeable() if one.sort is sort):
        text = "x".join(f"{size:.2f}" for size in middles(standard))
        assert standard in standards_typed(f"{text} mm"), text
        assert standard in standards_typed(text.replace("x", " × ")), text


@each_row(
    ("text", "names"),
    [
        # ISO 15, dimension series 02: 17 × 40 × 12 is 6203 (values from memory).
        ("17x40x12", ["6203"]),
        ("17x40x13", []),
        # Its bore is 16.97 to 17.00 mm and wears by 0.1: a caliper is off by 0.05 at the most.
        ("17 3/20x40x12 mm", ["6203"]),
        ("17.16x40x12", []),
        ("16 23/25x40x12 mm", ["6203"]),
        ("16.91x40x12", []),
        # BS 84 and ASME B1.1 share 18 to the inch at 5/16; 19 is neither.
        ("5/16 18", ["5/16 UNC", "5/16 BSW"]),
        ("5/16 19", []),
        # A worn bolt, read by caliper.
        ("0.303 18", ["5/16 UNC", "5/16 BSW"]),
        # A pipe thread is called by its bore, and measures 20.955 mm over its threads (ISO 228-1).
        ("1/2 14", ["1/2 BSP", "1/2 NPT"]),
        ("0.825 14", ["1/2 BSP", "1/2 NPT"]),
        ("8x1.25", ["M8"]),
        ("1 8", []),  # two numbers are no size
        ("588", []),
        ("WH-1181", []),
        ("0/0 18", []),
        ("1/0 18", []),
        ("9" * 400 + "x1x1", []),
    ],
)
def test_what_is_typed_is_found(text: str, names: list[str]) -> None:
    assert [one.name for one in standards_typed(text)] == names


Read = tuple[str, tuple[tuple[int, int] | None, ...], str]


@each_row(
    ("text", "found"),
    [
        # 25.4 mm by 18 is 1.411 mm, more or less by a fiftieth.
        ("5/16 18", [("thread", ((7888, 7988), (1383, 1439)), "5/16")]),
        ("1 1/2 8 tpi", [("thread", ((38050, 38150), (3112, 3239)), "1 1/2")]),
        ("1-1/2 8 tpi", [("thread", ((38050, 38150), (3112, 3239)), "1-1/2")]),
        ("8 18 tpi", [("thread", ((203150, 203250), (1383, 1439)), "8")]),
        ("8 in x 18", [("thread", ((203150, 203250), (1383, 1439)), "8")]),
        # A decimal is known to half of its last place, here of an inch.
        ("8.0 18", [("thread", ((201880, 204520), (1383, 1439)), "8.0")]),
        ("8 2 tpi", [("thread", ((203150, 203250), (12446, 12954)), "8")]),
        ("8 1 tpi", []),
        ("8 18", []),
        ("8 mm 18 tpi", []),
        ("m8", [("thread", ((7950, 8050), None), "")]),
        ("m8x1.25", [("thread", ((7950, 8050), (1225, 1275)), "")]),
        ("17x40x12", [("bearing", ((16950, 17050), (39950, 40050), (11950, 12050)), "")]),
        # Two are a ring or a thread; a thread by its pitch has that in millimetres.
        (
            "12.5x2 mm",
            [("o-ring", ((12400, 12600), (1950, 2050)), ""), ("thread", ((12400, 12600), (1960, 2040)), "")],
        ),
        (
            "8x18 mm",
            [("o-ring", ((7950, 8050), (17950, 18050)), ""), ("thread", ((7950, 8050), (17640, 18360)), "")],
        ),
        (
            "1/2 x 3 mm",
            [("o-ring", ((450, 550), (2950, 3050)), ""), ("thread", ((450, 550), (2940, 3060)), "")],
        ),
        ("0.5x0.25 in", [("o-ring", ((11380, 14020), (6173, 6527)), "")]),
        ("1/2x3/4", [("o-ring", ((12650, 12750), (19000, 19100)), "")]),
        ("2x1/8x1", [("bearing", ((50750, 50850), (3125, 3225), (25350, 25450)), "")]),
    ],
)
def test_what_sizes_a_text_may_be(text: str, found: list[Read]) -> None:
    assert [(one.sort.value, one.ranges, one.size) for one in typed(text)] == found


def test_what_is_worn_may_have_lost_or_gained_a_tenth_of_a_millimetre() -> None:
    """ISO 15 and ISO 492 for the bearing, whose width does not wear (values from memory)."""
    (bearing,) = standards_typed("6203")
    assert zones(bearing) == ((16970, 17100), (39870, 40000), (11800, 12000))


def test_a_name_is_one_sizes_alone() -> None:
    names = [folded(one.name) for one in typeable()]
    assert len(set(names)) == len(names)
    assert all(len(one.zones) >= len(MEASURED[one.sort]) for one in typeable())
    assert Dimension.PITCH in MEASURED[Sort.THREAD]
