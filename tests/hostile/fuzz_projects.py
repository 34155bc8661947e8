"""Small projects made from a good one: what the check takes, the build builds, strictly too; what it does
not take is not built, and whichever it is, it is said in sentences."""

from __future__ import annotations

import base64
import json
import random
import tempfile
from collections import defaultdict
from collections.abc import Callable
from pathlib import Path
from typing import Any

import yaml

from spanbook.faces import scaffold
from spanbook.reading.git_tree import content_at
from spanbook.reading.problems import Severity
from spanbook.reading.write import to_yaml
from spanbook.rules.checking import check_folder, check_tree
from tests.hostile.drawings import DRAWINGS
from tests.hostile.fuzz import Fuzzer
from tests.hostile.pictures import PICTURES
from tests.hostile.texts import LINES, NOTES
from tests.support.command import CONFIG, run
from tests.support.repository import git

Files = dict[str, bytes]
_STARTER = Path(scaffold.__file__).parent / "starter"
_BASE = {
    file.relative_to(_STARTER).as_posix(): file.read_bytes()
    for file in sorted((_STARTER / "content").rglob("*"))
    if file.is_file()
} | {"mkdocs.yml": CONFIG.encode()}
_WORDS = [*LINES.values(), "0", "1", "172", "-1", "9999999999", "unknown", "open", "a" * 300, "x", "XA ????"]
_PHOTOGRAPHS = [make() for make, _ in PICTURES.values() if len(make()) < 100_000]
_DRAWINGS = [make() for make, _ in DRAWINGS.values() if len(make()) < 100_000]


def _values() -> dict[str, list[Any]]:
    """Everything that the good project says under each key."""
    found: dict[str, list[Any]] = defaultdict(list)

    def gather(value: Any) -> None:
        if isinstance(value, dict):
            for key, inner in value.items():
                found[key].append(inner)
                gather(inner)
        elif isinstance(value, list):
            for inner in value:
                gather(inner)

    for path, data in _BASE.items():
        if path.endswith(".yml") and path.startswith("content/"):
            gather(yaml.load(data, yaml.BaseLoader))
    return found


_SAID = _values()


def _record(chance: random.Random, files: Files) -> str:
    return chance.choice([path for path in files if path.startswith("content/") and path.endswith(".yml")])


def _places(value: Any) -> list[tuple[Any, Any]]:
    """Every place in a record: what holds it, and its key or number there."""
    found = []
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in inside:
        found += [(value, key), *_places(inner)]
    return found


def _change(chance: random.Random, files: Files) -> None:
    """One value of a record becomes another, is gone, or stands there twice."""
    path = _record(chance, files)
    made = yaml.load(files[path], yaml.BaseLoader)
    if not isinstance(made, dict) or not (places := _places(made)):
        return
    holder, key = chance.choice(places)
    what = chance.randrange(10)
    if what < 6 and key in _SAID:
        holder[key] = chance.choice(_SAID[key])
    elif what < 8 and isinstance(holder[key], str):
        holder[key] = chance.choice([*_WORDS, holder[key] + "x", holder[key][::-1]])
    elif what == 8:
        del holder[key]
    elif isinstance(holder, list):
        holder.append(holder[key])
    files[path] = to_yaml(made).encode()


def _copy(chance: random.Random, files: Files) -> None:
    """A record once more, under another id."""
    path = _record(chance, files)
    made = yaml.load(files[path], yaml.BaseLoader)
    if isinstance(made, dict) and "id" in made:
        made["id"] = f"copy-{chance.randrange(100)}"
        files[f"{path.rpartition('/')[0]}/{made['id']}.yml"] = to_yaml(made).encode()


def _lose(chance: random.Random, files: Files) -> None:
    del files[_record(chance, files)]


def _move(chance: random.Random, files: Files) -> None:
    path = _record(chance, files)
    folder, _, name = path.rpartition("/")
    below = chance.choice(["", "/deep", "/deep" * 60, "/.hidden", "/con"])
    files[f"{folder}{below}/{chance.choice([name, name.upper()])}"] = files.pop(path)


