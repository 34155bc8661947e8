"""Addresses that pages and statements had before, and where what stood there stands now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from spanbook.reading.kinds import KINDS
from spanbook.register.led import led_numbers, owners_of
from spanbook.register.model import Register
from spanbook.site import addresses

# What is an entry of a page, by its id.
_ENTRIES = {"caution": addresses.CAUTIONS, "term": addresses.GLOSSARY}


def former_pages(register: Register) -> Mapping[str, str]:
    """Today's address of the page of every address that a page had before."""
    found: dict[str, str] = {}
    for before, now in _pages(register):
        found.setdefault(before, now)
    return found


def _pages(register: Register) -> Iterator[tuple[str, str]]:
    former, sheets = register.former, set(addresses.sheets(register))
    moved = any(sort == "position" for sort, _ in former.ids)
    keys = {parts: set(addresses.with_keys(register, parts=parts)) for parts in (False, True) if moved}
    for (sort, before), now in former.ids.items():
        if sort == "series":
            yield f"{addresses.SERIES}{before}/", f"{addresses.SERIES}{now}/"
            if now in register.series:
                yield f"{addresses.QUESTIONS}{before}/", f"{addresses.QUESTIONS}{now}/"
        elif sort == "position":
            yield addresses.of_position(before), addresses.of_position(now)
            for parts, paths in keys.items():
                if now in paths:
                    yield addresses.of_key(before, parts=parts), addresses.of_key(now, parts=parts)
        elif sort in KINDS and KINDS[sort].paged:
            folder = KINDS[sort].folder
            yield f"{folder}/{before}/", f"{folder}/{now}/"
            if f"{folder}/{now}/strip-down/" in sheets:
                yield f"{folder}/{before}/strip-down/", f"{folder}/{now}/strip-down/"
    for series in register.retired_series.values():
        # What was open in it is open no more; its page says why.
        for id_ in (series.id, *series.formerly):
            yield f"{addresses.QUESTIONS}{id_}/", addresses.of_series(series)
    for path, led in led_numbers(register).items():
        yield addresses.of_number(path), addresses.of_part(led.part.key)
    for part in register.parts.values():
        # A meaning's page goes by the id of its record.
        for id_ in part.record.formerly if part.record and part.key.sense else ():
            yield addresses.of_part(part.key._replace(sense=id_)), addresses.of_part(part.key)
    firms = owners_of(register)
    for number, today in former.numbers.items():
        if today in register.parts and number not in register.parts:
            yield addresses.of_part(number), addresses.of_part(today)
            if number.by not in firms:
                yield addresses.of_owner(number.by), addresses.of_owner(today.by)


def former_anchors(register: Register) -> Mapping[str, Mapping[str, tuple[str, ...]]]:
    """For every page the anchors on it whose statements had others before, with those."""
    found: dict[str, dict[str, tuple[str, ...]]] = {}
    for statement in register.statements:
        if statement.formerly:
            page, _, anchor = addresses.of_statement(statement).partition("#")
            found.setdefault(page, {})[anchor] = statement.formerly
    for (sort, id_), formerly in register.former.ids_of.items():
        if sort in _ENTRIES:
            found.setdefault(_ENTRIES[sort], {})[id_] = formerly
    return found
