"""What only several open proposals contradict: what one saw on a machine, against a span of another."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

import spanbook
from tests.support.command import run
from tests.support.proposals import STRAINER, Community

pytestmark = pytest.mark.slow  # git is asked

FROM_WASTE = "content/conversions/cartridge-kit-from-waste.yml"
CARTRIDGE = "content/assemblies/lubrication/cartridge-filter.yml"
AGAIN = "content/conversions/again.yml"
SPAN = "last: [1180, 1204]}"
SHORTER = "last: 645}"
NO_CHANGES = "{converted: 0, robbed: 0, untouched_converted: 0, untouched_robbed: 0}"
# The strainer, which ends somewhere between HK 588 and HK 612, was seen on HK 592 by the main branch.
TOLD = (
    "contradicts: anna saw the Metal-edge strainer on HK 600 (untouched); recorded the Metal-edge strainer "
    "only from HK 1 to somewhere between HK 588 and HK {}, by Parts book for the Type H engine, p. 31, "
    "fig. 12 (oil filter)"
)


@pytest.fixture
def made(tmp_path: Path) -> Community:
    return Community(tmp_path / "p")


def ends(made: Community, last: int) -> Callable[[], object]:
    """The last number that may have the strainer, by somebody who moves it."""
    return made.edit(STRAINER, "[588, 612]", f"[588, {last}]")


def told(made: Community) -> dict[tuple[str, str], tuple[str, ...]]:
    return {(pair.one, pair.other): pair.lines for pair in found(made).against}


def found(made: Community) -> spanbook.Proposals:
    return spanbook.review_all(made.folder, "main")


def test_two_contradict_what_neither_does_alone(made: Community) -> None:
    made.propose("ends", ends(made, 594))
    made.propose("saw", made.teardown("anna", 600, "edge-strainer"))
    made.propose("other", made.letter("letter-z.yml", "Another"))
    assert told(made) == {("ends", "saw"): (TOLD.format(594),)}
    said = run("review", "main", "--all", "--folder", made.folder)
    assert said.exit_code == 3, "no error, and to be read before both are taken in"
    assert said.output.startswith(
        f"ends and saw contradict one another (1)\n  {TOLD.format(594)}\n3 proposals open to main\n"
    )
    assert "No two of them clash" not in said.output


def test_two_alone(made: Community) -> None:
    """Of two there is one pair, which is not merged again."""
    made.propose("ends", ends(made, 594))
    made.propose("saw", made.teardown("anna", 600, "edge-strainer"))
    assert told(made) == {("ends", "saw"): (TOLD.format(594),)}


def test_what_one_of_them_contradicts_alone_is_its_own(made: Community) -> None:
    made.propose("ends", ends(made, 590))  # HK 592 speaks against that
    made.propose("saw", made.teardown("anna", 620, "edge-strainer"))  # past the old end, too
    made.propose("other", made.letter("letter-z.yml", "Another"))
    every = found(made)
    assert [one.line.split(":")[0] for one in every.each if one.branch != "other"] == [
        "contradicts what was known",
        "contradicts",
    ]
    assert every.against == ()
    assert run("review", "main", "--all", "--folder", made.folder).exit_code == 0


def test_what_the_main_branch_contradicts_already(made: Community) -> None:
    made.teardown("anna", 600, "edge-strainer")()
    ends(made, 594)()
    made.commit("A contradiction")
    made.propose("text", made.edit(STRAINER, "cleaned by half a turn", "cleaned by half a turn or so"))
    made.propose("saw", made.teardown("bert", 590, "edge-strainer"))
    assert told(made) == {}


def test_another_id_makes_no_other_contradiction(made: Community) -> None:
    """What one sees of a thing that the other calls otherwise is against the same statements as before."""
    thing = "assemblies/edge-strainer"

    def rename() -> None:
        done = run("rename", thing, "metal-strainer", "--yes", "--folder", made.folder)
        assert done.exit_code == 0, done.output

    made.propose("calls", rename)
    made.propose("saw", made.teardown("anna", 570, "waste-packed-filter"))
    every = found(made)
    assert [(one.branch, one.sound) for one in every.each] == [("calls", True), ("saw", True)]
    assert (every.against, every.together) == ((), ())


def test_those_that_clash_are_each_held_against_the_others(made: Community) -> None:
    moved = {"ends-a": 594, "ends-b": 596, "ends-c": 598}
    for branch, last in moved.items():
        made.propose(branch, ends(made, last))
    made.propose("saw", made.teardown("anna", 600, "edge-strainer"))
    assert told(made) == {(branch, "saw"): (TOLD.format(last),) for branch, last in moved.items()}
    assert len(found(made).pairs) == 3


def test_two_that_are_not_sound_together_hide_nothing(made: Community) -> None:
    made.propose("ends", ends(made, 594))
    made.propose("id-a", made.letter("letter-x.yml", "A letter"))
    made.propose("id-b", made.letter("more/letter-x.yml", "Another letter"))
    made.propose("saw", made.teardown("anna", 600, "edge-strainer"))
    assert told(made) == {("ends", "saw"): (TOLD.format(594),)}
    assert run("review", "main", "--all", "--folder", made.folder).exit_code == 1


@pytest.fixture
def twice(made: Community) -> Community:
    """Two kits that may have put a cartridge in place of the waste-packed filter, and nothing else did."""
    made.edit(CARTRIDGE, "    first: 1\n    last: 1204\n", "    first: 1\n    last: 612\n")()
    kit = (made.folder / FROM_WASTE).read_text()
    head = "kind: conversion\nid: again\ntitle: Again\n"
    made.write(AGAIN, head + kit[kit.index("position:") : kit.index("adds:")])()
    made.commit("Again")
    return made


def test_two_that_take_away_what_explained_a_find_of_the_main_branch(twice: Community) -> None:
    """Neither touches what was seen, or what it then speaks against."""
    twice.teardown("anna", 650, "cartridge-filter")()
    twice.commit("Seen")
    twice.propose("one", twice.edit(FROM_WASTE, SPAN, SHORTER))
    twice.propose("other", twice.edit(AGAIN, SPAN, SHORTER))
    twice.propose("third", twice.letter("letter-z.yml", "Another"))
    ((sides, lines),) = told(twice).items()
    assert sides == ("one", "other")
    assert lines[0].startswith("contradicts what was known: now recorded ")
    assert "anna saw the Full-flow cartridge filter on HK 650" in lines[0]


def test_what_only_three_contradict(twice: Community) -> None:
    twice.propose("one", twice.edit(FROM_WASTE, SPAN, SHORTER))
    twice.propose("other", twice.edit(AGAIN, SPAN, SHORTER))
    twice.propose("saw", twice.teardown("anna", 650, "cartridge-filter"))
    every = found(twice)
    assert (every.against, every.pairs, every.together) == ((), (), ())
    (line,) = every.against_together
    assert line.startswith(
        "of no two that were tried, but of all together: contradicts: anna saw the Full-flow cartridge filter"
    )
    said = run("review", "main", "--all", "--folder", twice.folder)
    assert said.exit_code == 3
    assert said.output.startswith(f"All together (1)\n  {line}\n")


def test_sightings_that_cannot_both_be_true_where_no_machine_is_ever_changed(made: Community) -> None:
    settings = (made.folder / "mkdocs.yml").read_text()
    start = settings.index("rates: {") + len("rates: ")
    end = settings.index("}", start) + 1
    (made.folder / "mkdocs.yml").write_text(settings[:start] + NO_CHANGES + settings[end:])
    made.edit("content/teardowns/hk-701-osk.yml", "condition: untouched", "condition: altered")()
    made.commit("No machine is ever changed")
    made.propose("early", made.teardown("anna", 596, "waste-packed-filter"))
    made.propose("late", made.teardown("bert", 600, "edge-strainer"))
    made.propose("later", made.teardown("carl", 602, "edge-strainer"))
    lines = told(made)
    assert list(lines) == [("early", "late"), ("early", "later")]
    assert lines["early", "late"] == (
        "moves the break from the Metal-edge strainer to the Waste-packed bypass filter: it was HK 593 to HK "
        "606, it is what was seen cannot all be true, on the word of anna (HK 596) and bert (HK 600) "
        "(oil filter)",
    )
