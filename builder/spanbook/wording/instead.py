"""What else would do, what became of it, and for whom."""

from __future__ import annotations

from spanbook.answers.instead import Fate, Hop, Instead, Substitutes, Way
from spanbook.answers.standing import Standing
from spanbook.answers.supersession import DEEPEST
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import labelled, parted
from spanbook.register.model import Register
from spanbook.wording.conditions import condition_words
from spanbook.wording.grammar import chained, listed
from spanbook.wording.leaves import number_words
from spanbook.wording.records import act_title
from spanbook.wording.standings import standing_word

WOULD_DO = marked("Would also do:")
_TOGETHER = marked("all of these together")
FATES = {
    Fate.SUPPLIED: marked("still supplied"),
    Fate.GIVEN_UP: marked("no longer supplied"),
    Fate.UNKNOWN: marked("supply not known"),
    Fate.REPLACED: marked("itself replaced"),
    Fate.IN_SET: marked("sold only in a set"),
    Fate.UNCLEAR: marked("which of the things that it has meant is not known"),
}


def instead_words(register: Register, one: Instead, standings: tuple[Standing, ...]) -> str:
    """What would do in a line: `b (still supplied): by way of a replaced by b (printed at the weakest)`."""
    numbers = listed([_number(register, key, fates) for key, fates in zip(one.keys, one.fates, strict=True)])
    ways = [way_words(register, way, standing) for way, standing in zip(one.ways, standings, strict=True)]
    together = f", {_(_TOGETHER)}" if one.together else ""
    return labelled(f"{numbers}{together}", f"{chained(ways, 'or')}.")


def _number(register: Register, key: PartKey, fates: tuple[Fate, ...]) -> str:
    return f"{number_words(register, key)} ({fate_words(fates)})"


def fate_words(fates: tuple[Fate, ...]) -> str:
    """What became of a number that would do."""
    return listed([_(FATES[fate]) for fate in fates], "or")


def way_words(register: Register, way: Way, standing: Standing) -> str:
    """A way to what would do: for whom, over which acts, and how well the weakest of them stands."""
    when = condition_words(register, [way.condition])
    over = parted(*map(hop_title, way.hops))
    told = _("by way of {acts} ({standing} at the weakest)").format(
        acts=over, standing=standing_word(standing)
    )
    return f"{when}, {told}" if when else told


def hop_title(hop: Hop) -> str:
    """An act on the way to what would also do."""
    return _("{act}, back").format(act=act_title(hop.act)) if hop.back else act_title(hop.act)


def further_words(found: Substitutes) -> str | None:
    """That what would do reaches further than it is told."""
    message = _("Others are more than {count} acts away: see the numbers above.")
    return message.format(count=DEEPEST) if found.more else None
