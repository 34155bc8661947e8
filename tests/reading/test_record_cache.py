"""What is kept between two runs: the same answers, nothing read twice, nothing taken from others."""

from __future__ import annotations

import os
import pickle
from pathlib import Path

import pytest

from spanbook import reading
from spanbook.answers.answers import Answers
from spanbook.ground.language import speaking
from spanbook.reading import make, sealed
from spanbook.rules import verdicts
from spanbook.rules.checking import Checked, check_folder
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.support import worlds

PROJECT = Path(__file__).parents[2]
WORLD = (
    "# file: content/assemblies/hat.yml\nkind: assembly\nid: hat\ntitle: Hat\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 30, last: 20, evidence: [{source: book}]}\n"
)


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    return tmp_path / "cache/spanbook/records"


def _reads(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The paths of the files that are read from now on."""
    read: list[str] = []
    really = reading.read_bytes

    def counted(data: bytes, path: str, kind: str, stem: str) -> object:
        read.append(path)
        return really(data, path, kind, stem)

    monkeypatch.setattr(reading, "read_bytes", counted)
    return read


def _html(checked: Checked) -> list[str]:
    return [page.to_html(Around()) for page in views.all_pages(Site(Answers(checked.register)))]


@pytest.mark.slow
def test_from_what_is_kept_come_the_same_problems_and_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    first = check_folder(PROJECT)
    read = _reads(monkeypatch)
    again = check_folder(PROJECT)
    assert read == []
    assert again.problems == first.problems
    assert _html(again) == _html(first)


def test_what_changed_or_was_wrong_is_read_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    broken = folder / "content/sources/broken.yml"
    broken.write_text("kind: source\n")
    first = check_folder(folder)
    assert {problem.name for problem in first.problems} >= {"span-reversed", "key-missing"}
    read = _reads(monkeypatch)
    assert check_folder(folder).problems == first.problems  # places too: looked up in the bytes
    assert read == ["content/sources/broken.yml"]
    read.clear()
    file = folder / "content/assemblies/hat.yml"
    file.write_text(file.read_text().replace("first: 30", "first: 3"))
    broken.unlink()
    assert "span-reversed" not in {problem.name for problem in check_folder(folder).problems}
    assert read == ["content/assemblies/hat.yml"]
    read.clear()
    check_folder(folder)
    assert read == []


class _Harm:
    """Makes a folder when it is taken out of a pickle."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __reduce__(self) -> tuple[object, tuple[str]]:
        return os.mkdir, (str(self.folder),)


def test_what_is_kept_brings_back_no_other_language(tmp_path: Path) -> None:
    """No message is kept: what is wrong is read anew, and the rules are asked anew."""
    folder = worlds.lay(tmp_path / "world", WORLD)
    (folder / "content/sources/broken.yml").write_text("kind: sauce\n", encoding="utf-8")
    english = check_folder(folder).problems
    with speaking("de"):
        german = check_folder(folder).problems
    assert check_folder(folder).problems == english
    assert [p.name for p in german] == [p.name for p in english]
    told = {(p.read, p.todo) for p in english} & {(p.read, p.todo) for p in german}
    assert len(english) > 1
    assert told == set()


def test_a_file_that_others_may_write_to_is_never_opened(tmp_path: Path, cache: Path) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    first = check_folder(folder)
    (file,) = cache.iterdir()
    assert file.stat().st_mode & 0o077 == 0
    file.write_bytes(pickle.dumps(_Harm(tmp_path / "harm")))
    file.chmod(0o666)
    assert check_folder(folder).problems == first.problems
    assert not (tmp_path / "harm").exists()


def _sealed(file: Path, kept: object) -> bytes:
    data = pickle.dumps(kept)
    return sealed.seal(file, data) + data


def test_what_does_not_hold_its_seal_is_never_opened(tmp_path: Path, cache: Path) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    first = check_folder(folder)
    (file,) = cache.iterdir()
    harm = _sealed(file.with_name("another.pickle"), _Harm(tmp_path / "harm"))
    for data in (pickle.dumps(_Harm(tmp_path / "harm")), harm):
        file.write_bytes(data)
        assert check_folder(folder).problems == first.problems
        assert not (tmp_path / "harm").exists()


def test_one_letter_changed_in_what_is_kept_never_reaches_a_page(tmp_path: Path, cache: Path) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    first = check_folder(folder)
    (file,) = cache.iterdir()
    kept = file.read_bytes()
    assert b"\x03Hat" in kept
    file.write_bytes(kept.replace(b"\x03Hat", b"\x03Cap"))
    assert check_folder(folder).problems == first.problems
    assert check_folder(folder).register.assemblies["hat"].title == "Hat"


def test_a_folder_in_its_place_is_read_past_and_mended(tmp_path: Path, cache: Path) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    first = check_folder(folder)
    (file,) = cache.iterdir()
    file.unlink()
    file.mkdir()
    (cache / "stray").mkdir()
    assert check_folder(folder).problems == first.problems
    assert file.is_file()


@pytest.mark.parametrize("kept", [[1, 2], {}])
def test_another_thing_under_its_seal_is_read_past(kept: object, tmp_path: Path, cache: Path) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    first = check_folder(folder)
    (file,) = cache.iterdir()
    file.write_bytes(_sealed(file, kept))
    assert check_folder(folder).problems == first.problems


@pytest.mark.parametrize("data", [b"", b"rubbish", bytes(32), pickle.dumps({})])
def test_rubbish_in_its_place_is_read_past_and_mended(
    data: bytes, tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    first = check_folder(folder)
    (file,) = cache.iterdir()
    file.write_bytes(data)
    assert check_folder(folder).problems == first.problems
    read = _reads(monkeypatch)
    check_folder(folder)
    assert read == []


def test_without_a_cache_it_is_only_slower(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("no folder")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    folder = worlds.lay(tmp_path / "world", WORLD)
    assert check_folder(folder).problems == check_folder(folder).problems


def test_what_is_in_use_does_not_grow_old(tmp_path: Path, cache: Path) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    check_folder(folder)
    (file,) = cache.iterdir()
    os.utime(file, (0, 0))
    check_folder(folder)
    assert file.stat().st_mtime > 0


def test_another_program_takes_nothing_and_what_is_old_goes(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = worlds.lay(tmp_path / "world", WORLD)
    check_folder(folder)
    (file,) = cache.iterdir()
    os.utime(file, (0, 0))
    monkeypatch.setattr(sealed, "program", lambda: "another program")
    read = _reads(monkeypatch)
    check_folder(folder)
    assert read
    assert [other for other in cache.iterdir() if other != file] == list(cache.iterdir())


def test_few_that_changed_are_kept_beside_the_rest(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    letter = (
        "# file: content/sources/letter-{0}.yml\nkind: source\nid: letter-{0}\ntitle: L\n"
        "class: correspondence\n"
    )
    folder = worlds.lay(tmp_path / "world", WORLD, *map(letter.format, range(20)))
    check_folder(folder)
    (whole,) = cache.iterdir()
    kept = whole.read_bytes()
    read = _reads(monkeypatch)

    def change(*numbers: int) -> None:
        for number in numbers:
            file = folder / f"content/sources/letter-{number}.yml"
            file.write_text(file.read_text().replace("title: L", "title: LL"))

    change(1)
    check_folder(folder)
    assert check_folder(folder).register.sources["letter-1"].title == "LL"
    assert read == ["content/sources/letter-1.yml"]
    assert whole.read_bytes() == kept
    assert len(list(cache.iterdir())) == 2
    change(1, 2, 3, 4, 5, 6)
    read.clear()
    for _ in range(2):
        assert check_folder(folder).register.sources["letter-1"].title == "LLL"
    assert len(read) == 6
    assert list(cache.iterdir()) == [whole]
    assert whole.read_bytes() != kept


def test_where_notes_lead_is_kept_with_the_record(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    note = "notes: See [the book](/sources/book/) and [that](/sources/boook/).\n"
    folder = worlds.lay(tmp_path / "world", WORLD + note)
    first = check_folder(folder)
    assert [link for _, link in first.register.assemblies["hat"].origin.links] == [
        "/sources/book/",
        "/sources/boook/",
    ]
    monkeypatch.setattr(make, "links", pytest.fail)
    monkeypatch.setattr(verdicts, "_before", lambda _: None)
    again = check_folder(folder)
    assert again.problems == first.problems
    assert "link-dead" in {problem.name for problem in again.problems}
