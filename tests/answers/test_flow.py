"""Ways and figures on small circuits: what is cleaned, what a left-out ball opens, and no figure without a
size.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook import open_register, start
from spanbook.answers.flow.faults import Fault, Wrong
from spanbook.answers.flow.figures import Worked
from spanbook.answers.flow.on_machine import circuits_of
from spanbook.answers.flow.over_series import over_series
from spanbook.answers.flow.pieces import Arranged, Piece, arranged
from spanbook.answers.flow.routes import Cleaned, appear, routes, served
from spanbook.answers.flow.shares import shares
from spanbook.answers.flow.tree import Beside, Row, pieces_in, tree
from spanbook.ground.intervals import Span
from spanbook.reading.records import Circuit, Way, WaySize
from tests.support.demo import demo as register
from tests.support.rows import each_row

LITRE_MINUTE, PSI = 1e-3 / 60, 6894.757293168


def way(id_: str, start: str, end: str, through: str, *sizes: WaySize, **more: object) -> Way:
    said = {
        "title": None,
        "number": None,
        "by": None,
        "means": None,
        "cleans": None,
        "serves": False,
        "note": None,
        **more,
    }
    return Way(id=id_, start=start, end=end, through=through, sizes=sizes, evidence=(), **said)  # type: ignore[arg-type]


def network(*ways: Way) -> Arranged:
    """A circuit of the demonstration with other ways, and nothing fitted."""
    circuit = register().of(Circuit)["oil-type-h"]
    made = tuple(Piece(one.id, one, circuit, one.start, one.end) for one in ways)
    return Arranged(circuit, {}, made, (), ())


PUMP = way("pump", "sump", "delivery", "pump")
BEARINGS = way("bearings", "gallery", "sump", "clearance", serves=True)
ELEMENT = way("element", "delivery", "gallery", "element", cleans="fine")
VALVE = way("valve", "delivery", "gallery", "relief")
CLEANED = {
    "everything through the element": ((ELEMENT,), Cleaned.ALWAYS),
    "a valve round it": ((ELEMENT, VALVE), Cleaned.BY_VALVE),
    "a pipe round it": ((ELEMENT, way("pipe", "delivery", "gallery", "pipe")), Cleaned.IN_PART),
    "the element beside, back to the sump": (
        (
            way("pipe", "delivery", "gallery", "pipe"),
            way("side", "delivery", "sump", "element", cleans="fine"),
        ),
        Cleaned.NEVER,
    ),
    "a check valve that faces it": ((way("check", "gallery", "delivery", "check"),), Cleaned.UNREACHED),
    "a plug round it": ((ELEMENT, way("plug", "delivery", "gallery", "plug")), Cleaned.ALWAYS),
    "only a strainer": ((way("gauze", "delivery", "gallery", "strainer", cleans="coarse"),), Cleaned.NEVER),
}


@each_row(("ways", "cleaned"), CLEANED.values())
def test_what_reaches_the_bearings_is_told_without_a_size(ways: tuple[Way, ...], cleaned: Cleaned) -> None:
    (only,) = served(network(PUMP, *ways, BEARINGS))
    assert only.cleaned is cleaned


def test_what_is_served_is_never_gone_through_backwards() -> None:
    found = routes(network(PUMP, ELEMENT, BEARINGS))
    assert [[piece.id for piece in route.pieces] for route in found] == [["element", "bearings"]]


def test_a_ball_left_out_opens_a_route_that_no_valve_closes() -> None:
    whole = network(PUMP, ELEMENT, VALVE, BEARINGS)
    valve = whole.piece("valve")
    assert valve is not None
    (opened,) = appear(whole, Fault(valve, Wrong.LEFT_OUT))
    assert [piece.id for piece in opened.pieces] == ["valve", "bearings"]
    assert opened.valves == ()
    (only,) = served(whole, Fault(valve, Wrong.LEFT_OUT))
    assert only.cleaned is Cleaned.IN_PART


def test_an_element_left_out_cleans_nothing() -> None:
    whole = network(PUMP, ELEMENT, BEARINGS)
    element = whole.piece("element")
    assert element is not None
    assert served(whole, Fault(element, Wrong.LEFT_OUT))[0].cleaned is Cleaned.NEVER
    assert served(whole, Fault(element, Wrong.PLUGGED))[0].cleaned is Cleaned.UNREACHED


def test_routes_of_a_full_network_are_counted_by_hand() -> None:
    """Between five places all joined to one another there are 16 simple ways from the first to the last:
    1 direct, 3 by one other, 6 by two, 6 by three."""
    places = ["delivery", "a", "b", "c", "gallery"]
    pipes = [
        way(f"{one}-{other}", one, other, "pipe") for i, one in enumerate(places) for other in places[i + 1 :]
    ]
    found = routes(network(PUMP, *pipes, BEARINGS))
    assert len(found) == 1 + 3 + 6 + 6
    assert [len(route.pieces) for route in found] == sorted(len(route.pieces) for route in found)


def test_without_a_pump_it_runs_from_where_it_is_open() -> None:
    tank = network(way("pipe", "sump", "bowl", "pipe"), way("jet", "bowl", "sump", "jet", serves=True))
    found = routes(tank)
    assert [[piece.id for piece in route.pieces] for route in found] == [["pipe", "jet"]]


def test_a_second_pump_is_not_run_through() -> None:
    """What the first gives out goes to the bearings; the scavenge pump begins a route of its own."""
    scavenge = way("scavenge", "delivery", "cooler", "pump")
    back = way("back", "cooler", "sump", "pipe")
    found = routes(network(PUMP, ELEMENT, BEARINGS, scavenge, back))
    assert [[piece.id for piece in route.pieces] for route in found] == [["back"], ["element", "bearings"]]


def test_a_check_valve_left_out_lets_it_through_the_wrong_way() -> None:
    faces = network(PUMP, way("check", "gallery", "delivery", "check"), BEARINGS)
    check = faces.piece("check")
    assert check is not None
    assert served(faces)[0].cleaned is Cleaned.UNREACHED
    assert served(faces, Fault(check, Wrong.LEFT_OUT))[0].cleaned is Cleaned.NEVER


def test_ways_in_rows_and_side_by_side_are_a_tree() -> None:
    whole = network(PUMP, VALVE, ELEMENT, BEARINGS, way("main", "delivery", "sump", "relief"))
    made = tree(whole)
    assert isinstance(made, Row)
    assert [piece.id for piece in pieces_in(made)] == ["pump", "element", "valve", "bearings", "main"]
    assert made.places == ("delivery",)
    assert isinstance(made.parts[1], Beside)


def test_a_bridge_is_no_tree() -> None:
    bridge = [
        way("ab", "delivery", "a", "pipe"),
        way("ac", "delivery", "b", "pipe"),
        way("bc", "a", "b", "pipe"),
        way("bd", "a", "gallery", "pipe"),
        way("cd", "b", "gallery", "pipe"),
    ]
    assert tree(network(PUMP, *bridge, BEARINGS)) is None


def test_the_two_shares_are_different_numbers() -> None:
    """A tenth goes through an element beside and back: a tenth is cleaned, and nothing of what is served."""
    beside = network(
        PUMP,
        way("pipe", "delivery", "gallery", "pipe"),
        way("side", "delivery", "sump", "element", cleans="fine"),
        BEARINGS,
    )
    flows = {"pump": 10.0, "pipe": 9.0, "side": 1.0, "bearings": 9.0}
    found = shares(beside.pieces, flows, beside.open, frozenset({"side"}))
    assert (found.cleaned, found.served) == (0.1, 0.0)


def test_what_passes_two_elements_is_counted_once() -> None:
    row = network(PUMP, ELEMENT, way("second", "gallery", "end", "element", cleans="fine"),
                  way("bearings", "end", "sump", "clearance", serves=True))  # fmt: skip
    flows = {"pump": 10.0, "element": 10.0, "second": 10.0, "bearings": 10.0}
    found = shares(row.pieces, flows, row.open, frozenset({"element", "second"}))
    assert (found.cleaned, found.served) == (1.0, 1.0)


@given(st.floats(0.01, 0.99))
def test_what_runs_together_mixes(part: float) -> None:
    mixed = network(PUMP, ELEMENT, VALVE, BEARINGS)
    flows = {"pump": 1.0, "element": part, "valve": 1 - part, "bearings": 1.0}
    found = shares(mixed.pieces, flows, mixed.open, frozenset({"element"}))
    assert [found.cleaned, found.served] == pytest.approx([part, part])


def test_what_runs_backwards_brings_what_it_comes_from() -> None:
    """The element is laid from the gallery to the delivery, and the oil goes through it the other way."""
    turned = network(PUMP, way("element", "gallery", "delivery", "element", cleans="fine"), BEARINGS)
    flows = {"pump": 4.0, "element": -4.0, "bearings": 4.0}
    found = shares(turned.pieces, flows, turned.open, frozenset({"element"}))
    assert (found.cleaned, found.served) == (1.0, 1.0)


def test_where_nothing_is_pumped_nothing_is_cleaned() -> None:
    still = network(PUMP, ELEMENT, BEARINGS)
    flows = {"pump": 0.0, "element": 0.0, "bearings": 0.0}
    found = shares(still.pieces, flows, still.open, frozenset({"element"}))
    assert (found.cleaned, found.served) == (0.0, 0.0)


# The demonstration.


def of(*assemblies: str) -> Arranged:
    held = [register().assemblies[id_] for id_ in assemblies]
    return arranged(register().of(Circuit)["oil-type-h"], {one.position: one for one in held})


def worked(whole: Arranged, state: str, fault: Fault | None = None) -> Worked:
    """As pages and commands ask for it where it left the works so: all of it is worked out once."""
    answers = register().answers
    left = (one.arranged for one in answers.arrangements(whole.circuit))
    if fault is None and (known := next((one for one in left if one.fitted == whole.fitted), None)):
        return next(one for one in answers.running(known) if one.state.id == state)
    running = next(one for one in whole.circuit.states if one.id == state)
    return answers.worked(whole, running, fault)


CARTRIDGE = ("gauze-sump-strainer", "gear-pump-wide", "cartridge-filter")
WASTE = ("gauze-sump-strainer", "gear-pump-narrow", "waste-packed-filter")
EDGE = ("gauze-sump-strainer", "gear-pump-narrow", "edge-strainer")


def test_a_circuit_without_sizes_shows_no_number_and_says_which_are_missing() -> None:
    found = worked(of(*EDGE), "warm")
    assert found.figures is None
    assert found.changes == ()
    assert [one.what for one in found.missing] == ["gap", "width", "depth", "count"]


def test_what_is_fitted_and_not_recorded_inside_has_no_figures() -> None:
    magneto = register().assemblies["d-twin-magneto"]
    whole = arranged(register().of(Circuit)["ignition-type-d"], {magneto.position: magneto})
    assert [one.id for one in whole.without] == ["d-twin-magneto"]
    assert worked(whole, "closed").figures is None


def test_the_current_of_a_coil_is_ohm_s() -> None:
    """6 to 6.6 volt over all that resists: 0.02 + 0.01 + 1.2 + 0.02 ohm at the least, 0.1 + 0.3 + 1.5 + 0.2
    at the most, each decimal read to its last place."""
    coil = register().assemblies["d-coil-ignition"]
    whole = arranged(register().of(Circuit)["ignition-type-d"], {coil.position: coil})
    running = worked(whole, "closed")
    assert running.figures is not None
    current = running.figures.flows["d-coil-ignition/coil"]
    most, least = 6.65 / (0.015 + 0.005 + 1.15 + 0.015), 6 / (0.15 + 0.35 + 1.55 + 0.25)
    assert [current.low, current.high] == pytest.approx([least, most], rel=1e-6)
    broken = next(one for one in running.changes if one.fault.piece.id == "d-coil-ignition/points")
    assert broken.then["reach"].high == pytest.approx(0, abs=1e-9)
    assert broken.moved["gauge"].low > 0


def test_water_goes_through_what_is_served_and_on() -> None:
    """Both jackets lie one behind the other; the thermostat only opens."""
    held = [register().assemblies[id_] for id_ in ("gear-water-pump", "bellows-thermostat", "wet-manifold")]
    whole = arranged(register().of(Circuit)["water-type-h"], {one.position: one for one in held})
    assert [one.piece.id for one in served(whole)] == ["jacket", "wet-manifold/jacket"]
    assert all(len(route.pieces) == 3 for route in routes(whole))


def test_what_is_pumped_is_what_the_record_says() -> None:
    """The drawing gives 7 to 9 litres a minute at 800 turns: at 300 turns it is three eighths of that."""
    flow = worked(of(*WASTE), "warm").figures
    assert flow is not None
    pump = flow.flows["gear-pump-narrow/gears"]
    assert [end / LITRE_MINUTE for end in (pump.low, pump.high)] == pytest.approx([7, 9])
    cold = worked(of(*WASTE), "cold").figures
    assert cold is not None
    assert cold.flows["gear-pump-narrow/gears"].high / LITRE_MINUTE == pytest.approx(9 * 3 / 8)


def test_the_valves_of_a_warm_and_a_cold_engine() -> None:
    """Warm the cartridge's own valve stays shut; cold the main valve surely opens."""
    warm, cold = worked(of(*CARTRIDGE), "warm"), worked(of(*CARTRIDGE), "cold")
    own, main = (warm.arranged.piece(id_) for id_ in ("cartridge-filter/relief", "main-relief"))
    assert own is not None
    assert main is not None
    assert warm.figures is not None
    assert cold.figures is not None
    assert warm.figures.opens(own) is False
    assert warm.figures.opens(main) is None
    assert cold.figures.opens(main) is True


