"""What somebody asks, and what they get, in one ranked list. The finder in the pages gives the same.

A query is tried as a serial number, as a part number or mark, and as words, in this order:

1. where a serial number and words are given together (`HK 588 oil filter`), the positions of that machine
   that the words name; what follows is then found for the words alone;
2. every series it reads in, the issued first, or the machine of several numbers (`F 118 / HK 588`); with `?`
   every number it may be; then, said as such, the issued numbers that a worn stamp may have made of it;
3. part numbers and marks (other numbers of a part, misprints, and what the records had before, lead to it):
   as written, then the same without spaces, dots and dashes; each part once, by what it is found by best;
4. the issued numbers that it may be with their letters left out or at the other end (`588`, `M402`), if it
   reads as nothing else;
5. the standard sizes that it may be (`5/16 18`, `17x40x12`), with the parts that are recorded to have them;
6. part numbers as a worn stamp leaves them (`?` is one character that cannot be read), then those that begin
   so, unless it is all letters: then it is meant as words, and they come last;
7. pages, by `by_words.py`; none of a part that is there by its number.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import islice

from spanbook.answers.answers import Answers
from spanbook.answers.beside import Beside, beside, places_named
from spanbook.answers.by_words import SHORTEST_WORD, ByWords, Document, Found
from spanbook.answers.part_keys import Key as Key
from spanbook.answers.part_keys import Known as Known
from spanbook.answers.part_keys import keys_of
from spanbook.answers.readings import Reading, loosely, may_be, worn_to
from spanbook.answers.recorded_sizes import standards_of
from spanbook.answers.sizes_typed import standards_typed
from spanbook.answers.this_machine import ThisPosition
from spanbook.answers.together import Together, machines_in, together
from spanbook.ground.intervals import Span
from spanbook.ground.matching import UNREADABLE, plain, squeezed, unwrapped, words, worn
from spanbook.ground.memo import kept
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.standards import Standard
from spanbook.reading.records import Series
from spanbook.register.model import Part
from spanbook.register.units import Number

MOST = 8  # of each sort: more than that and the reader types on
MOST_ALONE = 2


class How(StrEnum):
    """How a part number was found."""

    EXACT = "exact"
    SPACING = "spacing"
    WORN = "worn"
    BEGINS = "begins"
    ENDS = "ends"


SURE = (How.EXACT, How.SPACING)  # the number itself, however it is spelt


@dataclass(frozen=True, slots=True)
class Match:
    key: Key
    how: How


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything a query gives; `more` tells of which sorts there are more than are listed.

    `worn` are the issued numbers whose stamp, worn, may read so as well: never instead of `readings`. Where
    several numbers were given, `together` is what they are together, and `readings` the machines. `words` is
    what is left of the query beside a serial number, `places` the positions that it names; the first `named`
    of the documents are called what was asked for. `retired` are numbers of series that are retired, which
    lead on. Where nothing was found, `alone` are the first of several words that find pages by themselves.
    """

    query: str  # out of the sentence that it was copied from
    readings: tuple[Reading, ...]
    may_be: tuple[Reading, ...]
    worn: tuple[Reading, ...]
    matches: tuple[Match, ...]
    documents: tuple[Document, ...]
    more_matches: bool
    more_documents: bool
    together: tuple[Together, ...] = ()
    loose: tuple[Reading, ...] = ()
    places: tuple[tuple[Reading, ThisPosition], ...] = ()
    words: str = ""
    named: int = 0
    sizes: tuple[tuple[Standard, tuple[Part, ...]], ...] = ()
    taken: tuple[tuple[str, tuple[str, ...]], ...] = ()
    retired: tuple[Number, ...] = ()
    alone: tuple[str, ...] = ()

    @property
    def beside(self) -> bool:
        """Whether a serial number and words were given together."""
        return self.words != self.query

    @property
    def as_words(self) -> bool:
        """Whether it is all letters, and meant as words."""
        return not any(c.isdecimal() or c == UNREADABLE for c in plain(self.words))

    @property
    def empty(self) -> bool:
        serials = self.readings or self.may_be or self.worn or self.retired or self.loose
        return not (serials or self.matches or self.documents or self.sizes)


