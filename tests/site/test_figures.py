"""Figures on pages: the pins stand beside what they point out, never on one another, and lead to the list."""

from __future__ import annotations

import io
import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from spanbook.answers.answers import Answers
from spanbook.reading.records import Record
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.drawings import draw
from spanbook.site.figures.pins import APART, NARROW, PIN, Sheet, Spot, sheet
from spanbook.site.page import Around
from spanbook.site.photographs import develop
from tests.support.drawings import svg
from tests.support.registers import lid, record, register

SHARES = st.floats(0, 1)
SPOTS = st.lists(st.builds(Spot, st.integers(1, 60), SHARES, SHARES), max_size=60)
SIDES = st.integers(400, 5000)


def narrow(laid: Sheet) -> tuple[float, float]:
    """Width and height on a telephone, which no figure is laid out to be narrower than."""
    width = min(NARROW, laid.width)
    return width, laid.height * width / laid.width


@given(SIDES, SIDES, SPOTS)
def test_on_a_telephone_no_pin_touches_another_or_leaves_the_sheet(
    width: int, height: int, spots: list[Spot]
) -> None:
    laid = sheet(width, height, spots)
    across, along = narrow(laid)
    assert len(laid.pins) == len(spots)
    at = [(pin.at_x * across / 100, pin.at_y * along / 100) for pin in laid.pins]
    assert all(PIN / 2 <= x <= across - PIN / 2 + 1 and PIN / 2 - 1 <= y <= along for x, y in at)
    for side in {round(x) for x, _ in at}:
        places = sorted(y for x, y in at if round(x) == side)
        assert all(below - above >= PIN for above, below in pairwise(places))


@given(SIDES, SIDES, SPOTS)
def test_a_leader_ends_on_its_spot(width: int, height: int, spots: list[Spot]) -> None:
    laid = sheet(width, height, spots)
    left, top, across, along = laid.box
    ends = sorted((pin.line, pin.x * laid.width / 100, pin.y * laid.height / 100) for pin in laid.pins)
    wanted = sorted((spot.line, left + spot.x * across, top + spot.y * along) for spot in spots)
    for (line, x, y), (of, u, v) in zip(ends, wanted, strict=True):
        assert line == of
        assert (x, y) == pytest.approx((u, v), abs=2)


@given(SIDES, SIDES, SPOTS)
def test_the_picture_keeps_its_shape_and_stands_on_its_sheet(
    width: int, height: int, spots: list[Spot]
) -> None:
    laid = sheet(width, height, spots)
    left, top, across, along = laid.box
    assert left >= 0
    assert top >= 0
    assert left + across <= laid.width + 1
    assert top + along <= laid.height + 1
    assert abs(across * height - along * width) <= width + height


def test_pins_stand_on_the_nearer_side_where_both_have_room() -> None:
    spots = [Spot(1, 0.1, 0.5), Spot(2, 0.9, 0.5), Spot(3, 0.05, 0.1), Spot(4, 0.95, 0.1)]
    sides = {pin.line: pin.at_x < 50 for pin in sheet(1000, 1000, spots).pins}
    assert sides == {1: True, 2: False, 3: True, 4: False}


def test_a_pin_stands_level_with_its_spot_where_there_is_room() -> None:
    (pin,) = sheet(1000, 1000, [Spot(1, 0.2, 0.37)]).pins
    assert pin.at_y == pytest.approx(pin.y)


def test_many_pins_make_the_sheet_taller_not_the_pins_closer() -> None:
    laid = sheet(5000, 500, [Spot(n, n / 40, 0.5) for n in range(40)])
    _, along = narrow(laid)
    assert along >= 19 * APART


