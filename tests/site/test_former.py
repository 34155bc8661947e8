"""Every address that a thing had before it was called otherwise leads to where it is now."""

from __future__ import annotations

from pathlib import Path

import pytest

import spanbook
from spanbook.answers.answers import Answers
from spanbook.register.former import former
from spanbook.register.model import Register
from spanbook.site import permanent, views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.support import worlds
from tests.support.command import LID

BASE = (Path(worlds.__file__).parent / "base.txt").read_text()
SHEET = (
    "# file: content/strip-downs/lid-osk.yml\nkind: strip-down\nid: lid-osk\nassembly: lid\ndate: 2024\n"
    "seen-by: osk\nsteps: [{id: off, do: Lift it off}]\n"
)
NUMBERED = LID + "parts:\n- {number: K-1, name: Knob}\n"
KNOB = (
    "# file: content/parts/knob.yml\nkind: part\nid: knob\nnumber: K-1\nname: Knob\n"
    "sizes: [{what: Bore, value: '3', unit: mm}]\n"
)
OTHER = (
    "# file: content/machines/y.yml\nkind: machine\nid: y\ntitle: Y\nmaker: Example Works\nseries:\n"
    '- {id: ya, formerly: [yb], stamped: "YA {number}", plate: engine, first: 1, last: 9, years: {1931: 1}, '
    "years-evidence: [{source: book}], plants: [{name: North shop, evidence: [{source: book}]}]}\n"
)
TERMS = "# file: content/glossary.yml\nkind: glossary\nterms:\n- {id: seam, term: Seam, meaning: A joint.}\n"
GONE = "# file: content/gone.yml\nkind: gone\npages:\n- {address: 'assemblies/lid/#span-xz', why: Not so.}\n"


def register(folder: Path, *files: str) -> Register:
    worlds.lay(folder, *files)
    checked = spanbook.check(folder)
    assert not [p for p in checked.problems if p.severity is spanbook.Severity.ERROR], checked.problems
    return checked.register


def pages(made: Register) -> dict[str, str]:
    """The pages, without the pieces of long ones: these may move."""
    every = views.all_pages(Site(Answers(made)))
    return {page.address: page.to_html(Around()) for page in every if not page.piece_of}


CORRECTIONS = {
    "an assembly": [
        ("id: lid\n", "id: cap\nformerly: [lid]\n"),
        ("assemblies/lid.yml", "assemblies/cap.yml"),
        ("assembly: lid", "assembly: cap"),
    ],
    "a series": [("id: xa\n", "id: new\n  formerly: [xa]\n"), ("series: xa", "series: new")],
    "a position": [
        ("{id: cover, ", "{id: top, formerly: [body/cover], "),
        ("body/cover\n", "body/top\n"),
        ("body/cover,", "body/top,"),
    ],
    "a group": [
        ("- id: body\n", "- id: hull\n  formerly: [body]\n"),
        ("position: body/", "position: hull/"),
        ("[body/drain]", "[hull/drain]"),
    ],
    "a number": [
        ("number: K-1\n", "number: K-2\nformerly-numbered: [{number: K-1}]\n"),
        ("number: K-1,", "number: K-2,"),
    ],
    "whose number": [
        ("number: K-1,", "number: K-1, by: castle, formerly: [part-k-1],"),
        ("number: K-1\n", "number: K-1\nby: castle\nformerly-numbered: [{number: K-1, by: example-works}]\n"),
    ],
    "an anchor": [("last: 20}", "last: 20, anchor: span-early, formerly: [span-xa]}")],
    "a series that is retired": [("last: 9,", "last: 9, retired: Misread, now: [xa],")],
    "a caution": [("- id: used-oil\n", "- id: old-oil\n  formerly: [used-oil]\n")],
    "a term": [("{id: seam,", "{id: joint, formerly: [seam],")],
    "what was measured": [("{what: Bore,", "{what: Inside diameter, formerly: [size-bore],")],
}


