"""What somebody holds, as a JSON object (`schema/answer-tell.json`)."""

from __future__ import annotations

from typing import Any

from spanbook.answers.signs.key import Key, Likely, Look, Seen
from spanbook.answers.signs.things import Thing
from spanbook.reading.records import Assembly

Object = dict[str, Any]


def as_object(key: Key, seen: Seen) -> Object:
    """Shares from 0 to 1, none above what is ever said; gains in bits."""
    told = key.told(seen)
    return {
        "query": key.position,
        "kind": "tell",
        "answers": dict(seen.answers),
        "likely": [_likely(one) for one in told.likely],
        "look": [_look(one) for one in told.looks],
        "alike": [_thing(one) for one in told.alike],
    }


def _likely(one: Likely) -> Object:
    return {
        "thing": _thing(one.thing) if one.thing else None,
        "share": round(one.stated, 6),
        "agrees": [sign.id for sign in one.agrees],
        "against": [sign.id for sign in one.against],
    }


def _thing(thing: Thing) -> Object:
    of = thing.of
    if isinstance(of, Assembly):
        return {"assembly": of.id, "title": of.title}
    return {"number": of.number, "by": of.key.by, "title": of.name}


def _look(one: Look) -> Object:
    return {
        "sign": one.sign.id,
        "asks": one.sign.asks,
        "look": one.sign.look,
        "answers": list(one.sign.answers),
        "gain": round(one.gain, 6),
    }
