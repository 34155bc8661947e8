"""The kinds of records: what the program knows of each beside its schema and its class."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading import records as r


@dataclass(frozen=True, slots=True)
class Kind:
    """`name` is how records and the schema's file call it.

    `folder` holds its records and is the address of its pages; a kind without one is a single file at the
    top. `paged` tells whether each record has a page of its own. `form` is its place among the forms, which
    begin with what most collectors have to tell; 0 for none. `suggest` names the fields that a new record's
    id is suggested from; of a list, its first number.
    """

    name: str
    cls: type[r.Record]
    folder: str = ""
    paged: bool = True
    form: int = 0
    suggest: str = ""

    @property
    def single(self) -> bool:
        return not self.folder


# A part's record is told on the page of its number.
_ALL = (
    Kind("machine", r.Machine, "machines", form=7, suggest="title"),
    Kind("assembly", r.Assembly, "assemblies", form=3, suggest="title"),
    Kind("part", r.PartRecord, "parts", paged=False, form=2, suggest="name"),
    Kind("supersession", r.Supersession, "supersessions", form=4, suggest="old new"),
    Kind("conversion", r.Conversion, "conversions", form=5, suggest="title"),
    Kind("source", r.Source, "sources", form=6, suggest="title"),
    Kind("teardown", r.Teardown, "teardowns", form=1, suggest="serial seen-by"),
    Kind("unit", r.Unit, "units", form=9, suggest="numbers"),
    Kind("strip-down", r.StripDown, "strip-downs", form=8, suggest="assembly seen-by"),
    Kind("absence", r.Absence, "absences", form=9, suggest="title"),
    Kind("circuit", r.Circuit, "circuits", form=10, suggest="medium machine"),
    Kind("positions", r.Positions, paged=False, form=12),
    Kind("cautions", r.Cautions, paged=False, form=13),
    Kind("glossary", r.Glossary, paged=False, form=14),
    Kind("signs", r.Signs, paged=False, form=11),
    Kind("gone", r.Gone, paged=False),
)
KINDS = {kind.name: kind for kind in _ALL}
BY_FOLDER = {kind.folder: kind for kind in _ALL if kind.folder}
# One file each, at the top of the content folder.
SINGLE = tuple(kind.name for kind in _ALL if kind.single)
WITH_FORM = tuple(kind.name for kind in sorted(_ALL, key=lambda kind: kind.form) if kind.form)
