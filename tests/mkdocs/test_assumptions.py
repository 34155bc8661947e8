"""What a community assumes, as mkdocs.yml says it."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest

from spanbook.answers.assumed import Assumed, StoryOdds
from spanbook.answers.changepoint import CLASSES, GUESSED
from spanbook.answers.standing import Standing
from spanbook.mkdocs.asked import assumed_of
from spanbook.mkdocs.failures import BuildFailed
from tests.support.command import project
from tests.support.rows import each_row

ROOT = Path(__file__).parents[2]


def assumed(tmp_path: Path, settings: str) -> Assumed:
    folder = project(tmp_path / "p")
    file = folder / "mkdocs.yml"
    file.write_text(file.read_text().replace("plugins: [spanbook]", f"plugins: [{{spanbook: {settings}}}]"))
    return assumed_of(folder)


def test_every_class_of_source_has_a_weight_and_the_demonstration_shows_them_all() -> None:
    schema = json.loads((ROOT / "schema/source.json").read_text())
    assert set(CLASSES) == set(schema["properties"]["class"]["enum"])
    assert assumed_of(ROOT) == Assumed()
    starter = ROOT / "builder/spanbook/faces/starter/mkdocs.yml"
    for text in ((ROOT / "mkdocs.yml").read_text(), starter.read_text()):
        assert all(f"{name}: {float(weight):g}" in text for name, weight in CLASSES.items())
        assert f"none_of_them: {float(GUESSED.none_of_them):g}" in text
        guessed = StoryOdds()
        for name in ("sold_later", "unrecorded", "swapped"):
            assert f"{name}: {float(getattr(guessed, name)):g}" in text
        assert all(f"{standing}: {float(share):g}" in text for standing, share in guessed.wrong.items())


def test_what_is_left_out_is_as_guessed(tmp_path: Path) -> None:
    found = assumed(tmp_path, "{weights: {parts-book: 2.5, none_of_them: 0.1}}")
    assert found.weights.classes == {**CLASSES, "parts-book": Fraction(5, 2)}
    assert found.weights.none_of_them == Fraction(1, 10)
    assert found.rates == Assumed().rates


@each_row(
    ("typed", "told"),
    [
        ("{rumour: 1}", "weights: read rumour; the classes of sources are ledger, parts-book"),
        ("{manual: 0}", "weights: manual: read 0; a weight is a number above 0, up to 1000"),
        ("{manual: 1001}", "weights: manual: read 1001; a weight is a number above 0"),
        ("{manual: much}", "weights: manual: read much; a weight is a number"),
        ("{manual: true}", "weights: manual: read True; a weight is a number"),
        ("{manual: .nan}", "weights: manual: read nan; a weight is a number"),
        ("{none_of_them: 0.6}", "weights: none_of_them: read 0.6; it is a share, a number from 0 to 0.5"),
        ("{none_of_them: -1}", "weights: none_of_them: read -1; it is a share"),
    ],
)
def test_what_is_no_weight_is_told(tmp_path: Path, typed: str, told: str) -> None:
    with pytest.raises(BuildFailed, match=told):
        assumed(tmp_path, f"{{weights: {typed}}}")


def test_the_odds_of_stories_are_the_community_s_own(tmp_path: Path) -> None:
    found = assumed(tmp_path, "{stories: {sold_later: 10, swapped: 0, wrong: {recalled: 0.5}}}").odds
    guessed = StoryOdds()
    assert found == StoryOdds(
        Fraction(10), guessed.unrecorded, Fraction(0), {**guessed.wrong, Standing.RECALLED: Fraction(1, 2)}
    )


@each_row(
    ("typed", "told"),
    [
        ("{fire: 1}", "stories: read fire; there are sold_later, unrecorded, swapped, wrong"),
        ("{sold_later: 11}", "stories: sold_later: read 11; it is a number from 0 to 10"),
        ("{unrecorded: -1}", "stories: unrecorded: read -1; it is a number from 0 to 10"),
        ("{swapped: 0.6}", "stories: swapped: read 0.6; it is a number from 0 to 0.5"),
        ("{wrong: 0.6}", "stories: wrong: read 0.6; it is a share for each of unsupported, recalled"),
        ("{wrong: {rumoured: 0.1}}", "stories: wrong: read .*rumoured.*; it is a share for each of"),
        ("{wrong: {recalled: 1}}", "stories: wrong: recalled: read 1; it is a number from 0 to 0.5"),
    ],
)
def test_what_is_no_odds_is_told(tmp_path: Path, typed: str, told: str) -> None:
    with pytest.raises(BuildFailed, match=told):
        assumed(tmp_path, f"{{stories: {typed}}}")


def test_edges_are_taken(tmp_path: Path) -> None:
    found = assumed(tmp_path, "{weights: {manual: 1000, none_of_them: 0.5, ledger: 0.001}}").weights
    assert (found.classes["manual"], found.classes["ledger"]) == (Fraction(1000), Fraction(1, 1000))
    assert found.none_of_them == Fraction(1, 2)


def test_a_rate_may_be_a_range(tmp_path: Path) -> None:
    found = assumed(tmp_path, "{rates: {converted: [0.05, 0.2]}}").rates
    assert found.converted == Fraction(1, 20)
    assert found.upto is not None
    assert (found.upto.converted, found.upto.robbed) == (Fraction(1, 5), found.robbed)
    assert assumed(tmp_path / "b", "{rates: {robbed: [0.03, 0.03]}}").rates == Assumed().rates


@each_row("typed", ["[0.2, 0.1]", "[0.1]", "[0.1, 0.2, 0.3]", "[0.1, 0.6]", "[a, b]", "0.6", "-0.1"])
def test_what_is_no_rate_is_refused(tmp_path: Path, typed: str) -> None:
    with pytest.raises(BuildFailed, match=r"rates: read .*the two ends of a range"):
        assumed(tmp_path, f"{{rates: {{converted: {typed}}}}}")
