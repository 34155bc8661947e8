"""The finder's sorted tables in blocks: nothing is lost, none is large, and a change moves few of them."""

from __future__ import annotations

import random
from collections.abc import Iterable
from typing import Any

import pytest

from spanbook.site.finder import blocks
from spanbook.site.finder.blocks import in_blocks, named

ABOUT = 20


def decoded(coded: Iterable[list[Any]]) -> list[str]:
    made, before = [], ""
    for shared, rest, *_ in coded:
        before = before[:shared] + rest
        made.append(before)
    return made


def words(count: int, seed: int) -> list[str]:
    chance = random.Random(seed)
    return sorted({"".join(chance.choices("abcdeé-0", k=chance.randint(2, 9))) for _ in range(count)})


def made(keys: list[str]) -> dict[str, list[list[Any]]]:
    return dict(in_blocks("word", [(key, 0) for key in keys], ABOUT))


@pytest.mark.parametrize("count", [0, 1, ABOUT, 3000])
def test_the_directory_leads_to_every_key_in_order(count: int) -> None:
    keys = words(count, 1)
    files = made(keys)
    firsts = decoded(files.pop("word"))
    found = [decoded(files.pop(named("word", first))) for first in firsts]
    assert [key for block in found for key in block] == keys
    assert files == {}
    assert all(len(block) <= ABOUT * 4 // 3 for block in found)
    assert all(len(block) >= ABOUT * 2 // 3 for block in found[:-1])
    # By what the directory holds, a key is told from all that stand before its block.
    last = ["", *(block[-1] for block in found)]
    assert all(before < first <= block[0] for before, first, block in zip(last, firsts, found, strict=False))


def test_blocks_are_as_large_on_average_as_was_asked_for() -> None:
    keys = words(20_000, 2)
    assert ABOUT * 0.8 < len(keys) / len(made(keys)) < ABOUT * 1.2


@pytest.mark.slow
def test_a_key_more_or_less_moves_few_blocks() -> None:
    keys = words(2000, 3)
    before = made(keys)
    assert len(before) > 80
    moved = []
    for one in words(40, 4):
        after = made(sorted({*keys} ^ {one}))
        moved.append(sum(before.get(name) != after.get(name) for name in before.keys() | after.keys()))
    assert sorted(moved)[len(moved) // 2] <= 2
    assert max(moved) <= 20  # wherever it stands; by count it would be half of them


def test_two_blocks_are_never_called_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    keys = words(3000, 5)
    monkeypatch.setattr(blocks, "named", lambda table, first: f"{table}-{len(first)}")
    files = made(keys)
    firsts = decoded(files.pop("word"))
    assert len({len(first) for first in firsts}) == len(firsts) == len(files)
    assert [key for first in firsts for key in decoded(files[f"word-{len(first)}"])] == keys


def test_names_are_by_fnv_1a() -> None:
    """Of 32 bits, by the published test vectors of Fowler, Noll and Vo (draft-eastlake-fnv), from memory."""
    assert named("t", "") == "t-811c9dc5"
    assert named("t", "a") == "t-e40c292c"
    assert named("t", "foobar") == "t-bf9cf968"


def test_heavy_keys_stand_in_blocks_of_fewer() -> None:
    table = [(key, [0] * (9 if i % 200 < 40 else 1)) for i, key in enumerate(words(3000, 6))]
    files = dict(in_blocks("word", table, 60, len))
    del files["word"]
    weights = [sum(len(value) for _, _, value in block) for block in files.values()]
    assert sum(weights) == sum(len(value) for _, value in table)
    assert max(weights) < 60 * 4 // 3 + 9
    assert max(map(len, files.values())) > 3 * min(map(len, [*files.values()][:-1]))
