"""Building again: nothing is built where nothing has changed, and the site is always what a fresh one is."""

from __future__ import annotations

import json
import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
import yaml
from mkdocs.commands import build as mkdocs_build
from mkdocs.config.defaults import MkDocsConfig

import spanbook
from spanbook.mkdocs.built import unchanged
from spanbook.outputs.folder import ledger
from spanbook.outputs.folder.mark import NAME as MARK
from spanbook.press.parts import Key, Make, Onto, Part
from spanbook.press.work import Work, printed
from spanbook.reading import kept_files
from spanbook.site import cutting
from spanbook.site.page import Around, SitePage
from tests.support.command import CONFIG, IN_OUR_FRAME, LID, PROJECT, SEEN, project, run
from tests.support.trees import tree
from tests.support.tries import tries

EDITS = 20
DEMONSTRATED = 3
SEED = int(os.environ.get("SPANBOOK_FUZZ_SEED", "1934"))


def build(folder: Path) -> spanbook.Built:
    return spanbook.build(folder)


def was_built(folder: Path) -> bool:
    return build(folder).changes is not None


@pytest.fixture
def small(tmp_path: Path) -> Path:
    folder = project(tmp_path / "p", SEEN)
    assert was_built(folder)
    return folder


def left(site: Path) -> dict[Path, tuple[int, ...]]:
    """Every file as it is, whoever has read it since."""
    found = ((path, path.stat()) for path in site.rglob("*"))
    return {path: (one.st_mode, one.st_ino, one.st_size, one.st_mtime_ns) for path, one in found}


@pytest.mark.slow
def test_nothing_is_built_where_nothing_has_changed(small: Path) -> None:
    before = left(small / "site")
    made = build(small)
    assert made.changes is None
    assert left(small / "site") == before
    whole = spanbook.build(small, anew=True)
    assert whole.changes == spanbook.Changes()
    assert (made.pages, made.size) == (whole.pages, whole.size)


@pytest.mark.slow
def test_that_nothing_has_changed_is_known_without_loading_what_makes_pages(small: Path) -> None:
    asked = "import sys, spanbook; print(spanbook.build(sys.argv[1]).changes, 'mkdocs.config' in sys.modules)"

    def told() -> str:
        command = [sys.executable, "-c", asked, str(small)]
        return subprocess.run(command, capture_output=True, text=True, check=True).stdout

    assert told() == "None False\n"
    (small / "content/more.md").write_text("# More\n")
    assert told().endswith(" True\n")


@pytest.mark.slow
def test_where_a_place_is_gone_it_is_not_as_it_was(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (folder / "mkdocs.yml").write_text(CONFIG.replace("font: false", "font: false, custom_dir: own"))
    (folder / "own").mkdir()
    assert was_built(folder)
    assert unchanged(folder, None, strict=True, say=print)
    (folder / "own").rmdir()
    assert unchanged(folder, None, strict=True, say=print) is None


def change(path: str, text: str) -> Callable[[Path], None]:
    def done(folder: Path) -> None:
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text)

    return done


def remove(path: str) -> Callable[[Path], None]:
    return lambda folder: (folder / path).unlink()


@pytest.mark.slow
@pytest.mark.parametrize(
    "changed",
    [
        change("content/assemblies/lid.yml", LID.replace("title: Lid", "title: Lis")),
        change("content/index.md", "# Home!\n\n[The lid](assemblies/lid.md#span-xa)\n"),
        change("content/more.md", "# More\n"),
        change("mkdocs.yml", CONFIG.replace("site_name: X", "site_name: Y")),
        remove("content/teardowns/xa-30-merrin.yml"),
        change("site/index.html", "somebody else's"),
        remove("site/assemblies/lid/index.html"),
    ],
    ids=["record", "guide", "new-guide", "settings", "gone", "page", "page-gone"],
)
def test_whatever_has_changed_is_built(small: Path, changed: Callable[[Path], None]) -> None:
    changed(small)
    assert was_built(small)
    assert tree(small / "site") == fresh(small)
    assert not was_built(small)


