"""What is asked of settings where no site is made: nothing that they name is run for it."""

from __future__ import annotations

from pathlib import Path

import pytest

import spanbook
from spanbook.mkdocs.asked import assumed_of, site_address, site_name
from spanbook.mkdocs.failures import BuildFailed

NAMES = """
site_name: Engines
site_url: https://x.example/engines
theme: {name: nowhere}
hooks: [hook.py]
plugins:
  - unheard-of
  - spanbook: {rates: {converted: 0.25}}
markdown_extensions:
  - pymdownx.emoji:
      emoji_index: !!python/name:hook.twemoji
  - other:
      made: !!python/object/apply:hook.make [1]
"""


def project(folder: Path, settings: str) -> Path:
    (folder / "mkdocs.yml").write_text(settings)
    (folder / "hook.py").write_text("from pathlib import Path\nPath(__file__).with_name('ran').touch()\n")
    return folder


def test_nothing_that_they_name_is_run_or_looked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = project(tmp_path, NAMES)
    monkeypatch.syspath_prepend(folder)
    assert site_address(folder) == "https://x.example/engines/"
    assert site_name(folder) == "Engines"
    assert assumed_of(folder).rates.converted * 4 == 1
    assert not (folder / "ran").exists()
    with pytest.raises(spanbook.BuildFailed):  # what a build needs of them is another matter
        spanbook.build(folder)


@pytest.mark.parametrize(
    "settings",
    ["plugins: [{spanbook: {rates: {converted: many}}}]", "plugins: [{spanbook: {weights: 3}}]", "{["],
)
def test_what_cannot_be_assumed_is_told(tmp_path: Path, settings: str) -> None:
    with pytest.raises(BuildFailed):
        assumed_of(project(tmp_path, settings))


@pytest.mark.parametrize("settings", ["", "- x", "plugins: spanbook", "plugins: {search: {}}"])
def test_settings_that_say_nothing_leave_it_as_it_is(tmp_path: Path, settings: str) -> None:
    folder = project(tmp_path, settings)
    assert assumed_of(folder) == assumed_of(tmp_path / "none")
    assert (site_address(folder), site_name(folder)) == (None, "")
