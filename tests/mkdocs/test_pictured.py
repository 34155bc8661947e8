"""Pictures that were saved while a site is served, and those that an edited record shows only now."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from spanbook.answers.answers import Answers
from spanbook.mkdocs.pictured import pictured
from spanbook.reading.files import DRAWINGS, PHOTOGRAPHS
from spanbook.reading.records import Record
from spanbook.site.common import Site
from spanbook.site.drawings import drawings_of, drawn
from spanbook.site.photographs import developed, photographs_of
from tests.support.command import PROJECT
from tests.support.demo import demo

pytestmark = pytest.mark.slow
CONTENT = PROJECT / "content"
REGISTER = demo()
RECORDS = REGISTER.records
PHOTOGRAPH = min(photographs_of(RECORDS))
DRAWING, ANOTHER = sorted(drawings_of(RECORDS))[:2]


def showing(*pictures: str) -> list[Record]:
    return [one for one in RECORDS if (photographs_of([one]) | drawings_of([one])) & set(pictures)]


@cache
def site() -> tuple[Site, dict[str, Path | bytes]]:
    """The demonstration with a few of its pictures, and their files."""
    shelf, photographs = developed([PHOTOGRAPH], CONTENT)
    album, drawings = drawn([DRAWING, ANOTHER], CONTENT)
    return Site(Answers(REGISTER), shelf, album), {**photographs, **drawings}


def test_what_was_saved_is_made_again_and_nothing_else() -> None:
    whole, files = site()
    saved = {f"{PHOTOGRAPHS}{PHOTOGRAPH}", f"{DRAWINGS}{DRAWING}", "assemblies/some.yml"}
    again, made = pictured(whole, (), saved, CONTENT)
    assert (again.shelf, again.album) == (whole.shelf, whole.album)
    widths = {one.address for one in whole.shelf[PHOTOGRAPH]}
    drawn = whole.album[DRAWING]
    assert made.keys() == widths | {drawn.address, *(one.address for one in drawn.rasters)}
    assert made == {address: files[address] for address in made}
    shown = showing(PHOTOGRAPH, DRAWING, ANOTHER)
    assert pictured(whole, shown, {"assemblies/some.yml"}, CONTENT) == (whole, {})


def test_what_a_record_shows_only_now_is_made() -> None:
    whole, files = site()
    bare = Site(whole.answers)
    shows = showing(PHOTOGRAPH, DRAWING)
    again, made = pictured(bare, shows, (), CONTENT)
    assert again.shelf.keys() == photographs_of(shows)
    assert again.album.keys() == drawings_of(shows)
    assert made.items() <= files.items()
