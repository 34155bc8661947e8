from __future__ import annotations

import json

from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

from spanbook.cli import main
from spanbook.reading.schemas import folder
from tests.conftest import PROJECT

SCHEMA = Draft202012Validator(json.loads((folder() / "answer-strip.json").read_text(encoding="utf-8")))


def strip(*arguments: str, code: int = 0) -> str:
    result = CliRunner().invoke(main, ["strip", *arguments, "--folder", str(PROJECT)])
    assert result.exit_code == code, result.output
    return result.output


def test_the_sheet_of_two_accounts() -> None:
    """Read line by line beside the two records."""
    told = strip("cartridge-filter", "--for", "HK 640").splitlines()
    assert told[0] == "Full-flow cartridge filter: strip-down"
    assert told.pop(1) == "For HK 640: it was seen on this machine; it may have been fitted later."
    assert told[1] == "From 2 accounts: merrin, 2024-05, on HK 640; osk, 2019-11, on HK 1312."
    assert told[2].startswith("Read the cautions first.")
    assert told[3].startswith("   Used oil: ")
    steps = [line for line in told if line[:1].isdigit()]
    assert steps[4] == "5. Slacken and take out the relief plug"
    disputed = next(line for line in told if "Disputed" in line)
    assert "merrin did it the other way round; the stricter is kept" in disputed
    assert "   WH-2260 Cartridge: today C15 Filter cartridge and WH-2266" in told
    assert any(line.startswith("   Spanner, 0.820 in") and line.endswith(": 7/16 W.") for line in told)


def test_of_two_that_say_the_reverse_neither_is_called_the_stricter() -> None:
    """Brindle says the spindle must come first, tolland the pack: brindle told it earlier."""
    disputed = [line for line in strip("edge-strainer").splitlines() if "Disputed" in line]
    assert any(
        "tolland says the reverse; more accounts count first, then the older one" in line for line in disputed
    )
    assert not any("stricter" in line for line in disputed)


def test_as_json() -> None:
    answer = json.loads(strip("cartridge-filter", "--json"))
    SCHEMA.validate(answer)
    assert answer["accounts"] == ["cartridge-filter-merrin", "cartridge-filter-osk"]
    for must in answer["musts"]:
        assert must["first"] < must["then"]


def test_everything_that_is_renewed_on_a_machine() -> None:
    """Read beside the records: HK 588 left the works with the early strainer and the narrow pump."""
    told = strip("--for", "HK 588").splitlines()
    assert told[0].startswith("HK 588, Wexmoor Type H launch engine.")
    at = told.index("Oil pump")
    assert told[at + 1] == "   Gear oil pump, narrow. This machine left the works with it; by one account."
    assert told[at + 2] == "      WH-1225 Cover joint, paper"
    assert "      WH-1415 Bowl washer, cork (by 1 of 2 accounts): today WH-1419 Bowl washer, rubber" in told
    silent = next(line for line in told if line.startswith("Nobody has told of taking apart: "))
    assert "Gauze sump strainer" in silent


def test_everything_that_is_renewed_as_json() -> None:
    answer = json.loads(strip("--for", "HK 588", "--json"))
    Draft202012Validator(json.loads((folder() / "answer-renew.json").read_text(encoding="utf-8"))).validate(
        answer
    )
    pump = next(one for one in answer["positions"] if one["position"] == "lubrication/oil-pump")
    narrow = next(one for one in pump["may-hold"] if one["id"] == "gear-pump-narrow")
    assert (narrow["left"], narrow["seen"], narrow["changed"]) == ("yes", False, False)
    assert [part["number"] for part in narrow["renew"]] == ["WH-1225"]
    wide = next(one for one in pump["may-hold"] if one["id"] == "gear-pump-wide")
    assert wide["renew"] is None


def test_what_cannot_be_told() -> None:
    assert "nobody has told of taking gauze-sump-strainer apart yet" in strip("gauze-sump-strainer", code=1)
    assert "no record has the assembly nonsense" in strip("nonsense", code=1)
    assert "name an assembly, or a machine with --for SERIAL" in strip(code=2)
    assert "reads as 0 machines" in strip("--for", "HK 9999", code=1)
    assert "reads as 0 machines" in strip("cartridge-filter", "--for", "HK 9999", code=1)
