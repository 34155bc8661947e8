"""What somebody asks, and what they get, in one ranked list. The finder in the pages gives the same.

A query is tried as a serial number, as a part number or mark, and as words, in this order:

1. every series it reads in, the issued first, or the machine of several numbers (`F 118 / HK 588`); with `?`
   every number it may be; then, said as such, the issued numbers that a worn stamp may have made of it;
2. part numbers and marks (other numbers of a part, and misprints, lead to it): as written, then the same
   without spaces, dots and dashes, then as a worn stamp leaves them (`?` is one character that cannot be
   read), then those that begin so;
3. words: every one must begin a word of the page; pages that have them all in their titles, numbers and
   names come before those that have them in prose, each in the order of the documents.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import islice

from spanbook.answers.answers import Answers
from spanbook.answers.readings import Reading, may_be, worn_to
from spanbook.answers.together import Together, machines_in, together
from spanbook.ground.intervals import Span
from spanbook.ground.matching import UNREADABLE, plain, squeezed, terms, words, worn
from spanbook.reading.records import Series
from spanbook.register.model import Part, Register

MOST = 8  # of each sort: more than that and the reader types on
SHORTEST_WORD = 2
MOST_COMPLETIONS = 60
MOST_ALONE = 2


class How(StrEnum):
    """How a part number was found."""

    EXACT = "exact"
    SPACING = "spacing"
    WORN = "worn"
    BEGINS = "begins"


class Known(StrEnum):
    """What a text that a part is found by is to it, the surest first."""

    NUMBER = "number"
    ALSO = "also"
    MISPRINT = "misprint"
    MARK = "mark"


@dataclass(frozen=True, slots=True)
class Key:
    """A text that a part is found by: a number of it, a misprint for that, or a mark on it."""

    text: str
    part: Part
    known: Known = Known.NUMBER


@dataclass(frozen=True, slots=True)
class Match:
    key: Key
    how: How


@dataclass(frozen=True, slots=True)
class Document:
    """A page to be found by words: `strong` in title, number and names, `prose` in the rest."""

    address: str
    title: str
    sort: str
    strong: str
    prose: str


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything a query gives; `more` tells of which sorts there are more than are listed.

    `worn` are the issued numbers whose stamp, worn, may read so as well: never instead of `readings`. Where
    several numbers were given, `together` is what they are together, and `readings` the machines.
    """

    query: str
    readings: tuple[Reading, ...]
    may_be: tuple[Reading, ...]
    worn: tuple[Reading, ...]
    matches: tuple[Match, ...]
    documents: tuple[Document, ...]
    more_matches: bool
    more_documents: bool
    together: tuple[Together, ...] = ()

    @property
    def empty(self) -> bool:
        return not (self.readings or self.may_be or self.worn or self.matches or self.documents)