def _photograph(chance: random.Random, files: Files) -> None:
    name = chance.choice(["lid.jpg", "lid.png", "deep/lid.webp", "Lid.JPG"])
    files[f"content/photographs/{name}"] = chance.choice(_PHOTOGRAPHS)
    shown = [path for path in files if path.startswith("content/teardowns/") and path.endswith(".yml")]
    if shown and chance.random() < 0.9:
        made = yaml.load(files[shown[0]], yaml.BaseLoader)
        if isinstance(made.get("found"), list) and isinstance(made["found"][0], dict):
            made["found"][0]["photographs"] = [{"file": name, "shows": chance.choice(["A lid", *_WORDS])}]
            files[shown[0]] = to_yaml(made).encode()


def _drawing(chance: random.Random, files: Files) -> None:
    name = chance.choice(["lid.svg", "deep/lid.svg", "Lid.svg", "lid.SVG"])
    files[f"content/drawings/{name}"] = chance.choice(_DRAWINGS)
    shown = [path for path in files if path.startswith("content/assemblies/") and path.endswith(".yml")]
    if shown and chance.random() < 0.9:
        made = yaml.load(files[shown[0]], yaml.BaseLoader)
        if isinstance(made, dict):
            where = {"x": chance.choice([0, 500, 1000, 1001, -1]), "y": chance.choice([0, 999])}
            points = [
                {**where, chance.choice(["shows", "number", "sign"]): chance.choice(["A lid", *_WORDS])}
            ]
            figure = {"file": name, "shows": chance.choice(["A lid", *_WORDS]), "licence": "CC0-1.0"}
            made["figures"] = [figure | ({"points": points} if chance.random() < 0.7 else {})]
            files[shown[0]] = to_yaml(made).encode()


_HEADS = [f"---\n{line}\n---\n" for line in ("title: X", "{[", "template: nowhere.html", "- x", "title: [1]")]


def _guide(chance: random.Random, files: Files) -> None:
    head = chance.choice(
        ["", "", "---\ntitle: X\n---\n", "---\n{[\n---\n", "---\ntemplate: nowhere.html\n---\n"]
    )
    text = head + chance.choice(["# A guide\n", chance.choice(list(NOTES.values()))])
    files[chance.choice(["content/guide.md", "content/guides/one.md", "content/index.md"])] = text.encode()


_DAMAGES: tuple[Callable[[random.Random, Files], None], ...] = (
    *(_change,) * 12,
    *(_copy,) * 3,
    _lose,
    _move,
    *(_photograph,) * 3,
    *(_drawing,) * 3,
    *(_guide,) * 2,
)


def _make(chance: random.Random) -> bytes:
    files = dict(_BASE)
    for _ in range(chance.choice((1, 1, 2, 3, 5))):
        chance.choice(_DAMAGES)(chance, files)
    changed = {path: data for path, data in files.items() if _BASE.get(path) != data}
    told = {path: base64.b64encode(data).decode() for path, data in sorted(changed.items())}
    return json.dumps({"gone": sorted(set(_BASE) - set(files)), "files": told}, indent=1).encode()


def _lay(case: bytes, folder: Path) -> None:
    told = json.loads(case)
    files = _BASE | {path: base64.b64decode(data) for path, data in told["files"].items()}
    for path in files.keys() - told["gone"]:
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(files[path])


def _judge(case: bytes) -> str:
    with tempfile.TemporaryDirectory(prefix="spanbook-fuzz-") as place:
        folder = Path(place)
        _lay(case, folder)
        problems = check_folder(folder).problems
        assert all(str(problem).isprintable() for problem in problems)
        worst = max((problem.severity for problem in problems), key=_RANK.index, default=Severity.ADVICE)
        built = run("build", "--strict", folder)
        assert "Traceback" not in built.output, built.output
        assert built.exception is None or isinstance(built.exception, SystemExit), repr(built.exception)
        if worst is not Severity.ADVICE:
            assert built.exit_code == 1, "built, though it was refused"
        if worst is Severity.WARNING:
            built = run("build", folder)
        if worst is not Severity.ERROR:
            assert built.exit_code == 0, built.output[-600:]
            assert (folder / "site/index.html").is_file()
        if len(case) % 8 == 0:
            git(folder, "init", "-q", "-b", "main")
            git(folder, "add", "-A", "-f", ".", ":!site")
            git(folder, "commit", "-q", "-m", "A proposal")
            assert check_tree(content_at(folder, "main"), "content").problems == problems
        return {Severity.ADVICE: "built strictly", Severity.WARNING: "built", Severity.ERROR: "refused"}[
            worst
        ]


_RANK = [Severity.ADVICE, Severity.WARNING, Severity.ERROR]
FUZZER = Fuzzer(_make, _judge)