@pytest.mark.slow
def test_a_ball_left_out_is_hidden_from_the_gauge_of_a_bypass_filter() -> None:
    changes = {(one.fault.piece.id, one.fault.wrong): one for one in worked(of(*WASTE), "warm").changes}
    packing = changes["waste-packed-filter/waste", Wrong.LEFT_OUT]
    assert packing.then["cleaned"].high == 0
    assert packing.moved["cleaned"].low < -0.2
    assert packing.moved["gauge"].low / PSI > -2
    assert packing.moved["gauge"].high / PSI < 2
    starved = changes["waste-packed-filter/tee", Wrong.PLUGGED]
    assert starved.starves
    assert starved.then["reach"].high / LITRE_MINUTE < 1e-3


@pytest.mark.slow
def test_a_change_is_paired_on_the_same_sizes() -> None:
    """Unpaired, the widths of before and after would both go into the difference."""
    running = worked(of(*CARTRIDGE), "warm")
    change = next(one for one in running.changes if one.fault.piece.id == "gauze-sump-strainer/gauze")
    assert change.moved["gauge"].low == pytest.approx(0, abs=PSI / 100)
    assert change.moved["gauge"].high == pytest.approx(0, abs=PSI / 100)


def test_the_weakest_inputs_stand_first() -> None:
    figures = worked(of(*WASTE), "warm").figures
    assert figures is not None
    weights = [one.weight for one in figures.inputs]
    assert weights == sorted(weights)
    recalled = [one.piece.id for one in figures.inputs if one.piece and one.weight.name == "RECALLED"]
    assert set(recalled) == {"bearings", "waste-packed-filter/waste"}


