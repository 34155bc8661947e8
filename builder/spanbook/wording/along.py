"""The words of the page by which the site is taken along."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.wording.pages import PageWords

ALONG = PageWords(
    "Take it along",
    "The whole site on this telephone or computer, to be read without a connection, and as one file for a "
    "workshop that has none.",
)


@dataclass(frozen=True, slots=True)
class DeviceWords:
    """What is said of the copy on a device, by what has happened; `{}` is filled in by the page."""

    none: str = "Nothing is kept on this device yet: {} are to be fetched."
    kept: str = "A copy is kept on this device. {}"
    same: str = "The site says the same now."
    older: str = "The site says more by now. {} {} are to be fetched."
    offline: str = "There is no connection: nothing can be fetched now."
    fetching: str = "{} of {} are here."
    changed: str = "The site was changed while it was fetched. Ask for it once more."
    full: str = "The device has no room for it. What was here before is still here."
    failed: str = "The connection was lost. Ask once more: what has come is not fetched again."
    gone: str = "The copy is no longer on this device."
    unable: str = "This browser keeps no copies, or the site has no secure address (https)."
    note: str = "There is no connection: this is the copy on this device. {}"


@dataclass(frozen=True, slots=True)
class WorkshopWords:
    """What is said while the archive is made."""

    whole: str = "Everything"
    reading: str = "{} of {} pages are looked through."
    made: str = "It is made: {}. Unpack it and open index.html in it."
    failed: str = "The connection was lost before it was whole. Nothing was made."
    large: str = "It would be larger than an archive can be."
    from_disk: str = "This is such a copy already. {}"


DEVICE = DeviceWords()
WORKSHOP = WorkshopWords()


def state_told(state: str) -> str:
    """Where nobody knows of which day the records are."""
    return f"The state of its records is called {state}."
