"""The tables of standard sizes held against published ones, each named at its check."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from spanbook.ground.standards import Dimension, Sort, Standard, standards, threads
from spanbook.ground.standards.threads import Thread
from tests.support.rows import each_row

DATA = Path(__file__).parent / "data"
INCH = 25.4
THREADS = {(thread.series, thread.size): thread for thread in threads()}


def rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def named(sort: Sort, size: str, series: str | None = None) -> Standard:
    return next(s for s in standards() if s.sort is sort and s.size == size and series in (None, s.series))


def thread(series: str, size: str) -> Thread:
    return THREADS[series, size.replace("-", " ")]


@each_row("row", rows("07b_unified.csv"))
def test_unified_threads(row: dict[str, str]) -> None:
    """ASME B1.1: D − 0.649519/n and D − 1.082532/n; threads to the inch of 13 sizes as in the fastener table
    of PyPI bd_warehouse 0.4.0 (Apache-2.0); #10, #12, 9/16 and the fine series from memory."""
    known = thread(row["series"], row["size"])
    assert known.per_inch == Fraction(row["tpi"])
    assert float(known.diameter) / INCH == pytest.approx(float(row["basic_major_in"]), abs=5e-5)
    assert float(known.effective) / INCH == pytest.approx(float(row["basic_pitch_dia_in"]), abs=1e-4)
    assert float(known.minor) / INCH == pytest.approx(float(row["basic_minor_int_in"]), abs=1e-4)


@each_row("row", rows("07d_whitworth.csv"))
def test_whitworth_threads_and_jaws(row: dict[str, str]) -> None:
    """BS 84 (threads from memory; 1/4 to 3/4 as on a handbook's page of BS 1083:1965), and the jaws of the
    hexagons of the full size: a fine thread has the head of the next smaller coarse one."""
    known = thread(row["series"], row["size"])
    assert float(known.per_inch) == float(row["tpi"])
    assert float(known.effective) / INCH == pytest.approx(float(row["effective_in"]), abs=1e-4)
    assert float(known.minor) / INCH == pytest.approx(float(row["minor_in"]), abs=1e-4)
    if jaw := row["spanner_jaw_in_prewar_full_size_hex(BSW)/BSF_hex"]:
        jaws = [s.zone(Dimension.ACROSS) for s in standards() if (s.sort, s.series) == (Sort.JAW, "W")]
        assert any(zone and zone.high == pytest.approx(float(jaw) * INCH, abs=1e-6) for zone in jaws)
        if row["series"] == "BSW":
            zone = named(Sort.JAW, known.size, "W").zone(Dimension.ACROSS)
            assert zone
            assert zone.high == pytest.approx(float(jaw) * INCH)


@each_row("row", rows("07e_bsp_iso228.csv"))
def test_pipe_threads(row: dict[str, str]) -> None:
    """ISO 228-1, as in PyPI bd_warehouse 0.4.0 (Apache-2.0); another table rounds the depth first and
    differs by 0.001 mm, hence 0.002."""
    known = thread("BSP", row["size"])
    assert float(known.pitch) == pytest.approx(float(row["pitch_mm"]), abs=5e-4)
    assert float(known.diameter) == pytest.approx(float(row["major_mm"]), abs=1e-6)
    assert float(known.effective) == pytest.approx(float(row["pitch_dia_mm"]), abs=0.002)
    assert float(known.minor) == pytest.approx(float(row["minor_mm"]), abs=0.002)


@pytest.mark.parametrize("size", ["1/2", "3/4"])
def test_two_pipe_threads_have_the_same_pitch_in_the_two_systems(size: str) -> None:
    """ISO 228-1 and ASME B1.20.1: 14 threads to the inch in both, flanks of 55° and of 60°, and other
    diameters: such a pair starts and then strips (common practice, no source)."""
    british, american = thread("BSP", size), thread("NPT", size)
    assert british.per_inch == american.per_inch == 14
    assert [float(british.angle), float(american.angle)] == [55, 60]
    assert 0.2 < abs(float(british.diameter - american.diameter)) < 0.5