class Asker:
    """Answers queries about one register; the indexes are made once."""

    def __init__(self, answers: Answers, documents: Iterable[Document]) -> None:
        self.answers = answers
        self.register = answers.register
        self.documents = tuple(documents)
        self.keys = keys_of(self.register)
        self._by_worn: defaultdict[str, list[Key]] = defaultdict(list)
        for key in self.keys:
            self._by_worn[worn(key.text)].append(key)
        self.index = index_words(self.documents)
        self._vocabulary = sorted(self.index)

    def ask(self, query: str) -> Answer:
        text = query.strip()
        readings, worn_readings = self.serials(text)
        matches = self.matches(text)
        documents = self._pages(text)
        return Answer(
            query,
            readings,
            worn_readings,
            worn_to(self.register, text),
            tuple(matches[:MOST]),
            tuple(documents[:MOST]),
            len(matches) > MOST,
            len(documents) > MOST,
            together(self.register, text),
        )

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
            pattern = re.compile("".join("." if c == UNREADABLE else re.escape(c) for c in folded))
            found = (k for key, keys in self._by_worn.items() if pattern.fullmatch(key) for k in keys)
            return sorted((Match(key, How.WORN) for key in found), key=_match_order)
        alike = [Match(key, _how(key, text, wanted)) for key in self._by_worn.get(folded, ())]
        known = {match.key.text for match in alike}
        begun = (
            Match(key, How.BEGINS)
            for key in self.keys
            if squeezed(key.text).startswith(wanted) and key.text not in known
        )
        return sorted([*alike, *begun], key=_match_order)

    def _pages(self, text: str) -> list[Document]:
        asked = [word for word in words(text) if len(word) >= SHORTEST_WORD]
        if not asked:
            return []
        strong, every = self._holding(asked)
        if len(asked) > 1:
            also_strong, also = self._holding(["".join(asked)])
            strong, every = strong | also_strong, every | also
        return [self.documents[i] for i in (*sorted(strong), *sorted(every - strong))]

    def _holding(self, asked: list[str]) -> tuple[set[int], set[int]]:
        """The documents that hold all words, among their strong ones and anywhere."""
        each = [[self.index[term] for term in self._completions(word)] for word in asked]
        strong = (set[int]().union(*(strong for strong, _ in found)) for found in each)
        every = (set[int]().union(*(strong | prose for strong, prose in found)) for found in each)
        return set.intersection(*strong), set.intersection(*every)

    def _completions(self, word: str) -> Iterator[str]:
        """The words that begin with one, the first of them in the order of the alphabet."""
        at = bisect_left(self._vocabulary, word)
        for term in self._vocabulary[at : at + MOST_COMPLETIONS]:
            if not term.startswith(word):
                return
            yield term


def keys_of(register: Register) -> tuple[Key, ...]:
    """Every text that a part is found by, in the order of parts."""
    keys: list[Key] = []
    for part in register.parts.values():
        keys.append(Key(part.number, part))
        seen = {squeezed(part.number)}
        for text, known in _also_known(part):
            if squeezed(text) and squeezed(text) not in seen:
                seen.add(squeezed(text))
                keys.append(Key(text, part, known))
    return tuple(keys)


def _also_known(part: Part) -> Iterator[tuple[str, Known]]:
    if record := part.record:
        yield from ((one.number, Known.ALSO) for one in record.also)
        yield from ((one.number, Known.MISPRINT) for one in record.misprints)
        yield from ((mark.text, Known.MARK) for mark in record.marks)


def index_words(documents: Iterable[Document]) -> Mapping[str, tuple[set[int], set[int]]]:
    """For every word the documents that have it in strong text, and those that have it in prose only."""
    index: defaultdict[str, tuple[set[int], set[int]]] = defaultdict(lambda: (set(), set()))
    for i, document in enumerate(documents):
        strong = terms(document.strong, joined=True)
        for term in strong:
            index[term][0].add(i)
        for term in terms(document.prose, joined=False) - strong:
            index[term][1].add(i)
    return index


def nearest_run(series: Series, number: int) -> Span:
    """The run of issued numbers that a number never issued lies closest to; the lower of two."""

    def distance(run: Span) -> int:
        return run.first - number if run.last is None or number < run.first else number - run.last

    return min(series.issued.spans, key=distance)


def finding_alone(asker: Asker, query: str) -> tuple[str, ...]:
    """The first words of a query of several that would find something by themselves."""
    asked = words(query)
    found = (word for word in asked if len(asked) > 1 and asker.ask(word).documents)
    return tuple(islice(found, MOST_ALONE))


def _how(key: Key, text: str, wanted: str) -> How:
    if plain(key.text) == plain(text):
        return How.EXACT
    return How.SPACING if squeezed(key.text) == wanted else How.WORN


_ORDER = list(How)
_KNOWN = list(Known)


def _match_order(match: Match) -> tuple[int, int, str, str]:
    key = match.key
    return _ORDER.index(match.how), _KNOWN.index(key.known), squeezed(key.text), f"{key.part.key.path}/"
