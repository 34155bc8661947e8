"""Open questions: what is not known, whose machine could settle it, and a text to ask them with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from spanbook.answers.question_anchor import anchor
from spanbook.answers.questions import Question
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Series
from spanbook.site import addresses, cutting
from spanbook.site.common import Site
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


def pages(site: Site) -> Iterator[SitePage]:
    series = site.register.series.values()
    all_of = tuple(
        (Link(f"{one.name}, {site.machine_of(one).title}", addresses.of_questions(one)), len(found))
        for one in series
        if (found := site.answers.questions_of(one))
    )
    yield SitePage(
        address=addresses.QUESTIONS,
        title=QUESTIONS.told().title,
        summary=QUESTIONS.told().summary,
        sort="List",
        crumbs=(),
        template="views/questions.html",
        view=QuestionsView(tuple(_row(site, one) for one in site.answers.questions[:WORTHIEST]), all_of),
    )
    for one in series:
        yield from _of_series(site, one)


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
