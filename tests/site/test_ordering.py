"""What a part's page tells of its order beside the answer."""

from __future__ import annotations

from spanbook.site import addresses
from spanbook.site.ordering import of_part
from tests.support.demo import shown


def test_every_number_of_the_answer_has_its_name_where_one_is_recorded() -> None:
    site = shown()
    by_address = {addresses.of_part(part.key): part for part in site.register.parts.values()}
    told = 0
    for part in site.register.parts.values():
        ordered = of_part(site, part)
        for line in (line for way in ordered.ways for line in way.lines):
            other = by_address[line.link.address]
            assert line.name == other.name
        for leaf in (leaf for way in site.answers.ordering.of(part.key).alternatives for leaf in way.leaves):
            other = site.register.parts[leaf.key]
            if other is not part:
                assert f"{other.number} {other.name}".strip() in ordered.answer
                told += bool(other.name)
    assert told > 40
