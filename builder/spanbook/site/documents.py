"""What can be found by words: one document for each page that a reader may look for by its text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.by_words import Document
from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
from spanbook.reading.fields import title_of
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import (
    Absence,
    Assembly,
    Conversion,
    Evidence,
    Machine,
    Record,
    Source,
    Supersession,
    Teardown,
)
from spanbook.reading.roles import Role
from spanbook.reading.titled import Titled, other_titles
from spanbook.reading.walk import walk
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.wording.holding import BY_SIGNS, HOLDING, WHICH_PART, holding_words
from spanbook.wording.pages import assembly_sort, part_number
from spanbook.wording.records import record_title, seen_title
from spanbook.wording.strip_down import STRIP_DOWN, sheet_title

_TOLD = {Machine, Assembly, Absence, Conversion, Supersession, Source, Teardown}
_STRONG = (Role.NAME, Role.NUMBER)
_PROSE = (Role.SIGN, Role.TEXT, Role.MARKDOWN)


def documents(register: Register, guides: Iterable[Document] = ()) -> Iterator[Document]:
    """Every document in the order in which equals are listed; guides come first."""
    yield from guides
    yield from _machines(register)
    yield from _positions(register)
    yield from _keys(register)
    for assembly in register.assemblies.values():
        yield _assembly(register, assembly)
    for conversion in register.conversions.values():
        strong = _called(conversion, conversion.number)
        yield _document(
            addresses.of_record(conversion),
            conversion.title,
            _("Conversion"),
            strong,
            " ".join((conversion.notes or "", *_remarks(conversion))),
        )
    for part in register.parts.values():
        record = part.record
        marks = " ".join(mark.text for mark in record.marks) if record else ""
        prose = " ".join((*record.tell, record.material or "", record.notes or "")) if record else ""
        # What evidence says of an act is shown where its old numbers are.
        said = (*((record,) if record else ()), *part.old_in)
        prose = " ".join((prose, *(remark for one in said for remark in _remarks(one))))
        title = f"{part.number} {part.name}".strip()
        others = (
            [*(one.number for one in record.also), *(m.number for m in record.misprints)] if record else []
        )
        names = (*part.names, *(other_titles(record) if record else ()))
        strong = " ".join((part.number, *others, *names, marks))
        yield Document(
            addresses.of_part(part.key), title, part_number(), strong, prose, name=part.name, part=part.key
        )
    yield from _evidence(register)
    yield from _others(register)
    for term in register.terms.values():
        yield _document(addresses.of_term(term.id), term.term, _("Glossary"), term.term, term.meaning)
    yield from _sheets(register)


def _called(record: Titled, *besides: str | None) -> str:
    """A record's titles in every language, and what else it is looked for by."""
    return " ".join((record.title, *other_titles(record), *filter(None, besides)))


def _document(address: str, title: str, sort: str, strong: str, prose: str | None) -> Document:
    return Document(address, title, sort, strong, prose or "")


def _machines(register: Register) -> Iterator[Document]:
    for machine in register.machines.values():
        strong = _called(machine, machine.maker)
        notes = " ".join((machine.notes or "", *_remarks(machine)))
        yield _document(addresses.of_record(machine), machine.title, _("Machine"), strong, notes)
        for series in machine.every_series:
            title = f"{machine.title}, {series.name}"
            prose = f"{series.plate} {series.where or ''} {series.retired or ''} {series.notes or ''}"
            yield _document(addresses.of_series(series), title, pgettext("one", "Series"), title, prose)


def _positions(register: Register) -> Iterator[Document]:
    for position in register.positions.values():
        yield _document(
            addresses.of_position(position),
            position.title,
            _("Position"),
            " ".join((position.title, *position.also_called)),
            position.where,
        )


def _keys(register: Register) -> Iterator[Document]:
    """Where somebody is helped to find what he holds, found by what he would ask."""
    for parts, asked in ((False, HOLDING), (True, WHICH_PART)):
        for path in addresses.with_keys(register, parts=parts):
            words = holding_words(register.positions[path].title, parts=parts)
            address = addresses.of_key(path, parts=parts)
            yield _document(address, words.title, _(BY_SIGNS), asked.told().title, words.title)


def _sheets(register: Register) -> Iterator[Document]:
    """How assemblies come apart, found by that and the assembly's name."""
    told = register.strip_downs.keys() & register.assemblies.keys()
    for id_ in sorted(told):
        assembly = register.assemblies[id_]
        title = sheet_title(assembly)
        yield _document(addresses.of_sheet(assembly), title, _(STRIP_DOWN), _(STRIP_DOWN), title)


def _assembly(register: Register, assembly: Assembly) -> Document:
    position = register.positions[assembly.position].title
    names = " ".join(use.name or "" for use in assembly.parts)
    return _document(
        addresses.of_record(assembly),
        assembly.title,
        assembly_sort(position),
        _called(assembly, assembly.number, position),
        " ".join((names, *assembly.tell, assembly.notes or "", *_remarks(assembly))),
    )


def _remarks(record: Record) -> Iterator[str]:
    """What a record remarks of its evidence."""
    for leaf in walk(record, Role.TEXT):
        if isinstance(leaf.holder, Evidence) and leaf.slot.attribute == "note":
            yield leaf.value


def _others(register: Register) -> Iterator[Document]:
    """Of a kind that nobody has said more of: what its fields are, as the schema says."""
    for kind in KINDS.values():
        if kind.paged and kind.cls not in _TOLD:
            sort = title_of(kind.name)
            for record in register.of(kind.cls).values():
                strong = f"{record_title(record)} {_said(record, *_STRONG)}"
                prose = _said(record, *_PROSE)
                yield _document(addresses.of_record(record), record_title(record), sort, strong, prose)


def _said(record: Record, *roles: Role) -> str:
    return " ".join(leaf.value for leaf in walk(record, *roles))


def _evidence(register: Register) -> Iterator[Document]:
    for source in register.sources.values():
        strong = f"{source.title} {source.form or ''}"
        prose = f"{source.copy or ''} {source.notes or ''}"
        yield _document(addresses.of_record(source), source.title, _("Source"), strong, prose)
    for teardown in register.teardowns.values():
        title = seen_title(teardown)
        finds = " ".join(find.note or "" for find in teardown.found)
        marks = " ".join(mark.text for find in teardown.found for mark in find.marks)
        prose = f"{teardown.seen_by} {finds} {marks} {teardown.notes or ''}"
        yield _document(addresses.of_record(teardown), title, _("Teardown"), title, prose)
