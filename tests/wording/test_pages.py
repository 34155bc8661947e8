"""Pages of no single record, charts, and lists by name."""

from __future__ import annotations

from spanbook.answers.applicability import Fits
from spanbook.ground.intervals import Covers
from spanbook.ground.measures import both_ways
from spanbook.reading.records import Assembly, Size
from spanbook.wording import lists, pages
from spanbook.wording.charts import assembly_chart, fit_bar, machine_chart, position_chart, segment_bar
from spanbook.wording.finder import say
from spanbook.wording.records import evidence_sort, size_title, size_words
from tests.support.registers import lid, record, register

MADE = register(lid("lid", "first: 1, last: 4"))
SERIES, MACHINE = MADE.series["xa"], MADE.machines["x"]


def test_questions_of_a_series() -> None:
    found = pages.questions_of(MACHINE, SERIES)
    assert found.title == "Open questions, XA …"
    assert found.summary.startswith("What is not known about the XA … of the X, the worthiest first: ")
    assert [pages.open_questions(n) for n in (1, 2)] == ["1 open question", "2 open questions"]


def test_pages_by_name() -> None:
    assert pages.form_title("Teardown") == "Teardown: add or correct"
    assert pages.moved("Lid") == pages.PageWords("Lid has moved", "This page has moved to Lid.")
    assert pages.assembly_sort("Cover") == "Assembly, Cover"
    assert pages.release_name("ab12") == "records ab12"
    assert "27 rules" in pages.rules(27).summary


def test_lists() -> None:
    assert lists.parts_of("Example Works").title == "Part numbers of Example Works"
    assert lists.piece_words("A", "B") == "A to B"


def test_charts_for_those_who_cannot_see_them() -> None:
    assembly = MADE.assemblies["lid"]
    assert isinstance(assembly, Assembly)
    assert assembly_chart(assembly, assembly.serials, SERIES) == "lid in XA …: from XA 1 to XA 4."
    assert position_chart("Cover", SERIES) == "Cover over the numbers of XA …."
    assert machine_chart(MACHINE, SERIES) == "Every position of the X over XA 1 to XA 20."
    assert fit_bar(Covers.MAYBE, 1, 4, SERIES) == "possibly XA 1 to XA 4"
    (segment, *_) = Fits(MADE).segments(SERIES, "cover")
    assert segment_bar(segment, SERIES) == "XA 1 to XA 4: lid"


def test_the_finder_puts_values_in_order() -> None:
    assert say("exact", "Hinge", "Example {} Works") == "Hinge (Example {} Works)"


def _depth(number: str | None) -> Size:
    return Size("Depth", number, "1", "mm", None, None, None, None)


def test_evidence_and_sizes_by_sort() -> None:
    book = "{kind: source, id: book, title: B, class: service-letter}"
    seen = (
        "{kind: teardown, id: t, date: 2024, seen-by: m, serial: XA 3, series: xa, "
        "condition: likely-original, found: [{position: cover}]}"
    )
    made = register(record(book, "source", "book"), record(seen, "teardown", "t"))
    assert evidence_sort(made.sources["book"]) == "service letter"
    assert evidence_sort(made.teardowns["t"]) == "teardown, likely original"
    assert size_title(_depth("P-1")) == "Depth of P-1"
    assert size_title(_depth(None)) == "Depth"


def test_a_size_says_how_it_was_read_and_which_standard_it_is() -> None:
    plain = _depth(None)
    assert size_words(plain) == both_ways("1", "mm")
    full = Size("Diameter", None, "5/16", "in", "3/8", "caliper", "worn", "5/16 BSW")
    ends = f"{both_ways('5/16', 'in')} to {both_ways('3/8', 'in')}"
    assert size_words(full) == f"{ends}, 5/16 BSW; caliper, worn"
