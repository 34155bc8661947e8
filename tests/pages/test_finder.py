"""The finder and the machine card in a real browser, from a server and from a folder."""

from __future__ import annotations

import random
import shutil
import subprocess
from collections.abc import Iterator
from itertools import chain
from pathlib import Path
from urllib.parse import quote, quote_plus

import pytest
from playwright.sync_api import Browser, Page

from spanbook.answers.answers import Answers
from spanbook.answers.by_words import Document
from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.search import Asker
from spanbook.answers.together import together
from spanbook.outputs.text import ask
from spanbook.outputs.text.ask import machine_lines
from spanbook.register.link import build
from spanbook.site import assets
from spanbook.site.card.tables import FOLDER
from spanbook.site.common import Site
from spanbook.site.documents import documents
from spanbook.site.finder import tables as finder
from tests.answers.test_search import ASKER, QUERIES, REGISTER, rows_of, told
from tests.pages.test_browser import opened
from tests.support.command import PROJECT
from tests.support.machines import random_world
from tests.support.registers import unit

WAYS = ["server", "folder"]


@pytest.fixture(scope="module", params=WAYS)
def home(request: pytest.FixtureRequest, chromium: Browser, served: str, demo_site: Path) -> Iterator[Page]:
    """The front page, once from a server and once from a folder on a disk."""
    page = chromium.new_page()
    page.goto(served if request.param == "server" else (demo_site / "index.html").as_uri())
    yield page
    page.close()


def guides() -> Iterator[Document]:
    """The hand-written pages, as the site has them."""
    for file in sorted((PROJECT / "content").glob("*.md")):
        text = file.read_text(encoding="utf-8")
        heading = next(line[2:].strip() for line in text.splitlines() if line.startswith("# "))
        yield Document("" if file.stem == "index" else f"{file.stem}/", heading, "Guide", heading, text)


GUIDED = Asker(ASKER.answers, documents(REGISTER, guides()))


def asked(page: Page, query: str) -> list[str]:
    """The rows that the script makes, without their pictures."""
    found = page.evaluate("query => SpanbookRead.rows(query)", query)
    return told([tuple(row[:4]) for row in found])


def test_the_table_of_queries_is_the_same_in_the_browser(home: Page) -> None:
    for query, *_ in QUERIES:
        wanted = told(rows_of(GUIDED, query))
        assert asked(home, query) == wanted, query


