"""Whose work the records are, by the names that stand in them."""

from __future__ import annotations

from pathlib import Path

from spanbook.register.credits import Credit, credits_of
from spanbook.wording.data import credit_words
from tests.support import worlds
from tests.support.command import LID, SEEN
from tests.support.demo import demo


def test_each_is_named_with_what_that_one_did(tmp_path: Path) -> None:
    other = (
        SEEN.replace("xa-30-merrin", "xa-31-osk").replace("XA 30", "XA 31").replace("by: merrin", "by: Osk")
    )
    figure = "figures:\n- {file: lid.svg, shows: The lid, made-by: osk, licence: CC0-1.0}\n"
    found = credits_of(worlds.check(tmp_path, LID + figure, SEEN, other).register)
    # The small world has a machine that merrin looked at.
    assert found == (Credit("merrin", 2, 0, 0), Credit("Osk", 1, 0, 0), Credit("osk", 0, 0, 1))
    assert credit_words(found[2]) == "made 1 picture"


def test_the_demonstration_names_everybody_who_looked() -> None:
    found = {one.handle: one for one in credits_of(demo())}
    looked = [one.seen_by for one in demo().teardowns.values()]
    assert {handle: one.machines for handle, one in found.items() if one.machines} == {
        handle: looked.count(handle) for handle in looked
    }
    assert sum(one.pictures for one in found.values()) >= 1
    told = credit_words(Credit("x", 3, 1, 2))
    assert told == "looked at 3 machines, told how 1 assembly comes apart and made 2 pictures"
