"""Why a site is not built."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.wording.grammar import plural


def broken(count: int) -> str:
    """That records have errors."""
    return plural(
        count,
        "{} error in the records: nothing was built.",
        "{} errors in the records: nothing was built.",
    )


def not_kept(folder: Path, failure: OSError) -> str:
    """That photographs cannot be kept between builds."""
    return _("photographs are kept in {folder}: {failure}").format(folder=folder, failure=failure)


def photograph_changed(why: str) -> str:
    return _("a photograph changed while it was read: {}; build again").format(why)


def drawing_changed(why: str) -> str:
    return _("a drawing changed while it was read: {}; build again").format(why)


def no_help_page(name: str) -> str:
    return _("help_page: there is no page {} in the content folder").format(name)


def unguarded(pages: Sequence[str]) -> str:
    return _("{}: copied or made without a content security policy").format(", ".join(pages))


def stays() -> str:
    """What becomes of the pages that are served."""
    return _("The pages stay as they were until that is mended.")
