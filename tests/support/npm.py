"""Tools and schemas that come by npm, asked for only by the tests that use them."""

from __future__ import annotations

from pathlib import Path

_TESTS = Path(__file__).parents[1]


def npm(path: str) -> Path:
    """A file or folder below node_modules; without it the test fails and says what to run."""
    found = _TESTS / "node_modules" / path
    assert found.exists(), f"{path} is not installed; run: npm ci --ignore-scripts --prefix tests"
    return found
