"""The seam between pages and what is around them: only a frame knows what its theme calls things."""

from __future__ import annotations

import importlib
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from spanbook.mkdocs import frames
from spanbook.mkdocs.build import build
from spanbook.mkdocs.shell import squeezed
from spanbook.site import assets
from tests.support.command import CONFIG, LID, project, run
from tests.support.frames import THEMES, settings_in

PACKAGE = Path(assets.__file__).parents[1]
HERE = Path(frames.__file__).parent
# A theme's own names: classes, properties, attributes, ids, icons. `material` alone is what a part is of.
NAMES = re.compile(r"\bmd-|--md\b|\b__(?:drawer|search|palette|md_)|Material for|material/", re.IGNORECASE)


def test_no_style_template_or_script_outside_of_the_frames_speaks_of_a_theme() -> None:
    kinds = (".css", ".html", ".js", ".svg", ".txt")
    files = [file for file in PACKAGE.rglob("*") if file.suffix in kinds and HERE not in file.parents]
    assert len(files) > 60
    wrong = [
        f"{file.relative_to(PACKAGE)}: {found[0]}"
        for file in files
        if (found := NAMES.search(file.read_text(encoding="utf-8")))
    ]
    assert wrong == []


def test_every_variable_that_the_pages_style_uses_is_given_a_value_there() -> None:
    """Else a page would lean on what one theme happens to define."""
    style = assets.stylesheet(frames.material_frame()).decode()
    used = set(re.findall(r"var\((--[\w-]+)\)", style))
    assert len(used) > 20
    assert used - set(re.findall(r"(--[\w-]+):", style)) == set()


def test_what_is_dark_is_what_is_light_in_other_colours() -> None:
    """A colour that only one of them has would stay as it is, or be missing, when the light is turned."""
    light = re.search(r":root \{(.*?)\}", (PACKAGE / "site/style.css").read_text(encoding="utf-8"), re.DOTALL)
    assert light
    names = {name for name in re.findall(r"(--sb-[\w-]+):", light[1]) if not name.endswith("-font")}
    assert names == set(
        re.findall(r"(--sb-[\w-]+):", (PACKAGE / "site/dark.txt").read_text(encoding="utf-8"))
    )


def test_a_frame_says_what_is_dark() -> None:
    style = assets.stylesheet(frames.material_frame()).decode()
    assert (
        "@media screen { [data-md-color-scheme=slate] {\n  color-scheme: dark;\n  --sb-bar: #16343a;" in style
    )


def test_a_rem_is_as_large_in_every_frame() -> None:
    ours = assets.stylesheet(frames.own_frame()).decode()
    theirs = assets.stylesheet(frames.plain_frame()).decode()
    assert ".sb-page .sb-crumbs ol { display: flex; flex-wrap: wrap; font-size: 0.72rem;" in ours
    assert ".sb-page .sb-crumbs ol { display: flex; flex-wrap: wrap; font-size: 0.9rem;" in theirs
    assert "font-size: 125%" in ours  # 20 pixels, where a browser's own are 16


def test_our_theme_can_be_named() -> None:
    named = tomllib.loads((PACKAGE.parents[1] / "pyproject.toml").read_text(encoding="utf-8"))
    points = named["project"]["entry-points"]["mkdocs.themes"]
    folders = [Path(str(importlib.import_module(module).__file__)).parent for module in points.values()]
    assert folders == [HERE / "own"]
    assert (folders[0] / "mkdocs_theme.yml").is_file()


@pytest.mark.slow
def test_a_community_names_our_theme_as_any_other(tmp_path: Path) -> None:
    """As it is installed, told by a folder of metadata: what is installed may be older than this."""
    metadata = tmp_path / "lib/frames-1.dist-info"
    metadata.mkdir(parents=True)
    (metadata / "METADATA").write_text("Metadata-Version: 2.1\nName: frames\nVersion: 1\n")
    (metadata / "entry_points.txt").write_text("[mkdocs.themes]\nspanbook = spanbook.mkdocs.frames.own\n")
    folder = project(tmp_path / "us")
    (folder / "mkdocs.yml").write_text(CONFIG.replace("{name: material, font: false}", "spanbook"))
    command = [sys.executable, "-m", "spanbook", "build", str(folder)]
    environment = os.environ | {"PYTHONPATH": str(tmp_path / "lib")}
    subprocess.run(command, check=True, capture_output=True, env=environment)
    assert '<nav class="sb-index' in (folder / "site/assemblies/lid/index.html").read_text(encoding="utf-8")
    assert 'data-find="missing"' in (folder / "site/404.html").read_text(encoding="utf-8")


def test_a_shell_is_squeezed_where_space_says_nothing() -> None:
    kept = "<pre>\n  a\n\n  b</pre>", "<script>a = 1\n\n  b</script>", "<textarea>\n\n x</textarea>"
    for text in kept:
        assert squeezed(f"<p>\n\n    one\n  two</p>\n{text}\n\n  <i>3</i> 4") == (
            f"<p>\none\ntwo</p>\n{text}\n<i>3</i> 4"
        )


