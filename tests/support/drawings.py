"""Drawings for tests."""

from __future__ import annotations

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100"{}>{}</svg>'
LINE = '<path fill="none" stroke="black" d="M10 10H90"/>'


def svg(inside: str = LINE, more: str = "") -> bytes:
    """A sheet of 200 by 100 with something in it; `more` are attributes of the sheet."""
    return HEAD.format(more, inside).encode()
