"""Forms in a real browser: what they write, what they keep, and where they hand it in."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from playwright.sync_api import Browser, Page

from spanbook.reading import read_bytes
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.kinds import KINDS, WITH_FORM
from spanbook.reading.records import Record
from spanbook.reading.schemas import bundled
from spanbook.reading.write import to_yaml
from spanbook.site.forms.forge import Forge, forge_of
from tests.reading.test_write import VALUES
from tests.support.demo import demo
from tests.support.scripts import script_text

PROJECT = Path(__file__).parents[2]
DEMO = demo()


@pytest.fixture
def page(chromium: Browser) -> Iterator[Page]:
    context = chromium.new_context(accept_downloads=True)
    page = context.new_page()
    page.set_default_timeout(8000)
    yield page
    context.close()


def opened(page: Page, served: str, kind: str, query: str = "") -> Page:
    page.goto(f"{served}add/{kind}/{query}")
    page.wait_for_selector("form[data-begun]")
    return page


def enter(page: Page, label: str, text: str, nth: int = 0) -> None:
    page.get_by_label(label, exact=False).nth(nth).fill(text)


def made(page: Page) -> str:
    page.get_by_role("button", name="Write the record").click()
    page.wait_for_selector("[data-made]:not([hidden])")
    return page.locator("[data-made] code").text_content() or ""


def told(page: Page) -> str:
    return page.locator("[data-told]").text_content() or ""


def fill_a_teardown(page: Page) -> None:
    page.locator("[data-key=date] input").fill("2026-11-21")
    page.locator("[data-key=seen-by] input").fill("tolland")
    page.locator("[data-key=serial] input").fill("HK 600")
    page.locator("[data-form] > [data-key=condition] select").select_option("untouched")
    page.locator("[data-key=position] input").fill("lubrication/oil-filter")
    page.locator("[data-key=assembly] input").fill("edge-strainer")


def test_a_teardown_is_written_with_every_text_quoted(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    fill_a_teardown(page)
    page.get_by_role("button", name="Add: A part and how many").click()
    page.locator("[data-key=parts] [data-key=number] input").fill("0012")
    page.locator("[data-key=parts] [data-key=quantity] input").fill("2")
    assert made(page) == (
        "# yaml-language-server: $schema=https://wexmoor.example/schema/teardown.json\n"
        'kind: "teardown"\n'
        'id: "hk-600-tolland"\n'
        'date: "2026-11-21"\n'
        'seen-by: "tolland"\n'
        'serial: "HK 600"\n'
        'condition: "untouched"\n'
        "found:\n"
        '  - position: "lubrication/oil-filter"\n'
        '    assembly: "edge-strainer"\n'
        "    parts:\n"
        '      - number: "0012"\n'
        "        quantity: 2\n"
    )


def test_who_names_photographs_is_told_where_they_go(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    fill_a_teardown(page)
    made(page)
    assert page.locator("[data-pictures]").is_hidden()
    page.get_by_role("button", name="Add: A photograph").click()
    page.locator("[data-key=photographs] [data-key=file] input").fill("hk-600/lid.jpg")
    page.locator("[data-key=photographs] [data-key=shows] input").fill("The lid")
    made(page)
    told = page.locator("[data-pictures]").inner_text()
    assert "content/photographs/hk-600/lid.jpg in the same proposal" in told
    assert "hk-600/lid.jpg" in told


def test_it_is_downloaded_and_reads_as_a_record(page: Page, served: str, tmp_path: Path) -> None:
    opened(page, served, "teardown")
    fill_a_teardown(page)
    text = made(page)
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Download").click()
    file = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(file)
    assert file.name == "hk-600-tolland.yml"
    assert file.read_text() == text
    assert isinstance(read_bytes(file.read_bytes(), file.name, "teardown", file.stem), Record)


def _an(field: Field) -> Any:
    """A sound value for a field, as it would be typed."""
    return field.example.split("; ")[-1] if field.sort is Sort.BOUND else field.example


def fill_everything(page: Page, place: str, fields: tuple[Field, ...]) -> None:
    """Every field of a form once, in every group one thing; of two that exclude each other, the first."""
    for field in fields:
        if field.key in ("teardown", "conversion") and place.count("[data-key=") and len(fields) < 7:
            continue
        at = f"{place} > [data-key={field.key}]"
        if field.sort in (Sort.GROUPS, Sort.TEXTS, Sort.PAIRS, Sort.TABLE):
            if page.locator(f"{at} > [data-items] > [data-item]").count() == 0:
                page.locator(f"{at} > [data-add]").click()
            item = f"{at} > [data-items] > [data-item]"
            if field.sort is Sort.GROUPS:
                # Those inside of the same are filled with all but still more of them.
                fill_everything(page, item, field.fields or tuple(f for f in fields if not f.again))
            elif field.sort is Sort.TABLE:
                page.locator(f"{item} [data-year]").fill("1931")
                page.locator(f"{item} [data-first]").fill(field.example.split("; ")[-1])
            else:
                fill_items(page, item, field)
        elif field.sort is Sort.CHOICE:
            page.locator(f"{at} select").select_option(field.choices[0])
        elif field.sort is Sort.YES:
            page.locator(f"{at} input").check()
        else:
            page.locator(f"{at} :is(input, textarea)").fill(_an(field))


def fill_items(page: Page, item: str, field: Field) -> None:
    """Each entry of a list of texts: where two are needed, two that differ."""
    items = page.locator(f"{item} input")
    assert items.count() == max(1, field.least, field.begun)
    for at in range(items.count()):
        items.nth(at).fill(field.example if at == 0 else f"{field.example}-other")


@pytest.mark.parametrize("kind", WITH_FORM)
def test_what_every_form_writes_keeps_to_its_schema(page: Page, served: str, kind: str) -> None:
    """Every field filled in, as the schema's own examples have it."""
    opened(page, served, kind)
    fields = fields_of(kind)
    fill_everything(page, "[data-form]", fields)
    stem = kind if KINDS[kind].single else "a-record"
    if not KINDS[kind].single:
        page.locator("[data-form] > [data-key=id] input").fill(stem)
    text = made(page)
    found = read_bytes(text.encode(), f"{stem}.yml", kind, stem)
    assert isinstance(found, Record), [str(problem) for problem in found] if found else text
    for field in fields:
        assert f"\n{field.key}:" in text, field.key


