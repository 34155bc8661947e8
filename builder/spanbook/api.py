"""The Python interface: open a folder of records, ask what fits.

>>> register = spanbook.open_register("my-community")
>>> register.fits("HK 588")
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from pathlib import Path

from spanbook import fits as _fits
from spanbook.checking import check_folder
from spanbook.problems import Problems, errors
from spanbook.register import Register


@dataclass(frozen=True, slots=True, eq=False)
class OpenRegister(Register):
    """A register that answers. Everything it holds is read-only."""

    def read_serial(self, text: str) -> tuple[_fits.Reading, ...]:
        """Every series in which a text reads as a serial number, in any case and spacing.

        A number that was never issued is given too, with `issued` false; nothing for other texts.
        """
        return _fits.read_serial(self, text)

    def fits(self, text: str) -> tuple[_fits.Card, ...]:
        """For every reading of a serial number, what each position of that machine has."""
        answers = _fits.Fits(self)
        return tuple(answers.card(reading) for reading in self.read_serial(text))


def open_register(path: str | Path) -> OpenRegister:
    """The register of a project folder (one with `content/` in it) or of a content folder itself.

    Raises Problems with every problem when a record has an error, FileNotFoundError without a folder.
    """
    checked = check_folder(Path(path))
    if errors(checked.problems):
        raise Problems(checked.problems)
    return OpenRegister(*(getattr(checked.register, field.name) for field in fields(Register)))
