"""Git, run as a contributor would."""

from __future__ import annotations

import subprocess
from pathlib import Path


def git(folder: Path, *arguments: str) -> None:
    settings_ = ["-c", "user.name=m", "-c", "user.email=m@example.org", "-c", "commit.gpgsign=false"]
    subprocess.run(["git", "-C", folder, *settings_, *arguments], check=True, capture_output=True)
