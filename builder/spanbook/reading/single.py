"""What is one file alone at the top of a content folder: positions, cautions, glossary, what is gone."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading.basics import OtherTitle, Record


@dataclass(frozen=True, slots=True)
class PositionEntry:
    """`within` are the assemblies of the position around it that have this place; empty: it is on all."""

    id: str
    formerly: tuple[str, ...]
    title: str
    titles: tuple[OtherTitle, ...]
    where: str | None
    follows: str | None
    within: tuple[str, ...]
    positions: tuple[PositionEntry, ...]


@dataclass(frozen=True, slots=True)
class Publication:
    body: str
    title: str


@dataclass(frozen=True, slots=True)
class Caution:
    id: str
    formerly: tuple[str, ...]
    title: str
    text: str
    words: tuple[str, ...]
    positions: tuple[str, ...]
    follows: tuple[Publication, ...]


@dataclass(frozen=True, slots=True)
class Term:
    id: str
    formerly: tuple[str, ...]
    term: str
    meaning: str


@dataclass(frozen=True, slots=True, eq=False)
class Positions(Record):
    positions: tuple[PositionEntry, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Cautions(Record):
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Glossary(Record):
    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class GonePage:
    """An address that was public once: a whole page, or with `#` a statement; `why` it is gone."""

    address: str
    why: str

    @property
    def page(self) -> str:
        return self.address.partition("#")[0]

    @property
    def anchor(self) -> str:
        """Empty for a whole page."""
        return self.address.partition("#")[2]


@dataclass(frozen=True, slots=True, eq=False)
class Gone(Record):
    pages: tuple[GonePage, ...]
