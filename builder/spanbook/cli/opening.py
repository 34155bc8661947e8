"""Opening the records that a command asks."""

from __future__ import annotations

from pathlib import Path

import click

from spanbook import OpenRegister, Problems, open_register
from spanbook.ground.language import gettext as _


def opened(folder: Path) -> OpenRegister:
    """The records of a folder. Raises ClickException with all that is wrong with them."""
    try:
        return open_register(folder)
    except Problems as failure:
        raise click.ClickException(_("these records cannot be asked:\n{}").format(failure)) from None
