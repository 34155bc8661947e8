"""Pictures from strangers: what is taken, what is refused, and what is left in what comes out."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Lock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageOps

from spanbook.ground import images
from spanbook.ground.images import Refused, check, versions
from spanbook.reading import image_cache as darkroom
from spanbook.reading import picture_cache
from spanbook.rules.photographs import refusal_words
from tests.hostile.pictures import PICTURES, grey_of_16_bits, picture, two_in_one
from tests.support.command import IN_OUR_FRAME, PROJECT, project, run
from tests.support.rows import each_row
from tests.support.tries import tries


@pytest.fixture
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of kept pictures, for one test alone."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    darkroom.folder().mkdir(parents=True)
    return darkroom.folder()


SLOW = pytest.mark.slow
SECRET = b"51.5007 N 0.1246 W secret"


def with_exif(orientation: int) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010E] = SECRET.decode()  # the description
    exif.get_ifd(0x8825)[1] = "N"  # the place where it was taken
    return picture(exif=exif.tobytes()) + SECRET


@pytest.mark.parametrize("sort", ["JPEG", *(pytest.param(one, marks=SLOW) for one in ("PNG", "WEBP"))])
def test_three_sorts_are_taken_in_widths_up_to_their_own(sort: str) -> None:
    check(picture(sort))
    made = list(versions(picture(sort)))
    assert [(v.width, v.height) for v in made] == [(160, 96), (480, 288), (960, 576), (1000, 600)]
    for version in made:
        with Image.open(io.BytesIO(version.data)) as image:
            assert (image.format, image.size) == ("WEBP", (version.width, version.height))


def test_a_small_picture_is_never_made_larger() -> None:
    assert [v.width for v in versions(picture(size=(40, 30)))] == [40]


def test_a_picture_is_turned_upright_and_nothing_but_it_comes_out() -> None:
    """EXIF orientation 6 (CIPA DC-008): the first row is the right-hand side."""
    data = with_exif(6)
    assert SECRET in data
    for version in versions(data):
        assert SECRET not in version.data
        assert b"EXIF" not in version.data
        with Image.open(io.BytesIO(version.data)) as image:
            assert not image.getexif()
            assert image.width < image.height
            # The blue quarter, upper left in the file, is upper right.
            corner = image.convert("RGB").crop((image.width - 5, 5, image.width - 4, 6)).tobytes()
            assert corner[2] > corner[0]


def _xmp_png() -> bytes:
    from PIL.PngImagePlugin import PngInfo

    info = PngInfo()
    info.add_itxt("XML:com.adobe.xmp", f"<x>{SECRET.decode()}</x>", zip=False)
    return picture("PNG", pnginfo=info)


@pytest.mark.slow
def test_remarks_in_a_png_do_not_come_out() -> None:
    data = _xmp_png()
    assert SECRET in data
    assert all(SECRET not in version.data for version in versions(data))


@each_row("name", PICTURES)
def test_what_is_refused_and_why(name: str) -> None:
    make, wanted = PICTURES[name]
    for taking in (check, lambda data: list(versions(data))):
        if wanted == "ok":
            taking(make())
            continue
        with pytest.raises(Refused) as refused:
            taking(make())
        why, todo = refusal_words(refused.value)
        assert re.search(wanted, why)
        assert why.isprintable()
        assert "0x" not in why, "no object's address"
        assert todo


def test_16_bits_of_grey_come_out_scaled() -> None:
    """W3C PNG, 13.12: a sample of 16 bits is scaled to 8 by its share of the whole range."""
    image = images._upright(grey_of_16_bits([shade * 257 for shade in range(256)]))
    assert image.tobytes() == bytes(shade for shade in range(256) for _ in "RGB")


def test_of_two_pictures_in_one_the_first_is_taken() -> None:
    assert b"MPF" in two_in_one()
    (version,) = versions(two_in_one())
    with Image.open(io.BytesIO(version.data)) as image:
        red, _, blue = image.convert("RGB").resize((1, 1)).tobytes()
    assert red > 200
    assert blue < 50


@each_row("orientation", range(1, 9))
def test_every_way_to_hold_a_camera_is_turned_as_pillow_turns_it(orientation: int) -> None:
    """EXIF orientations 1 to 8 (CIPA DC-008), against Pillow's own reading of them."""
    data = with_exif(orientation)
    with Image.open(io.BytesIO(data)) as image:
        assert images._upright(data).tobytes() == ImageOps.exif_transpose(image).tobytes()


