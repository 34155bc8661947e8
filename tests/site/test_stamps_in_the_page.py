"""What the script in the pages reads and prints of serial numbers, for stamps at random, is the builder's."""

from __future__ import annotations

import json
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.ground.matching import UNREADABLE, one_edit, read_as
from spanbook.ground.serials import fold
from spanbook.site.finder.tables import stretches_of
from tests.support.node import in_node
from tests.support.scripts import script_text
from tests.support.stamps import World, worlds

pytestmark = pytest.mark.slow

ASK = """
const answered = cases.map(([series, texts]) => texts.map((text) => [
  SpanbookSerials.readings([series], text).map(([, place, was]) => [place, was]),
  SpanbookSerials.wornTo([series], text).map(([, place]) => place),
  SpanbookSerials.readings([series], text).map(([, place]) => SpanbookSerials.show(series, place)),
  SpanbookSerials.loosely([series], text).map(([, place]) => place),
]));
console.log(JSON.stringify(answered));
"""


def scripts() -> str:
    return script_text("finder/matching.js", "finder/serials.js")


def answered(code: str) -> Any:
    """What the scripts answer to some code."""
    return in_node(f"{scripts()}\n{code}")


def texts(made: World, chance: random.Random) -> list[str]:
    """Plates of the ledger: as stamped, in other spellings, worn, with characters that wear alike."""
    found = []
    for entry in chance.sample(made.ledger, min(8, len(made.ledger))):
        text = chance.choice(made.spellings(entry))
        i = chance.randrange(len(text))
        found += [text, fold(text), text.replace("-", " . "), text[:i] + UNREADABLE + text[i + 1 :]]
        letters = text.strip("0123456789 .-")
        found += [text.strip(f"{letters} .-"), letters + text.removeprefix(letters).removesuffix(letters)]
        found += [f"{text.strip(letters):0>4}"[:-3] + " " + text.strip(letters)[-3:]]
        found += [text.replace("1", "I").replace("8", "3"), text.replace("0", "O"), text + "7", text[:i]]
    return found


def by_the_builder(made: World, text: str) -> list[Any]:
    order, stamp = made.order, made.order.stamp
    issued = order.issued
    worn = [place for place in stamp.worn_from(text) if place in issued and place not in stamp.readings(text)]
    if UNREADABLE in text:
        places = [(place, True) for place in stamp.may_be(text) if place in issued]
    else:
        places = [(place, place in issued) for place in stamp.readings(text)]
        places.sort(key=lambda one: not one[1])
    loose = [place for place in stamp.loosely(text) if place in issued and place not in stamp.readings(text)]
    return [[list(one) for one in places], worn, [stamp.show(place) for place, _ in places], loose]


@pytest.mark.slow  # node
def test_the_page_reads_stamps_as_the_builder_does() -> None:
    cases: list[tuple[list[Any], list[str]]] = []
    wanted: list[list[Any]] = []

    @given(worlds(), st.randoms(use_true_random=False))
    @settings(max_examples=60, database=None)
    def gather(made: World, chance: random.Random) -> None:
        asked = texts(made, chance)
        runs = [[run.first, run.last] for run in made.order.issued]
        cases.append((["x", stretches_of(made.order.stamp), runs, "X"], asked))
        wanted.append([by_the_builder(made, text) for text in asked])

    gather()
    found = answered(f"const cases = {json.dumps(cases)};{ASK}")
    for (_, asked), ours, theirs in zip(cases, wanted, found, strict=True):
        for text, one, other in zip(asked, ours, theirs, strict=True):
            assert other == one, text
    assert sum(bool(one[0]) for each in wanted for one in each) > 100
    assert sum(bool(one[1]) for each in wanted for one in each) > 20
    assert sum(bool(one[3]) for each in wanted for one in each) > 20


@pytest.mark.slow  # node
def test_the_page_tells_spellings_apart_as_the_builder_does() -> None:
    """Characters read as others, and words within one edit, for texts at random."""
    pairs: list[tuple[str, str]] = []

    @given(st.text("ab0Ol13B8s5? -", max_size=6), st.text("ab0Ol13B8s5? -", max_size=6), st.data())
    @settings(max_examples=400, database=None)
    def gather(one: str, other: str, data: st.DataObject) -> None:
        at = data.draw(st.integers(0, len(one)))
        pairs.extend([(one, other), (one, one[:at] + one[at + 1 :]), (one, one[:at] + "0" + one[at:])])
        pairs.append((one, one[:at] + one[at + 1 : at + 2] + one[at : at + 1] + one[at + 2 :]))

    gather()
    each = "[...SpanbookMatching.readAs(a, b)], SpanbookMatching.oneEdit(a, b)"
    found = answered(f"console.log(JSON.stringify({json.dumps(pairs)}.map(([a, b]) => [{each}])));")
    for (one, other), (read, edit) in zip(pairs, found, strict=True):
        assert [[*pair] for pair in read_as(one, other)] == read, (one, other)
        assert one_edit(one, other) == edit, (one, other)
    assert sum(bool(read) for read, _ in found) > 5
    assert sum(edit for _, edit in found) > 100
