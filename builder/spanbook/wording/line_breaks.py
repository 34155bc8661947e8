"""Where one line of a parts list gave way to the next, as far as it is known."""

from __future__ import annotations

from spanbook.answers.line_breaks import LineBreak
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import parted
from spanbook.register.model import Register
from spanbook.wording.grammar import listed, plural
from spanbook.wording.lines import numbers_of_line
from spanbook.wording.spans import numbers_words

CANNOT_BE = marked("what was read cannot all be true if no machine is ever changed")


def line_break_words(register: Register, one: LineBreak) -> str:
    """`WH-1202 to WH-1209, HK …: printed somewhere from HK 861 to HK 889; 2 teardowns bear on it; …`"""
    report, series = one.found.report, one.series
    earlier, later = (numbers_of_line(register, line) for line in (one.earlier, one.later))
    printed = listed(
        [numbers_words(claim.run.first, claim.run.last, series) for claim in one.found.claims], "or"
    )
    told = _("{earlier} to {later}, {series}: printed somewhere from {printed}")
    said = [told.format(earlier=earlier, later=later, series=series.name, printed=printed)]
    if report.posterior.contradiction:
        said.append(_(CANNOT_BE))
    elif not report.printed_only:
        inside, modes = report.posterior.interval(), report.posterior.modes()
        likeliest = listed([numbers_words(run.first, run.last, series) for run in modes], "or")
        span = numbers_words(inside.first, inside.last, series)
        said.append(
            plural(
                len(report.observations),
                "{} teardown bears on it: with nine chances in ten the first {later} is {span}, "
                "most probably {likeliest}",
                "{} teardowns bear on it: with nine chances in ten the first {later} is {span}, "
                "most probably {likeliest}",
                later=later,
                span=span,
                likeliest=likeliest,
            )
        )
    return parted(*said) + "."
