"""Where production changed, as far as it is known."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from spanbook.answers.breaks import Break, NotCounted, Unused
from spanbook.answers.changepoint import GUESSED, EvenRun, Look, Misfit, Observation, Rates, Share
from spanbook.answers.claims import BreakClaim
from spanbook.ground.intervals import Run
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Series
from spanbook.wording.grammar import decimals, general, listed, plural, share_of, span_of
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import SOURCE_CLASSES, record_title
from spanbook.wording.spans import numbers_words

NOT_COUNTED = {
    NotCounted.ALTERED: marked("the machine was altered there"),
    NotCounted.SAME_MACHINE: marked("another look at the same machine counts"),
    NotCounted.EITHER_SIDE: marked("its worn number may lie on either side"),
}


def break_words(one: Break) -> Iterator[str]:
    """What is known of the place of a break, a sentence each."""
    report, series = one.report, one.series
    if report.posterior.contradiction:
        yield _(
            "What was seen cannot all be true if no machine is ever changed: look again at these machines."
        )
        return
    if report.printed_only:
        yield _("No teardown bears on it yet: the printed bounds are all there is.")
    else:
        yield plural(len(report.observations), "{} teardown bears on it.", "{} teardowns bear on it.")
    if report.misfit:
        yield from misfit_words(one, report.misfit)
    inside = report.posterior.interval()
    told = _("With nine chances in ten the first {assembly} is {numbers}.")
    yield told.format(assembly=one.later.title, numbers=_numbers(inside, series))
    if report.look:
        yield next_words(report.look, series)


def worked_words(one: Break) -> Iterator[str]:
    """How that was worked out: where it lies most probably, on what it depends and what was assumed."""
    report, series = one.report, one.series
    if report.posterior.contradiction:
        return
    inside = report.posterior.interval()
    modes = [_numbers(span, series) for span in report.posterior.modes()]
    yield _("Most probable: {}.").format(listed(modes, "or"))
    densest = report.posterior.densest()
    if len(densest) > 1:
        pieces = listed([_numbers(span, series) for span in densest])
        yield _("The densest nine tenths are in pieces: {}.").format(pieces)
    if report.lowest and report.highest and (report.lowest, report.highest) != (inside, inside):
        low, high = _numbers(report.lowest, series), _numbers(report.highest, series)
        told = (
            _("So much it depends on the rates: with the lowest {low}; with the highest {high}.")
            if report.rates.upto
            else _("If machines are changed half as often as assumed: {low}; twice as often: {high}.")
        )
        yield told.format(low=low, high=high)
    yield rates_words(report.rates)
    if one.disagreeing:
        yield weights_words(one)


def misfit_words(one: Break, found: Misfit) -> Iterator[str]:
    """What speaks against the picture of one break, by figures, told before what the picture gives."""
    if found.chance is not None:
        yield plural(
            found.wrong,
            "Take this with care: wherever the break is put, {} machine is on its wrong side, "
            "and as many or more would be there in {often} of cases by the rates assumed (told below 1 %).",
            "Take this with care: wherever the break is put, {} machines are on its wrong side, "
            "and as many or more would be there in {often} of cases by the rates assumed (told below 1 %).",
            often=_("{} %").format(decimals(f"{float(found.chance) * 100:.2g}")),
        )
    if found.reversed is not None:
        told = _(
            "Take this with care: what was seen is {times} times as probable if the "
            "{later} came before the {earlier} (told from 10 times on)."
        )
        times = f"{float(found.reversed):.0f}"
        yield told.format(times=times, later=one.later.title, earlier=one.earlier.title)


def printed_words(one: Break) -> str:
    """Where it is printed to be, or that sources disagree: the claims are told beside it."""
    if one.disagreeing:
        return _("What is printed of it disagrees. Nothing is picked: each claim counts by its weight.")
    return _("Printed: somewhere from {}.").format(_numbers(one.report.claim, one.series))


def claim_words(one: Break, claim: BreakClaim, share: Share) -> Pieces:
    """Who says where it is, and what that weighs: `HK 589, Parts book: 44 % before teardowns, 9 % now`."""
    named: list[str | Ref] = []
    for source in claim.sources:
        named += [", ", Ref(record_title(source), source)]
    return (
        _numbers(claim.run, one.series),
        *(named or [", ", _("and nobody is named")]),
        f"{_(': ')}{_weighs(one, share)}",
    )


def none_words(one: Break, none: Share) -> str:
    """What is left for none of the claims."""
    told = _("None of them, somewhere from {numbers}: {share}")
    return told.format(numbers=_numbers(none.run, one.series), share=_weighs(one, none))


def _weighs(one: Break, share: Share) -> str:
    if one.report.printed_only or one.report.posterior.contradiction:
        return share_of(share.before)
    told = _("{before} before teardowns, {after} now")
    return told.format(before=share_of(share.before), after=share_of(share.after))


def weights_words(one: Break) -> str:
    """What was assumed of the sources that disagree."""
    classes = dict.fromkeys(source.sort for claim in one.claims for source in claim.sources)
    weighed = [f"{_(SOURCE_CLASSES[name])} {general(one.weights.classes[name])}" for name in classes]
    if not all(claim.sources for claim in one.claims):
        weighed.append(_("nobody's word {}").format(general(one.weights.of(()))))
    told = _("Weights beside one another ({whose}): {weights}; none of them {none} in a hundred.")
    none = general(one.weights.none_of_them * 100)
    return told.format(whose=whose_guess(one.weights == GUESSED), weights=", ".join(weighed), none=none)


def whose_guess(ours: bool) -> str:
    """Whose guess it is that something was assumed by."""
    return _("our own guess, which a community can set") if ours else _("set by this community")


def next_words(look: Look, series: Series) -> str:
    """Whose machine would tell most."""
    return plural(
        max(1, round(look.width_after)),
        "The machine to look at next is {machine}: untouched, it would leave about {} number.",
        "The machine to look at next is {machine}: untouched, it would leave about {} numbers.",
        machine=_numbers(look.numbers, series),
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
    told = _(
        "Assumed: of a hundred machines {converted} were converted and {robbed} went back; "
        "of a hundred untouched ones {untouched_converted} and {untouched_robbed}."
    ).format(
        converted=converted,
        robbed=robbed,
        untouched_converted=untouched_converted,
        untouched_robbed=untouched_robbed,
    )
    return f"{told} {_('Anywhere in a range is equally likely.')}" if rates.upto else told


def _in_a_hundred(ends: Sequence[Fraction]) -> str:
    """A rate, or the two ends of its range: `10`, `5 to 20`."""
    return span_of(list(dict.fromkeys(f"{float(end) * 100:.0f}" for end in ends)))


def share_words(run: EvenRun, series: Series) -> str:
    """How probable it is that the break is in a run of numbers."""
    share = float(run.each * run.size) * 100
    told = _("{numbers}: {share} % in all")
    return told.format(numbers=numbers_words(run.first, run.last, series), share=decimals(f"{share:.1f}"))


def look_words(look: Observation, one: Break) -> str:
    """What one machine had."""
    held = one.later if look.later else one.earlier
    return _("{number} had the {assembly}").format(
        number=one.series.stamp.show(look.number), assembly=held.title
    )


def unused_words(unused: Unused) -> str:
    """Which machine was seen and does not count, and why."""
    return labelled(unused.teardown.serial, _(NOT_COUNTED[unused.why]))


def _numbers(run: Run, series: Series) -> str:
    return numbers_words(run.first, run.last, series)