def test_numbers_mangled_at_random_are_the_same_in_the_browser(home: Page) -> None:
    chance = random.Random(7)
    numbers = [key.text for key in ASKER.keys]
    numbers += ["HK 1383", "HK 588", "DX.014", "0403M"] * (len(numbers) // 12)
    for _ in range(160):
        text = list(chance.choice(numbers))
        at = chance.randrange(len(text))
        text[at] = chance.choice(["?", "O", "l", "8", " ", "-", ".", text[at].lower(), ""])
        query = "".join(text)[: chance.randint(2, 12)]
        assert asked(home, query) == told(rows_of(GUIDED, query)), query


def test_words_misspelt_at_random_and_beside_serial_numbers_are_the_same(home: Page) -> None:
    chance = random.Random(3)
    titles = [document.title for document in GUIDED.by_words.documents]
    for _ in range(60):
        words = chance.choice(titles).split()[: chance.randint(1, 3)]
        text = list(" ".join(words))
        at = chance.randrange(len(text))
        text[at] = chance.choice(["", "x", text[at] * 2, text[at]])
        serial = chance.choice(["", "", "HK 588 ", "402M ", "701 ", "DX014 "])
        query = serial + "".join(text)
        assert asked(home, query) == told(rows_of(GUIDED, query)), query


def test_sizes_typed_at_random_are_the_same(home: Page) -> None:
    chance = random.Random(4)

    def size() -> str:
        whole, bottom = chance.randint(1, 60), chance.choice([2, 4, 8, 16, 32])
        fraction = f"{chance.randint(1, bottom)}/{bottom}"
        return chance.choice(
            [str(whole), fraction, f"1 {fraction}", f"1-{fraction}", f"{whole / 40:.3f}", f".{whole}"]
        )

    for _ in range(120):
        unit = chance.choice(["", "", " in", "mm", '"'])
        count = chance.choice([11, 14, 16, 18, 20, 24, 26, 28])
        query = chance.choice(
            [
                f"{size()}{unit} {count}",
                f"{size()}-{count}",
                f"{size()}x{size()}{unit}",
                f"M{size()} x 1.{count}",
                f"{chance.choice([10, 17, 20])}x{chance.choice([35, 40, 42])} × 12{unit}",
            ]
        )
        assert asked(home, query) == told(rows_of(GUIDED, query)), query


def test_by_keyboard_from_the_box_to_the_card(home: Page) -> None:
    box = home.get_by_role("combobox").first
    box.fill("hk588")
    home.wait_for_selector("[role=option]")
    assert box.get_attribute("aria-expanded") == "true"
    box.press("ArrowDown")
    active = box.get_attribute("aria-activedescendant")
    assert home.locator(f"#{active}").get_attribute("aria-selected") == "true"
    box.press("Escape")
    assert box.get_attribute("aria-expanded") == "false"
    box.fill("HK 588")
    box.press("Enter")
    home.wait_for_selector("[data-card][data-done]")
    assert "card/" in home.url
    assert home.url.endswith("?serial=HK+588")
    assert "Metal-edge strainer" in home.locator("[data-out]").inner_text()
    home.go_back()


def card_lines(page: Page) -> list[str]:
    """The card as the command writes it: a line for each sentence, deeper under its heading."""
    told = page.evaluate(
        """() => {
            const text = (one, name) => [...one.querySelectorAll(name)].map(found => found.textContent);
            const place = one => [
                `  ${text(one, ".sb-where")[0]} (${text(one, ".sb-state")[0]})`,
                ...[...one.querySelectorAll("dl > div")].flatMap(told => [
                    ...text(told, "dt").map(words => `    ${words}`),
                    ...text(told, "dd").map(words => `      ${words}`)])];
            const all = document.querySelector("[data-card]");
            const open = all.querySelector(".sb-open");
            return [
                ...text(all, "h2"),
                ...text(all, "[data-out] > .sb-look").map(words => `  ${words}`),
                ...[...all.querySelectorAll(".sb-place")].flatMap(place),
                ...(open ? [
                    ...text(open, "h3").map(words => `  ${words}`),
                    ...text(open, "li:not(:last-child)").map(words => `    ${words}`)] : [])];
        }"""
    )
    return list(told)


def numbers_of(answers: Answers, chance: random.Random, at_random: int) -> list[Reading]:
    """Every machine that somebody looked at, those a worn number may be too, and some at random."""
    found: list[Reading] = []
    for series in answers.register.series.values():
        worn = (m.lowest(chance.randint(1, 9)) for _, m in answers.machines.looks.worn(series))
        numbers = [*answers.machines.looks.seen(series), *(n for n in worn if n is not None)]
        numbers += [chance.randint(series.first, series.last or 90) for _ in range(at_random)]
        numbers += answers.register.units.shared(series)
        found += (machine_of(answers.register, series, number) for number in sorted(set(numbers)))
    return [reading for reading in found if reading.issued]


def held_to_the_command(page: Page, site: str, answers: Answers, readings: list[Reading]) -> None:
    for reading in readings:
        shown = reading.series.stamp.show(reading.number)
        page.goto(f"{site}?serial={quote_plus(shown)}")
        page.wait_for_selector("[data-done]")
        wanted = list(machine_lines(answers.register, answers.machines.of(reading)))
        assert card_lines(page) == wanted, shown


@pytest.mark.parametrize("way", WAYS)
def test_the_card_says_what_the_command_says(
    chromium: Browser, served: str, demo_site: Path, way: str
) -> None:
    page = chromium.new_page()
    site = f"{served}card/" if way == "server" else (demo_site / "card/index.html").as_uri()
    readings = numbers_of(ASKER.answers, random.Random(11), 8)
    assert len(readings) > 40
    held_to_the_command(page, site, ASKER.answers, readings)
    page.close()


def test_the_card_of_numbers_given_together_says_what_the_command_says(
    chromium: Browser, served: str
) -> None:
    """One machine's by the records, nobody's by any record, and those that are not one machine's."""
    chance = random.Random(5)
    page = chromium.new_page()
    engines = ["HK 588", "HK 701", "HK 1240", "HK 1310", *(f"HK {chance.randint(1, 2140)}" for _ in range(4))]
    boxes = ["0402M", "0306M", "0598M", "0599M", "0104M"]
    pairs = [f"{one} / {other}" for one in engines for other in boxes]
    for text in [*pairs, *(f"{box} / {engine}" for engine, box in zip(engines, boxes, strict=False))]:
        page.goto(f"{served}card/?serial={quote_plus(text)}")
        page.wait_for_selector("[data-done]")
        found = together(REGISTER, text)
        said = ask.as_text(ASKER, text).split("\n")
        if found and found[0].machine:
            wanted = list(machine_lines(REGISTER, ASKER.answers.machines.of(found[0].machine)))
            assert card_lines(page) == wanted, text
        elif found:
            assert page.locator("[data-out] > p").first.inner_text() == said[0]
            assert page.locator("[data-out] > .sb-answer").count() == 2
    page.close()


@pytest.mark.parametrize("seed", range(6))
def test_the_card_of_a_random_world_says_what_the_command_says(
    chromium: Browser, demo_site: Path, tmp_path: Path, seed: int
) -> None:
    """The page and the scripts of the demonstration with the tables of another register."""
    chance = random.Random(seed)
    numbers = chance.sample([n for n in range(1, 15) if n not in (8, 9)], 2)
    made = Answers(build([*random_world(chance).register.records, unit(*(f"XA {n}" for n in numbers))]))
    shutil.copytree(demo_site / "card", tmp_path / "card")
    shutil.copytree(demo_site / "assets", tmp_path / "assets", ignore=lambda *_: ["card"])
    cards = (assets.tables(Site(made), family) for family in ("card", "several", "units"))
    for address, data in chain(finder.files(Asker(made, ()), {}), *cards):
        file = tmp_path / address
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(data)
    page = chromium.new_page()
    (series,) = (one for one in made.register.series.values() if one.id == "xa")
    # From 15 on a number reads in another series too, which has a card of its own below.
    readings = [machine_of(made.register, series, n) for n in range(1, 15) if n in series.issued]
    held_to_the_command(page, (tmp_path / "card/index.html").as_uri(), made, readings)
    page.close()


def test_on_a_telephone_the_first_screen_answers(chromium: Browser, served: str) -> None:
    """What was seen and what the records have stand before anything else, and most positions with them."""
    page = opened(chromium, f"{served}card/?serial=HK+701", width=360)
    rows = page.locator(".sb-place > summary")
    first = rows.first.inner_text()
    tops = rows.evaluate_all("rows => rows.map(row => row.getBoundingClientRect().bottom)")
    looked = page.locator(".sb-look").first.bounding_box()
    opened_at_first = page.locator(".sb-place[open]").count()
    rows.first.click()
    told = page.locator(".sb-place").first.inner_text()
    page.context.close()
    assert "seen: Metal-edge strainer; recorded: Waste-packed bypass filter" in " ".join(first.split())
    assert looked is not None
    assert looked["y"] < 370
    assert sum(bottom <= 740 for bottom in tops) >= 6  # each in large, with its picture
    assert opened_at_first == 0
    assert "otherwise than recorded" in told


def test_a_worn_number_shows_what_its_readings_have_in_common(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+5%3F8")
    text = page.locator("[data-out]").inner_text()
    states = page.locator(".sb-card .sb-state").all_inner_texts()
    rows_ = page.locator(".sb-place").all_inner_texts()
    page.context.close()
    assert "may be any of these" in text
    assert "HK 508" in text
    assert "differs between them" in states  # the oil filter: 598 is beyond what is sure
    assert "settled" in states
    assert "Seen on what may be this machine" in text
    assert "The odds" not in rows_[0]  # they are one number's, and stand only where they are the same for all


@pytest.mark.parametrize(
    ("asked", "numbers"), [("HK 588", ["HK 533", "HK 538", "HK 583"]), ("HK S41", ["HK 541"]), ("HK 41", [])]
)
def test_the_card_offers_what_a_worn_plate_may_read_as(
    chromium: Browser, served: str, asked: str, numbers: list[str]
) -> None:
    page = opened(chromium, f"{served}card/?serial={quote(asked)}", 360, "light")
    page.wait_for_selector(f"[data-card][data-done='{asked}']", state="attached")
    line = page.locator(".sb-worn")
    assert line.count() == bool(numbers)
    assert page.locator(".sb-worn a").all_inner_texts() == numbers
    # Beside the plain reading, never instead of it.
    assert page.locator(".sb-card").count() == (asked != "HK S41")
    page.context.close()


@pytest.mark.parametrize(
    ("asked", "numbers"), [("1 201", ["DX.1201", "HK 1201"]), ("M402", ["0402M"]), ("Q 9", [])]
)
def test_the_card_offers_what_a_number_may_be_with_its_letters(
    chromium: Browser, served: str, asked: str, numbers: list[str]
) -> None:
    page = opened(chromium, f"{served}card/?serial={quote(asked)}", 360, "light")
    page.wait_for_selector(f"[data-card][data-done='{asked}']", state="attached")
    said = page.locator("[data-out]").inner_text()
    assert page.locator("[data-out] a").all_inner_texts() == numbers
    page.context.close()
    assert ("With the letters of its plate it may be" in said) == bool(numbers)
    assert ("reads as no serial number known here" in said) == (not numbers)


def test_copied_for_a_forum(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+588")
    copied = {}
    for name in ("plain text", "Markdown", "BBCode"):
        page.get_by_role("button", name=name).click()
        copied[name] = page.locator("[data-copies] textarea").input_value()
    page.context.close()
    for text in copied.values():
        assert "https://wexmoor.example/card/?serial=HK+588" in text
        assert "records " in text or "release " in text
        assert "Metal-edge strainer" in text
    assert copied["BBCode"].startswith("[b]HK 588, Wexmoor Type H launch engine. Built 1933.[/b]\n[list]")
    assert "| Oil filter | disputed |" in copied["Markdown"]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_card_prints_on_one_sheet(chromium: Browser, served: str, tmp_path: Path, paper: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+588")
    file = tmp_path / "card.pdf"
    page.pdf(path=str(file), format=paper)
    page.emulate_media(media="print")
    smallest = page.evaluate(
        """() => Math.min(...[...document.querySelectorAll("[data-out], [data-out] *")]
            .filter(one => !one.closest(".sb-unseen") && one.checkVisibility())
            .map(one => parseFloat(getComputedStyle(one).fontSize)))"""
    )
    assert smallest >= 10 * 96 / 72 - 0.01  # 10 pt in the pixels of CSS: read at a bench, not at a desk
    page.context.close()
    text = subprocess.run(
        ["pdftotext", "-layout", file, "-"], capture_output=True, text=True, check=True
    ).stdout
    assert text.count("\f") == 1
    assert "HK 588, Wexmoor Type H launch engine." in text
    assert "Gearbox" in text


@pytest.mark.parametrize(
    "asked", ["$&", "$`$'", "{}", "__proto__", "constructor", "HK 5$&8", f"HK {'9' * 400}"]
)
def test_what_is_no_serial_number_stands_as_it_was_asked(chromium: Browser, served: str, asked: str) -> None:
    page = opened(chromium, f"{served}card/?serial={quote(asked)}")
    assert asked in page.locator("#card").inner_text()
    assert asked in page.locator("[data-out]").inner_text()
    assert page.evaluate("asked => SpanbookRead.rows(asked)", asked)
    page.context.close()


def test_a_size_that_no_part_has_is_told_on_the_page(chromium: Browser, served: str) -> None:
    for query in ("5/16 BSF", "1/2 14"):
        (_, first, *_), *others = rows_of(GUIDED, query)
        page = opened(chromium, f"{served}find/?q={quote_plus(query)}")
        told = page.locator("[data-find][data-done]").inner_text()
        assert first in told
        assert others
        assert all(detail in told for _, detail, *_ in others)
        page.close()


def test_without_a_script_every_answer_is_reached_by_links(chromium: Browser, served: str) -> None:
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{served}card/?serial=HK+588")
    assert "Without one, every answer stands in the tables below" in page.locator("noscript").inner_text()
    page.get_by_role("link", name="HK series").last.click()
    assert "HK 1 to HK 299" in page.locator("#lubrication--oil-filter-from-1").inner_text()
    context.close()


def test_a_serial_number_transfers_little(chromium: Browser, served: str, demo_site: Path) -> None:
    """What a serial number needs beyond the scripts: the table of series, and on its card its own series."""
    import gzip

    sizes = {
        file.name: len(gzip.compress(file.read_bytes()))
        for file in (demo_site / "assets/finder/series.js", *(demo_site / FOLDER).glob("*.js"))
    }
    assert sizes["series.js"] < 3000
    assert all(size < 14000 for size in sizes.values()), (
        sizes
    )  # 0.6 kB a position, told by eye and on whose word


def test_an_inline_script_of_a_guide_does_not_run(chromium: Browser, demo_site: Path, served: str) -> None:
    """The content security policy is the theme's own hashes and nothing else."""
    source = (demo_site / "about-the-demo/index.html").read_text()
    page = chromium.new_page()
    broken = source.replace("</article>", "<script>document.title = 'ran'</script></article>")
    assert broken != source
    page.route("**/about-the-demo/", lambda route: route.fulfill(body=broken, content_type="text/html"))
    page.goto(f"{served}about-the-demo/")
    title = page.title()
    page.close()
    assert title != "ran"
    assert "unsafe" not in source[: source.index("</head>")]


def test_a_card_pushes_nothing_away_while_it_comes(chromium: Browser, served: str) -> None:
    page = chromium.new_page(viewport={"width": 390, "height": 844})
    page.add_init_script(
        "window.pushed = 0; new PerformanceObserver((list) => list.getEntries().forEach((one) => "
        "{ window.pushed += one.value; })).observe({ type: 'layout-shift', buffered: true });"
    )
    page.goto(f"{served}card/?serial=HK+588")
    page.wait_for_selector("[data-card][data-done]")
    assert page.locator("[data-flow]").is_visible()
    assert page.evaluate("pushed") < 0.1  # what web.dev calls good
    page.close()


def test_a_card_whose_answer_never_comes_is_shown_all_the_same(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    page.route("**/assets/finder/card.js", lambda route: route.abort())
    page.goto(f"{served}card/?serial=HK+588")
    page.locator("h1").wait_for(timeout=10_000)
    page.close()
