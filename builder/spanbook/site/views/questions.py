"""Open questions: what is not known, whose machine could settle it, and a text to ask them with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from operator import itemgetter

from spanbook.answers.question_anchor import anchor
from spanbook.answers.questions import Question
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Series
from spanbook.site import addresses, cutting
from spanbook.site.common import Site
from spanbook.site.each import Each
from spanbook.site.page import Link, SitePage
from spanbook.site.rows import Row, RowsView, piece_address
from spanbook.wording import lists
from spanbook.wording.flow import CARE
from spanbook.wording.pages import QUESTIONS, questions_of
from spanbook.wording.questions import about_word, forum_words, question_words


@dataclass(frozen=True, slots=True)
class QuestionRow:
    anchor: str
    words: str
    about: str
    where: Link
    series: Link
    machines: int
    tell: tuple[tuple[Link, tuple[str, ...]], ...]
    care: str | None
    forum: str
    report: str


@dataclass(frozen=True, slots=True)
class QuestionsView:
    """`all_of` leads to every question of each series, with how many there are.

    `further` leads to those that the page would be too long with, the worthiest first.
    """

    rows: tuple[QuestionRow, ...]
    all_of: tuple[tuple[Link, int], ...] = ()
    further: RowsView | None = None


# A community of ten thousand records has ten thousand questions: a telephone gets the worthiest first.
WORTHIEST = 50


@dataclass(frozen=True, slots=True)
class Asked:
    """How much is open in a series, and the worthiest of that, each with its place among those of others."""

    series: Link
    many: int
    worthiest: tuple[tuple[tuple[object, ...], QuestionRow], ...]


def pages(site: Site) -> Iterator[SitePage]:
    yield page_of([asked_in(site, one) for one in site.register.series.values()])


def page_of(told: Sequence[Asked]) -> SitePage:
    """What is open in all records, by what is in each series."""
    return SitePage(
        address=addresses.QUESTIONS,
        title=QUESTIONS.told().title,
        summary=QUESTIONS.told().summary,
        sort="List",
        crumbs=(),
        template="views/questions.html",
        view=QuestionsView(worthiest(told), tuple((one.series, one.many) for one in told if one.many)),
    )


def worthiest(told: Iterable[Asked]) -> tuple[QuestionRow, ...]:
    """The worthiest questions of all series."""
    every = sorted((one for each in told for one in each.worthiest), key=itemgetter(0))
    return tuple(row for _, row in every[:WORTHIEST])


def asked_in(site: Site, series: Series) -> Asked:
    found = site.answers.questions_of(series)
    link = Link(f"{series.name}, {site.machine_of(series).title}", addresses.of_questions(series))
    return Asked(link, len(found), tuple((one.order, _row(site, one)) for one in found[:WORTHIEST]))


def _of_series(site: Site, series: Series) -> Iterator[SitePage]:
    """The worthiest of a series, and pieces with the others."""
    words, address = questions_of(site.machine_of(series), series), addresses.of_questions(series)
    rows = [_row(site, question) for question in site.answers.questions_of(series)]
    first, *others = _cut(rows)
    page = SitePage(
        address=address,
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(Link(QUESTIONS.told().title, addresses.QUESTIONS),),
        template="views/questions.html",
        view=QuestionsView(first),
    )
    further: list[Row] = []
    before = len(first)
    for piece, run in enumerate(others, 2):
        link = Link(lists.piece_words(str(before + 1), str(before + len(run))), piece_address(address, piece))
        further.append(Row(link, (str(len(run)),), anchors=tuple(row.anchor for row in run)))
        before += len(run)
        title, crumbs = labelled(page.title, link.text), (*page.crumbs, Link(page.title, address))
        view = QuestionsView(run)
        yield replace(page, address=link.address, title=title, crumbs=crumbs, view=view, piece_of=address)
    leading = RowsView(page.title, lists.piece_columns(), tuple(further)) if further else None
    yield replace(page, view=QuestionsView(first, further=leading))


EACH = Each(lambda site: site.register.series.values(), addresses.of_questions, _of_series, asked_in)


def _cut(rows: Sequence[QuestionRow]) -> list[tuple[QuestionRow, ...]]:
    """What stands on the page, and in each piece, of which all has an anchor on the page as well."""
    whole = cutting.runs(rows, _size) or [()]
    # However many there are, half of the page is for the worthiest.
    leading = min(sum(map(_led_to, rows)), cutting.BOUND // 2)
    return cutting.runs(rows, _size, leading) if len(whole) > 1 else whole


def _led_to(row: QuestionRow) -> int:
    """About how many bytes the anchor takes that leads to a question."""
    return 25 + len(row.anchor)


def _size(row: QuestionRow) -> int:
    """About how many bytes a question takes."""
    signs = sum(len(link.text) + len(link.address) + sum(map(len, signs)) for link, signs in row.tell)
    return 800 + 3 * len(row.anchor) + len(row.words) + len(row.forum) + signs + len(row.care or "")


def _row(site: Site, question: Question) -> QuestionRow:
    tell = tuple((site.record_link(a), a.tell) for a in question.assemblies if a.tell)
    return QuestionRow(
        anchor=anchor(question),
        words=question_words(site.register, question),
        about=about_word(question.about),
        where=_where(site, question),
        series=site.series_link(question.series),
        machines=question.machines,
        tell=tell,
        care=_(CARE[question.measure.circuit.medium]) if question.measure else None,
        forum=forum_words(site.register, question),
        report=_report(question),
    )


def _where(site: Site, question: Question) -> Link:
    """The position that is asked about, or the circuit."""
    if question.measure:
        return site.record_link(question.measure.circuit)
    assert question.position is not None, "only of a circuit nobody asks at a position"
    titles = (link.text for link in site.position_links(question.position))
    return Link(_(": ").join(titles), addresses.of_position(question.position))


def _report(question: Question) -> str:
    """Where an answer is told: of a size in the form of the record which has the way."""
    if question.measure:
        return addresses.to_correct(question.measure.of.kind, question.measure.of.id)
    return f"{addresses.REPORT}?position={question.position}"
