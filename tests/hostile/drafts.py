"""What a browser may hold where a draft should be, and ids that an address may ask for."""

from __future__ import annotations

import json


def _draft(values: object, **more: object) -> str:
    return json.dumps({"from": None, "base": None, "old": None, "values": values, **more})


UNREAD = "could not be read"
PARTLY = "has no place for some of it"

# In place of a teardown's draft: what must be told. The text itself must still be there, put aside.
DRAFTS = {
    "no JSON": ("{", UNREAD),
    "nothing": ("", UNREAD),
    "null": ("null", UNREAD),
    "a number": ("7", UNREAD),
    "a text": ('"a"', UNREAD),
    "a list": ("[]", UNREAD),
    "no values": ("{}", UNREAD),
    "values that are a list": (_draft([]), UNREAD),
    "values that are null": (_draft(None), UNREAD),
    "a path that is a number": (_draft({}, old=7), UNREAD),
    "a digest that is a list": (_draft({}, **{"from": ["a"]}), UNREAD),
    "a base that is a text": (_draft({}, base="a"), UNREAD),
    "levels by the thousand": ("[" * 5000, UNREAD),
    "a field nobody knows": (_draft({"serial": "HK 600", "gone": "x"}), PARTLY),
    "a field named like a script's own": ('{"values": {"__proto__": {"a": 1}, "serial": "HK 600"}}', PARTLY),
    "a text for a group": (_draft({"serial": "HK 600", "found": "x"}), PARTLY),
    "a group for a text": (_draft({"serial": {"a": 1}}), PARTLY),
    "nulls in a group": (_draft({"serial": "HK 600", "found": [None, None]}), PARTLY),
    "a word that is no choice": (_draft({"serial": "HK 600", "condition": "shiny"}), PARTLY),
    "groups by the thousand": (_draft({"serial": "HK 600", "found": [{}] * 9000}), PARTLY),
    "a field nobody knows in a group": (_draft({"found": [{"position": "a/b", "gone": "x"}]}), PARTLY),
}

# No record has such an id, and every object of a script has such a key.
_KEYS = ("__proto__", "constructor", "toString", "hasOwnProperty", "valueOf")
IDS = [*_KEYS, "../x", "<b>x</b>", "a" * 5000, "𒐫", "%00"]

# What may stand behind the address of a form, and what comes to stand in the fields.
ADDRESSES = {
    "?found=1": [],
    "?id=y&serials=x": [],
    "?__proto__=1&constructor=2": [],
    "?position=a&serial=%0Ab": ["a", "b"],
    "?serial=" + "x" * 5000: ["x" * 200],
}
