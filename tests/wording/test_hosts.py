"""What is said of a site's size, beside what hosts take."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from spanbook.ground.hosts import HOSTS, Size
from spanbook.outputs.folder import mark
from spanbook.outputs.folder.changes import settle
from spanbook.wording.hosts import size_told, too_large

SMALL = Size(1_210, 430, 51_240_000, 1_048_576)


def test_a_size_is_told_beside_what_hosts_take() -> None:
    assert size_told(SMALL) == (
        "1,210 files in 430 folders, 51.2 MB. Hosts take: Cloudflare Pages (free) 20,000 files and 26.2 MB a "
        "file; GitHub Pages 1,000 MB; GitLab.com Pages 1,000 MB and 200,000 files and folders."
    )
    assert list(too_large(SMALL)) == []


@pytest.mark.parametrize(
    ("size", "told"),
    [
        (replace(SMALL, files=20_000), []),
        (
            replace(SMALL, files=20_001),
            ["Cloudflare Pages (free) does not take this site: it has 20,001 files, and 20,000 are taken."],
        ),
        (
            replace(SMALL, largest=30_000_000),
            [
                "Cloudflare Pages (free) does not take this site: "
                "its largest file has 30 MB, and 26.2 MB are taken."
            ],
        ),
        (replace(SMALL, files=10_000, folders=190_000), []),
        (
            replace(SMALL, files=10_000, folders=190_001),
            [
                "GitLab.com Pages does not take this site: "
                "it has 200,001 files and folders, and 200,000 are taken."
            ],
        ),
        (
            replace(SMALL, total=1_270_000_000),
            [
                "GitHub Pages does not take this site: it has 1,270 MB, and 1,000 MB are taken.",
                "GitLab.com Pages does not take this site: it has 1,270 MB, and 1,000 MB are taken.",
            ],
        ),
    ],
)
def test_who_does_not_take_a_site_is_told_with_the_figure(size: Size, told: list[str]) -> None:
    assert list(too_large(size)) == told


def test_each_host_says_where_its_figures_are_from() -> None:
    assert all(host.source and host.limits for host in HOSTS)


def test_a_folder_is_measured_whole(tmp_path: Path) -> None:
    (tmp_path / "a/b").mkdir(parents=True)
    (tmp_path / "a/b/one").write_bytes(b"12345")
    (tmp_path / "two").write_bytes(b"12")
    (tmp_path / "c").mkdir()
    assert measured(tmp_path) == (0, 2, 3, 7)
    (tmp_path / "c/index.html").write_bytes(b"1" * 1000)
    assert measured(tmp_path) == (1, 3, 3, 1007)
    assert settle(tmp_path, tmp_path / "none").size.largest == 1000
    assert measured(tmp_path / "a/b") == (0, 1, 0, 5)


def measured(folder: Path) -> tuple[int, int, int, int]:
    """Pages, files, folders and bytes without the mark, which is counted as it is published."""
    made = settle(folder, folder / "none")
    marked = (folder / mark.NAME).stat().st_size
    return made.pages, made.size.files - 1, made.size.folders, made.size.total - marked
