"""The keys of all positions, each made when it is first asked for."""

from __future__ import annotations

from spanbook.answers.applicability import Fits
from spanbook.answers.part_keys import worn_forms
from spanbook.answers.signs.key import Key
from spanbook.answers.signs.things import assemblies_at, parts_at
from spanbook.ground.memo import Memo, kept


class Keys:
    """What all of them need is gathered once."""

    def __init__(self, fits: Fits) -> None:
        self.fits = fits
        self.of = Memo(self._of)

    @kept
    def _readable(self) -> frozenset[str]:
        return worn_forms(self.fits.register)

    def _of(self, asked: tuple[str, bool]) -> Key:
        """Of a position, and whether of the parts of what belongs there."""
        position, parts = asked
        things = (parts_at if parts else assemblies_at)(self.fits.register, position)
        return Key(self.fits, position, things, lambda: self._readable)
