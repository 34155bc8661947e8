"""Pictures from strangers: what is taken, what is refused, and what is left in what comes out."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from spanbook.ground import images
from spanbook.ground.images import MOST_BYTES, Refused, check, versions
from spanbook.reading import image_cache as darkroom
from tests.support.command import project, run

SECRET = b"51.5007 N 0.1246 W secret"


def picture(sort: str = "JPEG", size: tuple[int, int] = (1000, 600), **more: object) -> bytes:
    image = Image.new("RGB", size, (200, 30, 30))
    image.paste((30, 30, 200), (0, 0, size[0] // 2, size[1] // 2))  # blue in the upper left
    out = io.BytesIO()
    image.save(out, sort, **more)
    return out.getvalue()


def with_exif(orientation: int) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010E] = SECRET.decode()  # the description
    exif.get_ifd(0x8825)[1] = "N"  # the place where it was taken
    return picture(exif=exif.tobytes()) + SECRET


@pytest.mark.parametrize("sort", ["JPEG", "PNG", "WEBP"])
def test_three_sorts_are_taken_in_widths_up_to_their_own(sort: str) -> None:
    check(picture(sort))
    made = list(versions(picture(sort)))
    assert [(v.width, v.height) for v in made] == [(480, 288), (960, 576), (1000, 600)]
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


def test_remarks_in_a_png_do_not_come_out() -> None:
    data = _xmp_png()
    assert SECRET in data
    assert all(SECRET not in version.data for version in versions(data))


def _claimed(width: int, height: int) -> bytes:
    """A PNG that says it is that large and holds nothing."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = b""
    for name, body in ((b"IHDR", head), (b"IDAT", zlib.compress(b"")), (b"IEND", b"")):
        check_sum = struct.pack(">I", zlib.crc32(name + body))
        chunks += struct.pack(">I", len(body)) + name + body + check_sum
    return b"\x89PNG\r\n\x1a\n" + chunks


def _moving(sort: str) -> bytes:
    frames = [Image.new("RGB", (20, 20), colour) for colour in ("red", "blue")]
    out = io.BytesIO()
    frames[0].save(out, sort, save_all=True, append_images=frames[1:])
    return out.getvalue()


HOSTILE: dict[str, tuple[Callable[[], bytes], str]] = {
    "svg": (lambda: b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "no JPEG"),
    "gif": (lambda: picture("GIF"), "no JPEG"),
    "bmp": (lambda: picture("BMP"), "no JPEG"),
    "tiff": (lambda: picture("TIFF"), "no JPEG"),
    "ico": (lambda: picture("ICO", (32, 32)), "no JPEG"),
    "pdf": (lambda: picture("PDF"), "no JPEG"),
    "postscript": (lambda: b"%!PS-Adobe-3.0 EPSF-3.0\n(x) run\n", "no JPEG"),
    "html": (lambda: b"<!doctype html><script>alert(1)</script>", "no JPEG"),
    "zip": (lambda: b"PK\x03\x04" + bytes(40), "no JPEG"),
    "empty": (lambda: b"", "no JPEG"),
    "one byte": (lambda: b"\xff", "no JPEG"),
    "a sound file in riff": (lambda: b"RIFF\x24\x00\x00\x00WAVEfmt ", "no JPEG"),
    "a jpeg's head alone": (lambda: b"\xff\xd8\xff\xe0", "cannot be read"),
    "a png's head alone": (lambda: b"\x89PNG\r\n\x1a\n", "cannot be read"),
    "a webp's head alone": (lambda: b"RIFF\x24\x00\x00\x00WEBPVP8 ", "cannot be read"),
    "cut in half": (lambda: picture()[: len(picture()) // 2], "damaged"),
    "a png cut in half": (lambda: picture("PNG")[:-60], "damaged"),
    "said to be enormous": (lambda: _claimed(60_000, 60_000), "pixels"),
    "said to be just too large": (lambda: _claimed(10_000, 5_001), "pixels"),
    "said to be large and empty": (lambda: _claimed(5_000, 5_000), "damaged"),
    "said to have no width": (lambda: _claimed(0, 10), "cannot be read"),
    "too many bytes": (lambda: picture() + bytes(MOST_BYTES), "bytes"),
    "a moving webp": (lambda: _moving("WEBP"), "moves"),
    "a moving png": (lambda: _moving("PNG"), "moves"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_what_is_refused_and_why(name: str) -> None:
    make, why = HOSTILE[name]
    for taking in (check, lambda data: list(versions(data))):
        with pytest.raises(Refused, match=why):
            taking(make())


@given(st.data())
@settings(max_examples=150, deadline=None)
def test_a_damaged_picture_is_taken_or_refused_and_nothing_else(data: st.DataObject) -> None:
    whole = bytearray(picture(data.draw(st.sampled_from(["JPEG", "PNG", "WEBP"])), (60, 40)))
    for _ in range(data.draw(st.integers(1, 6))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    try:
        check(bytes(whole))
        list(versions(bytes(whole)))
    except Refused:
        pass


TEARDOWN = (
    "# file: content/teardowns/xa-3-merrin.yml\nkind: teardown\nid: xa-3-merrin\ndate: 2024\n"
    "seen-by: merrin\nserial: XA 3\nseries: xa\ncondition: untouched\nfound:\n- position: body/cover\n"
    '  photographs:\n  - {file: lid.jpg, shows: "A <lid> & \\"nuts\\""}\n'
)


def test_on_the_site_only_what_was_made_anew_is_published(tmp_path: Path) -> None:
    folder = project(tmp_path, TEARDOWN)
    (folder / "content/photographs").mkdir()
    (folder / "content/photographs/lid.jpg").write_bytes(with_exif(6))
    built = run("build", folder)
    assert built.exit_code == 0, built.output
    site = folder / "site/photographs"
    assert sorted(file.name for file in site.iterdir()) == ["lid-jpg-480.webp", "lid-jpg-600.webp"]
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
    assert [(p.width, p.height) for p in first] == [(480, 206), (700, 300)]
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


def test_a_cache_that_cannot_be_seen_into_is_no_reason_not_to_check(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: Path) -> bool:
        raise PermissionError(path)

    monkeypatch.setattr(Path, "is_dir", refuse)
    darkroom.inspect(picture())
    with pytest.raises(Refused):
        darkroom.inspect(b"no picture")


def test_where_nothing_can_be_kept_the_build_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("no folder")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    folder = project(tmp_path, TEARDOWN)
    (folder / "content/photographs").mkdir()
    (folder / "content/photographs/lid.jpg").write_bytes(picture())
    result = run("build", folder)
    assert result.exit_code == 1
    assert "photographs are kept in" in result.output
    assert "Traceback" not in result.output


def test_the_limits_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(images, "MOST_PIXELS", 100)
    with pytest.raises(Refused, match="1000 by 600 pixels; at most 100 are taken"):
        check(picture())
