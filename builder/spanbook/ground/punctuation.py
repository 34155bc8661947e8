"""What stands between two phrases that are put together: a language may have a space before it."""

from __future__ import annotations

from spanbook.ground.language import gettext as _


def labelled(label: str, text: str) -> str:
    """What something is called, and what is said of it: `Oil filter: not known`."""
    return f"{label}{_(': ')}{text}"


def headed(title: str) -> str:
    """A title over what follows it: `Worth measuring next:`."""
    return _("{title}:").format(title=title)


def parted(*phrases: str) -> str:
    """Phrases that have commas of their own, one after the other: `a, b; c; d, e`."""
    return _("; ").join(phrases)