@given(st.data())
@settings(max_examples=tries(150))
def test_a_damaged_picture_is_taken_or_refused_and_nothing_else(data: st.DataObject) -> None:
    whole = bytearray(picture(data.draw(st.sampled_from(["JPEG", "PNG", "WEBP"])), (60, 40)))
    for _ in range(data.draw(st.integers(1, 6))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    try:
        check(bytes(whole))
    except Refused:
        with pytest.raises(Refused):
            list(versions(bytes(whole)))
    else:
        assert list(versions(bytes(whole)))


TEARDOWN = (
    "# file: content/teardowns/xa-3-merrin.yml\nkind: teardown\nid: xa-3-merrin\ndate: 2024\n"
    "seen-by: merrin\nserial: XA 3\nseries: xa\ncondition: untouched\nfound:\n- position: body/cover\n"
    '  photographs:\n  - {file: lid.jpg, shows: "A <lid> & \\"nuts\\""}\n'
)


@pytest.mark.slow
def test_on_the_site_only_what_was_made_anew_is_published(tmp_path: Path) -> None:
    folder = project(tmp_path, TEARDOWN)
    (folder / "content/photographs").mkdir()
    (folder / "content/photographs/lid.jpg").write_bytes(with_exif(6))
    built = run("build", folder)
    assert built.exit_code == 0, built.output
    site = folder / "site/photographs"
    assert sorted(file.name for file in site.iterdir()) == [
        "lid-jpg-160.webp",
        "lid-jpg-480.webp",
        "lid-jpg-600.webp",
    ]
    html = (folder / "site/teardowns/xa-3-merrin/index.html").read_text()
    assert 'alt="A &lt;lid&gt; &amp; &#34;nuts&#34;"' in html
    assert 'width="600" height="1000"' in html
    assert not list((folder / "site").rglob("lid.jpg"))


@pytest.mark.parametrize(
    ("file", "data", "problem"),
    [
        ("lid.jpg", b"no picture", "photograph-refused"),
        ("other.jpg", None, "photograph-missing"),
        ("other.jpg", None, "photograph-unused"),
        ("Lid One.JPG", None, "photograph-refused"),
        ("lid.jpg.svg", b"<svg/>", "photograph-refused"),
        ("index.html", b"<script>alert(1)</script>", "photograph-refused"),
    ],
)
def test_the_check_tells(tmp_path: Path, file: str, data: bytes | None, problem: str) -> None:
    folder = project(tmp_path, TEARDOWN)
    (folder / "content/photographs").mkdir()
    (folder / "content/photographs" / file).write_bytes(picture() if data is None else data)
    result = run("check", folder)
    assert result.exit_code == 1
    assert f" {problem}: " in result.output
    assert "Traceback" not in result.output


def test_a_linked_photograph_is_refused_and_never_read(tmp_path: Path) -> None:
    folder = project(tmp_path, TEARDOWN)
    (folder / "content/photographs").mkdir()
    (folder / "content/photographs/lid.jpg").symlink_to("/etc/passwd")
    result = run("check", folder)
    assert "photograph-refused: a link, no plain file" in result.output


def test_a_picture_is_developed_once_and_again_when_it_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    data = picture(size=(700, 300))
    first = darkroom.prints(data)
    assert [(p.width, p.height) for p in first] == [(160, 69), (480, 206), (700, 300)]
    assert [p.file.read_bytes() for p in first] == [v.data for v in versions(data)]
    assert not list(darkroom.folder().glob(".*")), "nothing half-made is left"
    monkeypatch.setattr(darkroom, "versions", lambda data: pytest.fail("developed again"))
    monkeypatch.setattr(darkroom, "check", lambda data: pytest.fail("looked at again"))
    assert darkroom.prints(data) == first
    darkroom.inspect(data)
    with pytest.raises(pytest.fail.Exception):
        darkroom.prints(data + b"changed")


def test_a_refused_picture_is_not_kept() -> None:
    before = sorted(darkroom.folder().glob("*"))
    for take in (darkroom.prints, darkroom.inspect):
        with pytest.raises(Refused):
            take(picture()[:500])
    assert sorted(darkroom.folder().glob("*")) == before


def test_a_cache_that_cannot_be_seen_into_is_no_reason_not_to_check(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("no folder")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    darkroom.inspect(picture())
    with pytest.raises(Refused):
        darkroom.inspect(b"no picture")


def _damage() -> dict[str, Callable[[Path], object]]:
    def folder_instead(file: Path) -> None:
        file.unlink()
        file.mkdir()
        (file / "stray").write_text("x")

    def changed(file: Path) -> None:
        data = bytearray(file.read_bytes())
        data[len(data) // 2] ^= 1
        file.write_bytes(data)

    return {
        "gone": Path.unlink,
        "empty": lambda file: file.write_bytes(b""),
        "cut off": lambda file: file.write_bytes(file.read_bytes()[:-5]),
        "longer": lambda file: file.write_bytes(file.read_bytes() + b"\n"),
        "changed": changed,
        "rubbish": lambda file: file.write_bytes(b"\xff\0\n"),
        "a folder": folder_instead,
        "unreadable": lambda file: file.chmod(0),
    }


@pytest.mark.parametrize("damage", _damage())
@pytest.mark.parametrize("which", ["an entry", "a version"])
def test_whatever_is_damaged_in_the_cache_is_made_again(own_cache: Path, which: str, damage: str) -> None:
    data = picture(size=(200, 90))  # the page shows it in two widths
    first = darkroom.prints(data)
    files = {"an entry": darkroom._entry_of(data), "a version": first[1].file}
    _damage()[damage](files[which])
    (own_cache / "stray").mkdir()
    (own_cache / ".left-behind").write_bytes(b"half")
    assert darkroom.prints(data) == first
    assert [p.file.read_bytes() for p in first] == [v.data for v in versions(data)]
    darkroom.inspect(data)


def test_another_pictures_entry_is_not_taken_for_this_ones(own_cache: Path) -> None:
    mine, other = picture(size=(700, 300)), picture(size=(500, 200))
    darkroom.prints(other)
    darkroom._entry_of(other).rename(darkroom._entry_of(mine))
    assert [p.width for p in darkroom.prints(mine)] == [160, 480, 700]


def test_a_picture_only_looked_at_is_made_when_it_is_wanted(own_cache: Path) -> None:
    data = picture(size=(700, 300))
    darkroom.inspect(data)
    assert len(list(own_cache.iterdir())) == 1
    assert [p.width for p in darkroom.prints(data)] == [160, 480, 700]


def _age(file: Path, days: float) -> None:
    then = time.time() - days * 24 * 3600
    os.utime(file, (then, then))


def test_what_is_not_used_for_a_month_is_let_go(own_cache: Path) -> None:
    old, used = picture(size=(700, 300)), picture(size=(500, 200))
    for data in (old, used):
        darkroom.prints(data)
    for file in own_cache.iterdir():
        _age(file, 31)
    (own_cache / "stray").mkdir()
    kept = {p.file for p in darkroom.prints(used)} | {darkroom._entry_of(used), own_cache / "stray"}
    darkroom.trim()
    assert set(own_cache.iterdir()) == kept


def test_beyond_its_size_what_was_used_longest_ago_is_let_go(
    own_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for days in range(4):
        file = own_cache / f"{days}.webp"
        file.write_bytes(bytes(100))
        _age(file, days)
    monkeypatch.setattr(darkroom, "MOST_KEPT", 50)
    darkroom.trim()
    assert [file.name for file in own_cache.iterdir()] == ["0.webp"], "what is in use stays"
    monkeypatch.setattr(darkroom, "MOST_KEPT", 300)
    darkroom.trim()
    assert (own_cache / "0.webp").exists()


_TOGETHER = """
import sys
from spanbook.reading import image_cache
from tests.hostile.pictures import picture
data = [picture(size=(100 + i, 50)) for i in range(20)]
for _ in range(3):
    for one in data:
        for made in image_cache.prints(one):
            assert made.file.read_bytes()[:4] == b"RIFF"
        image_cache._entry_of(one).write_bytes(b"")
    image_cache.trim()
"""


@pytest.mark.slow
def test_several_runs_at_once_do_not_hurt_each_other(own_cache: Path) -> None:
    runs = [subprocess.Popen([sys.executable, "-c", _TOGETHER], cwd=PROJECT) for _ in range(3)]
    assert [run.wait(120) for run in runs] == [0, 0, 0]
    assert not list(own_cache.glob(".*")), "nothing half-made is left"


def test_no_more_pictures_are_decoded_at_once_than_there_is_room_for() -> None:
    room, told, lock = darkroom._Room(100), [0], Lock()

    def change(by: int) -> None:
        with lock:
            told.append(told[-1] + by)

    def work(pixels: int) -> None:
        with room.taken(pixels):
            change(pixels)
            time.sleep(0.001)
            change(-pixels)

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(work, [40, 60, 100, 30, 30, 30, 10] * 5))
    assert 60 < max(told) <= 100
    with room.taken(500):  # one that is too large for the room goes all the same, alone
        assert room._free == 0
    assert room._free == 100


def test_where_nothing_can_be_kept_the_build_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("no folder")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    folder = project(tmp_path, TEARDOWN)
    (folder / "mkdocs.yml").write_text(IN_OUR_FRAME)
    (folder / "content/photographs").mkdir()
    (folder / "content/photographs/lid.jpg").write_bytes(picture(size=(200, 90)))
    result = run("build", folder)
    assert result.exit_code == 1
    assert "photographs are kept in" in result.output
    assert "Traceback" not in result.output


def test_the_limits_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(images, "MOST_PIXELS", 100)
    with pytest.raises(Refused) as refused:
        check(picture())
    assert refusal_words(refused.value)[0] == "1000 by 600 pixels; at most 100 are taken"


@pytest.mark.slow
def test_pictures_to_be_shared_take_no_room_from_photographs(
    own_cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = [one.file for one in darkroom.prints(picture())]
    for file in kept:
        _age(file, 2)
    monkeypatch.setattr(picture_cache, "MOST_KEPT", 0)
    picture_cache.trim()
    assert all(file.exists() for file in kept)
    assert kept
