"""What is retired keeps its page and every address, and leads on; nothing is answered from it."""

from __future__ import annotations

import re
from pathlib import Path

from tests.support.demo import demo


def test_its_page_says_why_and_leads_on(demo_site: Path) -> None:
    page = (demo_site / "assemblies/capless-breather/index.html").read_text()
    told = re.sub("<[^>]*>", "", page)
    assert "Retired: It was a mushroom breather that had lost its cap. Now: Mushroom breather." in told
    assert '<a href="../../assemblies/mushroom-breather/">Mushroom breather</a>.' in page
    assert '<li id="span-hk">' in page
    assert "assemblies/capless-breather/#span-hk" in (demo_site / "addresses.txt").read_text().splitlines()


def test_no_machine_has_it() -> None:
    register = demo()
    (card,) = register.fits("HK 5")
    held = {fit.assembly.id for place in card.positions for fit in place.fits}
    assert "mushroom-breather" in held
    assert "capless-breather" not in held


def test_its_position_lists_what_is_there_without_it(demo_site: Path) -> None:
    page = (demo_site / "positions/crankcase/breather/index.html").read_text()
    assert "Mushroom breather" in page
    assert "capless" not in page


def test_a_find_of_one_of_several_names_them_all(demo_site: Path) -> None:
    page = re.sub("<[^>]*>", "", (demo_site / "teardowns/hk-1402-brindle/index.html").read_text())
    assert "Found: Metal-edge strainer or Waste-packed bypass filter" in page
