"""Built pages held against the HTML standard, by its Nu checker."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.support.npm import npm


@pytest.mark.slow
def test_every_page_is_valid_html(demo_site: Path) -> None:
    """The Nu Html Checker (npm vnu-jar, MIT) over the whole demonstration, theme and all: no error."""
    java = shutil.which("java")
    assert java, "the HTML checker needs Java; on Debian: apt-get install default-jre-headless"
    checker = npm("vnu-jar/build/dist/vnu.jar")
    command = [java, "-jar", str(checker), "--errors-only", "--skip-non-html", "--format", "json"]
    result = subprocess.run([*command, str(demo_site)], capture_output=True, text=True, check=False)
    messages = json.loads(result.stderr)["messages"]
    told = {f"{m.get('url', '').rsplit('/site/', 1)[-1]}: {m['message']}" for m in messages}
    assert told == set()
    assert result.returncode == 0
