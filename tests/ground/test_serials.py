"""Serial numbers in every spelling that a plate, a forum or a tired reader gives them."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.serials import MOST_DIGITS, MOST_UNREADABLE, Stamp, Worn, fold
from tests.support.rows import each_row
from tests.support.stamps import stamp_of

ENDS = [("HK ", ""), ("", "S"), ("DX.", ""), ("WH-", "/B")]
STAMPS = [stamp_of(text) for text in ("HK {number}", "{number:4}S", "DX.{number:3}", "WH-{number}/B")]
numbers = st.integers(0, 999_999)


@given(st.sampled_from(STAMPS), numbers)
def test_what_is_shown_reads_back(stamp: Stamp, number: int) -> None:
    assert stamp.read(stamp.show(number)) == number


@given(st.sampled_from(list(zip(STAMPS, ENDS, strict=True))), numbers, st.data())
def test_case_spaces_dots_dashes_and_noughts_make_no_difference(
    stamped: tuple[Stamp, tuple[str, str]], number: int, data: st.DataObject
) -> None:
    stamp, (prefix, suffix) = stamped
    text = f"{prefix}{data.draw(st.sampled_from(['', '0', '00']))}{number}{suffix}"
    joints = data.draw(st.lists(st.sampled_from(["", " ", ".", "-", "–", "\u00a0"]), min_size=len(text)))
    spelled = "".join(c + joint for c, joint in zip(text, joints, strict=False))
    assert stamp.read(data.draw(st.sampled_from([spelled.lower(), spelled.upper()]))) == number


@given(st.sampled_from(STAMPS), numbers, st.data())
def test_a_worn_number_may_be_itself(stamp: Stamp, number: int, data: st.DataObject) -> None:
    shown = stamp.show(number)
    digits = [i for i, c in enumerate(shown) if c.isdigit()]
    at = data.draw(st.sampled_from(digits))
    assert number in set(stamp.may_be(shown[:at] + "?" + shown[at + 1 :]))


@given(
    st.sampled_from([*STAMPS, stamp_of("7-{number}"), stamp_of("{number}/7A")]),
    st.text("hkdxws7859?-/ab. ", max_size=8),
    st.integers(0, 8),
)
def test_what_is_read_begins_as_a_stamp_may(stamp: Stamp, text: str, length: int) -> None:
    if stamp.worn(text):
        assert stamp.may_begin(fold(text)[:length])


def test_a_stamp_is_told_by_its_first_characters() -> None:
    stamp = stamp_of("HK {number}")
    assert [stamp.may_begin(one) for one in ("", "h", "hk", "hk?", "?k7")] == [True] * 5
    assert [stamp.may_begin(one) for one in ("x", "h7", "hx", "hka", "??a")] == [False] * 5


@each_row("text", ["", "HK", "588", "HK 58x", "HM 588", "HK 5²8", "HK -"])
def test_other_texts_are_not_of_the_series(text: str) -> None:
    assert stamp_of("HK {number}").read(text) is None


def test_worn_digits_are_listed_in_order_and_too_many_are_no_reading() -> None:
    stamp = stamp_of("HK {number}")
    assert list(stamp.may_be("hk 5?8")) == [508, 518, 528, 538, 548, 558, 568, 578, 588, 598]
    assert list(stamp.may_be("?K 12")) == [12]
    assert list(stamp.may_be("HK ?????")) == []


@given(st.text("0123456789????", min_size=1, max_size=6), st.integers(0, 2_000_000))
def test_the_lowest_from_a_number_on_is_the_lowest_of_those_listed(digits: str, number: int) -> None:
    if worn := stamp_of("{number}").worn(digits):
        listed = [n for n in stamp_of("{number}").may_be(digits) if n >= number]
        assert worn[0].first_from(number) == (listed[0] if listed else None)


@pytest.mark.parametrize("text", ["HK " + "9" * 5000, "HK " + "0" * 5000 + "1", "HK ?" + "9" * 5000])
def test_thousands_of_digits_are_no_number(text: str) -> None:
    assert stamp_of("HK {number}").read(text) is None
    assert list(stamp_of("HK {number}").may_be(text)) == []


@pytest.mark.parametrize("text", ["HK", "HK {number} {number}", "HK {n}", "{number:10}"])
def test_other_stamps_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match="number"):
        stamp_of(text)


@each_row("digits", ["".join(each) for n in (1, 2, 3) for each in product("?059", repeat=n)])
def test_the_first_number_from_another_on(digits: str) -> None:
    every = list(stamp_of("{number}").may_be(digits))
    for number in (-1, 0, 1, 4, 5, 6, 9, 10, 49, 50, 55, 60, 95, 99, 100, 499, 500, 505, 590, 951, 999, 1000):
        assert Worn(digits).first_from(number) == min((n for n in every if n >= number), default=None)


def test_a_number_is_read_between_prefix_and_suffix() -> None:
    stamp = stamp_of("HK {number:3}S")
    assert (stamp.show(7), stamp.show(1234)) == ("HK 007S", "HK 1234S")
    assert stamp.read("h?7s") == 7  # what cannot be read of the prefix may be the prefix
    assert stamp_of("HK {number}").show(7) == "HK 7"
    for other in ("HK 7T", "HX 7S", "HK S", "HKS", "HK 5?S", "7"):
        assert stamp.read(other) is None


def test_how_much_may_be_unreadable_and_how_long_a_number_is() -> None:
    stamp = stamp_of("HK {number}")
    assert stamp.worn("HK " + "?" * MOST_UNREADABLE) == (Worn("?" * MOST_UNREADABLE),)
    assert stamp.worn("HK " + "?" * (MOST_UNREADABLE + 1)) == ()
    assert stamp.worn("HK " + "1" * MOST_DIGITS) == (Worn("1" * MOST_DIGITS),)
    assert stamp.worn("HK " + "1" * (MOST_DIGITS + 1)) == ()