@each_row("row", rows("07i_metric_coarse.csv"))
def test_metric_threads_and_heads(row: dict[str, str]) -> None:
    """ISO 261 (pitches from memory); heads by ISO 4014 and DIN 931 as in PyPI bd_warehouse 0.4.0, whose
    tap of M22×2.5 is wrong there (18.5 for 19.5)."""
    known = thread("M", row["size"])
    assert float(known.pitch) == float(row["pitch_mm"])
    assert float(known.diameter - known.pitch) == pytest.approx(float(row["D_minus_P_mm"]))
    for column in ("AF_iso4014_mm", "AF_din931_mm"):
        zone = named(Sort.JAW, row[column], "mm").zone(Dimension.ACROSS)
        assert zone
        assert zone.high == float(row[column])


@each_row("row", rows("07c_tap_drill.csv"))
def test_tap_drills(row: dict[str, str]) -> None:
    """A handbook's table (from memory) with (D − d)·n/1.299038; sizes of the drills as in PyPI bd_warehouse
    0.4.0."""
    drill = named(Sort.DRILL, row["drill"]).zone(Dimension.DIAMETER)
    assert drill
    assert drill.high / INCH == pytest.approx(float(row["drill_in"]), abs=1e-6)
    known = next(
        t
        for t in threads()
        if t.series in ("UNC", "UNF") and t.size == row["size"] and t.per_inch == Fraction(row["tpi"])
    )
    assert known.engagement(drill.high) * 100 == pytest.approx(float(row["percent_full_thread"]), abs=0.06)


@each_row("row", rows("07f_bearings_iso15.csv"))
def test_bearings(row: dict[str, str]) -> None:
    """ISO 15; 15 of these agree with an open table (LGPL), 5 are from memory."""
    known = named(Sort.BEARING, row["designation"])
    for dimension, column in (
        (Dimension.INSIDE, "bore_mm"),
        (Dimension.OUTSIDE, "od_mm"),
        (Dimension.WIDTH, "width_mm"),
    ):
        zone = known.zone(dimension)
        assert zone
        assert zone.high == float(row[column])


@each_row("row", rows("07g_orings_as568.csv"))
def test_o_rings(row: dict[str, str]) -> None:
    """AS568 in inches (from memory; 24 of 24 agree with ISO 3601-1's millimetres in PyPI bd_warehouse)."""
    known = named(Sort.O_RING, f"-{row['dash']}")
    for dimension, column in ((Dimension.INSIDE, "id_in"), (Dimension.SECTION, "section_in")):
        zone = known.zone(dimension)
        assert zone
        assert zone.middle == pytest.approx(float(row[column]) * INCH, abs=0.011)


@each_row("row", rows("07h_sieves_e11.csv"))
def test_sieves(row: dict[str, str]) -> None:
    """ASTM E11, as in PyPI fluids 1.3.1 (MIT), whose openings in millimetres are right (those in inches are
    not)."""
    zone = named(Sort.SIEVE, row["us_sieve_no"]).zone(Dimension.GAP)
    assert zone
    assert zone.middle * 1000 == pytest.approx(float(row["opening_um"]))


def test_ba_threads_follow_their_formula() -> None:
    """BS 93, after Thury: p = 0.9ⁿ and D = 6·p^1.2, both rounded (from memory)."""
    sizes = [known for known in threads() if known.series == "BA"]
    assert len(sizes) == 11
    for known in sizes:
        pitch = 0.9 ** int(known.size)
        assert float(known.pitch) == pytest.approx(pitch, abs=0.006)
        assert float(known.diameter) == pytest.approx(6 * pitch**1.2, abs=0.06)


def test_every_row_has_a_source() -> None:
    assert len(standards()) > 900
    assert all(one.source for one in standards())
