"""What a thing is the same size as by a standard: the likeliest in a sentence, and all of them to unfold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from spanbook.answers.recorded_sizes import by_sizes, of_each
from spanbook.reading.records import Size
from spanbook.site.common import Site
from spanbook.wording.sizing import (
    caution_words,
    likely_listed,
    next_words,
    of_words,
    recorded_words,
    same_size_words,
)


@dataclass(frozen=True, slots=True)
class SameSize:
    """`words` tell the likeliest, `likely` are all that are worth telling, `told` what to measure next and
    what was taken as likely before, `cautions` those that `words` has not; `of` is the part's number, if any.
    """

    words: str
    likely: tuple[str, ...]
    told: tuple[str, ...]
    cautions: tuple[str, ...]
    of: str = ""


def same_size(site: Site, sizes: Iterable[Size]) -> SameSize | None:
    """What a thing with these sizes is likely to be; None where they do not tell, or no standard fits."""
    found = by_sizes(tuple(sizes), site.answers.recorded_standards)
    if found is None:
        return None
    words = same_size_words(found)
    return SameSize(
        words,
        tuple(likely_listed(found)),
        tuple(filter(None, (next_words(found), recorded_words(found)))),
        tuple(one for one in caution_words([found]) if one not in words),
    )


def same_sizes(site: Site, sizes: Iterable[Size]) -> Iterator[SameSize]:
    """The same for each of the things whose sizes were measured together."""
    for number, measured in of_each(sizes):
        if one := same_size(site, measured):
            yield replace(one, of=number or "", words=f"{of_words(number)} {one.words}")
