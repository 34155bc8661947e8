"""Pictures of circuits, and amounts in words: next to nothing is nothing."""

from __future__ import annotations

import pytest

from spanbook.answers.flow.figures import Change, Worked
from spanbook.answers.flow.pieces import arranged
from spanbook.ground.flow.bounds import Between
from spanbook.ground.language import speaking
from spanbook.reading.records import Circuit
from spanbook.site.figures.circuit import circuit_picture
from spanbook.wording.flow import medium_words, rests_words
from spanbook.wording.flow_amounts import LITRE_MINUTE, PSI, flows, percent_words
from spanbook.wording.flow_faults import fault_words, gauge_words
from spanbook.wording.flow_ways import served_titles
from tests.support.demo import demo

REGISTER = demo()
CIRCUITS = REGISTER.of(Circuit)
OIL, CURRENT = CIRCUITS["oil-type-h"], CIRCUITS["ignition-type-d"]


def worked(circuit: Circuit, *assemblies: str) -> Worked:
    held = [REGISTER.assemblies[id_] for id_ in assemblies]
    whole = arranged(circuit, {one.position: one for one in held})
    return REGISTER.answers.worked(whole, circuit.states[0])


COIL = worked(CURRENT, "d-coil-ignition")


def broken(worked: Worked, piece: str) -> Change:
    return next(one for one in worked.changes if one.fault.piece.id == piece)


def test_a_broken_lead_has_a_picture_without_bands() -> None:
    whole, cut = (
        circuit_picture(COIL, "whole"),
        circuit_picture(broken(COIL, "switch").worked, "cut"),
    )
    assert whole is not None
    assert cut is not None
    assert max(band.width for band in whole.bands if band.sure) > 1
    assert cut.bands == ()
    assert [sign.words for sign in cut.signs] == [sign.words for sign in whole.signs]
    assert [sign.words for sign in cut.signs if sign.wrong] == [("Ignition", "switch and", "lead")]


def test_what_a_computer_loses_of_a_number_is_nothing() -> None:
    assert not flows(Between(-1e-4 * LITRE_MINUTE, 9e-4 * LITRE_MINUTE), OIL)
    assert flows(Between(0, 2e-3 * LITRE_MINUTE), OIL)
    assert flows(Between(0, 2e-3), CURRENT)
    assert not flows(Between(0, 2e-3 * LITRE_MINUTE), CURRENT)


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (-1e-9, 3.1, "the gauge rises by 0 to 3.1 psi"),
        (-3.1, 1e-9, "the gauge falls by 0 to 3.1 psi"),
        (-2.5, 3.1, "the gauge may fall by 2.5 psi or rise by 3.1 psi"),
        (-1e-9, 1e-9, "the gauge moves by less than 2 psi"),
    ],
)
def test_a_gauge_that_moves_one_way_is_not_said_to_move_both(low: float, high: float, words: str) -> None:
    assert gauge_words(Between(low * PSI, high * PSI), OIL) == words


def test_a_meter_that_does_not_move_is_said_not_to() -> None:
    assert gauge_words(Between(-1e-6, 1e-6), CURRENT) == "the meter does not move"


@pytest.mark.slow
def test_figures_do_not_depend_on_what_was_asked_before() -> None:
    """The states that were worked out for one answer are kept for the next."""
    fresh, used = (worked(OIL, "gauze-sump-strainer", "gear-pump-wide", "cartridge-filter") for _ in "12")
    assert used.changes
    assert used.widest[0].name == fresh.widest[0].name
    assert used.figures is not None
    assert fresh.figures is not None
    assert used.figures.flows == fresh.figures.flows
    assert used.figures.served == fresh.figures.served


def test_a_change_leads_to_all_that_is_known_with_the_fault() -> None:
    cut = broken(COIL, "switch")
    assert cut.worked.figures is not None
    assert cut.worked.figures.flows["switch"] == Between(0, 0)
    assert fault_words(cut.fault, CURRENT) == "Ignition switch and lead broken"


def test_circuits_are_told_in_another_language() -> None:
    with speaking("de"):
        assert gauge_words(Between(-2.5 * PSI, 3.1 * PSI), OIL) == (
            "das Manometer fällt vielleicht um 2,5 psi oder steigt um 3,1 psi"
        )
        assert percent_words(Between(0.07, 0.31)) == "7 bis 31 %"
        assert fault_words(broken(COIL, "switch").fault, CURRENT) == "Ignition switch and lead unterbrochen"
        assert medium_words(OIL) == "Öl, SAE 30"
        assert rests_words(COIL.figures.inputs if COIL.figures else ()) == (
            "5 Zahlen: 3 nach Erinnerung, 2 nach einer Quelle."
        )
        assert served_titles(COIL.arranged) == "Primary of the coil"
