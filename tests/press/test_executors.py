"""A site made by somebody's own executor: the same bytes, whoever works and wherever."""

from __future__ import annotations

import multiprocessing
from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor, ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import cast

import pytest

import spanbook
from spanbook.press import elsewhere, freight
from spanbook.press.elsewhere import share
from spanbook.press.freight import Freight
from spanbook.press.jobs import Pages
from spanbook.reading import kept_files
from tests.support.command import SEEN, project
from tests.support.trees import tree


@contextmanager
def threads() -> Iterator[Executor]:
    with ThreadPoolExecutor(2) as pool:
        yield pool


@contextmanager
def processes() -> Iterator[Executor]:
    """Begun anew, so that nothing is there that was not sent."""
    with ProcessPoolExecutor(2, multiprocessing.get_context("spawn")) as pool:
        yield pool


@contextmanager
def cluster() -> Iterator[Executor]:
    """A scheduler of Dask and two workers of it, on this machine alone."""
    distributed = pytest.importorskip("distributed", reason="dask.distributed is not installed")
    local = distributed.LocalCluster(
        n_workers=2, threads_per_worker=2, host="127.0.0.1", dashboard_address=None, protocol="tcp"
    )
    with local, distributed.Client(local) as client:
        # It has of that interface what is asked of it.
        yield cast(Executor, client)


@pytest.fixture(scope="module")
def us(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("us")
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv("SOURCE_DATE_EPOCH", "1000000000")
        spanbook.start(folder / "project", "Us", None, None, "de")
        spanbook.build(folder / "project", folder / "one", jobs=1)
    return folder


@pytest.mark.slow
@pytest.mark.parametrize("begun", [threads, processes, cluster])
def test_the_site_is_the_same_whoever_makes_it(
    begun: object, us: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1000000000")
    assert callable(begun)
    with begun() as executor:
        spanbook.build(us / "project", tmp_path / "site", jobs=2, executor=executor)
    assert tree(tmp_path / "site") == tree(us / "one")
    assert list(kept_files.folder("shares").iterdir()) == []


@pytest.mark.slow
def test_a_share_that_fails_there_leaves_the_old_site_and_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, said = project(tmp_path / "p", SEEN), list[str]()
    spanbook.build(folder)
    before = tree(folder / "site")

    def broken(*asked: object) -> None:
        raise RuntimeError("out of ink")

    monkeypatch.setattr(Pages, "do", broken)
    with threads() as executor, pytest.raises(spanbook.BuildFailed):
        spanbook.build(folder, anew=True, executor=executor, say=said.append)
    assert any("RuntimeError: out of ink" in line for line in said)
    assert tree(folder / "site") == before


@pytest.mark.slow
def test_what_is_not_here_is_sent_along(us: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As on another machine, where nothing was kept."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1000000000")
    elsewhere.forget()
    assert share("no such name", Pages(0)) is None
    monkeypatch.setattr(freight, "kept", lambda name: None)
    with threads() as executor:
        spanbook.build(us / "project", tmp_path / "site", executor=executor)
    assert tree(tmp_path / "site") == tree(us / "one")


def test_what_is_not_called_by_its_digest_is_not_looked_into() -> None:
    with pytest.raises(ValueError, match="is not the digest of these bytes"):
        freight.unpack(Freight("0" * 64, b"whatever"))
