"""The permanent address of everything, from the site's root, without a leading slash.

Never change one: links in forum threads live for decades. What is renamed keeps its former address.
"""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.flow.pieces import Arranged
from spanbook.answers.signs.things import parts_told
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.kinds import KINDS, WITH_FORM
from spanbook.reading.problems import Rule
from spanbook.reading.records import Absence, Assembly, Conversion, PartRecord, Record, Series
from spanbook.register.model import Position, Register
from spanbook.register.statements import Statement

CAUTIONS = "cautions/"
CHANGES = "changes/"
DATA = "data/"
GLOSSARY = "glossary/"
RULES = "rules/"
POSITIONS = "positions/"
SERIES = "series/"
PARTS = "parts/"
CARD = "card/"
FIND = "find/"
QUESTIONS = "open-questions/"
FORMS = "add/"
HOLDING = "holding/"
PLAN = "plan/"
REPORT = "report/"
WHICH_PART = "which-part/"
ALONG = "along/"
# Where the schemas lie, for editors.
SCHEMAS = "schema/"
# Where a site tells which state of the records it shows; no page.
STATE = "release.json"
# The pages that no record has for itself alone.
_OF_KINDS = tuple(f"{kind.folder}/" for kind in KINDS.values() if kind.paged)
_OF_FORMS = (FORMS, *(f"{FORMS}{kind}/" for kind in WITH_FORM))
LISTS = (
    *_OF_KINDS,
    *_OF_FORMS,
    POSITIONS,
    SERIES,
    PARTS,
    QUESTIONS,
    CARD,
    FIND,
    HOLDING,
    PLAN,
    DATA,
    CHANGES,
    REPORT,
    WHICH_PART,
    ALONG,
    CAUTIONS,
    GLOSSARY,
    RULES,
)


LEAST_HELD = 3
LEAST_TOLD = 2  # parts of which a sign or a size is recorded


def of(named: Record | Statement | Position | Arranged) -> str:
    """Where a record, a statement, a position or an arrangement of a circuit stands."""
    if isinstance(named, Arranged):
        return f"{of_record(named.circuit)}#{anchor_of(named)}"
    if isinstance(named, Position):
        return of_position(named)
    return of_statement(named) if isinstance(named, Statement) else of_record(named)


def anchor_of(arranged: Arranged) -> str:
    """The place of an arrangement on the page of its circuit."""
    return "-".join(("with", *(assembly.id for assembly in arranged.fitted.values())))


def of_record(record: Record) -> str:
    """The page of a record whose kind has pages."""
    return f"{KINDS[record.kind].folder}/{record.id}/"


def of_sheet(assembly: Assembly) -> str:
    """How an assembly comes apart, where somebody has told of it."""
    return f"{of_record(assembly)}strip-down/"


def sheets(register: Register) -> Iterator[str]:
    """Every page of how an assembly comes apart."""
    told = register.strip_downs.keys() & register.assemblies.keys()
    yield from (of_sheet(register.assemblies[id_]) for id_ in sorted(told))


def of_owner(by: str) -> str:
    """The list of the part numbers of a maker or supplier."""
    return f"{PARTS}{by}/"


def of_series(series: Series) -> str:
    return f"{SERIES}{series.id}/"


def of_position(position: Position | str) -> str:
    return f"{POSITIONS}{position if isinstance(position, str) else position.path}/"


def anchor_of_position(path: str) -> str:
    """What a position is called among others on a page."""
    return path.replace("/", "--")


def of_place(series: Series, path: str) -> str:
    """A position in a series, where it has a page of its own: a piece of the series' page."""
    return f"{of_series(series)}~/{path}/"


def of_key(position: str, *, parts: bool = False) -> str:
    """Where somebody is helped to find which assembly he holds from a position, or which of their parts."""
    return f"{WHICH_PART if parts else HOLDING}{position}/"


def to_plan(conversion: Conversion) -> str:
    """Where what a conversion leads to is planned on a reader's machine."""
    return f"{PLAN}?want={conversion.to}"


def with_keys(register: Register, *, parts: bool = False) -> Iterator[str]:
    """The positions that have such a page."""
    return (path for path in register.positions if with_key(register, path, parts=parts))


def with_key(register: Register, path: str, *, parts: bool = False) -> bool:
    """Whether a position has such a page: so many things that a look at a table is not enough, and of parts,
    something recorded by which they are told apart."""
    if path not in register.positions:
        return False
    if parts:
        return parts_told(register, path) >= LEAST_TOLD
    held = (one for one in register.at_position.get(path, ()) if not isinstance(one, Absence))
    return sum(1 for _ in held) >= LEAST_HELD


def of_part(key: PartKey) -> str:
    return f"{PARTS}{key.path}/"


def of_number(path: str) -> str:
    """The page of a number by that part of its address: where it leads on, or tells what it has meant."""
    return f"{PARTS}{path}/"


def of_questions(series: Series) -> str:
    """The list of everything that is open in a series."""
    return f"{QUESTIONS}{series.id}/"


def of_form(kind: str) -> str:
    return f"{FORMS}{kind}/"


def to_correct(kind: str, id_: str) -> str:
    """The form of a kind, filled with a record."""
    return f"{of_form(kind)}?record={id_}"


def of_caution(caution: str) -> str:
    return f"{CAUTIONS}#{caution}"


def of_term(term: str) -> str:
    return f"{GLOSSARY}#{term}"


def of_rule(rule: Rule) -> str:
    """Where the page of rules explains one. No promise to last: rules come and go with the program."""
    return f"{RULES}#{rule.name}"


def of_statement(statement: Statement) -> str:
    """The page and anchor of a statement: a part record's stands on the page of its number."""
    of_its_part = isinstance(statement.record, PartRecord) and statement.number
    page = of_part(of_its_part) if of_its_part else of_record(statement.record)
    return f"{page}#{statement.anchor}" if statement.anchor else page