LID = (
    "kind: assembly\nid: lid\ntitle: Lid\nposition: cover\nserials:\n- {series: xa, first: 1, last: 9}\n"
    "parts:\n- {number: P-1, name: Bolt, quantity: 4}\n- {number: P-2, name: Cap}\n"
    "figures:\n- file: lid.svg\n  shows: The lid <taken> apart\n  made-by: merrin\n  licence: CC0-1.0\n"
    "  points:\n  - {x: 100, y: 200, number: P-1}\n  - {x: 900, y: 200, number: P-1}\n"
    "  - {x: 500, y: 900, number: P-2}\n  - {x: 500, y: 950, shows: The witness mark}\n"
)


def page(*records: Record, content: Path, address: str) -> str:
    made = register(*records)
    shelf, _ = develop(made, content)
    album, _ = draw(made, content)
    site = Site(Answers(made), shelf, album)
    (found,) = (one for one in views.all_pages(site) if one.address == address)
    return found.to_html(Around())


@pytest.fixture
def content(tmp_path: Path) -> Path:
    (tmp_path / "drawings").mkdir()
    (tmp_path / "photographs").mkdir()
    (tmp_path / "drawings/lid.svg").write_bytes(svg())
    return tmp_path


def test_each_point_has_a_pin_and_each_thing_one_line(content: Path) -> None:
    html = page(record(LID, "assembly", "lid"), content=content, address="assemblies/lid/")
    (figure,) = re.findall(r'<figure class="picture sb-figure".*?</figure>', html, re.DOTALL)
    pins = re.findall(
        r'<a class="sb-pin (sb-n\d)" id="(pin-1-\d)" href="#(item-1-\d)" aria-label="(.*?)">', figure
    )
    assert sorted(pins, key=lambda pin: (pin[2], pin[0])) == [
        *[("sb-n1", pin, "item-1-1", "1: P-1 Bolt") for pin in sorted(p[1] for p in pins if p[0] == "sb-n1")],
        *[("sb-n2", p[1], "item-1-2", "2: P-2 Cap") for p in pins if p[0] == "sb-n2"],
        *[("sb-n3", p[1], "item-1-3", "3: The witness mark") for p in pins if p[0] == "sb-n3"],
    ]
    assert len({pin[1] for pin in pins}) == len(pins) == 4
    assert re.findall(r'<li class="(sb-n\d)" id="(item-1-\d)">', figure) == [
        ("sb-n1", "item-1-1"),
        ("sb-n2", "item-1-2"),
        ("sb-n3", "item-1-3"),
    ]
    assert 'href="../../parts/example-works/p-1/"' in figure
    assert 'aria-label="The lid &lt;taken&gt; apart"' in figure
    assert "(Drawn by merrin, CC0-1.0)" in figure
    assert '<a href="../../drawings/lid.svg">' in figure
    assert 'd="M250 250l2000 0"' in figure


def test_what_is_renewed_has_a_pin_in_red_and_a_sentence(content: Path) -> None:
    told = (
        "kind: strip-down\nid: lid-m\nassembly: lid\ndate: 2024\nseen-by: m\nsteps:\n"
        "- {id: cap, do: Lift it, frees: [{number: P-2}], renew: true}\n"
    )
    made = (record(LID, "assembly", "lid"), record(told, "strip-down", "lid-m"))
    html = page(*made, content=content, address="assemblies/lid/")
    assert re.findall(r'class="sb-pin (\S+) sb-renewed"', html) == ["sb-n2"]
    assert "A pin in red: renewed whenever it comes off." in html
    plain = page(record(LID, "assembly", "lid"), content=content, address="assemblies/lid/")
    assert "sb-renewed" not in plain
    assert "A pin in red" not in plain


def test_the_stack_is_drawn_where_there_is_no_drawing(content: Path) -> None:
    stack = "stack:\n- {number: P-1, shape: bolt}\n"
    with_both = page(record(LID + stack, "assembly", "lid"), content=content, address="assemblies/lid/")
    alone = LID.partition("figures:")[0] + stack
    assert "sb-stack" not in with_both
    assert "sb-stack" in page(record(alone, "assembly", "lid"), content=content, address="assemblies/lid/")


TURNS = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


