"""Names that Windows keeps for devices, and those of a folder's own page."""

from __future__ import annotations

import pytest

from spanbook.ground.reserved import is_device, is_reserved


@pytest.mark.parametrize("name", ["con", "NUL.yml", "aux.tar.gz", "com1", "lpt9.txt", "Prn"])
def test_devices(name: str) -> None:
    assert is_device(name)
    assert is_reserved(name)


@pytest.mark.parametrize("name", ["index", "README.md", "Index.yml"])
def test_the_page_of_a_folder(name: str) -> None:
    assert is_reserved(name)
    assert not is_device(name)


@pytest.mark.parametrize("name", ["console", "com", "com10", "lid", "x.con", "null"])
def test_other_names(name: str) -> None:
    assert not is_reserved(name)
