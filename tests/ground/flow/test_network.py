"""A network at rest: what comes in goes out, random ones come to rest, and none without a way out."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from spanbook.ground.flow import laws
from spanbook.ground.flow.network import Network, NoRest, NoWayOut, Rest, Way, rest

LITRE_MINUTE, BAR = 1e-3 / 60, 1e5


def held(ways: list[Way]) -> Network:
    return Network(tuple(ways), frozenset({"sump"}))


@st.composite
def random_laws(draw: st.DrawFn) -> laws.Law:
    def between(low: float, high: float) -> float:
        return 10 ** draw(st.floats(low, high))

    made: list[laws.Law] = [
        laws.Straight(between(-11, -8)),
        laws.Pipe(between(-2.5, -1.8), draw(st.floats(0.05, 2)), between(-2.3, -0.3), 880),
        laws.Jet(between(-3.1, -2), 0.62, 880),
        laws.Slots(60, 0.17, between(-4.3, -3.7), 3e-3, 0.03),
        laws.Relief(draw(st.floats(0.5, 4)) * BAR, between(-10, -8)),
    ]
    return draw(st.sampled_from(made))


@st.composite
def networks(draw: st.DrawFn) -> Network:
    """A pump into a ring of places, with bridges across it: rarely rows and side by side only."""
    places = ["sump", *(f"p{i}" for i in range(1, draw(st.integers(2, 7))))]
    ways = [Way("pump", "sump", "p1", laws.Given(draw(st.floats(1, 30)) * LITRE_MINUTE))]
    for i, place in enumerate(places[1:], 1):
        law = laws.Straight(10 ** draw(st.floats(-10, -8)))
        ways.append(Way(f"ring{i}", place, places[(i + 1) % len(places)], law))
    for i in range(draw(st.integers(0, 8))):
        one, other = draw(st.permutations(places))[:2]
        ways.append(Way(f"bridge{i}", one, other, draw(random_laws())))
    return held(ways)


@given(networks())
def test_at_each_place_as_much_comes_in_as_goes_out(network: Network) -> None:
    found = rest(network)
    most = max(map(abs, found.flows.values()))
    for place in network.inner:
        coming = sum(found.flows[way.id] for way in network.ways if way.end == place)
        going = sum(found.flows[way.id] for way in network.ways if way.start == place)
        assert coming - going == pytest.approx(0, abs=1e-4 * most)


@given(networks())
def test_every_flow_is_that_of_its_law_at_the_drop_between_its_ends(network: Network) -> None:
    found = rest(network)
    for way in network.ways:
        drop = found.pressures[way.start] - found.pressures[way.end]
        assert found.drops[way.id] == pytest.approx(drop)
        assert found.flows[way.id] == pytest.approx(way.law.flow(drop)[0])


@given(networks(), st.floats(1.01, 2))
def test_more_pumped_never_lowers_the_pressure_at_the_pump(network: Network, more: float) -> None:
    pump, *others = network.ways
    assert isinstance(pump.law, laws.Given)
    harder = held([Way("pump", pump.start, pump.end, laws.Given(pump.law.moves * more)), *others])
    assert rest(harder).pressures["p1"] >= rest(network).pressures["p1"] * (1 - 1e-6)


@given(st.lists(st.floats(0.5, 50), min_size=1, max_size=6), st.floats(1, 24))
def test_direct_current_in_rows_and_side_by_side_is_ohm_s(ohms: list[float], volts: float) -> None:
    """Kirchhoff by hand: resistances in a row add up, side by side their reciprocals do."""
    row = [
        Way(f"r{i}", f"p{i}", f"p{i + 1}" if i + 1 < len(ohms) else "sump", laws.Straight(1 / ohm))
        for i, ohm in enumerate(ohms)
    ]
    battery = Way("battery", "sump", "p0", laws.Cell(volts, 1 / 0.1))
    found = rest(held([battery, *row]))
    assert found.flows["battery"] == pytest.approx(volts / (0.1 + sum(ohms)), rel=1e-6)
    beside = [Way(f"r{i}", "p0", "sump", laws.Straight(1 / ohm)) for i, ohm in enumerate(ohms)]
    found = rest(held([battery, *beside]))
    assert found.flows["battery"] == pytest.approx(volts / (0.1 + 1 / sum(1 / ohm for ohm in ohms)), rel=1e-6)


def test_wheatstone_s_bridge_in_balance_carries_nothing() -> None:
    """C. Wheatstone, 1843: with 10 to 20 as 30 to 60 ohm nothing runs across, whatever is put there."""
    found = rest(
        held(
            [
                Way("battery", "sump", "top", laws.Cell(6, 1 / 0.5)),
                Way("a", "top", "left", laws.Straight(1 / 10)),
                Way("b", "left", "sump", laws.Straight(1 / 20)),
                Way("c", "top", "right", laws.Straight(1 / 30)),
                Way("d", "right", "sump", laws.Straight(1 / 60)),
                Way("meter", "left", "right", laws.Straight(1 / 5)),
            ]
        )
    )
    assert found.flows["meter"] == pytest.approx(0, abs=1e-9)
    assert found.flows["battery"] == pytest.approx(6 / (0.5 + 1 / (1 / 30 + 1 / 90)))


def test_what_is_pumped_without_a_way_out_is_said() -> None:
    with pytest.raises(NoWayOut):
        rest(
            held(
                [
                    Way("pump", "sump", "p1", laws.Given(1e-4)),
                    Way("plug", "p1", "sump", laws.Shut()),
                ]
            )
        )


def test_where_no_state_at_rest_is_found_in_time_that_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("spanbook.ground.flow.network._STEPS", 1)
    battery, lamp = laws.Cell(6, 1 / 0.5), laws.Straight(1)
    with pytest.raises(NoRest):
        rest(held([Way("battery", "sump", "top", battery), Way("lamp", "top", "sump", lamp)]))


def test_an_open_battery_has_its_whole_voltage_and_lacks_no_way_out() -> None:
    """Nothing is pumped: that no current runs is the answer, and no fault."""
    ways = [Way("battery", "sump", "top", laws.Cell(6, 1 / 0.5)), Way("switch", "top", "sump", laws.Shut())]
    found = rest(held(ways))
    assert found.pressures["top"] == pytest.approx(6)
    assert found.flows == pytest.approx({"battery": 0, "switch": 0}, abs=1e-9)
    assert found.drops["switch"] == pytest.approx(6)


def test_nothing_pumped_into_nothing_is_at_rest() -> None:
    assert rest(Network((), frozenset({"sump"}))).pressures == {"sump": 0}
    still = rest(held([Way("plug", "p1", "p2", laws.Shut()), Way("pump", "sump", "p1", laws.Given(0))]))
    assert dict(still.pressures) == {"sump": 0, "p1": 0, "p2": 0}


@given(networks(), st.floats(0.5, 2))
def test_where_the_search_begins_changes_nothing(network: Network, more: float) -> None:
    pump, *others = network.ways
    assert isinstance(pump.law, laws.Given)
    other = held([Way("pump", pump.start, pump.end, laws.Given(pump.law.moves * more)), *others])
    there, here = rest(network, rest(other)), rest(network)
    most = max(map(abs, here.flows.values()))
    assert all(there.flows[id_] == pytest.approx(flow, abs=1e-4 * most) for id_, flow in here.flows.items())


@pytest.mark.parametrize("pressure", [1e7, -1e6])
def test_a_jet_alone_is_at_rest_at_bernoulli_s_pressure_however_far_the_search_begins(
    pressure: float,
) -> None:
    """Where the whole step of a search is taken each time it goes to and fro for ever."""
    moves, bore = 0.1 * LITRE_MINUTE, 2e-3
    network = held(
        [Way("pump", "sump", "p", laws.Given(moves)), Way("jet", "p", "sump", laws.Jet(bore, 0.62, 880))]
    )
    speed = moves / (0.62 * math.pi * bore**2 / 4)
    near = Rest({"p": pressure}, {}, {}, {})
    assert rest(network, near).pressures["p"] == pytest.approx(880 / 2 * speed**2, rel=1e-3)


def test_places_are_told_once_in_the_order_of_the_ways_and_the_open_ones_not() -> None:
    ways = [Way("a", "q", "p", laws.Straight(1)), Way("b", "p", "sump", laws.Straight(1))]
    assert held(ways).inner == ("q", "p")


def test_a_place_behind_shut_ways_has_no_pressure() -> None:
    found = rest(
        held(
            [
                Way("pump", "sump", "p1", laws.Given(1e-4)),
                Way("out", "p1", "sump", laws.Straight(1e-9)),
                Way("valve", "p1", "behind", laws.Relief(5 * BAR, 1e-9)),
            ]
        )
    )
    assert found.pressures["behind"] == 0
    assert found.flows["valve"] == 0


@given(networks(), networks())
def test_the_order_of_the_ways_changes_nothing(network: Network, other: Network) -> None:
    assume(network.ways != other.ways)
    turned = Network(network.ways[::-1], network.open)
    there, here = rest(turned), rest(network)
    most = max(map(abs, here.flows.values()))
    assert all(there.flows[id_] == pytest.approx(flow, abs=1e-4 * most) for id_, flow in here.flows.items())
