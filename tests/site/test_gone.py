"""What is gone is told at its old address, with the reason: no link dies in silence."""

from __future__ import annotations

from pathlib import Path

import pytest

import spanbook
from tests.support import worlds
from tests.support.command import LID, project, run
from tests.support.repository import git

SECOND = "# file: content/sources/letter.yml\nkind: source\nid: letter\ntitle: A letter\nclass: manual\n"
KNOB = "- {number: K-1, name: Knob, quantity: 1}\n"
GONE = """\
# file: content/gone.yml
kind: gone
pages:
- {address: sources/letter/, why: "It was a copy of [the book](/sources/book/)."}
- {address: assemblies/lid/#part-k-1, why: The knob belongs to the *pump*.}
- {address: parts/example-works/k-1/, why: It was a misreading.}
"""


def world(folder: Path, *more: str) -> Path:
    return project(folder, *more)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = world(tmp_path_factory.mktemp("gone") / "p", GONE)
    done = run("build", folder)
    assert done.exit_code == 0, done.output
    return folder / "site"


@pytest.mark.slow
def test_the_reason_stands_at_the_old_address(site: Path) -> None:
    page = (site / "sources/letter/index.html").read_text()
    assert '<h1 id="record">Gone: sources/letter/</h1>' in page
    assert 'It was a copy of <a href="../../sources/book/" rel="noopener nofollow">the book</a>.' in page
    assert "It was a misreading." in (site / "parts/example-works/k-1/index.html").read_text()


@pytest.mark.slow
def test_a_statement_that_is_gone_is_told_on_its_page(site: Path) -> None:
    page = (site / "assemblies/lid/index.html").read_text()
    assert '<div id="part-k-1"><p>The knob belongs to the <em>pump</em>.</p>' in page
    assert "No longer said here" in page
    assert "No longer said here" not in (site / "sources/book/index.html").read_text()


@pytest.mark.slow
def test_the_list_of_addresses_keeps_them(site: Path) -> None:
    listed = (site / "addresses.txt").read_text().splitlines()
    assert {"sources/letter/", "assemblies/lid/#part-k-1", "parts/example-works/k-1/"} <= set(listed)
    assert listed == sorted(listed)


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A repository with a letter and a knob; `proposal` takes both away."""
    folder = world(tmp_path / "old", SECOND, LID + "parts:\n" + KNOB)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "The records")
    git(folder, "switch", "-q", "-c", "proposal")
    (folder / "content/sources/letter.yml").unlink()
    worlds.lay(folder, LID)
    git(folder, "commit", "-q", "-am", "Away")
    return folder


@pytest.mark.slow
def test_a_review_passes_what_is_gone_for_a_reason_and_tells_it(old: Path) -> None:
    silent = run("review", "main", "proposal", "--folder", old)
    assert silent.exit_code == 1
    assert "or say in gone.yml why it is gone." in silent.output
    assert spanbook.review(old, "main", "proposal").dying == (
        "assemblies/lid/#part-k-1",
        "parts/example-works/",
        "parts/example-works/k-1/",
        "sources/letter/",
    )
    worlds.lay(old, GONE + "- {address: parts/example-works/, why: No number is left.}\n")
    git(old, "add", "-A")
    git(old, "commit", "-q", "-m", "Why")
    told = run("review", "main", "proposal", "--folder", old)
    assert told.exit_code == 0, told.output
    assert "\n  gone for good: parts/example-works/, because: No number is left.\n" in told.output
    assert "\nAddresses that are gone for a reason (4)\n" in told.output
    assert "would die" not in told.output


@pytest.mark.slow
def test_a_page_that_is_gone_stands_for_all_that_stood_on_it(tmp_path: Path) -> None:
    older = tmp_path / "addresses.txt"
    older.write_text("assemblies/cap/\nassemblies/cap/#span-xa\nassemblies/hat/#span-xa\n")
    folder = world(
        tmp_path / "p",
        "# file: content/gone.yml\nkind: gone\npages:\n- {address: assemblies/cap/, why: It was the lid.}\n",
    )
    told = run("check", folder, "--addresses", older)
    assert told.exit_code == 1
    assert "the address assemblies/hat/#span-xa would die" in told.output
    assert "cap" not in told.output


HEAD = "# file: content/gone.yml\nkind: gone\npages:\n"


@pytest.mark.parametrize(
    ("address", "told"),
    [
        ("sources/letter/", None),
        ("assemblies/lid/#part-k-1", None),
        ("glossary/#plate", None),
        ("cautions/#soot", None),
        ("sources/book/", "gone-still-there"),
        ("assemblies/hat/", "gone-still-there"),  # what the lid was called formerly
        ("assemblies/lid/#span-xa", "gone-still-there"),
        ("cautions/#used-oil", "gone-still-there"),
        ("parts/example-works/p-1/", "gone-still-there"),
        ("parts/example-works/p-1/#size-bore", "gone-still-there"),
        ("parts/example-works/p-1/#size-depth", None),
        ("series/xa/", "gone-still-there"),
        ("positions/body/cover/", "gone-still-there"),
        ("positions/body/", "gone-still-there"),
        ("sources/letter/#top", "gone-nowhere"),
        ("secret/letter/", "gone-nowhere"),
        ("glossary/", "gone-nowhere"),
        ("assemblies/../../etc/", "value-form"),
        ("assemblies/.git/", "value-form"),
        ("/assemblies/cap/", "value-form"),
        ("https://example.org/", "value-form"),
    ],
)
def test_what_may_be_called_gone(address: str, told: str | None, tmp_path: Path) -> None:
    part = (
        "# file: content/parts/pin.yml\nkind: part\nid: pin\nname: Pin\nnumber: P-1\n"
        "sizes: [{what: Bore, value: '3', unit: mm}]\n"
    )
    lid = LID.replace("id: lid\n", "id: lid\nformerly: [hat]\n")
    worlds.lay(tmp_path, lid, part, f"{HEAD}- {{address: '{address}', why: Because.}}\n")
    found = [p for p in spanbook.check(tmp_path).problems if p.place.path.endswith("gone.yml")]
    assert [p.name for p in found] == ([told] if told else [])


def test_one_address_once(tmp_path: Path) -> None:
    entry = "- {address: sources/letter/, why: Because.}\n"
    worlds.lay(tmp_path, HEAD + entry + entry)
    (problem,) = [p for p in spanbook.check(tmp_path).problems if p.place.path.endswith("gone.yml")]
    assert (problem.name, problem.place.line) == ("gone-twice", 4)
