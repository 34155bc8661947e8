"""Pages by their blocks: every number is told and read again, and a page more or less moves few words."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.by_words import Document
from spanbook.site.finder import pages
from spanbook.site.finder.pages import ABOUT, NEAR, block_of, in_blocks
from tests.support.node import in_node

SCRIPT, TABLES = (Path(pages.__file__).parent / name for name in ("pages.js", "tables.js"))
SORTS = ["Part number", "", "Assembly"]
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
    documents = [
        Document(one, f"Title {i % 40}", SORTS[i // 7 % 3], "", "") for i, one in enumerate(ADDRESSES)
    ]
    pictures = {one: f"small/{one}.webp" for one in chance.sample(ADDRESSES, 200)}
    tables = {f"page-{name}": block_of(documents[begin:end], pictures) for name, begin, end in made}
    tables["page"] = made.directory
    code = f"""
const document = {{ currentScript: {{ src: "" }} }};
const location = {{}};
{TABLES.read_text(encoding="utf-8").replace("function spanbookLoad", "function spanbookFetch")}
const tables = {json.dumps(tables)};
const spanbookLoad = async (name) => tables[name];
{SCRIPT.read_text(encoding="utf-8")}
SpanbookPages.ready().then(async () => console.log(JSON.stringify([
  {json.dumps([made.told(one) for one in every])}.map(SpanbookPages.numbers),
  await Promise.all({json.dumps(last)}.map(SpanbookPages.of)),
])));
"""
    numbers, rows = in_node(code)
    assert numbers == every
    told = [(documents[i].title, documents[i].sort, documents[i].address) for i in last]
    shown = [[pictures[address]] if address in pictures else [] for _, _, address in told]
    assert rows == [[*one, *picture] for one, picture in zip(told, shown, strict=True)]


@pytest.mark.parametrize("count", [0, 1, ABOUT, 1500])
def test_blocks_hold_every_page_once(count: int) -> None:
    made = in_blocks(ADDRESSES[:count])
    sizes = [int(size) for size in made.directory[1::2]]
    assert sum(sizes) == count
    assert all(ABOUT * 2 // 3 <= size <= ABOUT * 4 // 3 for size in sizes[:-1])
    assert len({*made.names}) == len(made.names)


def test_no_two_blocks_are_called_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pages, "_name", lambda address, _: address[-2])
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
