"""The years of spans; the years of single numbers are checked in `outside/`."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.years import Years, YearTable

TABLE = YearTable.of({1931: 1, 1932: 118, 1933: 402})


def test_a_span_of_years() -> None:
    assert TABLE.span_of(1, 130) == Years(1931, 1932)
    assert TABLE.span_of(120, 500) == Years(1932, None)
    assert TABLE.span_of(120, None) == Years(1932, None)
    assert TABLE.span_of(None, 130) is None
    assert YearTable.of({}).span_of(1, 2) is None


def test_the_place_in_a_year_is_a_third_of_its_numbers() -> None:
    """1932 has 118 to 401, 284 numbers: 94 in a third. 1931 has 117: 39. 1933 has no end, so no thirds."""
    wanted = {
        1: "early", 39: "early", 40: None, 78: None, 79: "late", 117: "late",
        118: "early", 211: "early", 212: None, 307: None, 308: "late", 401: "late", 402: None, 9000: None,
    }  # fmt: skip
    assert {number: TABLE.part_of(number) for number in wanted} == wanted
    assert list(TABLE.cuts()) == [1, 40, 79, 118, 212, 308, 402]


def test_the_place_in_a_year_is_told_only_where_the_table_allows() -> None:
    assert YearTable.of({1931: 1, 1933: 90}).part_of(5) is None  # 1931 or 1932
    assert YearTable.of({1931: 1, 1932: 30}).part_of(5) is None  # 29 numbers
    assert YearTable.of({1931: 1, 1932: 31}).part_of(5) == "early"
    assert YearTable.of({1931: 1, 1932: 31}).part_of(0) is None


@given(st.lists(st.integers(1, 300), min_size=1, max_size=5), st.integers(0, 320))
def test_between_two_cuts_nothing_changes(firsts: list[int], number: int) -> None:
    table = YearTable.of({1930 + i + (i > 2): first for i, first in enumerate(sorted(firsts))})
    below = [cut for cut in table.cuts() if cut <= number]
    if below:
        at = below[-1]
        assert (table.year_of(at), table.part_of(at)) == (table.year_of(number), table.part_of(number))


def test_years_that_run_on_beside_the_next() -> None:
    table = YearTable.of({1931: 1, 1932: 118, 1933: 402}).running_on(YearTable.of({1931: 130}))
    assert [table.year_of(n) for n in (117, 118, 130, 131)] == [
        Years(1931, 1931),
        Years(1931, 1932),
        Years(1931, 1932),
        Years(1932, 1932),
    ]
    assert table.edges() == (1, 118, 131, 402)
    assert table.part_of(117) == "late"
    assert table.part_of(120) is None  # of either year
    assert set(table.edges()) <= set(table.cuts())
    assert table.span_of(120, 125) == Years(1931, 1932)


def test_a_year_may_run_on_beyond_several() -> None:
    table = YearTable.of({1931: 1, 1932: 10, 1933: 20}).running_on(YearTable.of({1931: 25, 1932: 22}))
    assert table.year_of(21) == Years(1931, None)
    assert table.year_of(24) == Years(1931, None)
    assert table.year_of(26) == Years(1933, None)
    assert table.running_on(YearTable.of({})) is table


@given(
    st.lists(st.integers(1, 60), min_size=2, max_size=5),
    st.dictionaries(st.integers(0, 4), st.integers(1, 70)),
)
def test_a_number_is_of_every_year_that_owns_it(firsts: list[int], ends: dict[int, int]) -> None:
    """By the definition, number by number: a year owns its numbers up to the next year's, or to its last."""
    begin = {1930 + i: first for i, first in enumerate(sorted(firsts))}
    lasts = {1930 + i: end for i, end in ends.items() if 1930 + i in begin and end >= begin[1930 + i]}
    table = YearTable.of(begin).running_on(YearTable.of(lasts))
    years = sorted(begin)
    for number in range(1, 75):
        own = [
            year
            for year, after in zip(years, [*years[1:], None], strict=True)
            if begin[year] <= number
            and (after is None or number < begin[after] or number <= lasts.get(year, 0))
        ]
        found = table.year_of(number)
        assert (found.first if found else None) == (own[0] if own else None)
        if found and found.last is not None:
            assert found.last == own[-1]


def test_the_thirds_of_a_year_that_runs_on_reach_to_its_last_number() -> None:
    table = YearTable.of({1931: 1, 1932: 31}).running_on(YearTable.of({1931: 60}))
    assert [table.part_of(n) for n in (1, 20, 21, 30)] == ["early", "early", None, None]
    assert tuple(table.cuts()) == (1, 21, 31, 41, 61)
    gap = YearTable.of({1931: 1, 1933: 90})
    assert tuple(gap.cuts()) == (1, 90)  # whose year is whose is not known: no thirds
