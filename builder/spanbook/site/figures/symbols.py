"""Symbols of the things that oil, water or current goes through, after those of ISO 1219-1 (from memory).

Each is drawn about its own middle, 15 units either way, for something that comes in above and goes out below.
"""

from __future__ import annotations

from collections.abc import Mapping

_DIAMOND = "M0 -15L15 0L0 15L-15 0Z"
_CIRCLE = "M-14 0a14 14 0 1 0 28 0a14 14 0 1 0 -28 0Z"
_SMALL = "M-6 0a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z"
_SQUARE = "M-12 -12H12V12H-12Z"

# The outline that hides the line behind it, and the strokes upon that.
SYMBOLS: Mapping[str, tuple[str, str]] = {
    "pipe": ("", ""),
    "jet": ("M-12 -8H12V8H-12Z", "M-8 -8Q-2 0 -8 8M8 -8Q2 0 8 8"),
    "gap": (_SQUARE, "M-12 -6H12M-12 0H12M-12 6H12"),
    "element": (_DIAMOND, "M-11 0H-5M-3 0H3M5 0H11"),
    "strainer": (_DIAMOND, "M-11 0H-8M-6 0H-3M-1 0H1M3 0H6M8 0H11"),
    "packing": (_DIAMOND, "M-7 0L-3 -4L1 3L5 -3L8 1"),
    "clearance": (_CIRCLE, _SMALL),
    "cooler": (_DIAMOND, "M-20 0H-5L-9 -4M-5 0L-9 4M5 0H20L16 -4M20 0L16 4"),
    "pump": (_CIRCLE, "M-7 3L0 14L7 3Z"),
    "relief": (_SQUARE, "M0 -12V8M-4 3L0 9L4 3M12 0H14L16 -4L19 4L22 -4L24 0"),
    "check": ("M-14 -4L0 12L14 -4Z", "M-6 -4a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z"),
    "cock": (_CIRCLE, "M-9 -9L9 9M9 -9L-9 9"),
    "plug": (_SQUARE, "M-8 -4H8M0 -4V8"),
    "joint": (_SQUARE, "M-8 -3H8M-8 3H8"),
    "battery": ("M-14 -6H14V6H-14Z", "M-14 -5H14M-7 5H7"),
    "winding": ("M-8 -14H8V14H-8Z", "M-8 -9L8 -5L-8 -1L8 3L-8 7L8 11"),
    "contact": ("M-10 -12H10V12H-10Z", "M0 -12V-6L8 6M0 12V6"),
}
