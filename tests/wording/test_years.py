from __future__ import annotations

import pytest

from spanbook.ground.years import Years
from spanbook.wording.years import years_words


@pytest.mark.parametrize(
    ("years", "said"),
    [
        (Years(1931, 1931), "1931"),
        (Years(1931, 1933), "1931 to 1933"),
        (Years(1933, None), "1933 or later"),
    ],
)
def test_the_years_a_number_may_be_of(years: Years, said: str) -> None:
    assert years_words(years) == said