def test_what_is_worth_measuring_moves_the_shares() -> None:
    found = worked(of(*WASTE), "warm").widest
    assert found[0].name == "bearings:passes"
    assert all(one.piece for one in found)


def test_every_number_of_a_series_has_what_the_spans_give_it() -> None:
    """Held against the card of one number in seven: what is possible is each position's, multiplied."""
    fits = register().answers.fits
    circuit = register().of(Circuit)["oil-type-h"]
    found = over_series(fits, circuit)
    series = register().series["hm"]
    for number in range(1, 761, 7):
        told = [
            (one, run.sure)
            for one in found
            for run in one.runs
            if run.series is series and any(number in span for span in run.numbers)
        ]
        (reading,) = register().read_serial(series.stamp.show(number))
        held = {
            p: [fit.assembly for fit in fits.at(reading, p).segment.fits] for p in found[0].arranged.fitted
        }
        expected = 1
        for assemblies in held.values():
            expected *= len(assemblies)
        assert len(told) == expected
        assert all(one.arranged.fitted[p] in of_ for one, _ in told for p, of_ in held.items())


def test_a_machine_has_the_circuits_that_name_it() -> None:
    circuits = register().of(Circuit)
    assert all(one.machine == "wexmoor-h" for one in circuits_of(circuits, "wexmoor-h"))
    assert "oil-type-h" in [one.id for one in circuits_of(circuits, "wexmoor-h")]


