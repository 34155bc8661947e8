"""What a fault does to a circuit: to what is served, to the gauge, and to what is cleaned."""

from __future__ import annotations

from spanbook.answers.flow.faults import Fault, Wrong
from spanbook.answers.flow.figures import Change
from spanbook.answers.flow.pieces import Arranged
from spanbook.ground.flow.bounds import Between
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled, parted
from spanbook.ground.units import unit_told
from spanbook.reading.records import Circuit
from spanbook.wording.flow_amounts import (
    GIVES_WAY,
    NOTHING,
    PSI,
    digits,
    ends_words,
    flow_words,
    flows,
    percent_words,
)
from spanbook.wording.flow_ways import piece_title, served_titles

# What an eye sees on an old gauge, in psi: our own guess.
SEEN_ON_GAUGE = 2.0

FAULT = {
    Wrong.PLUGGED: marked("{} plugged"),
    Wrong.LEFT_OUT: marked("{} left out"),
    Wrong.STUCK_SHUT: marked("{} stuck shut"),
}
_OPEN_CIRCUIT = marked("{} broken")


def fault_words(fault: Fault, circuit: Circuit) -> str:
    """`Cartridge plugged`; a conductor is broken."""
    words = _OPEN_CIRCUIT if circuit.medium == "current" else FAULT[fault.wrong]
    return _(words).format(piece_title(fault.piece))


def change_words(change: Change, arranged: Arranged) -> str:
    """What a fault does to what is served, to the gauge and to what is cleaned, in one line."""
    served, moved, then = served_titles(arranged), change.moved, change.then
    said = [reach_words(then["reach"], arranged)] if change.starves else []
    said += [gauge_words(moved["gauge"], arranged.circuit)] if "gauge" in moved else []
    if "served" in moved and _moves(moved["served"]):
        message = _("of what reaches {served} {share} is then cleaned")
        said.append(message.format(served=served, share=percent_words(then["served"])))
    elif "cleaned" in moved and _moves(moved["cleaned"]):
        message = _("of all that is pumped {share} is then cleaned")
        said.append(message.format(share=percent_words(then["cleaned"])))
    told = parted(*said) or _("nothing that is worked out here changes")
    words = labelled(fault_words(change.fault, arranged.circuit), f"{told}.")
    return f"{words} {_('The gauge does not give it away.')}" if hides(change) else words


def hides(change: Change) -> bool:
    """Whether less is cleaned, perhaps much, or less arrives, and the gauge shows nothing of it."""
    gauge = change.moved.get("gauge")
    if gauge is None or gauge.low / PSI <= -SEEN_ON_GAUGE or gauge.high / PSI >= SEEN_ON_GAUGE:
        return False
    return any(one.low < -0.05 for name, one in change.moved.items() if name in ("cleaned", "served"))


def reach_words(then: Between, arranged: Arranged) -> str:
    """What still arrives: `only 0 to 1.2 litre/min reaches Main and big-end bearings`."""
    served = served_titles(arranged)
    if not flows(then, arranged.circuit):
        return _("nothing reaches {served}").format(served=served)
    flow = flow_words(then, arranged.circuit)
    return _("only {flow} reaches {served}").format(flow=flow, served=served)


def gauge_words(moved: Between, circuit: Circuit) -> str:
    """How far the gauge moves: `the gauge falls by 3 to 25 psi`; a meter of current moves by volts."""
    if circuit.medium == "current":
        return _moved_words(_("the meter"), moved.low, moved.high, unit_told("volt"))
    low, high = moved.low / PSI, moved.high / PSI
    if low > -SEEN_ON_GAUGE and high < SEEN_ON_GAUGE:
        return _("the gauge moves by less than {pressure} psi").format(pressure=f"{SEEN_ON_GAUGE:.0f}")
    if high > GIVES_WAY:
        return _("the pressure may rise until something gives way")
    return _moved_words(_("the gauge"), low, high, "psi")


def _moved_words(gauge: str, low: float, high: float, unit: str) -> str:
    if max(-low, high) < NOTHING:
        return _("{gauge} does not move").format(gauge=gauge)
    if low > -NOTHING:
        return _("{gauge} rises by {much}").format(gauge=gauge, much=f"{ends_words(low, high)} {unit}")
    if high < NOTHING:
        return _("{gauge} falls by {much}").format(gauge=gauge, much=f"{ends_words(-high, -low)} {unit}")
    return _("{gauge} may fall by {down} or rise by {up}").format(
        gauge=gauge, down=f"{digits(-low, up=True)} {unit}", up=f"{digits(high, up=True)} {unit}"
    )


def _moves(share: Between) -> bool:
    return share.low < -0.005 or share.high > 0.005
