"""What to order, by the command and the Python interface."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

from spanbook import Wanted
from spanbook.cli import main
from spanbook.reading.schemas import folder
from tests.support.demo import demo

PROJECT = Path(__file__).parents[2]
SCHEMA = Draft202012Validator(json.loads((folder() / "answer-order.json").read_text()))


def ask(*arguments: str, typed: str | None = None) -> str:
    result = CliRunner().invoke(main, ["ask", *arguments, "--folder", str(PROJECT)], input=typed)
    assert result.exit_code == 0, result.output
    return result.output


def test_in_words_the_answer_comes_first() -> None:
    lines = ask("WH-1181", "--order", "3").splitlines()
    packs, discs = "3 × WH-2241 Pack without end discs", "6 × WH-2242 End disc"
    assert lines[0] == f"Order {packs} (still supplied) and {discs} (supply not known)."
    assert "WH-1181 replaced by WH-2240" in lines[1]
    assert "On the word of Parts book for the Type H engine, p. 44, note." in lines[1]


def test_for_one_machine() -> None:
    told = ask("WH-1204", "--order", "1", "--for", "HK 950")
    assert told.startswith("Order WH-1208 Bypass jet with filter gauze.")
    assert "jet-early does not apply" in told


def test_json_keeps_to_its_schema_and_lists_the_leaves_flat() -> None:
    made = json.loads(ask("WH-1412", "--order", "2", "--json"))
    assert list(SCHEMA.iter_errors(made)) == []
    leaves = [
        [(leaf["number"], leaf["quantity"], leaf["supplied"]) for leaf in way["leaves"]]
        for way in made["alternatives"]
    ]
    assert leaves == [[("WH-1418", 2, "no")], [("WH-1417", 2, "yes")]]


def test_a_list_of_numbers_quantities_and_machines() -> None:
    typed = "WH-1181\t3\nWH-1204\t1\tHK 950\nHK 588\n"
    made = [json.loads(line) for line in ask("-", "--json", typed=typed).splitlines()]
    assert [m["kind"] for m in made] == ["order", "order", "serial"]
    assert made[1]["serial"] == "HK 950"
    assert list(SCHEMA.iter_errors(made[0])) == []


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("WH-1204", "--order", "1", "--for", "HK 905"), "HK 905 reads as 0 machines"),
        (("WH-1204", "--order", "0"), "0 is not in the range"),
    ],
)
def test_what_cannot_be_answered_says_why(arguments: tuple[str, ...], said: str) -> None:
    result = CliRunner().invoke(main, ["ask", *arguments, "--folder", str(PROJECT)])
    assert result.exit_code != 0
    assert said in result.output


def test_a_number_that_nobody_mentions_is_an_answer() -> None:
    told = ask("9Z-1", "--order", "1")
    assert told.startswith("No record mentions the part number 9Z-1. Try the letters and digits as stamped")
    made = json.loads(ask("9Z-1", "--order", "1", "--json"))
    assert list(SCHEMA.iter_errors(made)) == []
    assert (made["kind"], made["query"], bool(made["suggestions"])) == ("none", "9Z-1", True)


def test_every_line_has_its_answer() -> None:
    typed = "9Z-1\t1\nWH-1204\t1\tHK 905\nWH-1181\t3\n"
    arguments = ["ask", "-", "--json", "--folder", str(PROJECT)]
    result = CliRunner().invoke(main, arguments, input=typed)
    made = [json.loads(line) for line in result.stdout.splitlines()]
    assert [one["kind"] for one in made] == ["none", "none", "order"]
    assert [list(SCHEMA.iter_errors(one)) for one in made] == [[], [], []]
    assert made[1]["why"] == "HK 905 reads as 0 machines, and one is wanted"
    # The unknown number is an answer; the line that names no machine could not be asked.
    assert (result.exit_code, "could not be asked: 1" in result.stderr) == (1, True)


def test_a_quantity_that_is_none() -> None:
    result = CliRunner().invoke(main, ["ask", "-", "--folder", str(PROJECT)], input="WH-1181\ttwo\n")
    assert result.exit_code == 1
    assert "The quantity 'two' of WH-1181" in result.output
    assert "lines that could not be asked: 1" in result.output


def test_from_python() -> None:
    register = demo()
    wanted = Wanted("wh-1185", 2, by="wexmoor-engine-works")
    assert register.order_now(wanted).steps[0].gives[0].quantity == 2
    assert [one.keys[0].number for one in register.would_do(Wanted("WH-1187")).each] == [
        "wh-1188",
        "wh-1186",
        "wh-1185",
    ]
    with pytest.raises(LookupError, match="no record mentions"):
        register.would_do(Wanted("nothing"))


def test_in_a_year() -> None:
    assert ask("WH-1343", "--order", "1", "--in", "1937").startswith(
        "As in 1937: order WH-1344 Door joint, rubbered cloth."
    )
    assert ask("WH-1343", "--order", "1", "--in", "1938").startswith("As in 1938: order WH-1343 itself.")
    made = json.loads(ask("WH-1344", "--order", "1", "--in", "1930", "--json"))
    assert list(SCHEMA.iter_errors(made)) == []
    assert (made["year"], made["first-named"]) == (1930, 1936)
    assert made["tree"]["dropped"] == [
        {"act": "door-gasket-brought-back", "why": "not made by then", "back": None}
    ]


def test_what_a_record_says_of_its_supply_it_says_of_today() -> None:
    assert ask("WH-1181", "--order", "1").startswith("Order WH-2241 Pack without end discs (still supplied)")
    told = json.loads(ask("WH-1181", "--order", "1", "--in", "1938", "--json"))
    assert [leaf["supplied"] for leaf in told["alternatives"][0]["leaves"]] == ["unknown", "unknown"]


def test_lines_are_all_asked_in_the_year() -> None:
    typed = "WH-1343\t1\nWH-1344\t1\n"
    told = [json.loads(line) for line in ask("-", "--in", "1937", "--json", typed=typed).splitlines()]
    leaves = [one["alternatives"][0]["leaves"][0]["number"] for one in told]
    assert leaves == ["WH-1344", "WH-1344"]


def test_a_year_wants_a_quantity() -> None:
    result = CliRunner().invoke(main, ["ask", "WH-1343", "--in", "1937", "--folder", str(PROJECT)])
    assert result.exit_code == 2
    assert "say how many with --order" in result.output


def test_how_a_machine_could_have_been_converted_in_a_year() -> None:
    machine = ["HK 588", "--to", "cam-governor", "--from", "enclosed-governor", "--folder", str(PROJECT)]
    told = {
        year: CliRunner().invoke(main, ["convert", *machine, "--in", str(year)]).output.splitlines()[:2]
        for year in (1937, 1939, 1945, 1947)
    }
    for year in (1937, 1947):
        assert told[year] == [
            f"As in {year}: There is no recorded way to the Cam-end governor.",
            "Cam-end governor does it, and was offered from 1938 to somewhere between 1940 and 1946.",
        ]
    assert told[1939][1] == "1. Cam-end governor"
    assert told[1945][1] == "1. Cam-end governor (whether it was offered then is not known)"
