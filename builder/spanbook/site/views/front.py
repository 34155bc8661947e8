"""What the front page tells of the records: the machines, how much there is, what is new, what is asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from spanbook.reading.kinds import KINDS
from spanbook.site import addresses, html
from spanbook.site.common import Site
from spanbook.site.page import Link
from spanbook.site.thumbnails import Thumbnail, of_machine
from spanbook.site.views import questions
from spanbook.site.views.questions import QuestionRow
from spanbook.wording.front import counted, leads
from spanbook.wording.spans import run_words
from spanbook.wording.summaries import teardown_summary

NEWEST = 3
ASKED = 3


@dataclass(frozen=True, slots=True)
class FrontView:
    """`machines` are plates: the machine, its maker and its runs of numbers, and a picture of it."""

    machines: tuple[tuple[Link, str, tuple[str, ...], Thumbnail | None], ...]
    counts: tuple[Link, ...]
    newest: tuple[Link, ...]
    asked: tuple[Link, ...]


def front(site: Site, worthiest: Sequence[QuestionRow] | None = None) -> str:
    """As HTML for the page at the site's root, after the guide's first paragraph; the worthiest questions
    where somebody knows them, else all that is open is weighed."""
    register = site.register
    if worthiest is None:
        worthiest = questions.worthiest(questions.asked_in(site, one) for one in register.series.values())
    view = FrontView(
        machines=tuple(
            (
                site.record_link(one),
                one.maker,
                tuple(run_words(series) for series in one.series),
                of_machine(site, one),
            )
            for one in register.machines.values()
        ),
        counts=tuple(_counts(site)),
        newest=tuple(_newest(site)),
        asked=tuple(Link(one.words, f"{addresses.QUESTIONS}#{one.anchor}") for one in worthiest[:ASKED]),
    )
    to = {"find": addresses.FIND, "questions": addresses.QUESTIONS}
    return html.render("views/front.html", view=view, leads=leads(), root="", **to)


def _counts(site: Site) -> list[Link]:
    register = site.register
    held = {
        "assembly": (len([one for one in register.assemblies.values() if one.kind == "assembly"]), None),
        "part": (len(register.parts), addresses.PARTS),
        "teardown": (len(register.teardowns), None),
        "source": (len(register.sources), None),
    }
    return [
        Link(counted(kind, count), address or f"{KINDS[kind].folder}/")
        for kind, (count, address) in held.items()
        if count
    ]


def _newest(site: Site) -> list[Link]:
    """What was looked at last, by the day it was seen."""
    seen = sorted(site.register.teardowns.values(), key=lambda one: (one.date, one.id), reverse=True)
    return [Link(teardown_summary(site.register, one), addresses.of_record(one)) for one in seen[:NEWEST]]
