"""The tables of what else may be found: held to what the command says of every machine."""

from __future__ import annotations

import json
import random
from itertools import pairwise
from typing import Any

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.readings import reading_of
from spanbook.answers.stories import weights_of
from spanbook.answers.story import Kind
from spanbook.reading.records import Series
from spanbook.site.card import found
from spanbook.site.common import Site
from spanbook.wording.grammar import share_of
from spanbook.wording.pieces import plain
from spanbook.wording.stories import assumed_words, ruled_out_words, story_words
from tests.support.machines import random_world
from tests.support.registers import lid, record, register
from tests.support.tries import tries


def tables(answers: Answers, series: Series) -> dict[str, Any]:
    positions = answers.fits.positions(answers.register.machines[series.machine])
    site = Site(answers)
    each = (found.Place(series, number, path) for number, path in enumerate(positions))
    tables = {found.name_of(place): table for place in each if (table := found.table(site, place))}
    return dict([found.index(site, series, positions)]) | tables


def text(said: list[Any]) -> str:
    return "".join(one if isinstance(one, str) else one[0] for one in said)


def told(table: dict[str, Any], number: int, at: int, how: int) -> tuple[dict[str, str], list[str]]:
    """What the script shows: the stories that can be with their shares, and those that are ruled out."""
    (run,) = (run for run in table["runs"] if run[0] <= number and (run[1] is None or number <= run[1]))
    can, cannot = table["told"][run[2][at][how]]
    lines = [text(line) for line in table["lines"]]
    return {lines[line]: share for share, line in can}, [lines[line] for line in cannot]


def per_cent(share: str) -> float:
    return {"less than 1 %": 0.5, "more than 99 %": 99.5}.get(share) or float(share.removesuffix(" %"))


@pytest.mark.parametrize("seed", range(tries(20)))
def test_every_machine_is_told_what_the_command_says(seed: int) -> None:
    answers = random_world(random.Random(seed))
    for series in answers.register.series.values():
        made = tables(answers, series)
        index = made[f"{series.id}-found"]
        for i, _, assemblies in index["places"]:
            for number in (n for n in range(series.first, (series.last or 60) + 1) if n in series.issued):
                held(answers, series, number, made[f"{series.id}-found-{i}"], [id_ for id_, _ in assemblies])


def held(answers: Answers, series: Series, number: int, table: dict[str, Any], ids: list[str]) -> None:
    for at, id_ in enumerate(ids):
        assembly = answers.register.assemblies[id_]
        for how, condition in enumerate(found.CONDITIONS):
            reading = reading_of(series, number)
            explained = answers.explainer.explain(reading, {assembly.position: assembly}, condition)
            can, cannot = told(table, number, at, how)
            (one,) = explained.positions
            for story in one.possible:
                least, *most = can[plain(story_words(story))].split(" to ")
                ends = per_cent(least), per_cent([least, *most][-1])
                assert ends[0] <= per_cent(share_of(story.probability)) <= ends[1], (number, id_, story.kind)
            whole = all(" to " not in share for share in can.values())
            if whole:
                assert cannot == [ruled_out_words(story) for story in one.impossible]
                shares = [per_cent(share) for share in can.values()]
                assert shares == sorted(shares, reverse=True)


def test_where_sources_disagree_the_command_is_between_the_ends() -> None:
    """Two breaks, each with two claims, of which either may be anywhere all over the series."""
    sources = [
        record(f"kind: source\nid: {id_}\ntitle: {id_}\nclass: {sort}\n", "source", id_)
        for id_, sort in (("book", "parts-book"), ("tale", "recollection"))
    ]
    ends = {"a": (1, 4, 1, 6), "b": (5, 11, 7, 14), "c": (12, 20, 15, 20)}
    made = [
        record(
            f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n"
            f"- {{series: xa, first: {a}, last: {b}, anchor: one, evidence: [{{source: book}}]}}\n"
            f"- {{series: xa, first: {c}, last: {d}, anchor: two, evidence: [{{source: tale}}]}}\n",
            "assembly",
            id_,
        )
        for id_, (a, b, c, d) in ends.items()
    ]
    answers = Answers(register(*sources, *made))
    series = answers.register.series["xa"]
    assert len(answers.breaks_at((series, "cover"))) == 2
    table = tables(answers, series)["xa-found-0"]
    assert any(" to " in share for can, _ in table["told"] for share, _ in can)
    for number in series.issued.numbers():
        held(answers, series, number, table, ["a", "b", "c"])


def test_what_is_alone_is_what_is_explained() -> None:
    """In floats what `explain` has in fractions."""
    answers = random_world(random.Random(3))
    series = answers.register.series["xa"]
    for position, every in answers.register.at_position.items():
        for number in (3, 12, 20):
            reading = reading_of(series, number)
            each = answers.explainer.alone(reading, every)
            for assembly, stories in zip(every, each, strict=True):
                assert {story.kind for story in stories} == set(Kind) - {Kind.TAKEN_OFF}
                for condition in found.CONDITIONS:
                    shares = answers.explainer.shares(weights_of(stories), condition)
                    (one,) = answers.explainer.explain(reading, {position: assembly}, condition).positions
                    wanted = {story.kind: float(story.probability) for story in one.stories}
                    told = {story.kind: share for story, share in zip(stories, shares, strict=True)}
                    assert told == pytest.approx(wanted)


def test_a_run_says_its_shares_from_end_to_end() -> None:
    """The break is from 5 to 8, of which 8 was never issued: 5 to 7 are told together."""
    pair = lid("early", "first: 1, last: [4, 7]"), lid("late", "first: [5, 8], last: 20")
    answers = Answers(register(*pair))
    series = answers.register.series["xa"]
    table = tables(answers, series)["xa-found-0"]
    firsts = [run[0] for run in table["runs"]]
    assert firsts == [1, 5, 10]
    can, _ = told(table, 6, 0, 1)
    before = "It left the works with it: recorded from XA 1 to somewhere between XA 4 and XA 7."
    by = "It left the works with it: by the break from early to late."
    assert can[by].startswith("0 % to ")
    assert before in told(table, 4, 0, 1)[0]


def test_only_what_may_be_found_on_such_machines_is_offered() -> None:
    other = record(
        "kind: assembly\nid: other\ntitle: other\nposition: cover\nserials:\n"
        "- {series: xb, first: 15, last: 40}\n",
        "assembly",
        "other",
    )
    kit = record(
        "kind: conversion\nid: kit\ntitle: kit\nposition: cover\nfrom: [early]\nto: other\n"
        "serials: [{series: xa, first: 1, last: 20}]\n",
        "conversion",
        "kit",
    )
    for more, wanted in (((), ["early"]), ((kit,), ["early", "other"])):
        answers = Answers(register(lid("early", "first: 1, last: 20"), other, *more))
        series = answers.register.series["xa"]
        index = tables(answers, series)["xa-found"]
        assert [[i, words, [id_ for id_, _ in ids]] for i, words, ids in index["places"]] == [
            [0, "Cover", wanted]
        ]
        assert index["assumed"] == [assumed_words(answers.assumed, how) for how in found.CONDITIONS]


def test_what_others_share_is_said_once() -> None:
    answers = random_world(random.Random(5))
    for name, table in tables(answers, answers.register.series["xa"]).items():
        if "told" in table:
            for held_once in (table["told"], table["lines"]):
                assert len({json.dumps(one) for one in held_once}) == len(held_once), name
            runs = table["runs"]
            assert all(a[2] != b[2] for a, b in pairwise(runs))
