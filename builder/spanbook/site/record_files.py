"""Beside the page of a record the record itself as JSON; `schema/answer-record.json` is its law."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from spanbook.answers.answers import Answers
from spanbook.answers.reasons import Weight
from spanbook.ground.licences import Licence
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import PartRecord, Record
from spanbook.register.model import Register
from spanbook.register.statements import Statement
from spanbook.site import addresses
from spanbook.site.each import File

NAME = "record.json"
Object = dict[str, Any]


def pages_of_records(register: Register) -> Iterator[tuple[Record, str]]:
    """Every record that a page is about, with the address of that page."""
    for record in register.records:
        if isinstance(record, PartRecord):
            part = register.parts.get(register.key_of_record(record))
            if part and part.record is record:
                yield record, addresses.of_part(part.key)
        elif KINDS[record.kind].paged:
            yield record, addresses.of_record(record)


def files(
    answers: Answers, said: Callable[[Record], Mapping[str, Any]], licence: Licence | None
) -> dict[str, bytes]:
    """A file for each page of a record, by its address; `said` gives what a record's file says."""
    every = pages_of_records(answers.register)
    return dict(file_of(answers, one, page, said(one), licence) for one, page in every)


def file_of(
    answers: Answers, record: Record, page: str, said: Mapping[str, Any], licence: Licence | None
) -> File:
    """The file beside one page.

    It changes with its own record's answers alone: which release that is stands in one file for all of them.
    """
    found = as_object(answers, record, page, said)
    found |= {"release": addresses.STATE, "licence": licence.id if licence else None}
    return f"{page}{NAME}", f"{json.dumps(found, ensure_ascii=False)}\n".encode()


def as_object(answers: Answers, record: Record, page: str, said: Mapping[str, Any]) -> Object:
    """What was typed apart from what is worked out of it."""
    statements = answers.register.statements_of.get(record, ())
    return {
        "kind": "record",
        "address": page,
        "record": dict(said),
        "statements": [_statement(answers, one) for one in statements],
    }


def _statement(answers: Answers, one: Statement) -> Object:
    judged = answers.judge.of(one)
    against = sum(reason.weight is Weight.AGAINST for reason in judged.reasons)
    return {
        "address": addresses.of_statement(one),
        "path": "/".join(map(str, one.path)),
        "standing": str(judged.standing),
        "against": against,
    }
