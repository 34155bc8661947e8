"""A small world in which the rows of sheets are drafted."""

from __future__ import annotations

import pytest

from spanbook.register.model import Register
from tests.support.drafted import world


@pytest.fixture
def register() -> Register:
    return world()
