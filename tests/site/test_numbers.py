"""The page of a part with all its numbers, and the pages that lead to it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from spanbook.answers.answers import Answers
from spanbook.rules.checking import check_folder
from spanbook.site import permanent, views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.support import worlds

HEAD = (
    "# file: content/parts/{0}.yml\nkind: part\nid: {0}\nnumber: {1}\nname: {2}\n"
    "evidence: [{{source: book}}]\n"
)
LIST = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials: [{series: xa, first: 1, last: 20, evidence: [{source: book}]}]\nparts: [%s]\n"
)


def part(id_: str, number: str, name: str, more: str = "") -> str:
    return HEAD.format(id_, number, name) + more


def pages(folder: Path, *laid: str) -> dict[str, str]:
    """The text of every page, by its address."""
    checked = check_folder(worlds.lay(folder, *laid))
    assert [p for p in checked.problems if p.severity == "error"] == []
    made = list(views.all_pages(Site(Answers(checked.register))))
    assert {page.address for page in made} >= {
        one for one in permanent.public(checked.register) if one.startswith("parts/") and "#" not in one
    }
    return {page.address: words(page.to_html(Around())) for page in made}


def words(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


ARMY = (
    "also: [{number: AS 4, by: army, sort: army, since: 1940, note: On tags}]\nmisprints: [{number: P-21}]\n"
)


@pytest.mark.slow
def test_every_number_of_a_part_leads_to_its_page(tmp_path: Path) -> None:
    listed = LIST % "{number: AS 4, by: army, name: Bolt}"
    found = pages(tmp_path, part("bolt", "P-12", "Bolt", ARMY), listed)
    page = found["parts/example-works/p-12/"]
    assert "Also goes by AS 4 , army number, of army, since 1940 (On tags)" in page
    assert "Misprinted as P-21" in page
    assert "Lid" in page.split("Where it goes")[1]
    assert "AS 4 is another number of P-12 Bolt." in found["parts/army/as_4/"]
    assert "P-21 is a misprint for P-12 Bolt." in found["parts/example-works/p-21/"]
    assert "AS 4 Bolt Lid" in found["parts/army/"]


def test_each_thing_that_a_number_meant_has_a_page_and_the_number_asks_which(tmp_path: Path) -> None:
    early = part(
        "pot", "P-1", "Pot", "reused: [{serials: [{series: xa, first: 1, last: 20}], until: 1935}]\n"
    )
    late = part("bowl", "P-1", "Bowl", "reused: [{machines: [x-one], since: 1937}]\nformerly: [dish]\n")
    listed = LIST % "{number: P-1, name: Pot, means: pot}"
    act = (
        "# file: content/supersessions/s.yml\nkind: supersession\nid: s\nold: [{number: P-1}]\n"
        "new: [{number: P-9}]\nevidence: [{source: book}]\n"
    )
    found = pages(tmp_path, early, late, listed, act)
    which = found["parts/example-works/p-1/"]
    assert "Pot : from XA 1 to XA 20, until 1935" in which
    assert "Bowl : on the X One, since 1937" in which
    assert "Named without telling which P-1 replaced by P-9" in which
    pot = found["parts/example-works/p-1/pot/"]
    assert "It means this from XA 1 to XA 20, until 1935" in pot
    assert "It also meant Bowl, on the X One, since 1937" in pot
    assert "Lid" in pot.split("Where it goes")[1]
    assert "No assembly is recorded" in found["parts/example-works/p-1/bowl/"]
    assert "has moved" in found["parts/example-works/p-1/dish/"]


def test_hands_sets_and_what_looks_alike_stand_on_both_pages(tmp_path: Path) -> None:
    found = pages(
        tmp_path,
        part("left", "P-1", "Elbow left", "hand: left\nmirrors: [{number: P-2}]\n"),
        part("right", "P-2", "Elbow right", "only-in: [{number: S-1}]\n"),
        part("set", "S-1", "Elbow set", "holds: [{number: P-2, quantity: 2}, {number: P-3, name: Ring}]\n"),
        part("ring", "P-3", "Ring", "unlike: [{number: P-2, note: The elbow}]\n"),
    )
    left, right, held, ring = (found[f"parts/example-works/{n}/"] for n in ("p-1", "p-2", "s-1", "p-3"))
    assert "Hand the left-hand one; the right-hand one is P-2" in left
    assert "Hand the right-hand one; the left-hand one is P-1" in right
    assert "Mirror image P-1 , Elbow left" in right
    assert "Sold only in S-1 , Elbow set" in right
    assert "2 × P-2 Elbow right and 1 × P-3 Ring; left over: 1 × P-2 Elbow right and 1 × P-3 Ring." in right
    assert "In the sets S-1 , Elbow set, which holds 1 of it" in ring
    assert "The set holds P-2 , 2 × Elbow right" in held
    assert "Not to be confused with P-2 , Elbow right (The elbow)" in ring
    assert "Not to be confused with P-3 , Ring (The elbow)" in right


@pytest.mark.parametrize(
    "typed", ["P–1", *(pytest.param(typed, marks=pytest.mark.slow) for typed in ("p\u22121", "P\u20111"))]
)
def test_a_dash_of_another_sort_keeps_the_address_that_it_had(tmp_path: Path, typed: str) -> None:
    found = pages(tmp_path, LIST % "{number: P-1, name: Bolt}, {number: Q-1, name: Nut}")
    assert "parts/example-works/p-1/" in found
    found = pages(tmp_path, LIST % f"{{number: {typed}, name: Bolt}}")
    former = [address for address in found if address.startswith("parts/example-works/p~")]
    assert len(former) == 1
    assert "is another spelling of" in found[former[0]]
    assert "parts/example-works/p-1/" in found
