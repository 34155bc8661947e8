"""What a copy of the site consists of, and which pages are about one machine."""

from __future__ import annotations

import io
import json
from pathlib import Path
from urllib.parse import urljoin

import pytest
from PIL import Image

from spanbook.answers.readings import reading_of
from spanbook.outputs.folder.held import held
from spanbook.reading.records import Machine
from spanbook.site import addresses
from spanbook.site.along import files, machines, manifest
from spanbook.site.page import SitePage
from tests.support.demo import shown

SITE = shown()
MACHINES = list(SITE.register.machines.values())


@pytest.mark.parametrize("machine", MACHINES, ids=lambda one: one.id)
def test_whatever_a_card_of_a_machine_tells_of_is_among_its_pages(machine: Machine) -> None:
    pages = set(machines.pages(SITE, machine))
    told = 0
    for series in machine.series:
        assert addresses.of_series(series) in pages
        for number in sorted({n for run in series.issued for n in (run.first, run.last or run.first)}):
            for place in SITE.answers.fits.card(reading_of(series, number)).positions:
                for fit in place.fits:
                    assert addresses.of_record(fit.assembly) in pages
                    assert addresses.of_position(place.position) in pages
                    told += 1
    assert told > 0


def test_a_part_brings_what_replaces_it() -> None:
    every = {address for machine in MACHINES for address in machines.pages(SITE, machine)}
    for part in SITE.register.parts.values():
        if addresses.of_part(part.key) in every:
            new = {SITE.register.key_of(act, use) for act in part.old_in for use in act.new}
            assert {addresses.of_part(key) for key in new} <= every


def test_what_is_about_another_machine_alone_stays_behind() -> None:
    of_d = set(machines.pages(SITE, SITE.register.machines["wexmoor-d"]))
    assert "assemblies/edge-strainer/" not in of_d
    assert "series/hk/" not in of_d


@pytest.mark.slow  # every page of the demonstration is made
def test_every_address_of_a_machine_is_a_page(demo_pages: list[SitePage]) -> None:
    known = {page.address for page in demo_pages}
    for machine in MACHINES:
        assert set(machines.pages(SITE, machine)) <= known


def all_of(folder: Path) -> list[tuple[str, int, str]]:
    return [(one.path, one.size, one.digest) for one in held(folder, {})]


def test_a_list_has_what_readers_need_each_with_what_tells_it_from_another_state(tmp_path: Path) -> None:
    for path, text in {
        "index.html": "one",
        "a/index.html": "two",
        "x.map": "",
        "addresses.txt": "",
        ".mark": "",
    }.items():
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_text(text)
    before = json.loads(files.listed(all_of(tmp_path), "abc", "Told."))
    assert before["state"] == "abc"
    assert before["told"] == "Told."
    assert [(address, size) for address, size, _ in before["files"]] == [
        ("a/index.html", 3),
        ("index.html", 3),
    ]
    (tmp_path / "a/index.html").write_text("six")
    after = json.loads(files.listed(all_of(tmp_path), "abc", "Told."))
    changed = [one[0] for one, other in zip(after["files"], before["files"], strict=True) if one != other]
    assert changed == ["a/index.html"]


def test_a_device_is_told_of_the_site_and_has_an_icon_of_each_size() -> None:
    """After the Web Application Manifest (W3C): addresses are read from where the manifest stands."""
    made = manifest.files("Example engines", "What each left the works with.")
    told = json.loads(made[manifest.MANIFEST])
    assert (told["name"], told["display"]) == ("Example engines", "standalone")
    site = "https://example.org/book/"
    assert {urljoin(site + manifest.MANIFEST, told[name]) for name in ("start_url", "scope")} == {site}
    for one in told["icons"]:
        address = urljoin(site + manifest.MANIFEST, one["src"]).removeprefix(site)
        picture = Image.open(io.BytesIO(made[address]))
        assert (picture.format, f"{picture.width}x{picture.height}") == ("PNG", one["sizes"])
        assert len(picture.convert("RGB").getcolors() or []) >= 5, "there is something on it"
    assert len(told["icons"]) == len(made) - 1
