"""Photographs of teardowns stand on the page of what they show, with whose they are."""

from __future__ import annotations

from spanbook.answers.answers import Answers
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around
from spanbook.site.photographs import Shown
from tests.support.registers import lid, record, register

FOUND = (
    "kind: teardown\nid: xa-3\ndate: 2024\nseen-by: merrin\nserial: XA 3\nseries: xa\n"
    "condition: untouched\nfound:\n"
    "- {position: cover, assembly: lid, photographs: [{file: lid.jpg, shows: Its nuts, licence: CC0-1.0}]}\n"
    "- {position: drain, photographs: [{file: drain.jpg, shows: A plug}]}\n"
)
SHELF = {
    name: (Shown(f"photographs/{name}-480.webp", 480, 360), Shown(f"photographs/{name}-960.webp", 960, 720))
    for name in ("lid.jpg", "drain.jpg")
}


def pages() -> dict[str, str]:
    made = register(
        lid("lid", "first: 1, last: 9"),
        lid("other", "first: 10, last: 20"),
        record(FOUND, "teardown", "xa-3"),
    )
    site = Site(Answers(made), SHELF)
    return {page.address: page.to_html(Around()) for page in views.all_pages(site)}


def test_an_assembly_shows_what_was_photographed_of_it_and_nothing_else() -> None:
    made = pages()
    page = made["assemblies/lid/"]
    assert page.count('<figure class="picture sb-photograph">') == 1
    figure = page.partition('<figure class="picture')[2].partition("</figure>")[0]
    assert 'src="../../photographs/lid.jpg-960.webp"' in figure
    assert 'alt="Its nuts"' in figure
    assert '<a href="../../teardowns/xa-3/">XA 3, seen 2024 by merrin</a>' in figure
    assert "(Photograph by merrin, CC0-1.0)" in figure
    assert "sb-photograph" not in made["assemblies/other/"]


def test_a_teardown_shows_all_of_its_own() -> None:
    assert pages()["teardowns/xa-3/"].count('<figure class="picture sb-photograph">') == 2
