from __future__ import annotations

import pytest

from spanbook.ground.language import speaking
from spanbook.ground.years import Begin, Part, Years
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


def test_the_place_in_a_year_is_told_as_the_numbers_have_it() -> None:
    assert years_words(Years(1933, 1933), Part.EARLY) == "1933, early by its number"
    assert years_words(Years(1933, 1934), Part.LATE) == "1933 to 1934"


def test_years_in_german() -> None:
    works = Years.of_works(1931, 1931, Begin(10, before=True))
    assert years_words(works) == "1931 by the works' year (October 1930 to September 1931)"
    with speaking("de"):
        assert years_words(Years(1933, 1933), Part.EARLY) == "1933, der Nummer nach früh im Jahr"
        assert years_words(works) == "1931 nach dem Jahr des Werks (Oktober 1930 bis September 1931)"
