"""What lists, pages, summaries and the finder say in German: a sentence, a count and a list of each sort."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from datetime import date
from pathlib import Path

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.search import Asker
from spanbook.faces.meant import reading_of
from spanbook.ground.hosts import Size
from spanbook.ground.language import speaking
from spanbook.outputs.serving.pages import instead
from spanbook.outputs.text.failure import sentence
from spanbook.reading.fields import title_of
from spanbook.reading.releases import Release
from spanbook.register.credits import Credit
from spanbook.register.model import Register
from spanbook.wording import (
    along,
    charts,
    data,
    finder,
    front,
    hosts,
    lists,
    pages,
    proposals,
    receiving,
    releases,
    report,
    retired,
    search,
    summaries,
)
from spanbook.wording.pieces import plain
from tests.support.registers import lid, record, register

BOOK = "{kind: source, id: book, title: The book, class: parts-book, year: 1934}"
SEEN = (
    "{kind: teardown, id: t, date: 2024, seen-by: m, serial: XA 3, series: xa, condition: untouched, "
    "found: [{position: cover, assembly: lid}, {position: drain}]}"
)


@pytest.fixture(scope="module")
def made() -> Register:
    return register(
        lid("lid", "first: 1, last: 4"), record(BOOK, "source", "book"), record(SEEN, "teardown", "t")
    )


@pytest.fixture(autouse=True)
def german() -> Iterator[None]:
    with speaking("de"):
        yield


def test_lists() -> None:
    told = lists.TEARDOWNS.told()
    assert (told.title, told.columns[1]) == ("Zerlegungen", "Gesehen von")
    assert lists.parts_of("Example Works").title == "Teilenummern von Example Works"
    assert lists.piece_words("A", "B") == "A bis B"
    assert lists.none_yet() == "noch keine"


def test_pages(made: Register) -> None:
    machine = made.machines["x"]
    assert pages.CARD.told().title == "Maschinenkarte"
    assert pages.questions_of(machine, machine.series[0]).summary.startswith(
        "Was nicht bekannt ist (X, XA …)"
    )
    assert [pages.open_questions(n) for n in (1, 2)] == ["1 offene Frage", "2 offene Fragen"]
    assert pages.moved("Lid").title == "Umgezogen: Lid"


def test_summaries(made: Register) -> None:
    assert summaries.source_summary(made.sources["book"], 1, 2) == (
        "Teilebuch, 1934. 1 Aussage beruht darauf. Sie spricht gegen 2 Aussagen."
    )
    # Titles keep their capitals, which English loses inside a sentence.
    said = summaries.teardown_summary(made, made.teardowns["t"])
    assert said == "Was m an XA 3 sah, 2024: Cover und Drain."


def test_the_finder_tells_how_a_worn_stamp_was_read() -> None:
    assert finder.read_words([("8", "B"), ("1", "l")]) == "8 als B gelesen wurde und 1 als l"
    assert finder.say("worn-title", finder.read_words([])) == "Wenn der Stempel abgenutzt ist"
    assert finder.may_be_words(10) == "kann jede von 10 Nummern sein: was ihnen gemeinsam ist"


def test_what_is_found(made: Register) -> None:
    assert (
        search.taken_words("lids", ["lid", "led"]) == "„lids“ steht so nirgends; dies gilt für lid oder led."
    )
    asker = Asker(Answers(made), ())
    assert search.nothing_words(asker, "zz").startswith("Nichts gefunden für „zz“. Versuchen: die Buchstaben")


def test_the_front_and_the_data() -> None:
    assert front.as_of(date(2026, 3, 5)) == "Die Einträge, wie sie am 5. März 2026 standen."
    assert front.counted("assembly", 2) == "2 Baugruppen"
    assert data.size_words(1_300_000) == "1,3 MB"
    assert data.credit_words(Credit("m", 1, 0, 2)) == "hat 1 Maschine angesehen und hat 2 Bilder gemacht"


def test_charts(made: Register) -> None:
    series = made.series["xa"]
    assert charts.position_chart("Ölfilter", series) == f"Ölfilter über die Nummern von {series.name}."
    assert charts.dot_words("HK 3", ["A", "B"], "untouched") == "HK 3: A oder B, Erhaltung: unberührt"


def test_what_is_retired_and_released(made: Register) -> None:
    lid_ = made.assemblies["lid"]
    assert plain(retired.retired_words(made, replace(lid_, retired="It was two", now=("lid",)))) == (
        "Zurückgezogen: It was two. Jetzt: lid."
    )
    release = Release("2026-11", date(2026, 11, 26), "2026-10", "", 2, ())
    assert releases.title(release) == "Ausgabe 2026-11, 26. November 2026"
    assert releases.summary(release) == "2 Einträge; keine Änderung an den Antworten seit 2026-10."


def test_what_maintainers_are_told() -> None:
    assert proposals.none_open(["a", "b"]).startswith("Kein nicht zusammengeführter Zweig passt zu a oder b")
    assert receiving.dying(list("abcdefg")).endswith("a, b, c, d, e und 2 weitere")
    assert receiving.left_out_line(["x"]) == "1 Datei weggelassen: x"
    told = hosts.size_told(Size(20_000, 1, 1_250_000, 5))
    assert told.startswith("20.000 Dateien in 1 Ordner, 1,2 MB. Anbieter nehmen an: ")


def test_refusals(made: Register, tmp_path: Path) -> None:
    with pytest.raises(LookupError, match="XA 99 ergibt 0 Maschinen, und eine ist gesucht"):
        reading_of(made, "XA 99")
    missing = tmp_path / "x"
    with pytest.raises(FileNotFoundError) as refused:
        missing.read_text(encoding="utf-8")
    assert sentence(refused.value) == f"{missing}: nicht da, oder nicht mehr"
    assert b"Die Seiten werden gebaut." in instead("", ())
    assert title_of("unit") == "Aggregat"


def test_nothing_of_a_page_that_a_script_fills_is_left_in_english() -> None:
    """Of what is told alike in both, every value stands for something else or is a date as it is typed."""
    german = {**finder.words(), **report.words(), **report.labels()}
    german |= {one.name: getattr(along.device(), one.name) for one in fields(along.DeviceWords)}
    with speaking("en"):
        english = {**finder.words(), **report.words(), **report.labels()}
        english |= {one.name: getattr(along.device(), one.name) for one in fields(along.DeviceWords)}
    alike = {text for name, text in german.items() if text == english[name] and any(map(str.isalpha, text))}
    assert alike == {"May 2019, about 2019, 2019 to 2021."}
