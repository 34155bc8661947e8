"""What leads back to itself, against a library that finds it otherwise."""

from __future__ import annotations

from collections import defaultdict

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.knots import knots, leads

ARROWS = st.lists(st.tuples(st.integers(0, 8), st.integers(0, 8)), max_size=24)


@given(ARROWS)
def test_knots_are_what_leads_to_one_another(arrows: list[tuple[int, int]]) -> None:
    graph: nx.DiGraph[int] = nx.DiGraph(arrows)
    found = [sorted(knot) for knot in knots(arrows)]
    assert sorted(found) == sorted(map(sorted, nx.strongly_connected_components(graph)))


@given(ARROWS)
def test_one_leads_to_another_where_there_is_a_way(arrows: list[tuple[int, int]]) -> None:
    graph: nx.DiGraph[int] = nx.DiGraph(arrows)
    graph.add_nodes_from(range(9))
    onward: defaultdict[int, list[int]] = defaultdict(list)
    for one, other in arrows:
        onward[one].append(other)
    for one in range(9):
        reached = {other for other in range(9) if leads(one, other, onward)}
        assert reached == {one, *nx.descendants(graph, one)}


@pytest.mark.slow
def test_a_long_way_is_followed() -> None:
    row = [(one, one + 1) for one in range(10_000)]
    assert len(list(knots([*row, (10_000, 0)]))) == 1
    assert len(list(knots(row))) == 10_001
