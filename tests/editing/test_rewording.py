"""Signs and their answers are called otherwise, and what was once seen is still understood."""

from __future__ import annotations

from pathlib import Path

import pytest

import spanbook
from spanbook import CannotChange, OpenRegister, seen_of
from spanbook.answers.signs.key import Seen
from spanbook.site.common import Site
from spanbook.site.holding.tables import table
from spanbook.site.permanent import public
from tests.support import worlds

WORLD = """\
# file: content/signs.yml
kind: signs
signs:
- {id: lid-held, asks: The lid, answers: [four nuts, one bolt]}  # as the book has it
- {id: bowls, asks: Bowls, answers: [one, two]}
# file: content/assemblies/lid.yml
kind: assembly
id: lid
title: Lid
position: body/cover
serials:
- {series: xa, first: 1, last: 20, evidence: [{source: book}]}
signs:
- {sign: lid-held, seen: one bolt, or: [four nuts], evidence: [{source: book}]}
- {sign: bowls, seen: one}
# file: content/assemblies/hat.yml
kind: assembly
id: hat
title: Hat
position: body/cover
serials:
- {series: xa, first: 21, last: 40, evidence: [{source: book}]}
signs:
- {sign: lid-held, seen: one bolt}
- {sign: bowls, seen: two}
# file: content/teardowns/x-7-merrin.yml
kind: teardown
id: x-7-merrin
date: 2024
seen-by: merrin
serial: XA 7
condition: untouched
found:
- {position: body/cover, assembly: lid, signs: [{sign: lid-held, seen: four nuts}]}
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    worlds.lay(tmp_path, WORLD)
    return tmp_path


def renamed(project: Path, what: str, word: str) -> OpenRegister:
    correction = spanbook.rename(project, what, word)
    assert correction.problems == ()
    assert set(public(correction.was)) <= set(public(correction.now))
    correction.write()
    return spanbook.open_register(project)


def told(register: OpenRegister, **signs: str) -> list[tuple[str, float]]:
    key = register.key("body/cover")
    seen = seen_of(key, {id_.replace("_", "-"): answer for id_, answer in signs.items()})
    assert isinstance(seen, Seen)
    return [(one.thing.assemblies[0].id, one.share) for one in key.told(seen).likely if one.thing]


def test_a_sign_is_called_otherwise_everywhere_and_understood_by_both_names(project: Path) -> None:
    before = told(spanbook.open_register(project), lid_held="four nuts")
    held = renamed(project, "signs/lid-held", "lid-fixing")
    assert [sign.id for sign in held.signs.values()] == ["lid-fixing", "bowls"]
    assert held.assemblies["lid"].signs[0].sign == "lid-fixing"
    assert held.teardowns["x-7-merrin"].found[0].signs[0].sign == "lid-fixing"
    assert told(held, lid_held="four nuts") == told(held, lid_fixing="four nuts") == before
    assert "# as the book has it" in (project / "content/signs.yml").read_text()
    made = table(Site(held.answers), held.key("body/cover"))
    assert made["former"] == {"lid-fixing": [["lid-held"], {}]}


def test_an_answer_is_worded_otherwise_everywhere_and_understood_by_both(project: Path) -> None:
    before = told(spanbook.open_register(project), lid_held="four nuts")
    held = renamed(project, "signs/lid-held=four nuts", "a nut at each corner")
    assert held.signs["lid-held"].answers == ("a nut at each corner", "one bolt")
    assert held.assemblies["lid"].signs[0].others == ("a nut at each corner",)
    assert held.teardowns["x-7-merrin"].found[0].signs[0].seen == "a nut at each corner"
    assert told(held, lid_held="four nuts") == told(held, lid_held="a nut at each corner") == before
    made = table(Site(held.answers), held.key("body/cover"))
    assert made["former"] == {"lid-held": [[], {"four nuts": "a nut at each corner"}]}


def test_words_that_changed_twice_or_back_lead_to_those_of_today(project: Path) -> None:
    renamed(project, "signs/lid-held=four nuts", "nuts")
    held = renamed(project, "signs/lid-held=nuts", "4 nuts")
    assert [(one.was, one.now) for one in held.signs["lid-held"].reworded] == [
        ("four nuts", "4 nuts"),
        ("nuts", "4 nuts"),
    ]
    held = renamed(project, "signs/lid-held=4 nuts", "four nuts")
    assert {(one.was, one.now) for one in held.signs["lid-held"].reworded} == {
        ("4 nuts", "four nuts"),
        ("nuts", "four nuts"),
    }
    assert told(held, lid_held="nuts") == told(held, lid_held="four nuts")


@pytest.mark.parametrize(
    ("what", "word", "why"),
    [
        ("signs/lid-helt", "lid", "did you mean signs/lid-held"),
        ("signs/lid-held", "bowls", "is there already"),
        ("signs/lid-held", "Lid", "small letters"),
        ("signs/lid-held=four nut", "nuts", "did you mean four nuts"),
        ("signs/lid-held=none", "nuts", "there is four nuts, one bolt"),
        ("signs/lid-held=four nuts", "one bolt", "is an answer of lid-held already"),
        ("signs/lid-held=four nuts", " nuts", "single spaces"),
        ("signs/lid-held=four nuts", "", "a few words"),
        ("assemblies/lid=four nuts", "nuts", "only a sign has answers"),
    ],
)
def test_what_cannot_be_is_told(project: Path, what: str, word: str, why: str) -> None:
    with pytest.raises(CannotChange, match=why):
        spanbook.rename(project, what, word)


def test_words_that_lead_to_another_answer_are_not_given(project: Path) -> None:
    renamed(project, "signs/lid-held=four nuts", "nuts")
    with pytest.raises(CannotChange, match="four nuts leads to nuts"):
        spanbook.rename(project, "signs/lid-held=one bolt", "four nuts")
