"""Pages by their blocks: every number is told and read again, and a page more or less moves few words."""

from __future__ import annotations

import json
import random
import subprocess
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.site.finder import pages
from spanbook.site.finder.pages import ABOUT, NEAR, in_blocks

SCRIPT = Path(pages.__file__).parent / "pages.js"
ADDRESSES = [f"assemblies/{random.Random(i).getrandbits(40):x}/" for i in range(1500)]


def read(directory: list[str | int], told: list[str | int]) -> list[int]:
    """As `pages.js` reads them."""
    names, sizes = directory[::2], [int(size) for size in directory[1::2]]
    begins = {name: sum(sizes[:i]) for i, name in enumerate(names)}
    at, found = 0, []
    for one in told:
        at = begins[one] if isinstance(one, str) else at + one
        found += [] if isinstance(one, str) else [at]
    return found


@given(st.sets(st.integers(0, len(ADDRESSES) - 1)) | st.integers(1, 40).map(lambda by: {*range(3, 1500, by)}))
def test_what_is_told_is_read_again(numbers: set[int]) -> None:
    made = in_blocks(ADDRESSES)
    assert read(made.directory, made.told(sorted(numbers))) == sorted(numbers)


def test_the_script_reads_the_same() -> None:
    chance = random.Random(5)
    made = in_blocks(ADDRESSES)
    every = [sorted(chance.sample(range(1500), count)) for count in (0, 1, 2, 7, 60, 900, 1500)]
    every += [list(range(by, 1500, by)) for by in range(1, NEAR + 3)]
    last = [0, 1499, *made.begins, *(begin - 1 for begin in made.begins[1:])]
    code = f"""
const asked = [];
const spanbookLoad = async (name) => {{
  asked.push(name);
  return name === "page" ? {json.dumps(made.directory)} : [...Array(200).keys()].map((at) => [name, at]);
}};
{SCRIPT.read_text(encoding="utf-8")}
SpanbookPages.ready().then(async () => console.log(JSON.stringify([
  {json.dumps([made.told(one) for one in every])}.map(SpanbookPages.numbers),
  await Promise.all({json.dumps(last)}.map(SpanbookPages.of)),
])));
"""
    run = subprocess.run(["node"], input=code, capture_output=True, text=True, check=True)
    numbers, rows = json.loads(run.stdout)
    assert numbers == every
    assert [made.begins[made.names.index(name.removeprefix("page-"))] + at for name, at in rows] == last


@pytest.mark.parametrize("count", [0, 1, ABOUT, 1500])
def test_blocks_hold_every_page_once(count: int) -> None:
    made = in_blocks(ADDRESSES[:count])
    sizes = [int(size) for size in made.directory[1::2]]
    assert sum(sizes) == count
    assert all(ABOUT * 2 // 3 <= size <= ABOUT * 4 // 3 for size in sizes[:-1])
    assert len({*made.names}) == len(made.names)


def test_no_two_blocks_are_called_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pages, "_name", lambda address: address[-2])
    made = in_blocks(ADDRESSES)
    assert 1 < len(made.names) == len({*made.names}) <= 16
    assert read(made.directory, made.told(range(1500))) == list(range(1500))


def test_a_page_less_moves_few_of_a_thousand_words() -> None:
    chance = random.Random(7)
    words = [{*chance.sample(ADDRESSES, chance.choice((1, 2, 5)))} for _ in range(1000)]

    def told(addresses: list[str]) -> list[list[str | int]]:
        made, place = in_blocks(addresses), {one: i for i, one in enumerate(addresses)}
        return [made.told(sorted(place[one] for one in word if one in place)) for word in words]

    before, moved = told(ADDRESSES), []
    for gone in chance.sample(ADDRESSES, 30):
        after = told([one for one in ADDRESSES if one != gone])
        moved.append(sum(one != other for one, other in zip(before, after, strict=True)))
    # A block is a twentieth of the pages; by their place among all pages it was half of the words.
    assert sorted(moved)[len(moved) // 2] < 150
