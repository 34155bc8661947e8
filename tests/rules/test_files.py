"""What may lie in a content folder, and what of it reaches readers."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from spanbook.reading.files import Sort, sort_of
from spanbook.rules.checking import check_folder
from spanbook.site.page import SitePage
from tests.support import worlds
from tests.support.command import IN_OUR_FRAME, project, run
from tests.support.repository import git
from tests.support.rows import each_row


@each_row(
    ("path", "sort"),
    [
        ("index.md", Sort.GUIDE),
        ("guides/plates.md", Sort.GUIDE),
        ("guides/README.md", Sort.GUIDE),
        ("guides/plate.jpg", Sort.PICTURE),
        ("plate.webp", Sort.PICTURE),
        ("photographs/a.jpg", Sort.PHOTOGRAPH),
        ("photographs/a.html", Sort.PHOTOGRAPH),
        ("sources/a.yml", Sort.RECORD),
        ("anywhere/a.YAML", Sort.RECORD),
        (".gitkeep", Sort.HIDDEN),
        ("photographs/.DS_Store", Sort.HIDDEN),
        (".obsidian/a.js", Sort.HIDDEN),
        ("guides/.well-known/a.html", Sort.HIDDEN),
        ("photographs/desktop.ini", Sort.LEFTOVER),
        ("#a.md#", Sort.LEFTOVER),
        ("a.md~", Sort.LEFTOVER),
        ("a.MD", Sort.STRAY),
        ("a.JPG", Sort.STRAY),
        ("sources/a.jpg", Sort.STRAY),
        ("photographs.md", Sort.STRAY),
        ("releases/2026-11.json", Sort.RELEASE),
        ("releases/2026-11.md", Sort.STRAY),
        ("a.pdf", Sort.STRAY),
    ],
)
def test_a_file_is_told_by_its_path(path: str, sort: Sort) -> None:
    assert sort_of(path) is sort


@each_row(
    ("path", "read", "todo"),
    [
        ("ne\u200bws.txt", "a name with characters that no eye sees", "another name"),
        ("guides/news.MD", "a guide that ends in .MD", "small letters"),
        ("sources/news.md", "a guide where the pages of records are", "under another name"),
        ("sources/NEWS.Md", "a guide that ends in .Md", "small letters"),
        ("lid.yml.txt", "a record that ends in .txt", "name it lid.yml"),
        ("news.txt", "a file that ends in .txt", "write guides in Markdown"),
        ("news.d/news.markdown", "a file that ends in .markdown", "write guides in Markdown"),
        ("sources/plate.jpg", "a picture among the records", "put what was seen in photographs/"),
        ("guides/plate.JPG", "a picture of another form", "ending in small letters"),
        ("sources/plate.gif", "a picture of another form", "save it as .jpg, .png or .webp"),
        ("guides/style.css", "a file that ends in .css", "custom_dir"),
        ("guides/plate.jpg/book.pdf", "a file of no sort that is taken", "take it out; records"),
        ("md", "a file of no sort that is taken", "take it out"),
    ],
)
def test_of_a_file_that_is_not_taken_it_is_said_why(path: str, read: str, todo: str, tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path)
    (folder / "content" / path).parent.mkdir(parents=True, exist_ok=True)
    (folder / "content" / path).write_text("News\n")
    (problem,) = check_folder(folder).problems
    assert (problem.name, problem.place.path, problem.read) == ("file-not-taken", f"content/{path}", read)
    assert todo in problem.todo


def test_no_guide_can_take_a_page_away(demo_pages: list[SitePage]) -> None:
    for folder in {page.address.split("/")[0] for page in demo_pages}:
        assert sort_of(f"{folder}.md") is sort_of(f"{folder}/a/b.md") is Sort.STRAY, folder


@pytest.mark.slow
def test_what_is_left_behind_or_hidden_stops_nothing_and_is_not_published(tmp_path: Path) -> None:
    folder = project(tmp_path)
    left = (".gitkeep", "a.html~", "photographs/Thumbs.db", ".hidden/a.html", "sources/book.yml.orig")
    for path in left:
        (folder / "content" / path).parent.mkdir(exist_ok=True)
        (folder / "content" / path).write_text("<script>alert(1)</script>")
    told = {p.place.path for p in check_folder(folder).problems if p.name == "file-left-behind"}
    assert told == {f"content/{path}" for path in left if sort_of(path) is Sort.LEFTOVER}
    assert run("check", folder, "--strict").exit_code == 0
    assert run("build", folder, "--strict").exit_code == 0
    assert not [f for f in (folder / "site").rglob("*") if f.name in {Path(path).name for path in left}]


def test_what_is_not_taken_is_never_published_even_where_nobody_checked(tmp_path: Path) -> None:
    folder = project(tmp_path)
    (folder / "mkdocs.yml").write_text(IN_OUR_FRAME)
    (folder / "content/news.html").write_text("<script>alert(1)</script>")
    result = run("build", folder)
    assert result.exit_code == 1
    assert "content/news.html:1:1: error file-not-taken" in result.output
    assert not (folder / "site").exists()


def test_guides_that_differ_in_capitals_alone_are_told_alike_by_git(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path)
    (folder / "content/news.md").write_text("# News\n")
    (folder / "content/News.md").write_text("# News\n")
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "Guides")
    for result in (run("check", folder), run("check", folder, "--at", "main")):
        assert result.exit_code == 1
        assert "error file-clash: news.md differs from News.md only in capitals" in result.output


@pytest.mark.parametrize(("more", "told"), [(0, []), (1, ["more than 1,000,000 bytes"])])
def test_a_guide_has_a_largest_size(more: int, told: list[str], tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path)
    (folder / "content/news.md").write_bytes(b"# News\n".ljust(1_000_000 + more, b"a"))
    assert [problem.read for problem in check_folder(folder).problems] == told


@pytest.mark.parametrize("path", ["guides/aux.md", "con/news.md", "guides/nul.png"])
def test_no_guide_has_a_name_that_windows_keeps(path: str, tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, f"# picture: content/{path}" if path.endswith("png") else "")
    (folder / "content" / path).parent.mkdir(exist_ok=True)
    if path.endswith("md"):
        (folder / "content" / path).write_text("# News\n")
    (problem,) = check_folder(folder).problems
    assert (problem.name, problem.read) == ("file-reserved", f"the name {path}")


def test_what_has_to_go_is_told_once(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path)
    for path in ("news.pdf", "News.pdf", "con.pdf", "news.md~", "News.md~", "con.md~"):
        (folder / "content" / path).write_text("News\n")
    told = sorted((problem.name, problem.place.path) for problem in check_folder(folder).problems)
    assert [name for name, _ in told] == 3 * ["file-left-behind"] + 3 * ["file-not-taken"]
    assert len({path for _, path in told}) == 6


def _with_secrets(sort: str) -> bytes:
    """A picture that says where it was taken, with more behind its end."""
    out, exif = io.BytesIO(), Image.Exif()
    exif[0x010E] = "SECRET"
    Image.linear_gradient("L").convert("RGB").save(out, sort, exif=exif)
    return out.getvalue() + b"<script>SECRET</script>"


@pytest.mark.slow
@pytest.mark.parametrize("name", ["plate.jpg", "deep/plate.png", "assets/plate.webp"])
def test_a_guides_picture_is_published_made_anew_under_its_own_name(tmp_path: Path, name: str) -> None:
    folder = project(tmp_path)
    form = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP"}[name.rsplit(".")[-1]]
    file = folder / "content" / name
    file.parent.mkdir(exist_ok=True)
    file.write_bytes(_with_secrets(form))
    (folder / "content/news.md").write_text(f"# News\n\n![A plate]({name})\n")
    for _ in range(2):  # made, and then found made
        result = run("build", folder, "--strict")
        assert result.exit_code == 0, result.output
        made = (folder / "site" / name).read_bytes()
        assert b"SECRET" not in made
        with Image.open(io.BytesIO(made)) as picture:
            assert (picture.format, picture.size, dict(picture.getexif())) == (form, (256, 256), {})
            grey = picture.convert("L")
            assert abs(int(grey.getpixel((9, 200))) - 200) < 4  # type: ignore[arg-type]
    assert f'src="../{name}"' in (folder / "site/news/index.html").read_text()


@pytest.mark.parametrize(
    "data",
    [
        b"<svg onload='alert(1)'/>",
        b"GIF89a",
        *(
            pytest.param(data, marks=pytest.mark.slow)
            for data in (b"\x89PNG\r\n\x1a\n", b"", bytes(12_000_001))
        ),
    ],
)
def test_a_guides_picture_that_is_none_is_refused_on_the_disk_and_out_of_git(
    tmp_path: Path, data: bytes
) -> None:
    folder = worlds.lay(tmp_path)
    (folder / "content/plate.png").write_bytes(data)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "A picture")
    for result in (run("check", folder), run("check", folder, "--at", "main")):
        assert result.exit_code == 1
        assert "content/plate.png:1:1: error guide-picture-refused" in result.output


@each_row(
    ("head", "told"),
    [
        ("---\nhide: 5\n---\n", "hide without a list"),
        ("\ufeff---\r\n{hide: yes}\r\n---\r\n", "hide without a list"),
        ("---\nhide: [toc]\ntitle: A template: its use\n---\n", None),
        ("---\nhide:\ntags: [template]\n---\n", None),
        ("---\n{[\n---\n", None),
        ("hide: 5\n\n", None),
        ("---\n- hide\n---\n", None),
        ("---\nhide\n---\n", None),
    ],
)
def test_what_may_stand_above_a_guide(head: str, told: str | None, tmp_path: Path) -> None:
    """MkDocs builds those that are not told of; the fuzzer of projects holds it to that."""
    folder = worlds.lay(tmp_path)
    (folder / "content/news.md").write_text(f"{head}# News\n", newline="")
    found = [problem for problem in check_folder(folder).problems if problem.name == "guide-head"]
    assert [problem.read for problem in found] == ([told] if told else [])
