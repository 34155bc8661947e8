"""What one machine has: its positions, the answer at each, and bounds within what its series allows."""

from __future__ import annotations

from math import inf

import pytest

from spanbook.answers.applicability import Fits, State, positions_of
from spanbook.answers.bounds import bounds_of
from spanbook.answers.readings import read_serial
from spanbook.ground.intervals import Bound
from spanbook.register.link import build
from tests.support.registers import MACHINE, assembly, record, register

TREE = (
    "kind: positions\npositions:\n- id: pump\n  title: Pump\n  positions:\n  - {id: lid, title: Lid}\n"
    "  - {id: rod, title: Rod}\n- {id: pump-house, title: Pump house}\n"
)


@pytest.mark.parametrize(
    ("named", "positions"),
    [
        ("", ("pump/lid", "pump/rod", "pump-house")),
        ("positions: [pump]\n", ("pump/lid", "pump/rod")),
        ("positions: [pump-house, pump/rod]\n", ("pump/rod", "pump-house")),
    ],
)
def test_a_machine_has_the_positions_of_the_groups_it_names_or_else_all(
    named: str, positions: tuple[str, ...]
) -> None:
    machine = record(MACHINE.replace("series:", f"{named}series:") % 20, "machine", "x")
    made = build([machine, record(TREE, "positions", "positions")])
    assert positions_of(made, made.machines["x"]) == positions
    (card,) = (Fits(made).card(reading) for reading in read_serial(made, "XA 3") if reading.issued)
    assert tuple(place.position for place in card.positions) == positions


def test_the_state_of_a_position_is_that_of_its_segment() -> None:
    made = register(assembly("a", "first: 1, last: [5, 7]"), assembly("b", "first: 1, last: 20", "drain"))
    fits = Fits(made)
    states = {}
    for text in ("XA 3", "XA 6", "XA 12"):
        card = fits.card(read_serial(made, text)[0])
        states[text] = [place.state for place in card.positions]
    assert states == {
        "XA 3": [State.SETTLED, State.SETTLED],
        "XA 6": [State.UNSURE, State.SETTLED],
        "XA 12": [State.BLANK, State.SETTLED],
    }


@pytest.mark.parametrize(
    ("spans", "state", "order"),
    [
        (("1, last: 20", "[1, 9], last: 20"), State.UNSURE, "ab"),
        (("[1, 9], last: 20", "1, last: 20"), State.UNSURE, "ba"),
        (("1, last: 20", "1, last: 20"), State.CONFLICT, "ab"),
        (("1, last: 20, option: true", "1, last: 20"), State.CHOICE, "ba"),
        (("[1, 9], last: 20", "1, last: 20, option: true"), State.UNSURE, "ba"),
        (("1, last: 20, fitted: field", "[1, 9], last: 20"), State.UNSURE, "ba"),
    ],
)
def test_what_left_the_works_then_the_sure_then_standards_come_first(
    spans: tuple[str, str], state: State, order: str
) -> None:
    made = register(*(assembly(id_, f"first: {span}") for id_, span in zip("ab", spans, strict=True)))
    place = Fits(made).card(read_serial(made, "XA 5")[0]).positions[0]
    assert (place.state, "".join(fit.assembly.id for fit in place.fits)) == (state, order)


def test_a_series_of_which_nothing_was_issued_has_no_segments() -> None:
    none = MACHINE.replace("last: %s, skipped: [[8, 9]]", "last: 9, skipped: [[1, 9]]")
    made = build([record(none, "machine", "x"), assembly("a", "first: 1, last: 9")])
    assert Fits(made).segments(made.series["xa"], "cover") == ()


@pytest.mark.parametrize(
    ("span", "last", "bounds"),
    [
        ("first: 3, last: [5, 7]", "20", (Bound(3, 3), Bound(5, 7))),
        ("first: unknown, last: unknown", "20", (Bound(1, 20), Bound(1, 20))),
        ("first: 2, last: open", "20", (Bound(2, 2), Bound(20, 20))),
        ("first: unknown, last: unknown", "unknown", (Bound(1, inf), Bound(1, inf))),
        ("first: 2, last: open", "unknown", (Bound(2, 2), Bound(inf, inf))),
    ],
)
def test_what_is_not_known_of_a_span_lies_within_its_series(
    span: str, last: str, bounds: tuple[Bound, Bound]
) -> None:
    made = register(assembly("a", span), last=last)
    (fitting,) = made.fittings["xa", "cover"]
    assert bounds_of(fitting.span, fitting.series) == bounds