WORLD = [BASE, NUMBERED, KNOB, GONE, SHEET, OTHER, TERMS]


@pytest.fixture(scope="module")
def before(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, ...]:
    """The addresses of the world as nobody has corrected it."""
    return tuple(permanent.public(register(tmp_path_factory.mktemp("before"), *WORLD)))


@pytest.mark.slow
@pytest.mark.parametrize("correction", CORRECTIONS.values(), ids=CORRECTIONS)
def test_no_address_dies_of_a_correction(
    correction: list[tuple[str, str]], before: tuple[str, ...], tmp_path: Path
) -> None:
    world = WORLD
    for old, new in correction:
        assert any(old in text for text in world)
        world = [text.replace(old, new) for text in world]
    after = register(tmp_path, *world)
    now, made = set(permanent.public(after)), pages(after)
    assert set(before) - now == set()
    assert {address.partition("#")[0] for address in now} == made.keys()
    for address in before:
        page, _, anchor = address.partition("#")
        html = made[page]
        if "data-moved" in html:
            html = made[html.partition('data-moved href="')[2].partition('"')[0].replace("../", "")]
        assert "data-moved" not in html
        assert not anchor or html.count(f' id="{anchor}"') == 1, address


TREE = """\
kind: positions
positions:
- id: hull
  title: Hull
  formerly: [body, frame/body]
  positions:
  - {id: lid, title: Lid, formerly: [body/cover, pump/cap]}
  - {id: drain, title: Drain}
- {id: pump, title: Pump, formerly: [hull/pump]}
"""


def test_what_is_in_a_group_was_in_what_the_group_was_called(tmp_path: Path) -> None:
    worlds.lay(tmp_path, "# file: content/positions.yml\n" + TREE)
    made = spanbook.check(tmp_path).register
    names = former(made.records, made.numbering, made.things)
    assert set(names.ids_of["position", "hull/drain"]) == {"body/drain", "frame/body/drain"}
    assert set(names.ids_of["position", "hull/lid"]) >= {
        *("body/lid", "body/cover", "frame/body/lid", "frame/body/cover"),
        *("hull/cover", "pump/cap", "hull/pump/cap", "body/pump/cap"),
    }
    assert set(names.ids_of["position", "pump"]) == {"hull/pump", "body/pump", "frame/body/pump"}


def test_a_place_that_was_inside_itself_ends_the_names(tmp_path: Path) -> None:
    tree = "kind: positions\npositions: [{id: a, title: A, formerly: [a/b, a/a]}]\n"
    worlds.lay(tmp_path, "# file: content/positions.yml\n" + tree)
    made = spanbook.check(tmp_path).register
    assert former(made.records, made.numbering, made.things).ids_of == {("position", "a"): ("a/b", "a/a")}


@pytest.mark.parametrize(
    ("link", "todo"),
    [
        ("/assemblies/lid/", "write what it goes by now: /assemblies/cap/"),
        ("/series/old/", "write what it goes by now: /series/xa/"),
        ("/positions/body/lid/", "write what it goes by now: /positions/body/cover/"),
        ("/parts/example-works/k-9/", "write what it goes by now: /parts/example-works/k-1/"),
    ],
)
def test_a_link_to_a_former_address_is_told_todays(link: str, todo: str, tmp_path: Path) -> None:
    worlds.lay(
        tmp_path,
        BASE.replace("id: xa\n", "id: xa\n  formerly: [old]\n").replace(
            "{id: cover, ", "{id: cover, formerly: [body/lid], "
        ),
        LID.replace("lid.yml", "cap.yml").replace("id: lid", "id: cap\nformerly: [lid]"),
        KNOB + "formerly-numbered: [{number: K-9}]\nnotes: See [it](" + link + ").\n",
    )
    told = [(p.name, p.todo) for p in spanbook.check(tmp_path).problems if p.name == "link-dead"]
    assert told == [("link-dead", todo)]
