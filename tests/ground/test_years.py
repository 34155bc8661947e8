"""The years of spans; the years of single numbers are checked in `outside/`."""

from __future__ import annotations

from spanbook.ground.years import Years, YearTable

TABLE = YearTable.of({1931: 1, 1932: 118, 1933: 402})


def test_a_span_of_years() -> None:
    assert TABLE.span_of(1, 130) == Years(1931, 1932)
    assert TABLE.span_of(120, 500) == Years(1932, None)
    assert TABLE.span_of(120, None) == Years(1932, None)
    assert TABLE.span_of(None, 130) is None
    assert YearTable.of({}).span_of(1, 2) is None
