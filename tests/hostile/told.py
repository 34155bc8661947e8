"""Every problem of every hostile case, as GitLab's report has it: run as a program, twice, to be compared."""

from __future__ import annotations

import json
import os
import sys
import tempfile
from pathlib import Path

from spanbook.outputs.problems.gitlab import as_code_quality
from spanbook.reading import read_bytes
from spanbook.reading.problems import Problem
from spanbook.rules.checking import check_folder
from tests.hostile.pictures import PICTURES
from tests.hostile.records import RECORDS
from tests.support import worlds

# A picture is decoded only when its name says what it is.
_ENDINGS = {b"\x89PNG": "png", b"RIFF": "webp"}


def problems() -> list[Problem]:
    """Of each record by itself, then of a folder with all pictures and with names in another alphabet."""
    found: list[Problem] = []
    for name, (data, _) in RECORDS.items():
        made = read_bytes(data, f"content/sources/{name}.yml", "source", "a")
        found += made if isinstance(made, tuple) else ()
    with tempfile.TemporaryDirectory() as folder:
        content = worlds.lay(Path(folder)) / "content"
        (content / "photographs").mkdir(exist_ok=True)
        for i, (make, _) in enumerate(PICTURES.values()):
            data = make()
            ending = next((end for head, end in _ENDINGS.items() if data.startswith(head)), "jpg")
            (content / f"photographs/p{i}.{ending}").write_bytes(data)
        for latin in (b"sources/m\xe4rz.yml", b"photographs/l\xe4.jpg", b"m\xe4.md", b"sources/\xff.yml"):
            Path(os.fsdecode(os.fsencode(content) + b"/" + latin)).write_bytes(RECORDS["json"][0])
        found += check_folder(Path(folder)).problems
    return found


if __name__ == "__main__":
    listed = json.loads(as_code_quality(problems(), 0))
    json.dump([(one["fingerprint"], one["description"]) for one in listed], sys.stdout)