@pytest.mark.parametrize("kind", WITH_FORM)
def test_a_record_comes_back_as_it_was(page: Page, served: str, kind: str) -> None:
    """Filled with a record and written again, it says the same: three of each kind."""
    for record in [r for r in DEMO.records if r.kind == kind][:3]:
        opened(page, served, kind, f"?record={record.id}")
        assert "Filled with what is recorded" in told(page)
        again = read_bytes(made(page).encode(), record.origin.path, kind, record.id)
        assert isinstance(again, Record)
        assert _said(again) == _said(record)
        page.evaluate("localStorage.clear()")


def _said(record: Record) -> str:
    return "\n".join(f"{name}={getattr(record, name)!r}" for name in _slots(type(record)) if name != "origin")


def _slots(of: type) -> list[str]:
    return [name for each in of.__mro__ for name in getattr(each, "__slots__", ())]


def test_a_link_on_the_page_leads_to_the_filled_form(page: Page, served: str) -> None:
    page.goto(f"{served}assemblies/edge-strainer/")
    page.get_by_role("link", name="Correct this page").click()
    page.wait_for_url("**/add/assembly/?record=edge-strainer")
    page.wait_for_load_state("networkidle")
    assert page.locator("[data-form] > [data-key=title] input").input_value() == "Metal-edge strainer"
    made(page)
    propose = page.locator("[data-propose]")
    assert propose.get_attribute("href") == (
        "https://forge.example/wexmoor/records/_edit/main/content/assemblies/lubrication/edge-strainer.yml"
    )
    assert "in place of all that is there" in (page.locator("[data-how]").text_content() or "")


