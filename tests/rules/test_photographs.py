"""What may lie among the photographs, and what is said of the rest."""

from __future__ import annotations

from pathlib import Path

import pytest

from spanbook.ground.images import MOST_BYTES, Flaw, Refused
from spanbook.rules.checking import check_folder
from spanbook.rules.photographs import refusal_words
from tests.support import worlds
from tests.support.rows import each_row

REFUSED = "photograph-refused"


def refusals(folder: Path) -> list[tuple[str, str]]:
    """What was read and what is to be done, of each photograph that is refused."""
    return [(p.read, p.todo) for p in check_folder(folder).problems if p.name == REFUSED]


def test_a_link_is_no_photograph_even_to_a_sound_one(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, "# picture: content/photographs/lid.png")
    (folder / "content/photographs/hat.png").symlink_to("lid.png")
    assert refusals(folder) == [
        ("a link, no plain file", "put the photograph itself here"),
    ]


@pytest.mark.parametrize("name", ["Lid.png", "lid.PNG", "the_lid.png", "lid-.png", "t/a lid.png", "lid.gif"])
def test_a_name_is_of_small_letters_digits_and_hyphens(name: str, tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, "# picture: content/photographs/sound/lid-2.png")
    file = folder / "content/photographs" / name
    file.parent.mkdir(exist_ok=True)
    file.write_bytes((folder / "content/photographs/sound/lid-2.png").read_bytes())
    assert refusals(folder) == [
        (
            f"the name {name}",
            "name it with small letters, digits and hyphens, ending in .jpg, .png or .webp",
        )
    ]


@pytest.mark.parametrize("name", ["img_2041.heic", "IMG 2041.JPG", "lid.jpg"])
def test_no_name_makes_a_picture_of_what_is_none(name: str, tmp_path: Path) -> None:
    """A telephone's photograph, which is told to end in .jpg, would only be called otherwise."""
    folder = worlds.lay(tmp_path, "# picture: content/photographs/lid.png")
    heic = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(400)
    (folder / "content/photographs" / name).write_bytes(heic)
    said = "save it again as JPEG, PNG or WebP in a picture program, or take it away"
    assert refusals(folder) == [("it is no JPEG, PNG or WebP", said)]


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, "# picture: content/photographs/lid.png")
    with (folder / "content/photographs/lid.png").open("r+b") as file:
        file.truncate(MOST_BYTES + 5)
    ((read, _),) = refusals(folder)
    assert read == f"{MOST_BYTES + 5:,} bytes; at most {MOST_BYTES:,} are taken"


SAID = {
    Flaw.NO_PICTURE: (Refused(Flaw.NO_PICTURE), "it is no JPEG, PNG or WebP"),
    Flaw.UNREADABLE: (
        Refused(Flaw.UNREADABLE, sort="PNG"),
        "it begins like a PNG and cannot be read as one",
    ),
    Flaw.DAMAGED: (Refused(Flaw.DAMAGED), "its picture is damaged and cannot be decoded to the end"),
    Flaw.TOO_MANY_BYTES: (
        Refused(Flaw.TOO_MANY_BYTES, 12_000_001),
        "12,000,001 bytes; at most 12,000,000 are taken",
    ),
    Flaw.TOO_MANY_PIXELS: (
        Refused(Flaw.TOO_MANY_PIXELS, 9000, 8000),
        "9000 by 8000 pixels; at most 50,000,000 are taken",
    ),
    Flaw.TOO_LONG_A_SIDE: (
        Refused(Flaw.TOO_LONG_A_SIDE, 20000, 9),
        "20000 by 9 pixels; at most 16,383 are taken on a side",
    ),
    Flaw.MOVES: (Refused(Flaw.MOVES), "it moves; one picture is wanted"),
    Flaw.TOO_MANY_PASSES: (Refused(Flaw.TOO_MANY_PASSES), "it is drawn in more than 100 passes"),
    Flaw.NO_MEMORY: (Refused(Flaw.NO_MEMORY), "there is not enough memory to decode it"),
}


@each_row("flaw", Flaw)
def test_each_flaw_has_its_words_and_a_way_out(flaw: Flaw) -> None:
    refused, said = SAID[flaw]
    read, todo = refusal_words(refused)
    assert read == said
    assert "picture" in todo
