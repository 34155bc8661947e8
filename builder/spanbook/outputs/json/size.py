"""Likely standard sizes, as a JSON object (`schema/answer-size.json`)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from spanbook.answers.sizing import Likely, Measure, Sized
from spanbook.wording.sizing import caution_words, next_words

Object = dict[str, Any]


def as_object(text: str, found: Sequence[Sized]) -> Object:
    """What it may be, a list a sort of thing, the likeliest first; sizes in mm, angles in degrees."""
    return {
        "query": text,
        "kind": "size",
        "sorts": [_sort(one) for one in found],
        "cautions": list(caution_words(found)),
    }


def _sort(one: Sized) -> Object:
    measure = one.next
    return {
        "sort": str(one.sort),
        "recorded": dict(sorted(one.recorded.items())),
        "likely": [_likely(likely) for likely in one.likely],
        "next": measure and _measure(measure),
        "next-words": next_words(one),
    }


def _measure(one: Measure) -> Object:
    return {"dimension": str(one.what), "tool": str(one.tool), "parts": round(one.parts, 4)}


def _likely(one: Likely) -> Object:
    standard = one.standard
    return {
        "standard": standard.name,
        "series": standard.series,
        "probability": round(one.probability, 4),
        "dimensions": [
            {"dimension": str(what), "low": round(zone.low, 4), "high": round(zone.high, 4)}
            for what, zone in standard.zones
        ],
        "differences": [
            {"dimension": str(d.what), "off": str(d.off), "by": round(d.by, 4)} for d in one.differences
        ],
        "source": standard.source,
    }