def test_what_is_one_file_alone_is_corrected_and_proposed_as_that_file(page: Page, served: str) -> None:
    page.goto(f"{served}add/")
    page.get_by_role("link", name="Signs", exact=True).click()
    page.wait_for_url("**/add/signs/?record=signs")
    page.wait_for_selector("form[data-begun]")
    page.locator("[data-item] > summary").first.click()
    page.locator("[data-key=asks] input").first.fill("How the lid is fastened")
    assert 'asks: "How the lid is fastened"' in made(page)
    assert page.locator("[data-download]").get_attribute("download") == "signs.yml"
    propose = page.locator("[data-propose]").get_attribute("href")
    assert propose == "https://forge.example/wexmoor/records/_edit/main/content/signs.yml"


def test_an_entry_of_a_list_is_headed_by_its_name_and_filed_under_it(page: Page, served: str) -> None:
    page.goto(f"{served}cautions/")
    page.get_by_role("link", name="Correct this page").click()
    page.wait_for_selector("form[data-begun]")
    heads = page.locator("[data-item] > summary")
    assert heads.first.text_content() == "Used oil"
    assert not page.get_by_label("What to do", exact=False).first.is_visible()
    page.get_by_role("button", name="Add: A caution", exact=True).click()
    added = page.locator("[data-form] > [data-key=cautions] > [data-items] > [data-item]").last
    added.locator("[data-key=title] input").first.fill("Used oil")
    assert added.locator("> summary").text_content() == "Used oil"
    added.locator("[data-key=text] textarea").fill("Wear gloves.")
    added.locator("> summary").click()
    page.get_by_role("button", name="Write the record").click()
    assert page.evaluate("document.activeElement.closest('[data-key]').dataset.key") == "body"
    added.locator("[data-key=body] input").fill("An authority")
    added.locator("[data-key=follows] [data-key=title] input").fill("A leaflet")
    text = made(page)
    assert '  - id: "used-oil-2"\n    title: "Used oil"\n' in text
    assert isinstance(read_bytes(text.encode(), "cautions.yml", "cautions", "cautions"), Record)


def test_a_position_is_added_inside_of_a_group(page: Page, served: str) -> None:
    opened(page, served, "positions", "?record=positions")
    groups = "[data-form] > [data-key=positions] > [data-items] > [data-item]"
    page.locator(f"{groups} > summary").first.click()
    inside = page.locator(f"{groups} >> nth=0").locator("> [data-key=positions]")
    assert inside.locator("> [data-items] > [data-item] > summary").all_text_contents() == [
        "Oil filter",
        "Oil pump",
        "Sump strainer",
    ]
    inside.locator("> [data-add]").click()
    page.keyboard.type("Oil cooler's tap")
    text = made(page)
    assert '      - id: "oil-cooler-s-tap"\n        title: "Oil cooler\'s tap"\n' in text
    found = read_bytes(text.encode(), "positions.yml", "positions", "positions")
    assert isinstance(found, Record)


