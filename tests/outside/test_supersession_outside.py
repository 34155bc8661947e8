"""Supersessions held against registries that others keep: territory codes, time zones, made-up kits."""

from __future__ import annotations

import csv
import json
from functools import cache
from pathlib import Path

import networkx as nx
import pytest

from spanbook.answers import circles
from spanbook.answers.instead import would_do
from spanbook.answers.orders import orders
from spanbook.answers.readings import read_serial
from spanbook.register.model import Register
from tests.support.acts import act, key, of, shown
from tests.support.registers import record, register

DATA = Path(__file__).parent / "data"


def rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ALIASES = rows("02_territory_alias.csv")
LINKS = rows("02b_tz_links.csv")
CHOICES = rows("02_territory_context_choice.csv")


@cache
def territories() -> Register:
    """A code withdrawn in favour of several is several acts: any one of them, by where the place was."""
    acts = [
        (f"a{i}-{j}", alias["old"], new)
        for i, alias in enumerate(ALIASES)
        for j, new in enumerate(alias["new_space_separated"].split())
    ]
    return of(*acts)


def test_territory_aliases() -> None:
    """npm cldr-core 48.2.0, supplemental/aliases.json territoryAlias (Unicode-3.0): splits and merges."""
    graph = circles.graph(territories())
    for alias in ALIASES:
        wanted, old = alias["new_space_separated"].lower().split(), alias["old"]
        assert sorted(shown(orders(territories(), key(old)))) == sorted(f"1 {new}" for new in wanted), old
        assert {k.number for k in nx.descendants(graph, key(old))} == set(wanted), old


@cache
def choices() -> tuple[Register, dict[str, int]]:
    """Each tag is a machine, its territory a part: the context that decides is the serial number."""
    acts = []
    serials = {row["tag"]: i + 10 for i, row in enumerate(CHOICES)}
    for i, row in enumerate(CHOICES):
        old, new = row["tag"].split("-")[-1], row["canonical"].split("-")[-1]
        if old != new:
            limit = f"serials: [{{series: xa, first: {i + 10}, last: {i + 10}}}]\n"
            acts.append(record(act(f"act-{i}", old, new, limit), "supersession", f"act-{i}"))
    return register(*acts, last=str(len(CHOICES) + 10)), serials


@pytest.mark.slow
def test_a_split_is_resolved_by_context() -> None:
    """The same aliases resolved by Node 20's Intl.getCanonicalLocales (ICU 78.2, CLDR 48.0): und-SU is RU,
    uk-SU is UA. Acts limited to serial numbers are the same choice by context."""
    made, serials = choices()
    for row in CHOICES:
        number = serials[row["tag"]]
        (reading, *_) = [r for r in read_serial(made, f"XA {number}") if r.series.id == "xa"]
        old, new = row["tag"].split("-")[-1], row["canonical"].split("-")[-1]
        assert shown(orders(made, key(old), 1, reading)) == [f"1 {new.lower()}"], row["tag"]


def test_time_zone_links() -> None:
    """IANA time zone database, `L` lines of tzdata.zi in PyPI tzdata 2026.6 (public domain)."""
    made = of(*((f"l{i}", row["old"], row["current"]) for i, row in enumerate(LINKS)))
    for row in LINKS:
        assert shown(orders(made, key(row["old"]))) == [f"1 {row['current'].lower()}"]
    merged = {row["current"] for row in LINKS}
    assert len(merged) < len(LINKS)
    assert circles.cycles(made) == ()


def test_kits_alternatives_and_two_way_acts() -> None:
    """A made-up graph, its reachability by networkx; "all" is one act, "any" is an act for each."""
    case = json.loads((DATA / "02c_synth_supersession.json").read_text())
    acts: list[tuple[str, str, str, str]] = []
    for i, (old, news, how, both) in enumerate(case["edges"]):
        more = "interchange: both\n" if both else ""
        sides = [", ".join(news)] if how == "all" else news
        acts += [(f"e{i}-{j}", old, side, more) for j, side in enumerate(sides)]
    made = of(*acts)
    for part, wanted in case["expect"].items():
        instead = [one for one in would_do(made, key(part)).each if not one.together]
        assert sorted(one.keys[0].number.upper() for one in instead) == wanted["usable_instead"], part
        leaves = {leaf.key for way in orders(made, key(part)).alternatives for leaf in way.leaves}
        assert sorted(leaf.number.upper() for leaf in leaves) == wanted["current"], part
