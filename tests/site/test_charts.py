"""Span charts: names where there is room, ticks at what changes, the machines that were looked at as dots."""

from __future__ import annotations

from pathlib import Path

import pytest

from spanbook.site.charts import DESK, LETTER, TELEPHONE, Bar, Look, Room, changes_of, chart, segment_bars
from spanbook.site.common import Site
from spanbook.site.seen import dots
from tests.support.demo import shown

PROJECT = Path(__file__).parents[2]
POSITION = "lubrication/oil-filter"


@pytest.fixture(scope="module")
def site() -> Site:
    return shown()


def bars_of(site: Site, series_id: str, position: str = POSITION) -> tuple[Bar, ...]:
    series = site.register.series[series_id]
    return segment_bars(site.scale(series), site.segments(series, position))


def test_a_bar_tells_the_name_of_the_only_answer(site: Site) -> None:
    assert [(bar.name, bar.room) for bar in bars_of(site, "dx")] == [("A Twin cartridge filter", Room.ANY)]


def test_where_two_were_fitted_there_are_letters_alone(site: Site) -> None:
    assert {bar.room for bar in bars_of(site, "hk") if "·" in bar.letter} == {Room.NONE}


def test_a_name_fits_into_the_clear_part_of_its_bar(site: Site) -> None:
    """In the demonstration numbers were never issued in the middle of HK: a name stands beside them."""
    widths = {Room.ANY: TELEPHONE, Room.DESK: DESK}
    for position in site.register.at_position:
        series = site.register.series["hk"]
        skipped = [site.scale(series).place(run) for run in series.skipped]
        for bar in bars_of(site, "hk", position):
            if bar.room is Room.NONE:
                continue
            half = 50 * len(bar.name) * LETTER / widths[bar.room]
            left, right = bar.letter_x - half, bar.letter_x + half
            assert bar.x <= left
            assert right <= bar.x + bar.width
            assert all(right <= start or left >= start + run for start, run in skipped)


def test_a_tick_stands_at_each_change_and_a_number_where_there_is_room(site: Site) -> None:
    series = site.register.series["hk"]
    found = site.segments(series, POSITION)
    scale = site.scale(series)
    ticks = chart(scale, "", [], changes_of(found)).ticks
    assert [tick.x for tick in ticks[1:-1]] == [scale.at(segment.first) for segment in found[1:]]
    told = [tick.text for tick in ticks if tick.text]
    assert told == ["HK 1", "HK 589", "HK 1181", "HK 2140"]


def test_a_series_of_one_answer_is_told_in_its_middle(site: Site) -> None:
    series = site.register.series["dt"]
    ticks = chart(site.scale(series), "", [], changes_of(site.segments(series, POSITION))).ticks
    assert [tick.text for tick in ticks] == ["DT 101", "DT 520", "DT 940"]


def test_every_machine_looked_at_is_a_dot_where_its_number_stands(site: Site) -> None:
    series = site.register.series["hk"]
    scale, this = site.scale(series), site.register.assemblies["waste-packed-filter"]
    seen = list(dots(site, series, POSITION, this))
    whole = list(dots(site, series, POSITION))
    assert [dot.x for dot in seen] == [dot.x for dot in whole]
    assert {dot.look for dot in whole} == {Look.THIS}
    by_title = {dot.title: dot for dot in seen}
    found = by_title["HK 1402: Metal-edge strainer or Waste-packed bypass filter, condition: altered"]
    assert (found.look, found.good) == (Look.MAYBE, False)
    assert scale.at(1402) <= found.x <= scale.at(1403)
    for dot in seen:
        named = "Waste-packed" in dot.title, " or " in dot.title
        assert dot.look is {(True, False): Look.THIS, (True, True): Look.MAYBE}.get(named, Look.OTHER)
        assert dot.good is dot.title.endswith(("untouched", "likely original"))
