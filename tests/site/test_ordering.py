"""What a part's page tells of its order beside the answer."""

from __future__ import annotations

from spanbook.answers.answers import Answers
from spanbook.rules.checking import check_folder
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.ordering import of_part
from tests.conftest import PROJECT


def test_every_number_of_the_answer_has_its_name_where_one_is_recorded() -> None:
    site = Site(Answers(check_folder(PROJECT).register))
    by_address = {addresses.of_part(part.key): part for part in site.register.parts.values()}
    told = 0
    for part in site.register.parts.values():
        ordered = of_part(site, part)
        for link, name in ordered.named:
            other = by_address[link.address]
            assert other is not part
            assert name == other.name
            assert other.number in ordered.answer
        named = {link.address for link, _ in ordered.named}
        for line in (line for way in ordered.ways for line in way.lines):
            other = by_address[line.link.address]
            assert other is part or not other.name or line.link.address in named
        told += len(ordered.named)
    assert told > 40
