"""How far a statement is to be trusted, and why."""

from __future__ import annotations

from spanbook.answers.reasons import (
    Had,
    HadNumber,
    InPlace,
    Measured,
    Reason,
    SameNumbers,
    Says,
    ShowedSign,
    Weight,
)
from spanbook.answers.standing import Judgement, Standing
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.records import Condition, Conversion, Source, Supersession, Teardown
from spanbook.register.statements import Fitting, Limit
from spanbook.wording.grammar import decimals, listed
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import act_title, at_words, record_title, seen_title
from spanbook.wording.spans import span_words

STANDINGS = {
    Standing.UNSUPPORTED: marked("no evidence"),
    Standing.RECALLED: marked("recalled"),
    Standing.PRINTED: marked("printed"),
    Standing.SEEN: marked("seen"),
    Standing.CONFIRMED: marked("confirmed"),
    Standing.DISPUTED: marked("disputed"),
}
MEANINGS = {
    Standing.UNSUPPORTED: marked("nothing is named that says so"),
    Standing.RECALLED: marked("somebody remembers it"),
    Standing.PRINTED: marked("literature says so"),
    Standing.SEEN: marked("seen on machines that nobody had altered"),
    Standing.CONFIRMED: marked("printed, and seen as printed"),
    Standing.DISPUTED: marked("somebody saw, or printed, otherwise"),
}
WEIGHTS = {
    Weight.PRINTED: marked("printed"),
    Weight.RECALLED: marked("recalled"),
    Weight.SEEN: marked("seen"),
    Weight.AGAINST: marked("against"),
    Weight.EXPLAINED: marked("explained by a later change"),
    Weight.SET_ASIDE: marked("not counted"),
}
CONDITIONS: dict[Condition, str] = {
    "untouched": marked("untouched"),
    "likely-original": marked("likely-original"),
    "altered": marked("altered"),
    "unknown": marked("unknown"),
}


def standing_word(standing: Standing) -> str:
    """A standing in a word."""
    return _(STANDINGS[standing])


def standing_meaning(standing: Standing) -> str:
    """What that word means."""
    return _(MEANINGS[standing])


def reason_words(reason: Reason) -> Pieces:
    """A reason in a line: what it does, who says so, what was seen and what the record remarks of it:
    `seen: HK 588, had the strainer: paint unbroken`."""
    named = Ref(reason_title(reason), reason.by)
    shown, note = shown_words(reason), reason.note
    told = (f", {shown}" if shown else "") + (f"{_(': ')}{note}" if note else "")
    return f"{_(WEIGHTS[reason.weight])}{_(': ')}", named, *((told,) if told else ())


def reason_title(reason: Reason) -> str:
    """The source or teardown of a reason, and where in it; what speaks against from memory is told to."""
    title = seen_title(reason.by) if isinstance(reason.by, Teardown) else record_title(reason.by)
    recalled = isinstance(reason.by, Source) and reason.by.sort == "recollection"
    told = at_words(title, reason.at)
    return _("{} (from memory)").format(told) if recalled and reason.weight is Weight.AGAINST else told


def word_of(judged: Judgement) -> str:
    """On whose word a statement stands, and who speaks against it, in sentences."""
    against = [reason_title(reason) for reason in judged.reasons if reason.weight is Weight.AGAINST]
    others = [reason_title(reason) for reason in judged.reasons if reason.weight is not Weight.AGAINST]
    said = _("On the word of {}.").format(", ".join(others) or _("no evidence named"))
    return f"{said} {_('Against it: {}.').format(', '.join(against))}" if against else said


def _claim(claim: Fitting | Limit | Supersession) -> str:
    if isinstance(claim, Supersession):
        return act_title(claim)
    return span_words(claim.span, claim.series)


def shown_words(reason: Reason) -> str:
    """What was seen, or why it does not count; empty where it is only named."""
    match shown := reason.shown:
        case None:
            return ""
        case Had(condition=str(condition)):
            told = _("had {what}, and its condition is {condition}")
            return told.format(what=had_words(shown), condition=_(CONDITIONS[condition]))
        case Had():
            return _("had {}").format(had_words(shown))
        case HadNumber(number, condition):
            told = _("read {number} on it; condition {condition}")
            return told.format(number=number, condition=_(CONDITIONS[condition]))
        case ShowedSign(seen, condition):
            told = _("saw {seen}; condition {condition}")
            return told.format(seen=seen, condition=_(CONDITIONS[condition]))
        case InPlace():
            return _in_place(shown)
        case Measured(size, same):
            measured = decimals(f"{size.value} {size.unit}")
            told = _("measured {}") if same else _("measured {}, which may be wear")
            return told.format(measured)
        case SameNumbers():
            return _("is recorded on the same numbers")
        case Says(claim):
            return _("which says {}").format(_claim(claim))


def had_words(shown: Had) -> str:
    """What a machine had, or one of what: `the Metal-edge strainer or the Duplex strainer`."""
    return listed([_("the {title}").format(title=assembly.title) for assembly in shown.any_of], "or")


def _in_place(shown: InPlace) -> str:
    number = shown.number
    match shown.by:
        case Conversion(title=title):
            told = _("read {number} in its place, which the {conversion} puts on")
            return told.format(number=number, conversion=title)
        case "later":
            return _("read {} in its place, which replaced it").format(number)
        case "earlier":
            return _("read {} in its place, which it replaced").format(number)
        case _ if shown.condition:
            told = _("read {number} in its place; condition {condition}")
            return told.format(number=number, condition=_(CONDITIONS[shown.condition]))
        case _:
            return _("read {} in its place").format(number)
