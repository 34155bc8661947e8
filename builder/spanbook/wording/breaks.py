"""Where production changed, as far as it is known."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from spanbook.answers.breaks import Break, NotCounted, Unused
from spanbook.answers.changepoint import GUESSED, EvenRun, Look, Misfit, Observation, Rates, Share
from spanbook.answers.claims import BreakClaim
from spanbook.ground.intervals import Run
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Series
from spanbook.wording.grammar import listed, plural, share_of
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import SOURCE_CLASSES, record_title
from spanbook.wording.spans import numbers_words

NOT_COUNTED = {
    NotCounted.ALTERED: "the machine was altered there",
    NotCounted.SAME_MACHINE: "another look at the same machine counts",
    NotCounted.EITHER_SIDE: "its worn number may lie on either side",
}


def break_words(one: Break) -> Iterator[str]:
    """What is known of the place of a break, a sentence each."""
    report, series = one.report, one.series
    if report.posterior.contradiction:
        yield "What was seen cannot all be true if no machine is ever changed: look again at these machines."
        return
    if report.printed_only:
        yield "No teardown bears on it yet: the printed bounds are all there is."
    else:
        yield plural(len(report.observations), "{} teardown bears on it.", "{} teardowns bear on it.")
    if report.misfit:
        yield from misfit_words(one, report.misfit)
    inside = report.posterior.interval()
    yield f"With nine chances in ten the first {one.later.title} is {_numbers(inside, series)}."
    if report.look:
        yield next_words(report.look, series)


def worked_words(one: Break) -> Iterator[str]:
    """How that was worked out: where it lies most probably, on what it depends and what was assumed."""
    report, series = one.report, one.series
    if report.posterior.contradiction:
        return
    inside = report.posterior.interval()
    yield f"Most probable: {listed([_numbers(span, series) for span in report.posterior.modes()], 'or')}."
    densest = report.posterior.densest()
    if len(densest) > 1:
        pieces = listed([_numbers(span, series) for span in densest])
        yield f"The densest nine tenths are in pieces: {pieces}."
    if report.lowest and report.highest and (report.lowest, report.highest) != (inside, inside):
        low, high = _numbers(report.lowest, series), _numbers(report.highest, series)
        if report.rates.upto:
            yield f"So much it depends on the rates: with the lowest {low}; with the highest {high}."
        else:
            yield f"If machines are changed half as often as assumed: {low}; twice as often: {high}."
    yield rates_words(report.rates)
    if one.disagreeing:
        yield weights_words(one)


def misfit_words(one: Break, found: Misfit) -> Iterator[str]:
    """What speaks against the picture of one break, by figures, told before what the picture gives."""
    if found.chance is not None:
        machines = plural(found.wrong, "{} machine is", "{} machines are")
        often = f"{float(found.chance) * 100:.2g} %"
        yield (
            f"Take this with care: wherever the break is put, {machines} on its wrong side, and as many or "
            f"more would be there in {often} of cases by the rates assumed (told below 1 %)."
        )
    if found.reversed is not None:
        yield (
            f"Take this with care: what was seen is {float(found.reversed):.0f} times as probable if the "
            f"{one.later.title} came before the {one.earlier.title} (told from 10 times on)."
        )


def printed_words(one: Break) -> str:
    """Where it is printed to be, or that sources disagree: the claims are told beside it."""
    if one.disagreeing:
        return "What is printed of it disagrees. Nothing is picked: each claim counts by its weight."
    return f"Printed: somewhere from {_numbers(one.report.claim, one.series)}."


def claim_words(one: Break, claim: BreakClaim, share: Share) -> Pieces:
    """Who says where it is, and what that weighs: `HK 589, Parts book: 44 % before teardowns, 9 % now`."""
    named: list[str | Ref] = []
    for source in claim.sources:
        named += [", ", Ref(record_title(source), source)]
    return _numbers(claim.run, one.series), *(named or [", and nobody is named"]), f": {_weighs(one, share)}"


def none_words(one: Break, none: Share) -> str:
    """What is left for none of the claims."""
    return f"None of them, somewhere from {_numbers(none.run, one.series)}: {_weighs(one, none)}"


def _weighs(one: Break, share: Share) -> str:
    if one.report.printed_only or one.report.posterior.contradiction:
        return share_of(share.before)
    return f"{share_of(share.before)} before teardowns, {share_of(share.after)} now"


def weights_words(one: Break) -> str:
    """What was assumed of the sources that disagree."""
    classes = dict.fromkeys(source.sort for claim in one.claims for source in claim.sources)
    weighed = [f"{_(SOURCE_CLASSES[name])} {float(one.weights.classes[name]):g}" for name in classes]
    if not all(claim.sources for claim in one.claims):
        weighed.append(f"nobody's word {float(one.weights.of(())):g}")
    whose = "our own guess, which a community can set" if one.weights == GUESSED else "set by this community"
    none = f"{float(one.weights.none_of_them) * 100:g} in a hundred"
    return f"Weights beside one another ({whose}): {', '.join(weighed)}; none of them {none}."


def next_words(look: Look, series: Series) -> str:
    """Whose machine would tell most."""
    left = plural(max(1, round(look.width_after)), "1 number", "{} numbers")
    return (
        f"The machine to look at next is {_numbers(look.numbers, series)}: untouched, it would "
        f"leave about {left}."
    )


def rates_words(rates: Rates) -> str:
    """What was assumed of machines that were changed."""
    ends = [rates, rates.upto] if rates.upto else [rates]
    converted, robbed, untouched_converted, untouched_robbed = (
        _in_a_hundred(each)
        for each in zip(
            *((one.converted, one.robbed, one.untouched_converted, one.untouched_robbed) for one in ends),
            strict=True,
        )
    )
    told = (
        f"Assumed: of a hundred machines {converted} were converted and {robbed} went back; "
        f"of a hundred untouched ones {untouched_converted} and {untouched_robbed}."
    )
    return f"{told} Anywhere in a range is equally likely." if rates.upto else told


def _in_a_hundred(ends: Sequence[Fraction]) -> str:
    """A rate, or the two ends of its range: `10`, `5 to 20`."""
    return " to ".join(dict.fromkeys(f"{float(end) * 100:.0f}" for end in ends))


def share_words(run: EvenRun, series: Series) -> str:
    """How probable it is that the break is in a run of numbers."""
    share = float(run.each * run.size) * 100
    return f"{numbers_words(run.first, run.last, series)}: {share:.1f} % in all"


def look_words(look: Observation, one: Break) -> str:
    """What one machine had."""
    held = one.later if look.later else one.earlier
    return f"{one.series.stamp.show(look.number)} had the {held.title}"


def unused_words(unused: Unused) -> str:
    """Which machine was seen and does not count, and why."""
    return f"{unused.teardown.serial}: {NOT_COUNTED[unused.why]}"


def _numbers(run: Run, series: Series) -> str:
    return numbers_words(run.first, run.last, series)
