"""One query answered: what is found, or what to order."""

from __future__ import annotations

import re
from dataclasses import dataclass

import click

from spanbook import BuildFailed, OpenRegister, UnknownNumber, Wanted
from spanbook.ground.language import gettext as _
from spanbook.outputs.json import ask as ask_json
from spanbook.outputs.json import order as order_json
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import ask as ask_text
from spanbook.outputs.text import order as order_text
from spanbook.wording.search import suggestions

# As long as a number in a record may be.
_QUANTITY = re.compile("0*[1-9][0-9]{0,11}")


@dataclass(frozen=True, slots=True)
class Question:
    """A query, and what is wanted of it when that is what is asked."""

    query: str
    wanted: Wanted | None

    @classmethod
    def of(cls, line: str, by: str | None, year: int | None = None, means: str | None = None) -> Question:
        """What a line asks. Raises LookupError for a quantity that is none."""
        query, quantity, serial = [*line.split("\t"), "", ""][:3]
        if not quantity:
            return cls(query, None)
        if not _QUANTITY.fullmatch(quantity):
            shown = quantity if len(quantity) < 40 else f"{quantity[:37]}..."
            raise LookupError(
                _("the quantity {quantity} of {query} is not a whole number above 0").format(
                    quantity=repr(shown), query=query
                )
            )
        return cls(query, Wanted(query, int(quantity), serial or None, by, year, means))


def answer(register: OpenRegister, asked: Question, as_json: bool) -> str:
    """What a question gives, as text or JSON. Raises LookupError for what cannot be asked."""
    try:
        return _answered(register, asked, as_json)
    except BuildFailed as failure:
        raise click.ClickException(str(failure)) from None


def _answered(register: OpenRegister, asked: Question, as_json: bool) -> str:
    wanted = asked.wanted
    if wanted is None:
        if as_json:
            return json_text(ask_json.as_object(register.asker, asked.query))
        return ask_text.as_text(register.asker, asked.query)
    try:
        need, found = register.order_now(wanted), register.orders(wanted)
        would, lists = register.would_do(wanted), register.listed(wanted)
    except UnknownNumber as failure:
        return unanswered(register, asked.query, failure, as_json)
    if as_json:
        made = order_json.as_object(register.answers, asked.query, wanted.serial, need, found, would, lists)
        return json_text(made)
    return order_text.as_text(register.answers, asked.query, need, found, would, lists)


def unanswered(register: OpenRegister, query: str, why: LookupError, as_json: bool) -> str:
    """That a query cannot be answered is an answer too; of an unknown number, with what to try."""
    found = suggestions(register.asker, query) if isinstance(why, UnknownNumber) else ()
    if as_json:
        return json_text(order_json.unanswered(query, str(why), found))
    return order_text.unanswered(str(why), found)