# Developing a picture takes long: every day one as it is, one turned and one mirrored.
@pytest.mark.parametrize(
    "held", [held if held in (1, 6, 7) else pytest.param(held, marks=pytest.mark.slow) for held in TURNS]
)
def test_points_are_those_of_the_upright_picture_however_the_camera_was_held(
    held: int, content: Path
) -> None:
    """EXIF's eight orientations (CIPA DC-008): the page is the same, and the spot lies on the same thing."""
    upright = Image.new("RGB", (600, 400), (200, 30, 30))
    upright.paste((30, 30, 200), (480, 40, 560, 120))  # blue about (867, 200)
    turn = TURNS[held]
    stored = upright if turn is None else upright.transpose(turn)
    exif = Image.Exif()
    exif[0x0112] = held
    out = io.BytesIO()
    stored.save(out, "PNG", exif=exif)
    (content / "photographs/lid.png").write_bytes(out.getvalue())
    text = (
        LID.partition("figures:")[0]
        + "figures:\n- file: lid.png\n  shows: Lid\n  licence: CC0-1.0\n"
        + "  points: [{x: 867, y: 200, number: P-2}]\n"
    )
    made = register(record(text, "assembly", "lid"))
    shelf, files = develop(made, content)
    (shown,) = {(one.width, one.height) for one in shelf["lid.png"][-1:]}
    assert shown == (600, 400)
    with Image.open(files[shelf["lid.png"][-1].address]) as seen:
        spot = seen.convert("RGB").getpixel((round(0.867 * 600), round(0.2 * 400)))
    assert isinstance(spot, tuple)
    assert spot[2] > spot[0]
    html = page(record(text, "assembly", "lid"), content=content, address="assemblies/lid/")
    left, top, across, along = sheet(600, 400, [Spot(1, 0.867, 0.2)]).box
    assert f'<image x="{left}" y="{top}" width="{across}" height="{along}"' in html


def test_a_parts_page_shows_where_it_is_with_a_ring(content: Path) -> None:
    html = page(record(LID, "assembly", "lid"), content=content, address="parts/example-works/p-1/")
    (figure,) = re.findall(r'<figure class="picture sb-ringed">.*?</figure>', html, re.DOTALL)
    assert re.findall(r'<circle class="sb-ring" cx="(.*?)%" cy="(.*?)%"', figure) == [
        ("10.0", "20.0"),
        ("90.0", "20.0"),
    ]
    assert 'href="../../../assemblies/lid/#figure-1"' in figure
    assert 'src="../../../drawings/lid-svg-480.webp" width="240" height="120"' in figure


def test_a_part_that_no_figure_points_out_has_no_ring(content: Path) -> None:
    text = LID.replace("x: 500, y: 900, number: P-2", "x: 500, y: 900, number: P-1")
    html = page(record(text, "assembly", "lid"), content=content, address="parts/example-works/p-2/")
    assert "sb-ringed" not in html


def test_a_parts_own_figures_stand_on_its_page(content: Path) -> None:
    text = (
        "kind: part\nid: cap\nnumber: P-2\nname: Cap\n"
        "figures: [{file: lid.svg, shows: The cap from below, licence: CC0-1.0}]\n"
    )
    made = (record(LID, "assembly", "lid"), record(text, "part", "cap"))
    html = page(*made, content=content, address="parts/example-works/p-2/")
    assert 'aria-label="The cap from below"' in html


def test_assemblies_at_a_position_have_a_small_picture_where_there_is_one(content: Path) -> None:
    made = (record(LID, "assembly", "lid"), lid("bare", "first: 10, last: 20"))
    html = page(*made, content=content, address="positions/cover/")
    assert re.findall(r'<figure class="picture sb-thumb"><a href="(.*?)"', html) == ["../../assemblies/lid/"]
    assert 'class="sb-lines" src="../../drawings/lid-svg-160.webp" width="80" height="40"' in html


