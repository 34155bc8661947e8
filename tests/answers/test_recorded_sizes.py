from __future__ import annotations

import pytest

from spanbook.answers.recorded_sizes import by_sizes, dimension_of, excluded, recorded_standards
from spanbook.answers.sizes_asked import Asked, sizes
from spanbook.answers.sizing import Off
from spanbook.ground.standards import Dimension, Sort, named, standards
from spanbook.reading.records import Size
from tests.support.registers import record, register
from tests.support.rows import each_row


def a_size(
    what: str,
    value: str,
    unit: str = "mm",
    *,
    to: str | None = None,
    worn: bool = False,
    standard: str | None = None,
) -> Size:
    return Size(what, None, value, unit, to, None, "worn" if worn else None, standard)


@each_row(
    ("text", "name"),
    [
        ("5/16 BSW", "5/16 BSW"),
        ("5/16  bsw", "5/16 BSW"),
        ("M8", "M8"),
        ("M10×1.25", "M10x1.25"),
        ("6203", "6203"),
        ("ISO 15 6203", "6203"),
        ("AS568-029", "AS568 -029"),
        ("No. 100", "No. 100"),
        ("3/8 W jaw", "3/8 W"),
    ],
)
def test_a_standard_is_found_by_the_trades_words(text: str, name: str) -> None:
    found = named(text)
    assert found
    assert found.name == name


def test_no_two_standard_sizes_share_a_name_and_nonsense_has_none() -> None:
    names = [one.name for one in standards() if one.sort in (Sort.THREAD, Sort.BEARING, Sort.O_RING)]
    assert len(names) == len(set(names))
    assert named("9/7 XYZ") is None


def test_a_size_far_off_its_standard_excludes_it() -> None:
    assert excluded(a_size("Diameter", "0.310", "in", standard="5/16 BSW")) is None
    over = excluded(a_size("Diameter", "0.370", "in", standard="5/16 BSW"))
    assert over
    assert over.difference.off is Off.OVER
    assert excluded(a_size("Diameter", "0.310", "in", standard="9/7 XYZ")) is None
    assert excluded(a_size("Colour", "0.370", "in", standard="5/16 BSW")) is None
    assert excluded(a_size("Diameter", "8", "psi", standard="5/16 BSW")) is None


def test_wear_explains_what_is_smaller_unless_it_is_new() -> None:
    worn = a_size("Diameter", "7.4", worn=True, standard="5/16 BSW")
    assert excluded(worn) is None
    new = Size("Diameter", None, "7.4", "mm", None, None, "new", "5/16 BSW")
    assert excluded(new)


def test_an_upper_end_counts() -> None:
    assert excluded(a_size("Diameter", "7.9", to="9.5", standard="5/16 BSW")) is None
    assert excluded(a_size("Diameter", "9", to="9.5", standard="5/16 BSW"))


@pytest.mark.parametrize(
    ("what", "sort", "dimension"),
    [
        ("Bore", Sort.BEARING, Dimension.INSIDE),
        ("Outside diameter", Sort.BEARING, Dimension.OUTSIDE),
        ("Outside diameter", Sort.THREAD, Dimension.DIAMETER),
        ("Width across flats", Sort.JAW, Dimension.ACROSS),
        ("Gap between the discs", Sort.SIEVE, Dimension.GAP),
        ("Length", Sort.BEARING, None),
    ],
)
def test_words_say_which_dimension(what: str, sort: Sort, dimension: Dimension | None) -> None:
    assert dimension_of(what, sort) is dimension


def test_a_bearing_is_told_by_its_three_sizes_and_not_by_two() -> None:
    three = [a_size("Bore", "17"), a_size("Outside diameter", "40"), a_size("Width", "12")]
    found = by_sizes(three, {})
    assert found
    assert found.likely[0].standard.name == "6203"
    assert by_sizes(three[:2], {}) is None
    assert by_sizes([*three, a_size("Bore of the seal", "15")], {}) is None


def test_a_thread_is_told_by_its_diameter_and_its_threads_as_the_command_tells_it() -> None:
    """The ranking is that of `spanbook size "0.310 in" --per-inch 18`."""
    both = [a_size("Diameter of the thread", "0.310", "in"), a_size("Threads", "18", "threads/in")]
    found = by_sizes(both, {})
    (asked,) = sizes(Asked("0.310 in", per_inch=18), {})
    assert found
    assert [one.standard.name for one in found.likely] == [one.standard.name for one in asked.likely]
    assert {one.standard.name for one in found.likely[:2]} == {"5/16 UNC", "5/16 BSW"}
    assert by_sizes(both[:1], {}) is None
    assert by_sizes(both[1:], {}) is None
    nut = by_sizes([a_size("Bore of the thread", "0.265", "in"), both[1]], {})
    assert nut
    assert nut.likely[0].standard.name == "5/16 UNC"


def test_threads_counted_with_a_rule_say_less_than_a_gauge_and_none_say_nothing() -> None:
    wide = a_size("Threads", "17", "threads/in", to="19")
    assert by_sizes([a_size("Diameter of the thread", "0.310", "in"), wide], {})
    assert by_sizes([a_size("Diameter", "8"), a_size("Threads", "0", "threads/in")], {}) is None


def test_a_head_is_told_by_its_flats_and_of_a_bolt_the_thread_is() -> None:
    flats = a_size("Across the flats", "0.525", "in")
    head = by_sizes([flats, a_size("Length", "1 1/2", "in")], {})
    assert head
    assert head.likely[0].standard.sort is Sort.JAW
    bolt = by_sizes([flats, a_size("Diameter", "0.310", "in"), a_size("Threads", "18", "threads/in")], {})
    assert bolt
    assert bolt.likely[0].standard.sort is Sort.THREAD


def test_what_is_recorded_counts_each_part_once() -> None:
    def part(id_: str, *names: str) -> tuple[str, str, str]:
        sizes = ", ".join(f"{{what: Diameter, value: '8', unit: mm, standard: {name}}}" for name in names)
        text = f"{{kind: part, id: {id_}, number: P-{id_}, by: firm, name: Bolt, sizes: [{sizes}]}}"
        return text, "part", id_

    made = register(
        record(*part("a", "5/16 BSW", "5/16 BSW")),
        record(*part("b", "3/8 BSW")),
        record(*part("c", "5/16 UNC")),
    )
    assert recorded_standards(made) == {Sort.THREAD: {"BSW": 2, "UNC": 1}}
