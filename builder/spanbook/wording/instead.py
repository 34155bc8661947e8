"""What else would do, what became of it, and for whom."""

from __future__ import annotations

from spanbook.answers.instead import Fate, Hop, Instead, Substitutes, Way
from spanbook.answers.standing import Standing
from spanbook.answers.supersession import DEEPEST
from spanbook.ground.part_numbers import PartKey
from spanbook.register.model import Register
from spanbook.wording.conditions import condition_words
from spanbook.wording.grammar import listed
from spanbook.wording.leaves import number_words
from spanbook.wording.records import act_title
from spanbook.wording.standings import STANDINGS

WOULD_DO = "Would also do:"
TOGETHER = "all of these together"
FATES = {
    Fate.SUPPLIED: "still supplied",
    Fate.GIVEN_UP: "no longer supplied",
    Fate.UNKNOWN: "supply not known",
    Fate.REPLACED: "itself replaced",
    Fate.IN_SET: "sold only in a set",
    Fate.UNCLEAR: "which of the things that it has meant is not known",
}


def instead_words(register: Register, one: Instead, standings: tuple[Standing, ...]) -> str:
    """What would do in a line: `b (still supplied): by way of a replaced by b (printed at the weakest)`."""
    numbers = listed([_number(register, key, fates) for key, fates in zip(one.keys, one.fates, strict=True)])
    ways = "; or ".join(
        way_words(register, way, standing) for way, standing in zip(one.ways, standings, strict=True)
    )
    return f"{numbers}{f', {TOGETHER}' if one.together else ''}: {ways}."


def _number(register: Register, key: PartKey, fates: tuple[Fate, ...]) -> str:
    return f"{number_words(register, key)} ({fate_words(fates)})"


def fate_words(fates: tuple[Fate, ...]) -> str:
    """What became of a number that would do."""
    return listed([FATES[fate] for fate in fates], "or")


def way_words(register: Register, way: Way, standing: Standing) -> str:
    """A way to what would do: for whom, over which acts, and how well the weakest of them stands."""
    when = condition_words(register, [way.condition])
    over = "; ".join(map(hop_title, way.hops))
    return f"{when}{', ' if when else ''}by way of {over} ({STANDINGS[standing]} at the weakest)"


def hop_title(hop: Hop) -> str:
    """An act on the way to what would also do."""
    return f"{act_title(hop.act)}, back" if hop.back else act_title(hop.act)


def further_words(found: Substitutes) -> str | None:
    """That what would do reaches further than it is told."""
    return f"Others are more than {DEEPEST} acts away: see the numbers above." if found.more else None
