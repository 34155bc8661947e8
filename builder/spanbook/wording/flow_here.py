"""The circuits of one machine on its card: as it left the works, and after conversions."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.flow.converted import Converted
from spanbook.answers.flow.here import FlowHere
from spanbook.answers.flow.pieces import Arranged
from spanbook.answers.flow.routes import served
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import parted
from spanbook.reading.records import Conversion
from spanbook.wording.flow import run_of_words
from spanbook.wording.flow_ways import served_words
from spanbook.wording.grammar import listed
from spanbook.wording.pieces import Pieces, Ref, filled, joined

HERE = marked("Which way it goes through this machine")
TOGETHER = marked("Each of these numbers has this on a card of its own.")
ONLY_AFTER = marked("only after a conversion")
COMMONEST = marked("It is the commonest of the arrangements that can be drawn.")
COMMONEST_WITH = marked("It is the commonest arrangement with it that can be drawn.")
_SURELY = marked("As it left the works")
_PERHAPS = marked("Perhaps as it left the works")
_MORE = marked("So much is possible here that only the whole circuit is told")


def here_lines(of: FlowHere) -> Iterator[Pieces]:
    """A line for each arrangement: what it is, with what reaches the things that are served."""
    if not of.left:
        yield _(_MORE), _(": "), Ref(of.circuit.title, of.circuit), "."
    for one in of.left:
        yield (_(_SURELY) if of.sure else _(_PERHAPS), _(": "), *_arrangement(one))
    for taken, one in of.after:
        yield after_line(taken, one)


def after_words(taken: tuple[Conversion, ...]) -> Pieces:
    """`After Wide pump kit and Cartridge kit`, in the order in which they are done."""
    named = joined([Ref(one.title, one) for one in taken], "and then")
    return filled(_("After {conversions}"), conversions=named)


def after_line(taken: tuple[Conversion, ...], after: Arranged) -> Pieces:
    """What conversions make of an arrangement."""
    return (*after_words(taken), _(": "), *_arrangement(after))


def converted_words(one: Converted) -> Pieces:
    """What leads to an arrangement, and the numbers that may take it."""
    return (*after_words(one.conversions), _(": "), f"{parted(*map(run_of_words, one.runs))}.")


def _arrangement(arranged: Arranged) -> Pieces:
    told = [words for one in served(arranged) if (words := served_words(one, arranged))]
    titles = [assembly.title for assembly in arranged.fitted.values()]
    named = Ref(listed(titles) or arranged.circuit.title, arranged)
    return (named, f". {' '.join(told)}" if told and arranged.whole else ".")
