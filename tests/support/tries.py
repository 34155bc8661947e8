"""How many worlds to draw, or examples to try: all, or what the everyday command takes of them."""

from __future__ import annotations

from hypothesis import settings


def tries(number: int) -> int:
    """Of a hundred as many as this run's profile (tests/conftest.py) tries of any property; at least one."""
    return max(1, number * settings().max_examples // 100)