@pytest.mark.slow
def test_a_site_that_somebody_put_another_file_into_is_refused(small: Path) -> None:
    (small / "site/mine.txt").write_text("mine")
    with pytest.raises(spanbook.BuildFailed, match=r"mine\.txt"):
        build(small)


@pytest.mark.slow
@pytest.mark.parametrize(
    "settings",
    [
        CONFIG + "hooks: [hook.py]\n",
        CONFIG + "copyright: !ENV [SPANBOOK_SOMEBODY, nobody]\n",
        CONFIG.replace("[spanbook]", "[spanbook, tags]"),
        CONFIG + "markdown_extensions: [pymdownx.snippets]\n",
    ],
    ids=["hook", "variable", "plugin", "extension"],
)
def test_what_may_read_anything_is_built_every_time(tmp_path: Path, settings: str) -> None:
    folder = project(tmp_path / "p")
    (folder / "hook.py").write_text("")
    (folder / "mkdocs.yml").write_text(settings)
    assert [was_built(folder) for _ in range(2)] == [True, True]


@pytest.mark.slow
def test_a_link_that_leads_out_of_the_project_is_followed_every_time(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (folder / "mkdocs.yml").write_text(CONFIG.replace("font: false", "font: false, custom_dir: own"))
    (folder / "own").mkdir()
    assert [was_built(folder) for _ in range(2)] == [True, False]
    (tmp_path / "elsewhere").mkdir()
    (folder / "own/elsewhere").symlink_to(tmp_path / "elsewhere")
    assert [was_built(folder) for _ in range(2)] == [True, True]


@pytest.mark.slow
def test_warnings_are_told_every_time(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (folder / "content/index.md").write_text("# Home\n\n[Nowhere](nowhere.md)\n")
    first, again = (run("build", folder) for _ in range(2))
    assert "nowhere.md" in first.output
    assert "nowhere.md" in again.output
    assert not again.output.count("Cleaning site directory"), "it is told without being built"
    told: list[str] = []
    assert unchanged(folder, None, strict=False, say=told.append), "nor is anything loaded for that"
    assert told
    assert all(one in first.output for one in told)
    assert unchanged(folder, None, strict=True, say=told.append) is None
    assert run("build", folder, "--strict").exit_code == 1, "what was warned of fails where nobody wants it"


@pytest.mark.slow
def test_what_changes_during_a_build_is_in_the_next(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Even where it is as it was again when the build ends."""
    lid, really = small / "content/assemblies/lid.yml", mkdocs_build.build
    text = lid.read_text()

    def meanwhile(config: MkDocsConfig) -> None:
        lid.write_text(text.replace("title: Lid", "title: Top"))
        really(config)
        lid.write_text(text)

    with monkeypatch.context() as patched:
        patched.setattr(mkdocs_build, "build", meanwhile)
        assert spanbook.build(small, anew=True).changes
    assert "Top" in (small / "site/assemblies/lid/index.html").read_text()
    assert was_built(small)
    assert tree(small / "site") == fresh(small)


@pytest.mark.slow
@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: file.write_bytes(file.read_bytes().replace(b'"pages": ', b'"pages": 1')),
        lambda file: file.write_bytes(file.read_bytes()[:40]),
        lambda file: file.chmod(0o666),
        lambda file: file.unlink(),
    ],
    ids=["changed", "cut", "others-may-write", "gone"],
)
def test_what_was_kept_is_not_believed(small: Path, spoil: Callable[[Path], None]) -> None:
    (file,) = (f for f in kept_files.folder("ledgers").iterdir() if f == ledger._file(small / "site"))
    spoil(file)
    assert was_built(small)


@pytest.mark.slow
def test_what_a_killed_build_left_is_mended(small: Path) -> None:
    shop = small / ".site.spanbook-build"
    shop.mkdir()
    (shop / "lock").write_text("")
    assert was_built(small)
    assert not shop.exists()


@pytest.mark.slow
def test_a_file_that_is_the_same_stays_the_file_that_it_was(small: Path) -> None:
    site = small / "site"
    before = {path: path.stat() for path in site.rglob("*") if path.is_file() and path.name != MARK}
    change("content/assemblies/lid.yml", LID.replace("title: Lid", "title: Lis"))(small)
    made = build(small)
    assert made.changes
    others = {str(path.relative_to(site)) for path, was in before.items() if path.stat().st_ino != was.st_ino}
    assert others == set(made.changes.changed)
    assert "assemblies/lid/index.html" in others
    assert "rules/index.html" not in others
    assert {path.stat().st_nlink for path in before} == {1}
    kept = site / "rules/index.html"
    assert kept.stat().st_mtime_ns == before[kept].st_mtime_ns


@pytest.mark.slow
def test_a_file_that_somebody_has_under_another_name_is_not_carried_on(small: Path, tmp_path: Path) -> None:
    page = small / "site/rules/index.html"
    (tmp_path / "mine.html").hardlink_to(page)
    spanbook.build(small, anew=True)
    assert page.stat().st_ino != (tmp_path / "mine.html").stat().st_ino


@pytest.mark.slow
def test_where_a_disk_has_no_second_names_a_file_is_copied(
    small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def cannot(*_: object) -> None:
        raise OSError("no such thing here")

    monkeypatch.setattr(os, "link", cannot)
    before = tree(small / "site")
    assert spanbook.build(small, anew=True).changes == spanbook.Changes()
    assert tree(small / "site") == before


def test_changes_are_told_and_listed(tmp_path: Path) -> None:
    folder, listed = project(tmp_path / "p"), tmp_path / "changes.txt"
    (folder / "mkdocs.yml").write_text(IN_OUR_FRAME)
    first = run("build", folder, "--changes", listed)
    assert first.exit_code == 0, first.output
    site = {path for path, what in tree(folder / "site").items() if what is not None} - {MARK}
    assert listed.read_text() == "".join(f"new\t{path}\n" for path in sorted(site))
    (folder / "content/assemblies/lid.yml").rename(folder / "content/assemblies/top.yml")
    top = folder / "content/assemblies/top.yml"
    top.write_text(LID.partition("\n")[2].replace("id: lid", "id: top"))
    (folder / "content/index.md").write_text("# Home\n")
    told = run("build", folder, "--changes", listed).output
    lines = listed.read_text().splitlines()
    assert "gone\tassemblies/lid/index.html" in lines
    assert "new\tassemblies/top/index.html" in lines
    assert "changed\tassemblies/index.html" in lines
    pages = [line.partition("\t")[0] for line in lines if line.endswith(".html")]
    new, changed, gone = (pages.count(word) for word in ("new", "changed", "gone"))
    assert f"{changed} pages are others than before, {new} new, {gone} gone" in told
    again = run("build", folder, "--changes", listed).output
    assert "Nothing that the site is made from has changed" in again
    assert "Built" not in again
    assert listed.read_text() == ""


@pytest.mark.parametrize(
    ("option", "file", "why"),
    [
        ("--changes", "site/changes.txt", "it lies in the site"),
        ("--archive", "site/site.zip", "it lies in the site"),
        ("--archive", "site.rar", "end it in .zip, .tar or .tar.gz"),
    ],
)
def test_what_cannot_be_written_is_told_before(option: str, file: str, why: str, tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    told = run("build", folder, option, folder / file)
    assert told.exit_code == 1
    assert why in told.output
    assert not (folder / "site").exists()


@pytest.mark.slow
def test_what_cannot_be_written_afterwards_leaves_the_site(small: Path, tmp_path: Path) -> None:
    told = run("build", small, "--archive", tmp_path / "nowhere/site.zip")
    assert told.exit_code == 1
    assert "the site is built, and this is not" in told.output
    assert "/nowhere/" in told.output
    assert (small / "site/index.html").is_file()


@pytest.mark.slow
@pytest.mark.parametrize("name", ["site.zip", "site.tar", "site.tar.gz", "site.tgz"])
def test_all_of_the_site_goes_into_one_file(name: str, small: Path, tmp_path: Path) -> None:
    """By what Python unpacks it with."""
    assert run("build", small, "--archive", tmp_path / name).exit_code == 0
    shutil.unpack_archive(tmp_path / name, tmp_path / "unpacked")
    (small / "site" / MARK).unlink()
    assert tree(tmp_path / "unpacked") == tree(small / "site")
    page, before = (folder / "rules/index.html" for folder in (tmp_path / "unpacked", small / "site"))
    if "tar" in name:
        assert int(page.stat().st_mtime) == int(before.stat().st_mtime)
    assert [file.name for file in tmp_path.iterdir() if file.name.startswith(".")] == []


def fresh(folder: Path) -> dict[str, bytes | str | None]:
    """The site of a project where none was."""
    other = folder.parent / "fresh-site"
    shutil.rmtree(other, ignore_errors=True)
    spanbook.build(folder, other, anew=True)
    return tree(other)


@pytest.mark.slow
def test_after_any_edits_the_site_is_a_fresh_one(tmp_path: Path) -> None:
    """Seeded; edits that make records which are broken are taken back."""
    chance, folder = random.Random(SEED), tmp_path / "p"
    spanbook.start(folder, "Any", None)
    build(folder)
    for _ in range(tries(EDITS)):
        before = tree(folder / "site")
        for _ in range(chance.randint(0, 2)):
            edited(folder, chance)
        made, after = build(folder), tree(folder / "site")
        assert after == fresh(folder)
        changes = made.changes or spanbook.Changes()
        files = [{p: w for p, w in side.items() if w is not None and p != MARK} for side in (before, after)]
        assert set(changes.new) == files[1].keys() - files[0].keys()
        assert set(changes.gone) == files[0].keys() - files[1].keys()
        assert set(changes.changed) == {
            p for p in files[0].keys() & files[1].keys() if files[0][p] != files[1][p]
        }


@pytest.mark.slow
def test_after_any_edits_of_the_demonstration_its_site_is_a_fresh_one(tmp_path: Path) -> None:
    """Seeded as well; what did not change is carried on, and not made again."""
    chance, folder = random.Random(SEED), tmp_path / "p"
    shutil.copytree(PROJECT / "content", folder / "content")
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    spanbook.build(folder, jobs=1)
    for _ in range(tries(DEMONSTRATED)):
        edited(folder, chance)
        spanbook.build(folder, jobs=1)
        assert tree(folder / "site") == fresh(folder)


@contextmanager
def counted_pages() -> Iterator[list[str]]:
    """The pages that are made meanwhile, by their addresses."""
    made: list[str] = []
    really = printed

    def told(work: Work, page: SitePage, around: Around) -> object:
        made.append(page.address)
        return really(work, page, around)

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("spanbook.press.jobs.printed", told)
        yield made


@pytest.mark.slow
def test_only_what_a_record_is_told_on_is_made_again(tmp_path: Path) -> None:
    """Of a start of ones own, where two processes make the pages as well."""
    folder = tmp_path / "p"
    spanbook.start(folder, "Any", None)
    with counted_pages() as every:
        spanbook.build(folder, jobs=1)
    source = min((folder / "content/sources").glob("*.yml"))
    source.write_text(re.sub("(?m)^title: .*", "title: Called otherwise", source.read_text()))
    with counted_pages() as again:
        spanbook.build(folder, jobs=1)
    assert f"sources/{source.stem}/" in again
    assert not any(page.startswith("teardowns/") and page.count("/") == 2 for page in again)
    assert "positions/engine/" in every
    assert "positions/engine/" not in again, "it tells of no record but its own"
    assert len(again) < len(every) / 2
    assert tree(folder / "site") == fresh(folder)


@contextmanager
def counted_parts() -> Iterator[set[tuple[str, str]]]:
    """The parts that are made meanwhile, by what they are of and their names."""
    made: set[tuple[str, str]] = set()
    really = Work.part

    def told(work: Work, onto: Onto, key: Key, of: object, make: Make) -> Part:
        part = really(work, onto, key, of, make)
        if not part.carried:
            made.add(key)
        return part

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(Work, "part", told)
        yield made


def retitle(folder: Path, id_: str) -> set[tuple[str, str]]:
    """The parts that are made again where an assembly gets another title."""
    file = folder / f"content/assemblies/{id_}.yml"
    file.write_text(file.read_text().replace("title: ", "title: New "))
    with counted_parts() as made:
        spanbook.build(folder, jobs=1)
    assert tree(folder / "site") == fresh(folder)
    return made


TWO = """\
# file: content/machines/x-two.yml
kind: machine
id: x-two
title: X Two
maker: Example Works
series:
- {id: ya, stamped: "YA {number}", plate: machine, first: 1, last: 99, evidence: [{source: book}]}
"""


def other(id_: str, position: str = "body/cover", span: str = "xa, first: 1, last: 20") -> str:
    """Another assembly like the lid, of which a part has a number."""
    said = LID.replace("lid", id_).replace("Lid", id_).replace("body/cover", position)
    parts = f"parts: [{{number: A-{id_}, name: Nut, quantity: 1}}]\n"
    return said.replace("xa, first: 1, last: 20", span) + parts


@pytest.mark.slow
@pytest.mark.parametrize("bound", [cutting.BOUND, 1], ids=["whole", "cut"])
def test_of_another_series_nothing_is_made_again(
    bound: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where no more is said of it than that something else may be at the same position."""
    monkeypatch.setattr(cutting, "BOUND", bound)
    folder = project(tmp_path / "p", TWO, other("top", span="ya, first: 1, last: 99"))
    spanbook.build(folder, jobs=1)
    again = retitle(folder, "lid")
    for family in ("rows answer_questions", "tables renew", "tables card", "tables report"):
        assert (family, "xa") in again
        assert (family, "ya") not in again
    assert {name for of, name in again if of == "tables found"} == {"xa-found-0"}
    pages = {name for _, name in again}
    assert "open-questions/xa/" in pages
    assert "series/xa/" in pages
    others = {"open-questions/ya/", "series/ya/", "assemblies/top/"}
    if bound == 1:  # what is whole is so by what all series have there
        others.add("series/ya/~/body/cover/")
    assert not others & pages


@pytest.mark.slow
def test_of_keys_only_that_of_the_same_position_is_made_again(tmp_path: Path) -> None:
    spans = [f"xa, first: {first}, last: {first + 9}" for first in (1, 21, 31)]
    lids = map(other, ("plate", "top"), ["body/cover"] * 2, spans[1:])
    plugs = map(other, ("cap", "plug", "screw"), ["body/drain"] * 3, spans)
    folder = project(tmp_path / "p", *lids, *plugs)
    spanbook.build(folder, jobs=1)
    assert (folder / "site/assets/holding/holding--body--drain.js").is_file()
    again = retitle(folder, "plate")
    assert {name for of, name in again if of == "tables holding"} == {"holding--body--cover"}
    assert {name for _, name in again if name.startswith("holding/")} == {"holding/body/cover/"}


def parts_kept() -> set[str]:
    folder = kept_files.folder("parts")
    return {file.name for file in folder.iterdir()} if folder.exists() else set()


@pytest.mark.slow
def test_two_processes_carry_on_what_one_has_made_and_one_what_two_have(tmp_path: Path) -> None:
    folder = tmp_path / "p"
    spanbook.start(folder, "Any", None)
    for number, many in enumerate((2, 1, 2, 2)):
        for file in sorted((folder / "content/sources").glob("*.yml"))[:2]:
            file.write_text(re.sub("(?m)^title: .*", f"title: Called {number}", file.read_text()))
        before = parts_kept()
        spanbook.build(folder, jobs=many)
        assert len(parts_kept()) == len(before | {"one"}) - bool(number), "of a site the last alone is kept"
        assert tree(folder / "site") == fresh(folder)


@pytest.mark.slow
@pytest.mark.parametrize("spoil", [Path.unlink, lambda file: file.write_bytes(file.read_bytes()[:-1])])
def test_parts_that_are_not_as_they_were_kept_are_made_anew(
    small: Path, spoil: Callable[[Path], object]
) -> None:
    kept = kept_files.folder("parts") / json.loads(ledger._file(small / "site").read_bytes()[32:])["parts"]
    spoil(kept)
    change("content/assemblies/lid.yml", LID.replace("title: Lid", "title: Lis"))(small)
    assert was_built(small)
    assert tree(small / "site") == fresh(small)


@pytest.mark.slow
def test_nothing_is_carried_on_from_a_site_that_is_not_as_it_was_left(small: Path) -> None:
    page = small / "site/teardowns/xa-30-merrin/index.html"
    page.write_text("somebody else's")
    change("content/assemblies/lid.yml", LID.replace("title: Lid", "title: Lis"))(small)
    assert was_built(small)
    assert tree(small / "site") == fresh(small)


def edited(folder: Path, chance: random.Random) -> None:
    kept = folder.parent / "kept"
    shutil.rmtree(kept, ignore_errors=True)
    shutil.copytree(folder / "content", kept)
    ways = (retitled, noted, counted, reordered, added, removed, renamed, guided, other_settings)
    chance.choice(ways)(folder, chance)
    if spanbook.fails(spanbook.check(folder).problems):
        shutil.rmtree(folder / "content")
        kept.rename(folder / "content")


def records(folder: Path) -> list[Path]:
    return sorted(file for file in (folder / "content").glob("*/*.yml"))


def retitled(folder: Path, chance: random.Random) -> None:
    file = chance.choice(records(folder))
    file.write_text(re.sub("(?m)^title: .*", f"title: Called {chance.randint(0, 9)}", file.read_text()))


def noted(folder: Path, chance: random.Random) -> None:
    said = plain(file := chance.choice(records(folder)))
    said["notes"] = f"{said.get('notes', '')} Said {chance.randint(0, 9)}."
    file.write_text(yaml.safe_dump(said, sort_keys=False))


def counted(folder: Path, chance: random.Random) -> None:
    """Some number anywhere in a record is another."""
    said = plain(file := chance.choice(records(folder)))
    if numbers := [(at, key) for at, key in leaves(said) if str(at[key]).isdigit()]:
        at, key = chance.choice(numbers)
        at[key] = str(int(at[key]) + chance.choice((-1, 1, 2)))
        file.write_text(yaml.safe_dump(said, sort_keys=False))


def reordered(folder: Path, chance: random.Random) -> None:
    """The last of a list in a record comes first, or is gone."""
    said = plain(file := chance.choice(records(folder)))
    if lists := [at[key] for at, key in leaves(said) if isinstance(at[key], list) and len(at[key]) > 1]:
        one = chance.choice(lists)
        one[:0] = [one.pop()] * chance.randint(0, 1)
        file.write_text(yaml.safe_dump(said, sort_keys=False))


def plain(file: Path) -> dict[str, Any]:
    """As it is typed: all values are texts."""
    said: dict[str, Any] = yaml.load(file.read_text(), Loader=yaml.BaseLoader)
    return said


def leaves(said: Any) -> Iterator[tuple[Any, Any]]:
    """Every value in a record, by what it stands in and how."""
    for key in said if isinstance(said, dict) else range(len(said)):
        yield said, key
        if isinstance(said[key], dict | list):
            yield from leaves(said[key])


def added(folder: Path, chance: random.Random) -> None:
    file = chance.choice([file for file in records(folder) if file.parent.name in ("assemblies", "sources")])
    id_ = f"{file.parent.name}-{chance.randint(0, 99)}"
    text = re.sub("(?m)^id: .*", f"id: {id_}", file.read_text())
    text = re.sub("(?m)^formerly: .*\n", "", text)
    (file.with_name(f"{id_}.yml")).write_text(text)


def removed(folder: Path, chance: random.Random) -> None:
    chance.choice(records(folder)).unlink()


def renamed(folder: Path, chance: random.Random) -> None:
    file = chance.choice([file for file in records(folder) if file.parent.name in ("assemblies", "sources")])
    what = f"{file.parent.name}/{file.stem}"
    spanbook.rename(folder, what, f"{file.parent.name}-now-{chance.randint(0, 99)}").write()


def guided(folder: Path, chance: random.Random) -> None:
    guide = folder / "content" / f"guide-{chance.randint(0, 2)}.md"
    if guide.exists() and chance.random() < 0.4:
        guide.unlink()
    else:
        guide.write_text(f"# A guide\n\nAbout {chance.randint(0, 99)} things.\n")


def other_settings(folder: Path, chance: random.Random) -> None:
    settings = folder / "mkdocs.yml"
    settings.write_text(
        re.sub("(?m)^site_name: .*", f"site_name: Any {chance.randint(0, 3)}", settings.read_text())
    )
