"""What may be wrong with one way: plugged, left out, stuck. A fault changes the law of one piece and no
other.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.flow.pieces import SHUT, Arranged, Piece


class Wrong(StrEnum):
    """plugged: nothing passes. left-out: the thing is not there and its hole is open. stuck-shut: a valve
    that does not open.
    """

    PLUGGED = "plugged"
    LEFT_OUT = "left-out"
    STUCK_SHUT = "stuck-shut"


@dataclass(frozen=True, slots=True)
class Fault:
    piece: Piece
    wrong: Wrong


# What can be wrong with each sort of thing. A pipe or a pump has no hole of its own to be left open.
_OF = {
    "pipe": (Wrong.PLUGGED,),
    "jet": (Wrong.LEFT_OUT, Wrong.PLUGGED),
    "gap": (Wrong.PLUGGED, Wrong.LEFT_OUT),
    "element": (Wrong.PLUGGED, Wrong.LEFT_OUT),
    "strainer": (Wrong.PLUGGED, Wrong.LEFT_OUT),
    "packing": (Wrong.PLUGGED, Wrong.LEFT_OUT),
    "cooler": (Wrong.PLUGGED,),
    "relief": (Wrong.LEFT_OUT, Wrong.STUCK_SHUT),
    "check": (Wrong.LEFT_OUT, Wrong.STUCK_SHUT),
    "cock": (Wrong.LEFT_OUT,),
    "plug": (Wrong.LEFT_OUT,),
    "joint": (Wrong.LEFT_OUT,),
    "winding": (Wrong.PLUGGED,),
    "contact": (Wrong.PLUGGED,),
}


def faults_of(piece: Piece) -> tuple[Fault, ...]:
    """What can be wrong with it; nothing of a pump, a clearance or a battery."""
    return tuple(Fault(piece, how) for how in _OF.get(piece.way.through, ()))


def faults_in(arranged: Arranged) -> Iterator[Fault]:
    """What can be wrong with a network, in the order of its ways."""
    for piece in arranged.pieces:
        yield from faults_of(piece)


def passes(piece: Piece, fault: Fault | None) -> bool:
    """Whether anything can pass it: what is shut, only when it is left out."""
    here = fault.wrong if fault and fault.piece is piece else None
    if here in (Wrong.PLUGGED, Wrong.STUCK_SHUT):
        return False
    return piece.way.through not in SHUT or here is Wrong.LEFT_OUT


def left_out(piece: Piece, fault: Fault | None) -> bool:
    """Whether its hole stands open."""
    return fault is not None and fault.piece is piece and fault.wrong is Wrong.LEFT_OUT
