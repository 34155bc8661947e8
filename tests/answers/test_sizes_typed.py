"""Sizes typed into the box: every standard size is found by its name and by its own sizes."""

from __future__ import annotations

import pytest

from spanbook.answers.sizes_typed import MEASURED, folded, standards_typed, typeable
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


def test_a_name_is_one_sizes_alone() -> None:
    names = [folded(one.name) for one in typeable()]
    assert len(set(names)) == len(names)
    assert all(len(one.zones) >= len(MEASURED[one.sort]) for one in typeable())
    assert Dimension.PITCH in MEASURED[Sort.THREAD]
