"""Part numbers: identity and addresses."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.part_numbers import PartKey, folded, maker_id
from tests.support.rows import each_row

numbers = st.text(st.characters(blacklist_categories=["Cs", "Cc"]), min_size=1, max_size=12)


@given(numbers, numbers)
def test_two_numbers_share_a_slug_only_if_they_are_one(a: str, b: str) -> None:
    one, other = PartKey.of("x", a), PartKey.of("x", b)
    assert (one.slug == other.slug) == (one == other)


@given(numbers)
def test_slugs_are_safe_in_addresses_and_on_every_disk(number: str) -> None:
    slug = PartKey.of("x", number).slug
    assert re.fullmatch(r"[a-z0-9_.~-]*", slug)
    assert not slug.startswith(".")
    assert not slug.endswith(".")


def test_reserved_names_are_set_apart() -> None:
    assert PartKey.of("x", "NUL").slug == "~nul"
    assert PartKey.of("x", "con.1").slug == "~con.1"
    assert PartKey.of("x", "index").slug == "~index"


def test_case_and_runs_of_spaces_do_not_make_another_number() -> None:
    assert PartKey.of("x", "wh  1180") == PartKey.of("x", "WH 1180")
    assert PartKey.of("x", "0012") != PartKey.of("x", "12")


def test_maker_ids() -> None:
    assert maker_id("Wexmoor Engine Works") == "wexmoor-engine-works"
    assert maker_id("Müller & Söhne") == "muller-sohne"
    assert maker_id("??") == "maker"


@each_row(
    ("number", "slug"),
    [
        ("WH-1180", "wh-1180"),
        ("12.5", "12.5"),
        ("wh 1180", "wh_1180"),
        ("a_b", "a~5fb"),
        ("12/3", "12~2f3"),
        ("7 é-b.", "7_~c3~a9-b~2e"),
        (".5", "~.5"),
        ("5.", "5~2e"),
        ("con.", "~con~2e"),
        ("lpt1 b", "lpt1_b"),
    ],
)
def test_an_address_stays_what_it_once_was(number: str, slug: str) -> None:
    """Addresses live for decades: each of these is a promise."""
    assert PartKey.of("x", number).slug == slug


@given(st.text(st.characters(max_codepoint=127)).filter(lambda text: text == text.strip()))
def test_a_number_of_plain_letters_takes_a_short_way_to_the_same(number: str) -> None:
    assert folded(f"{number}ж") == f"{folded(number)}ж"