def test_what_is_missing_is_said_in_our_own_words(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    page.get_by_role("button", name="Write the record").click()
    assert "Date: Year, year and month, or the day" in told(page)
    fill_a_teardown(page)
    page.locator("[data-key=date] input").fill("21.11.2026")
    page.get_by_role("button", name="Write the record").click()
    assert "Date:" in told(page)
    assert page.evaluate("document.activeElement.closest('[data-key]').dataset.key") == "date"
    assert not page.locator("[data-made]").is_visible()


@pytest.mark.parametrize(
    ("kind", "at", "typed", "said", "offered"),
    [
        ("teardown", "[data-key=serial] input", "4-70O", "It reads as no serial number known here.", None),
        ("teardown", "[data-key=serial] input", "HK 6OO", "It reads as no serial number known", "HK 600"),
        ("teardown", "[data-key=serial] input", "HK 905", "It was never issued.", None),
        ("teardown", "[data-key=serial] input", "hk600", "HK 600, Wexmoor Type H launch engine.", None),
        ("teardown", "[data-key=assembly] input", "edge-strainer", "Metal-edge strainer.", None),
        ("teardown", "[data-key=assembly] input", "edge-strainr", "Nothing of this name", "edge-strainer"),
        (
            "teardown",
            "[data-key=position] input",
            "lubrication/oil-filte",
            "Nothing of",
            "lubrication/oil-filter",
        ),
        (
            "supersession",
            "[data-key=old] [data-key=number] input",
            "WH-9999",
            "No such number is known",
            None,
        ),
        ("supersession", "[data-key=old] [data-key=number] input", "wh1181", "WH-1181: ", None),
    ],
)
def test_whatever_is_named_is_looked_up_while_it_is_typed(
    page: Page, served: str, kind: str, at: str, typed: str, said: str, offered: str | None
) -> None:
    opened(page, served, kind)
    if kind == "supersession" and page.locator(at).count() == 0:
        page.locator("[data-key=old] > [data-add]").click()
    page.locator(at).first.press_sequentially(typed)
    page.wait_for_selector(f"[data-looked-up='{typed}']")
    known = page.locator("[data-looked-up] + .sb-known, label:has([data-looked-up]) + .sb-known").first
    assert said in known.inner_text()
    unknown = "known" in said or "never" in said or "Nothing" in said
    assert (page.locator("[data-unknown]").count() == 1) == unknown
    if offered:
        known.get_by_role("button").first.click()
        assert page.locator(at).first.input_value() == offered
        page.wait_for_function("() => !document.querySelector('[data-unknown]')")


def test_what_nobody_knows_is_told_and_may_be_handed_in(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    fill_a_teardown(page)
    page.locator("[data-key=assembly] input").fill("a-new-strainer")
    page.wait_for_selector("[data-unknown]")
    assert 'assembly: "a-new-strainer"' in made(page)
    assert "Not known here: a-new-strainer." in told(page)


def test_a_draft_survives_a_reload_and_can_be_thrown_away(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    fill_a_teardown(page)
    page.reload()
    page.wait_for_load_state("networkidle")
    assert "kept in this browser" in told(page)
    assert page.locator("[data-key=serial] input").input_value() == "HK 600"
    assert page.locator("[data-key=assembly] input").input_value() == "edge-strainer"
    page.get_by_role("button", name="Start anew").click()
    page.reload()
    page.wait_for_load_state("networkidle")
    assert page.locator("[data-key=serial] input").input_value() == ""


def test_nothing_that_means_something_is_preselected(page: Page, served: str) -> None:
    filled = "(i.type === 'checkbox' ? i.checked : i.value)"
    some = f"[...document.querySelectorAll('[data-form] :is(input, select, textarea)')].some((i) => {filled})"
    for kind in WITH_FORM:
        opened(page, served, kind)
        assert page.evaluate(some) is False, kind


def test_a_form_knows_what_its_address_says(page: Page, served: str) -> None:
    opened(page, served, "teardown", "?serial=HK+600&position=drive/clutch")
    assert page.locator("[data-key=serial] input").input_value() == "HK 600"
    assert page.locator("[data-key=position] input").input_value() == "drive/clutch"


def test_pickers_come_from_the_page_and_from_the_finder(page: Page, served: str) -> None:
    opened(page, served, "teardown")
    listed = page.locator("[data-key=position] input").get_attribute("list")
    options = page.locator(f"#{listed} option")
    assert options.count() == len(DEMO.positions)
    page.locator("[data-key=assembly] input").press_sequentially("edge")
    page.wait_for_selector("datalist option[value=edge-strainer]", state="attached")
    page.get_by_role("button", name="Add: A part and how many").click()
    page.locator("[data-key=parts] [data-key=number] input").press_sequentially("wh118")
    page.wait_for_selector("datalist option[value='WH-1181']", state="attached")


@pytest.mark.parametrize("width", [360, 1280])
def test_it_works_from_a_folder_and_by_keyboard_alone(page: Page, demo_site: Path, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto((demo_site / "add/source/index.html").as_uri())
    page.wait_for_load_state("networkidle")
    page.locator("[data-form] input").first.focus()
    page.keyboard.type("Letter of 1934")
    page.keyboard.press("Tab")
    page.keyboard.type("corr")
    assert page.locator("[data-key=class] select").input_value() == "correspondence"
    for _ in range(60):
        if page.evaluate("document.activeElement.type") == "submit":
            break
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector("[data-made]:not([hidden])")
    assert 'id: "letter-of-1934"' in (page.locator("[data-made] code").text_content() or "")
    assert page.evaluate("document.activeElement.id") == "made"
    assert page.evaluate("document.documentElement.scrollWidth") <= width


RECORD = 'kind: "source"\nid: "a b"\n'
FORGES = {
    "github": (
        forge_of("https://github.com/a/b/", "edit/main/content/"),
        "https://github.com/a/b/new/main?filename=content%2Fsources%2Fx.yml"
        "&value=kind%3A%20%22source%22%0Aid%3A%20%22a%20b%22%0A",
    ),
    "gitea": (
        forge_of("https://codeberg.org/a/b", "_edit/trunk/docs/content/"),
        "https://codeberg.org/a/b/_new/trunk/docs/content/sources/?filename=x.yml"
        "&value=kind%3A%20%22source%22%0Aid%3A%20%22a%20b%22%0A",
    ),
    "gitlab": (
        forge_of("https://gitlab.example/a/b", "-/edit/main/content/"),
        "https://gitlab.example/a/b/-/issues/new?issue%5Btitle%5D=New%20record%3A%20x.yml&issue%5Bdescription%5D="
        "For%20content%2Fsources%2Fx.yml%3A%0A%0A~~~~yaml%0A"
        "kind%3A%20%22source%22%0Aid%3A%20%22a%20b%22%0A~~~~%0A",
    ),
}


def proposed(page: Page, forge: Forge, name: str, text: str, old: str | None = None) -> dict[str, Any]:
    page.goto("about:blank")
    page.add_script_tag(content=script_text("pieces/pieces.js", "forms/propose.js"))
    at = {"forge": forge.sort, "repository": forge.repository, "branch": forge.branch}
    call = "([at, folder, name, text, old]) => spanbookPropose(at, folder, name, text, old)"
    found: dict[str, Any] = page.evaluate(call, [at, f"{forge.content}sources/", name, text, old])
    return found


@pytest.mark.parametrize("sort", FORGES)
def test_the_address_of_a_new_record_to_the_character(page: Page, sort: str) -> None:
    forge, address = FORGES[sort]
    assert forge.sort == sort
    assert proposed(page, forge, "x.yml", RECORD)["address"] == address


def test_an_address_that_is_too_long_becomes_instructions(page: Page) -> None:
    forge, _ = FORGES["github"]
    base = len(proposed(page, forge, "x.yml", "")["address"])
    assert len(proposed(page, forge, "x.yml", "a" * (7500 - base))["address"]) == 7500
    longer = proposed(page, forge, "x.yml", "a" * (7501 - base))
    assert longer["address"] == "https://github.com/a/b/upload/main/content/sources/"
    assert "Download it first" in longer["how"]


def test_without_a_forge_the_file_is_sent(page: Page) -> None:
    assert forge_of(None, None) == Forge()
    assert proposed(page, Forge(), "x.yml", RECORD) == {
        "how": "Download it, and send the file to the maintainers."
    }


def test_yaml_is_written_alike_in_the_browser_and_by_the_builder(page: Page) -> None:
    page.goto("about:blank")
    page.add_script_tag(content=script_text("forms/yaml.js"))
    samples: list[Any] = []

    @given(VALUES)
    @settings(database=None)
    def gather(values: Any) -> None:
        samples.append(values)

    gather()
    written = page.evaluate("(all) => all.map((one) => spanbookYaml(one, ''))", samples)
    assert written == [to_yaml(values) for values in samples]


def test_published_schemas_stand_alone(demo_site: Path) -> None:
    for kind in WITH_FORM:
        assert json.loads((demo_site / f"schema/{kind}.json").read_text()) == bundled(kind)