def test_the_list_of_machines_shows_those_that_have_a_picture(content: Path) -> None:
    machine = record(
        "kind: machine\nid: launch\ntitle: Launch\nmaker: X\nseries:\n"
        "- {id: xq, stamped: 'XQ {number}', plate: engine, first: 1, last: 9}\n"
        "figures:\n- {file: lid.svg, shows: The launch, licence: CC0-1.0}\n",
        "machine",
        "launch",
    )
    html = page(machine, content=content, address="machines/")
    (shown,) = re.findall(r'<td><img class="sb-in-list sb-lines" src="([^"]+)"[^>]*><a href="([^"]+)"', html)
    assert shown == ("../drawings/lid-svg-160.webp", "../machines/launch/")
    assert html.count("<tr><td>") > 1


def test_small_pictures_of_a_drawing_are_as_large_as_they_say_and_clear_between_lines(content: Path) -> None:
    made = register(record(LID, "assembly", "lid"))
    album, files = draw(made, content)
    for small in album["lid.svg"].rasters:
        with Image.open(io.BytesIO(files[small.address])) as picture:
            assert picture.size == (small.width, small.height)
            alpha = picture.convert("RGBA").getchannel("A")
        on_line, beside = (alpha.getpixel((small.width // 4, small.height * y // 100)) for y in (10, 50))
        assert isinstance(on_line, int)
        assert isinstance(beside, int)
        assert on_line > 80 > 10 > beside


SIGNS = "kind: signs\nsigns:\n- {id: held, asks: How it is held, answers: [four nuts, one bolt]}\n"


def with_sign(id_: str, seen: str, span: str, spot: str) -> Record:
    return record(
        f"kind: assembly\nid: {id_}\ntitle: {id_.capitalize()}\nposition: cover\nserials:\n"
        f"- {{series: xa, {span}}}\nsigns: [{{sign: held, seen: {seen}}}]\n"
        f"parts:\n- {{number: P-1, name: Nut}}\n"
        f"figures: [{{file: lid.svg, shows: {id_}, licence: CC0-1.0, points: [{{x: 250, y: 500{spot}}}]}}]\n",
        "assembly",
        id_,
    )


def side_by_side(content: Path, *assemblies: Record) -> list[tuple[str, str, str]]:
    """The pictures set side by side at the position: where each leads, its answer, and where its ring is."""
    html = page(record(SIGNS, "signs", "signs"), *assemblies, content=content, address="positions/cover/")
    _, _, section = html.partition('<h2 id="apart">')
    return re.findall(
        r'<a class="sb-mount" href="../../(\S+?)".*?cx="(.*?)%".*?<strong>(.*?)</strong>', section, re.DOTALL
    )


def test_pictures_of_a_sign_stand_side_by_side_with_the_spot_ringed(content: Path) -> None:
    one = with_sign("one", "four nuts", "first: 1, last: 9", ", number: P-1, sign: held")
    two = with_sign("two", "one bolt", "first: 10, last: 20", ", sign: held")
    assert side_by_side(content, one, two) == [
        ("assemblies/one/#figure-1", "25.0", "four nuts"),
        ("assemblies/two/#figure-1", "25.0", "one bolt"),
    ]


def test_what_shows_the_same_or_is_not_pointed_out_is_not_set_side_by_side(content: Path) -> None:
    one = with_sign("one", "four nuts", "first: 1, last: 9", ", sign: held")
    same = with_sign("two", "four nuts", "first: 10, last: 20", ", sign: held")
    unsaid = with_sign("two", "one bolt", "first: 10, last: 20", ", number: P-1")
    assert side_by_side(content, one, same) == []
    assert side_by_side(content, one, unsaid) == []


def test_a_pin_says_which_sign_is_to_be_looked_at_and_what_is_seen(content: Path) -> None:
    one = with_sign("one", "four nuts", "first: 1, last: 9", ", number: P-1, sign: held")
    made = (record(SIGNS, "signs", "signs"), one)
    html = page(*made, content=content, address="assemblies/one/")
    assert 'aria-label="1: P-1 Nut; how it is held: four nuts"' in html
