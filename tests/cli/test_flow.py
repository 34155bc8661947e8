"""The command that tells which way it goes, on the demonstration."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

from spanbook import flow_asked
from spanbook.cli import main
from spanbook.reading.schemas import folder
from tests.conftest import PROJECT

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-flow.json").read_text(encoding="utf-8")))


def flow(*arguments: str, code: int = 0) -> str:
    result = CliRunner().invoke(main, ["flow", *arguments, "--folder", str(PROJECT)])
    assert result.exit_code == code, result.output
    return result.output


@pytest.mark.slow
def test_a_bypass_filter_is_told_for_what_it_is() -> None:
    told = flow("HK 701", "--circuit", "oil-type-h", "--state", "warm").splitlines()
    assert told[0] == "HK 701, Oil circuit, Type H"
    assert told[2].strip() == (
        "Main and big-end bearings: nothing that reaches it has passed Cotton waste, which cleans only what "
        "runs beside and back."
    )
    shares = next(line for line in told if line.strip().startswith("Of all that is pumped"))
    assert shares.endswith("of what reaches Main and big-end bearings nothing.")
    hidden = next(line for line in told if line.strip().startswith("Cotton waste left out"))
    assert hidden.endswith("The gauge does not give it away.")
    assert told[-2].startswith("Worked out from what is recorded, not measured.")
    assert told[-1].startswith("Oil that runs is hot")
    assert not any("Cold start" in line for line in told)


@pytest.mark.slow
def test_a_ball_left_out_opens_a_way() -> None:
    told = flow("HK 1300", "--circuit", "oil-type-h", "--without", "cartridge-filter/relief")
    assert "Relief valve beside the outlet left out." in told
    assert "Which opens:" in told
    assert "If something is wrong:" not in told


def test_without_sizes_there_are_ways_and_no_figure() -> None:
    told = flow("0050M", "--circuit", "oil-type-h")
    assert "whatever reaches it has passed Strainer pack" in told
    assert "No figures: nobody has recorded Strainer pack (gap, width, depth and count)." in told
    assert "litre/min" not in told


STUCK = ("--stuck", "main-relief")
# Every fault of every arrangement that a machine may have is worked out: up to seconds.
LONG = [
    pytest.param(serial, options, marks=pytest.mark.slow)
    for serial in ("HK 595", "HK 701", "HK 1300")
    for options in ((), ("--state", "cold"), STUCK)
    if (serial, options) != ("HK 1300", STUCK)
]
SHORT = [(serial, options) for serial in ("HK 20", "0050M") for options in ((), ("--state", "cold"), STUCK)]


@pytest.mark.parametrize(("serial", "options"), [*SHORT, ("HK 1300", STUCK), *LONG])
def test_the_json_keeps_to_its_schema(serial: str, options: tuple[str, ...]) -> None:
    if serial == "HK 20" and "--stuck" in options:
        options = ()
    found = json.loads(flow(serial, "--circuit", "oil-type-h", *options, "--json"))
    assert list(SCHEMA.iter_errors(found)) == []
    assert found["query"] == serial


REFUSED = {
    "a circuit": (("--circuit", "beer"), "no circuit beer; there is oil-type-h"),
    "a state": (("--state", "boiling"), "no state boiling; there is warm, cold"),
    "a way": (("--without", "ball"), "no way ball that can be left out; there is main-relief"),
    "two faults": (("--without", "main-relief", "--stuck", "main-relief"), "one thing wrong at a time"),
    "an assembly": (("--has", "nonesuch"), "no record has the assembly nonesuch"),
}


@pytest.mark.parametrize(("options", "said"), REFUSED.values(), ids=REFUSED)
def test_what_is_not_there_is_said_with_what_is(options: tuple[str, ...], said: str) -> None:
    assert said in flow("HK 701", *options, code=1)


def test_a_machine_without_a_circuit_is_said() -> None:
    with pytest.raises(LookupError, match="no record has a circuit of that machine"):
        flow_asked([])


def test_a_plugged_way_that_leaves_no_way_out_has_no_figures() -> None:
    told = flow(
        "HK 1300", "--circuit", "oil-type-h", "--state", "warm", "--plugged", "gauze-sump-strainer/gauze"
    )
    assert "No figures: what is pumped may have no way out, and something gives way." in told
