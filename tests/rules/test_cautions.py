"""Which cautions are called for, and which are named or declined."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import LID

DRAIN = "position: body/drain"
CAUTIONS = {
    "called for by its place": (
        LID.replace("position: body/cover", DRAIN),
        [("caution-missing", 1, "“body/drain” calls for the caution used-oil")],
    ),
    "called for by a word in any case": (
        LID.replace("title: lid", "title: Lid of the SUMP"),
        [("caution-missing", 1, "“sump” calls for the caution used-oil")],
    ),
    "a part of a word calls for nothing": (LID.replace("title: lid", "title: Sumpter's lid"), []),
    "a place that begins alike": (LID, []),
    "it is declined": (
        LID.replace("title: lid", "title: Lid of the sump")
        + "declined: [{caution: used-oil, why: The sump is dry}]\n",
        [],
    ),
    "it is there and declined": (
        LID.replace("position: body/cover", f"{DRAIN}\ncautions: [used-oil]")
        + "declined: [{caution: used-oil, why: It is dry}]\n",
        [("caution-declined", 8, "used-oil declined, and it stands under cautions too")],
    ),
    "declined, and nothing calls for it": (
        LID + "declined: [{caution: used-oil, why: It is dry}]\n",
        [("caution-declined", 7, "used-oil declined, and nothing here calls for it")],
    ),
    "declined, and there is none": (
        LID + "declined: [{caution: dust, why: It is wet}]\n",
        [("reference-unknown", 7, "there is no caution dust")],
    ),
    "it is there, and nothing calls for it": (LID + "cautions: [used-oil]\n", []),
    "the longer of two words that begin alike": (
        LID.replace("title: lid", "title: Lid of the sump heater")
        + worlds.read("base").replace(
            "  follows:",
            "  follows:\n  - {body: A, title: T}\n- id: hot\n  title: Hot\n  text: Wait.\n"
            "  words: [sump heater]\n  follows:",
            1,
        ),
        [("caution-missing", 1, "“sump heater” calls for the caution hot")],
    ),
    "it is there": (LID.replace("position: body/cover", f"{DRAIN}\ncautions: [used-oil]"), []),
}


@each_row(("world", "told"), CAUTIONS.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)
