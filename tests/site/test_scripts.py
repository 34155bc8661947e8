"""The scripts of the pages as they are sent: all of each, in order, and nothing that is not needed."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from spanbook.site import scripts

SITE = Path(scripts.__file__).parent
FILES = sorted({scripts._WORKER, *(file for files in scripts._FILES.values() for file in files)})


def test_no_text_of_a_script_goes_over_a_line() -> None:
    """Else a line of it might be taken for a comment, or lose its indentation."""
    for file in FILES:
        for number, line in enumerate((SITE / file).read_text(encoding="utf-8").splitlines(), 1):
            code = line.replace("""["'`""", "")  # a class of quotes
            assert code.count("`") % 2 == 0, (file, number)


def test_every_script_of_a_folder_is_sent() -> None:
    forms = set((SITE / "forms").glob("*.js"))
    assert {SITE / file for file in FILES} | forms == {*SITE.glob("*/*.js")}


@pytest.mark.slow  # node
@pytest.mark.parametrize("address", scripts.scripts())
def test_what_is_sent_is_a_script(address: str, tmp_path: Path) -> None:
    file = tmp_path / "sent.js"
    file.write_bytes(scripts.scripts()[address])
    subprocess.run(["node", "--check", file], check=True)
    assert b"\n//" not in file.read_bytes()
