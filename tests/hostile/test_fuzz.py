"""The fuzzers, seeded and short, and all that they ever found; longer by `python -m tests.hostile.fuzz`."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.hostile import fuzz
from tests.hostile.fuzz import CORPUS, Fuzzer, Report

SECONDS = float(os.environ.get("SPANBOOK_FUZZ_SECONDS", "20"))
SEED = int(os.environ.get("SPANBOOK_FUZZ_SEED", "1934"))
# Its share of the seconds, and what has to come of a run for it to have tried anything.
SHARES = {
    "records": (0.2, {"read", "refused"}),
    "pictures": (0.2, {"made", "refused"}),
    "drawings": (0.1, {"drawn", "refused"}),
    "packets": (0.2, {"laid", "refused", "no packet"}),
    "projects": (0.5, set()),
    "sheets": (0.2, {"read", "refused"}),
}
FOUND = {f"{file.parent.name}/{file.name}": file for file in sorted(CORPUS.glob("*/*"))}


@pytest.mark.slow
@pytest.mark.parametrize("name", fuzz.fuzzers())
def test_a_seeded_run_breaks_no_promise(name: str) -> None:
    """SPANBOOK_FUZZ_SECONDS and SPANBOOK_FUZZ_SEED change how long all of them take, and which cases."""
    share, wanted = SHARES[name]
    report = fuzz.run(fuzz.fuzzers()[name], SECONDS * share, SEED)
    assert report.broken == {}
    assert report.outcomes.total() > 0
    assert wanted <= report.outcomes.keys()


@pytest.mark.slow
@pytest.mark.parametrize("name", FOUND)
def test_what_was_found_once_is_never_found_again(name: str) -> None:
    assert fuzz.fuzzers()[FOUND[name].parent.name].judge(FOUND[name].read_bytes())


def test_a_broken_promise_is_told_once_for_each_place_and_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def judge(case: bytes) -> str:
        assert case != b"\x07", "a seven"
        return "sound" if case < b"\x80" else "strange"

    report = fuzz.run(Fuzzer(lambda chance: bytes([chance.randrange(256)]), judge), 0.5, 1)
    assert report.outcomes.keys() == {"sound", "strange", "broken"}
    ((where, case),) = report.broken.items()
    assert (case, "a seven" in where) == (b"\x07", True)
    monkeypatch.setattr(fuzz, "CORPUS", tmp_path)
    assert fuzz.keep("records", case).read_bytes() == b"\x07"


def test_a_case_that_takes_too_long_is_a_break(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fuzz, "LONGEST", -1.0)
    report: Report = fuzz.run(Fuzzer(lambda chance: b"x", lambda case: "slow"), 0.01, 1)
    assert list(report.broken.values()) == [b"x"]
