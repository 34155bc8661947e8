"""Pages found by words: every word asked for must begin a word of the page.

Pages that are called exactly so come first; then those that have all the words in their titles, numbers and
names, whole words before beginnings of words; then those that have them in prose, alike. Equals stand in the
order of the documents. Where nothing is found at all, words within one edit of a word with which nothing
begins do too.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain

from spanbook.ground.matching import one_edit, terms, words
from spanbook.ground.part_numbers import PartKey

SHORTEST_WORD = 2
SHORTEST_MISSPELT = 4  # letters: of a shorter word one edit leaves too little
MOST_COMPLETIONS = 60
MOST_WORDS_OF_A_NAME = 2


@dataclass(frozen=True, slots=True)
class Document:
    """A page to be found by words: `strong` in title, number and names, `prose` in the rest.

    `name` is what its thing is called, where that is not the title; `part` the part that it is the page of.
    """

    address: str
    title: str
    sort: str
    strong: str
    prose: str
    name: str = ""
    part: PartKey | None = None


@dataclass(slots=True)
class Holders:
    """The documents that have a word, by their places, rising: in strong text, in prose only, as their whole
    name. Most words stand in one document: a list of one takes a quarter of the room of a set."""

    strong: list[int] = field(default_factory=list)
    prose: list[int] = field(default_factory=list)
    name: list[int] = field(default_factory=list)

    @property
    def every(self) -> list[int]:
        return self.strong + self.prose


@dataclass(frozen=True, slots=True)
class Found:
    """Documents in their order; the first `named` of them are called what was asked for.

    `taken` are the words taken for others, each with those, where nothing has it as it was written.
    """

    documents: tuple[Document, ...] = ()
    named: int = 0
    taken: tuple[tuple[str, tuple[str, ...]], ...] = ()

    def without(self, parts: Iterable[PartKey]) -> Found:
        """The same without the pages of some parts."""
        shown = set(parts)
        kept = [(one, i < self.named) for i, one in enumerate(self.documents) if one.part not in shown]
        return Found(tuple(one for one, _ in kept), sum(named for _, named in kept), self.taken)

    def before(self, others: Found) -> Found:
        """These first, which hold all words of a query, and then those that hold some of them."""
        return Found(tuple(dict.fromkeys((*self.documents, *others.documents))), 0, others.taken)


class ByWords:
    """Finds documents by words; the index is made once."""

    def __init__(self, documents: Iterable[Document]) -> None:
        self.documents = tuple(documents)
        self.index = index_words(self.documents)
        self._vocabulary = sorted(self.index)

    def find(self, text: str) -> Found:
        asked = asked_words(text)
        return self._found(asked, self._begun) if asked else Found()

    def near(self, text: str) -> Found:
        """The same, with words within one edit of those with which nothing begins."""
        asked = asked_words(text)
        near = {word: tuple(self._near(word)) for word in asked if not any(self._begun(word))}
        taken = tuple((word, others) for word, others in near.items() if others)
        if not taken:
            return Found()
        found = self._found(asked, lambda word: chain(self._begun(word), near.get(word, ())))
        return Found(found.documents, found.named, taken if found.documents else ())

    def _found(self, asked: Sequence[str], alike: Callable[[str], Iterable[str]]) -> Found:
        grades = self._graded(asked, alike)
        if len(asked) > 1:
            joined = self._graded(["".join(asked)], alike)
            grades = [one | other for one, other in zip(grades, joined, strict=True)]
        ranked = dict.fromkeys(place for grade in grades for place in sorted(grade))
        return Found(tuple(self.documents[place] for place in ranked), len(grades[0]))

    def _graded(self, asked: Sequence[str], alike: Callable[[str], Iterable[str]]) -> list[set[int]]:
        """The documents that hold all words, the best first."""
        whole = [self.index.get(word, Holders()) for word in asked]
        begun = [[self.index[term] for term in alike(word)] for word in asked]
        return [
            set(whole[0].name) if len(asked) == 1 else set(),
            set.intersection(*(set(one.strong) for one in whole)),
            set.intersection(*(set[int]().union(*(one.strong for one in each)) for each in begun)),
            set.intersection(*(set(one.every) for one in whole)),
            set.intersection(*(set[int]().union(*(one.every for one in each)) for each in begun)),
        ]

    def _begun(self, word: str) -> Iterator[str]:
        """The words that begin with one, the first of them in the order of the alphabet."""
        at = bisect_left(self._vocabulary, word)
        for term in self._vocabulary[at : at + MOST_COMPLETIONS]:
            if not term.startswith(word):
                return
            yield term

    def _near(self, word: str) -> Iterator[str]:
        if len(word) < SHORTEST_MISSPELT or any(c.isdecimal() for c in word):
            return
        yield from (term for term in self._vocabulary if one_edit(word, term))


def asked_words(text: str) -> list[str]:
    return [word for word in words(text) if len(word) >= SHORTEST_WORD]


def index_words(documents: Iterable[Document]) -> Mapping[str, Holders]:
    """For every word the documents that have it."""
    index: defaultdict[str, Holders] = defaultdict(Holders)
    for i, document in enumerate(documents):
        strong = terms(document.strong, joined=True)
        for term in strong:
            index[term].strong.append(i)
        for term in terms(document.prose, joined=False) - strong:
            index[term].prose.append(i)
        name = words(document.name or document.title)
        # Two words side by side are a term of their own already.
        if len(name) <= MOST_WORDS_OF_A_NAME and (term := "".join(name)) in strong:
            index[term].name.append(i)
    return index