class Asker:
    """Answers queries about one register; the indexes are made once."""

    def __init__(self, answers: Answers, documents: Iterable[Document]) -> None:
        self.answers = answers
        self.register = answers.register
        self.by_words = ByWords(documents)
        self.keys = keys_of(self.register)
        # By what a worn stamp leaves of them.
        self.by_worn: defaultdict[str, list[Key]] = defaultdict(list)
        for key in self.keys:
            self.by_worn[worn(key.text)].append(key)

    @kept
    def sized(self) -> Mapping[Standard, tuple[Part, ...]]:
        """The parts that are recorded to be of each standard size."""
        found: defaultdict[Standard, dict[PartKey, Part]] = defaultdict(dict)
        for part in self.register.parts.values():
            for standard in standards_of(part.record) if part.record else ():
                found[standard][part.key] = part
        return {standard: tuple(parts.values()) for standard, parts in found.items()}

    def ask(self, query: str) -> Answer:
        text = unwrapped(query)
        matches = self.matches(text)
        one = any(m.how in SURE for m in matches) or self.retired(text)
        apart = None if one else beside(self.register, text)
        found = self._beside(text, apart) if apart else self._alone(text, matches)
        return replace(found, alone=tuple(self._finding_alone(text))) if found.empty else found

    def _finding_alone(self, text: str) -> Iterator[str]:
        """The first words of several that find pages by themselves."""
        asked = words(text)
        found = (word for word in asked if len(asked) > 1 and self.by_words.find(word).documents)
        return islice(found, MOST_ALONE)

    def _alone(self, text: str, matches: list[Match]) -> Answer:
        """What a query gives that is one thing: a number or words."""
        readings, worn_readings = self.serials(text)
        also = worn_to(self.register, text)
        sure = any(match.how in SURE for match in matches)
        retired = self.retired(text)
        serials = readings or worn_readings or also or retired
        loose = () if sure or serials else loosely(self.register, text)
        sizes = standards_typed(text)
        found = Found() if sizes else self._pages(text, matches, alone=not (serials or loose))
        return Answer(
            text,
            readings,
            worn_readings,
            also,
            tuple(matches[:MOST]),
            found.documents[:MOST],
            len(matches) > MOST,
            len(found.documents) > MOST,
            together(self.register, text),
            loose[:MOST],
            (),
            text,
            min(found.named, MOST),
            tuple((one, self.sized.get(one, ())) for one in sizes[:MOST]),
            found.taken,
            retired,
        )

    def retired(self, text: str) -> tuple[Number, ...]:
        """The numbers that a text reads as in series that are retired."""
        return tuple(
            Number(series, number)
            for series in self.register.retired_series.values()
            for number in series.stamp.readings(text)
            if number in series.issued
        )

    def _beside(self, query: str, apart: Beside) -> Answer:
        """What a serial number and words beside it give."""
        matches = self.matches(apart.words)
        shown = [match.key.part.key for match in matches[:MOST]]
        whole = self.by_words.find(query).without(shown)
        found = whole.before(self._pages(apart.words, matches, alone=False))
        places = places_named(self.answers, (*apart.readings, *apart.loose), apart.words)
        return Answer(
            query,
            apart.readings,
            (),
            (),
            tuple(matches[:MOST]),
            found.documents[:MOST],
            len(matches) > MOST,
            len(found.documents) > MOST,
            (),
            apart.loose[:MOST],
            tuple(islice(places, MOST)),
            apart.words,
            min(found.named, MOST),
            (),
            found.taken,
        )

    def _pages(self, text: str, matches: list[Match], *, alone: bool) -> Found:
        """The pages that words find; where nothing else is found, near words do too."""
        found = self.by_words.find(text)
        if alone and not matches and not found.documents:
            found = self.by_words.near(text)
        return found.without(match.key.part.key for match in matches[:MOST])

    def serials(self, text: str) -> tuple[tuple[Reading, ...], tuple[Reading, ...]]:
        """The readings of a serial number, or of a worn one every issued number it may be."""
        if UNREADABLE in text:
            return (), may_be(self.register, text)
        return machines_in(self.register, text), ()

    def matches(self, text: str) -> list[Match]:
        """Every part number and mark that a text may be, in their order."""
        wanted, folded = squeezed(text), worn(text)
        if len(folded.replace(UNREADABLE, "")) < SHORTEST_WORD:
            return []
        if UNREADABLE in folded:
            return _once(self._worn_matches(folded))
        alike = [Match(key, _how(key, text, wanted)) for key in self.by_worn.get(folded, ())]
        known = {match.key.text for match in alike}
        begun = (
            Match(key, How.BEGINS)
            for key in self.keys
            if squeezed(key.text).startswith(wanted) and key.text not in known
        )
        return _once((*alike, *begun))

    def _worn_matches(self, folded: str) -> Iterator[Match]:
        """What a text with characters that cannot be read may be, and what ends so: the beginning of a stamp
        may be gone as well."""
        form = "".join("." if c == UNREADABLE else re.escape(c) for c in folded)
        ways = [(form, How.WORN)]
        if max(map(len, folded.split(UNREADABLE))) >= SHORTEST_WORD:
            ways.append((f".+{form}", How.ENDS))
        for pattern, how in ways:
            found = (keys for key, keys in self.by_worn.items() if re.fullmatch(pattern, key))
            yield from (Match(key, how) for keys in found for key in keys)


def nearest_run(series: Series, number: int) -> Span:
    """The run of issued numbers that a number never issued lies closest to; the lower of two."""

    def distance(run: Span) -> int:
        return run.first - number if run.last is None or number < run.first else number - run.last

    return min(series.issued.spans, key=distance)


def _how(key: Key, text: str, wanted: str) -> How:
    if plain(key.text) == plain(text):
        return How.EXACT
    return How.SPACING if squeezed(key.text) == wanted else How.WORN


def _once(matches: Iterable[Match]) -> list[Match]:
    """Matches in their order, each part by the best of its own."""
    best: dict[PartKey, Match] = {}
    for match in sorted(matches, key=_match_order):
        best.setdefault(match.key.part.key, match)
    return list(best.values())


_ORDER = list(How)
_KNOWN = list(Known)


def _match_order(match: Match) -> tuple[int, int, str, str]:
    key = match.key
    return _ORDER.index(match.how), _KNOWN.index(key.known), squeezed(key.text), f"{key.part.key.path}/"