def test_what_a_machine_holds_now_is_taken_as_it_is() -> None:
    (found,) = (
        one
        for one in register().flow("HK 700", {"lubrication/oil-filter": "cartridge-filter"})
        if one.circuit.id == "oil-type-h"
    )
    assert [one.share for one in found.arrangements] == [1]
    assert found.arrangements[0].arranged.fitted["lubrication/oil-filter"].id == "cartridge-filter"
    with pytest.raises(LookupError, match="no record has the assembly"):
        register().flow("HK 700", {"lubrication/oil-filter": "gear-pump-wide"})


def test_the_shares_of_the_arrangements_of_a_machine_add_up() -> None:
    for serial in ("HK 20", "HK 595", "HK 1030", "HK 1300", "0100M"):
        for one in register().flow(serial):
            assert sum(likely.share for likely in one.arrangements) + one.rest == 1


def test_a_circuit_without_positions_is_one_arrangement_of_every_number(tmp_path: Path) -> None:
    """As in a fresh community: a pump and bearings, and nothing that changed."""
    start(tmp_path / "fresh", "Fresh", None)
    fresh = open_register(tmp_path / "fresh")
    (only,) = over_series(fresh.answers.fits, fresh.of(Circuit)["example-oil"])
    assert only.sure
    assert [(run.series.id, list(run.numbers)) for run in only.runs] == [("eo", [Span(1, 400)])]
