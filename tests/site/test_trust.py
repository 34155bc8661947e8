"""The picture of a break on which sources disagree."""

from __future__ import annotations

from spanbook.answers.answers import Answers
from spanbook.reading.records import Record
from spanbook.site.common import Site
from spanbook.site.trust import breaks_of
from tests.support.registers import record, register


def lid(id_: str, *spans: tuple[str, str]) -> Record:
    told = "".join(
        f"- {{series: xa, {ends}, anchor: {id_}-{source}, evidence: [{{source: {source}}}]}}\n"
        for ends, source in spans
    )
    text = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n{told}"
    return record(text, "assembly", id_)


def test_each_claim_has_its_place_and_its_weight_in_the_picture() -> None:
    """Of the numbers 5 to 13, 8 and 9 never issued, one book has 6 and another 12."""
    sources = [
        record(f"kind: source\nid: {id_}\ntitle: {id_}\nclass: {sort}\n", "source", id_)
        for id_, sort in (("book", "parts-book"), ("tale", "recollection"))
    ]
    early = lid("early", ("first: 1, last: 5", "book"), ("first: 1, last: 11", "tale"))
    late = lid("late", ("first: 6, last: 20", "book"), ("first: 12, last: 20", "tale"))
    made = register(*sources, early, late)
    (found,) = breaks_of(Site(Answers(made)), made.series["xa"])
    assert (found.first, found.last) == ("XA 6", "XA 12")
    assert [(c.before, c.now) for c in found.claims] == [(76.0, 76.0), (19.0, 19.0), (5.0, 5.0)]
    assert [(c.x, c.width) for c in found.claims] == [(0.0, 14.29), (85.71, 14.29), (0, 100)]
    assert all(c.x >= 0 and c.x + c.width <= 100.01 and c.width > 0 for c in found.columns)
    assert max(c.height for c in found.columns) == 30


def test_a_break_on_which_all_agree_has_no_claims() -> None:
    pair = lid("early", ("first: 1, last: [5, 7]", "book")), lid("late", ("first: [6, 8], last: 20", "book"))
    book = record("kind: source\nid: book\ntitle: B\nclass: manual\n", "source", "book")
    made = register(book, *pair)
    (found,) = breaks_of(Site(Answers(made)), made.series["xa"])
    assert (found.claims, found.printed) == ((), "Printed: somewhere from XA 6 to XA 8.")
