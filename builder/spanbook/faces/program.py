"""Where a community's workflows get the program from: a wheel laid in the folder, or a full commit in git.

Never a name alone: a name that nobody has published yet is anybody's to publish.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, distribution
from io import BytesIO
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import url2pathname
from zipfile import BadZipFile, ZipFile

from spanbook.faces.remarks import told
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked

STARTER = Path(__file__).parent / "starter"
FOLDER = "program"
_LOCK, _SOURCE, _INSTALL = (f"{FOLDER}/{name}" for name in ("dependencies.txt", "source.txt", "install.sh"))
_WHEEL = re.compile(r"spanbook-[0-9][0-9A-Za-z.+]*-py3-none-any\.whl")
# No user in front of the host, and a commit's whole name: a branch or a tag may lead elsewhere tomorrow.
_COMMIT = re.compile(r"git\+https://[^\s@/?#]+/[^\s@?#]+@(?:[0-9a-f]{40}|[0-9a-f]{64})")
_HEAD = marked("Where the program comes from; `spanbook program SOURCE` writes this file.")


class NoSource(Exception):  # noqa: N818 - it says what is missing
    """What was named is no source that can be trusted to stay the same. The message says why."""


@dataclass(frozen=True, slots=True)
class Source:
    """A requirement that names one state of the program, and the files that it needs beside it, by name."""

    requirement: str
    lock: bytes
    wheel: tuple[str, bytes] | None = None


def source_of(named: str) -> Source:
    """The source that a wheel's path, or a git address with a full commit, names. Raises NoSource."""
    if named.startswith("git+"):
        if not _COMMIT.fullmatch(named):
            raise NoSource(
                _("{}: write git+https://HOST/PATH@COMMIT, with all 40 digits of the commit").format(named)
            )
        # What the program needs is known by the program that runs here, which should be that commit.
        return Source(f"spanbook @ {named}", (STARTER / _LOCK).read_bytes())
    path = Path(named)
    if not _WHEEL.fullmatch(path.name):
        raise NoSource(
            _("{}: name a wheel, spanbook-VERSION-py3-none-any.whl, or a commit in git").format(named)
        )
    try:
        data = path.read_bytes()
        with ZipFile(BytesIO(data)) as wheel:
            lock = wheel.read(f"spanbook/faces/starter/{_LOCK}")
    except (OSError, BadZipFile, KeyError) as failure:
        raise NoSource(
            _("{named}: it cannot be read as a wheel of spanbook: {failure}").format(
                named=named, failure=failure
            )
        ) from failure
    return Source(f"./{path.name} --hash=sha256:{sha256(data).hexdigest()}", lock, (path.name, data))


def own_source() -> Source | None:
    """Where the program that runs here was installed from, where that can be said again (PEP 610)."""
    try:
        noted = json.loads(distribution("spanbook").read_text("direct_url.json") or "{}")
        if commit := noted.get("vcs_info", {}).get("commit_id"):
            return source_of(f"git+{noted['url']}@{commit}")
        address = urlsplit(noted.get("url", ""))
        return source_of(url2pathname(address.path)) if address.scheme == "file" else None
    except (PackageNotFoundError, NoSource, ValueError):
        return None


def lay(source: Source | None, project: Path) -> tuple[str, ...]:
    """Write the program's folder in a project, and give the files made. Without a source nothing installs.

    What names the program is written last: half of it installs nothing else. Raises OSError.
    """
    made = {_INSTALL: _told(_INSTALL)}
    if source is None:
        made |= {_LOCK: (STARTER / _LOCK).read_bytes(), _SOURCE: _told(_SOURCE)}
    else:
        wheel = {f"{FOLDER}/{source.wheel[0]}": source.wheel[1]} if source.wheel else {}
        made |= {**wheel, _LOCK: source.lock, _SOURCE: f"# {_(_HEAD)}\n{source.requirement}\n".encode()}
    (project / FOLDER).mkdir(exist_ok=True)
    for name, data in made.items():
        (project / name).write_bytes(data)
    for old in (project / FOLDER).glob("spanbook-*.whl"):
        if f"{FOLDER}/{old.name}" not in made:
            old.unlink()
    return tuple(sorted(made))


def _told(name: str) -> bytes:
    return told((STARTER / name).read_text(encoding="utf-8")).encode()
