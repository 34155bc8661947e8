"""What the script in the pages reads and prints of serial numbers, for stamps at random, is the builder's."""

from __future__ import annotations

import json
import random
import subprocess
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.ground.matching import UNREADABLE
from spanbook.ground.serials import fold
from spanbook.site.finder.tables import stretches_of
from tests.support.stamps import World, worlds

READ = Path(__file__).parents[2] / "builder/spanbook/site/finder/read.js"
ASK = """
const answered = cases.map(([series, texts]) => texts.map((text) => [
  SpanbookRead.readings([series], text).map(([, place, was]) => [place, was]),
  SpanbookRead.wornTo([series], text).map(([, place]) => place),
  SpanbookRead.readings([series], text).map(([, place]) => SpanbookRead.show(series, place)),
]));
console.log(JSON.stringify(answered));
"""


def texts(made: World, chance: random.Random) -> list[str]:
    """Plates of the ledger: as stamped, in other spellings, worn, with characters that wear alike."""
    found = []
    for entry in chance.sample(made.ledger, min(8, len(made.ledger))):
        text = chance.choice(made.spellings(entry))
        i = chance.randrange(len(text))
        found += [text, fold(text), text.replace("-", " . "), text[:i] + UNREADABLE + text[i + 1 :]]
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
    return [[list(one) for one in places], worn, [stamp.show(place) for place, _ in places]]


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
    code = f"{READ.read_text(encoding='utf-8')}\nconst cases = {json.dumps(cases)};{ASK}"
    found = subprocess.run(["node"], input=code, capture_output=True, text=True, check=True).stdout
    for (_, asked), ours, theirs in zip(cases, wanted, json.loads(found), strict=True):
        for text, one, other in zip(asked, ours, theirs, strict=True):
            assert other == one, text
    assert sum(bool(one[0]) for each in wanted for one in each) > 100
    assert sum(bool(one[1]) for each in wanted for one in each) > 20