# A title that would be markup, were it not escaped wherever a theme puts a title.
STRANGER = LID.replace("title: Lid", "title: 'Lid </title><script>alert(1)</script> {{ 1 + 1 }}'")


@pytest.fixture(scope="module", params=THEMES)
def pages(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Path]:
    folder = project(tmp_path_factory.mktemp("frame"), STRANGER)
    settings = CONFIG.replace("{name: material, font: false}", THEMES[request.param])
    (folder / "mkdocs.yml").write_text(f"{settings}site_url: https://example.org/\n")
    assert run("build", folder).output.count("Built ") == 1
    return request.param, folder / "site"


@pytest.mark.slow
@pytest.mark.parametrize("page", ["index.html", "assemblies/lid/index.html", "assemblies/index.html"])
def test_a_page_has_what_is_ours_in_every_frame(pages: tuple[str, Path], page: str) -> None:
    html = (pages[1] / page).read_text(encoding="utf-8")
    root = "../" * page.count("/") or "./"
    once = [
        '<meta http-equiv="Content-Security-Policy"',
        f'data-finder data-root="{root}" action="{root.removeprefix("./")}find/"',
        '<div class="sb-page">',
        '<footer class="sb-colophon">',
        'name="description"' if page != "index.html" else "<h1",
        f'href="{root.removeprefix("./")}assets/spanbook.css"',
        f'src="{root.removeprefix("./")}assets/finder/spanbook.js"',
    ]
    assert [(piece, html.count(piece)) for piece in once if html.count(piece) != 1] == []
    assert html.partition("</head>")[0].count("<title>") == 1


@pytest.mark.slow
def test_a_strangers_title_stays_text_in_every_frame(pages: tuple[str, Path]) -> None:
    html = (pages[1] / "assemblies/lid/index.html").read_text(encoding="utf-8")
    assert "<script>alert" not in html
    assert "<title>Lid &lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt; {{ 1 + 1 }} · X</title>" in html


@pytest.mark.slow
def test_a_page_that_is_not_there_is_told_in_every_frame(pages: tuple[str, Path]) -> None:
    html = (pages[1] / "404.html").read_text(encoding="utf-8")
    assert html.count('<meta http-equiv="Content-Security-Policy"') == 1
    assert ('data-find="missing"' in html) == (pages[0] == "own")


@pytest.mark.slow
@pytest.mark.parametrize("theme", ["material", "own"])
def test_the_continuation_of_mkdocs_makes_the_same_site(theme: str, tmp_path: Path) -> None:
    """ProperDocs (PyPI), which puts itself in MkDocs' place, byte for byte but for its own name."""
    assert run("start", tmp_path / "us").exit_code == 0
    if theme != "material":
        settings = tmp_path / "us/mkdocs.yml"
        settings.write_text(
            settings_in(settings.read_text(encoding="utf-8"), THEMES[theme]), encoding="utf-8"
        )
    instead = "import properdocs.replacement; from spanbook.cli import main; main()"
    for site, start in (("one", ["-m", "spanbook"]), ("other", ["-c", instead])):
        command = [sys.executable, *start, "build", "--site", str(tmp_path / site), str(tmp_path / "us")]
        subprocess.run(command, check=True, capture_output=True)
    one, other = _files(tmp_path / "one"), _files(tmp_path / "other")
    assert len(one) > 50
    assert {name for name in one | other if one.get(name) != other.get(name)} == set()


def _files(site: Path) -> dict[str, bytes]:
    generator = re.compile(rb'<meta name="generator"[^>]*>')
    summed = site / "assets/along/files.json"  # sums of the pages as they are, with that name
    files = (f for f in site.rglob("*") if f.is_file() and f.suffix != ".gz" and f != summed)
    return {str(f.relative_to(site)): generator.sub(b"", f.read_bytes()) for f in files}


@pytest.mark.slow
@pytest.mark.parametrize("theme", ["material", *THEMES])
def test_a_site_says_its_language_in_every_frame(tmp_path: Path, theme: str) -> None:
    """Strictly: that a theme of its own knows no other language is no fault of a community's."""
    folder = project(tmp_path)
    settings = CONFIG.replace("{name: material, font: false}", THEMES.get(theme, theme))
    asked = settings.replace("plugins: [spanbook]", "plugins: [{spanbook: {language: de}}]")
    (folder / "mkdocs.yml").write_text(asked)
    build(folder, folder / "site", strict=True, say=lambda text: None)
    html = (folder / "site/assemblies/lid/index.html").read_text(encoding="utf-8")
    assert re.search(r"<html[^>]* lang=\"de\"", html)
    assert "Erkennungsmerkmale" in html
    assert 'placeholder="Serien-, Teilenummer oder Wörter"' in html
    script = (folder / "site/assets/finder/spanbook.js").read_text(encoding="utf-8")
    assert 'Intl.PluralRules("de")' in script
