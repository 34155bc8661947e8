"""Whoever writes against the interface gets its types: a strict type checker says what every answer is."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Literal, get_origin

import pytest

import spanbook

PROJECT = Path(__file__).parents[2]
pytestmark = pytest.mark.slow

USES = """
from typing import assert_type

import spanbook

register = spanbook.open_register("my-community")
assert_type(register, spanbook.OpenRegister)
assert_type(register.ask("HK 588"), spanbook.Answer)
for card in register.fits("HK 588"):
    assert_type(card, spanbook.Card)
    for place in card.positions:
        assert_type(place, spanbook.AtPosition)
        assert_type(place.state, spanbook.State)
assert_type(register.read_serial("HK 588"), tuple[spanbook.Reading, ...])
assert_type(register.questions(), tuple[spanbook.Question, ...])
for statement, judgement in register.standings().items():
    assert_type(statement, spanbook.Statement)
    assert_type(judgement.standing, spanbook.Standing)
assert_type(register.breaks("oil-filter", "hk", spanbook.Rates()), tuple[spanbook.Break, ...])
assert_type(register.total("hk"), spanbook.Total | None)
assert_type(register.order_now(spanbook.Wanted("P 1", 3, serial="HK 588")), spanbook.Need)
assert_type(register.orders(spanbook.Wanted("P 1", by="a-maker")), spanbook.Orders)
assert_type(register.would_do(spanbook.Wanted("P 1")), spanbook.Substitutes)
plan = register.convert("HK 588", register.places("cartridge-filter"), latest=True)
assert_type(plan, spanbook.Plan | spanbook.NoPlan)

checked = spanbook.check("my-community", at="main")
assert_type(checked.problems, tuple[spanbook.Problem, ...])
assert_type(spanbook.fails(checked.problems, strict=True), bool)
assert_type(spanbook.explain(checked.problems[0].name), spanbook.Rule)
assert_type(spanbook.compare("main", "proposal"), spanbook.Comparison)
assert_type(spanbook.review(".", "main", "proposal").comparison, spanbook.Comparison | None)
assert_type(spanbook.build("my-community", strict=True), spanbook.Built)
"""


def checked(folder: Path, text: str) -> subprocess.CompletedProcess[str]:
    file = folder / "uses.py"
    file.write_text(text, encoding="utf-8")
    command = [
        sys.executable,
        "-m",
        "mypy",
        "--strict",
        "--cache-dir",
        str(PROJECT / ".mypy_cache"),
        str(file),
    ]
    env_path = str(Path(spanbook.__file__).parents[1])
    return subprocess.run(
        command, cwd=folder, env={"MYPYPATH": env_path}, capture_output=True, text=True, check=False
    )


def test_every_answer_has_its_type(tmp_path: Path) -> None:
    done = checked(tmp_path, USES)
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_wrong_use_is_told(tmp_path: Path) -> None:
    done = checked(
        tmp_path, "import spanbook\nspanbook.open_register('x').order_now(7)\nspanbook.Wanted(7)\n"
    )
    assert 'incompatible type "int"; expected "Wanted"' in done.stdout
    assert 'incompatible type "int"; expected "str"' in done.stdout


def test_everything_public_is_documented() -> None:
    public = {name: getattr(spanbook, name) for name in spanbook.__all__}
    # A choice of words is what its words say; it can have no docstring.
    said = {name: it.__doc__ or "" for name, it in public.items() if get_origin(it) is not Literal}
    # What a data class says of itself by default names its fields and explains nothing.
    undocumented = [name for name, text in said.items() if not text or text.startswith(f"{name}(")]
    assert undocumented == []
