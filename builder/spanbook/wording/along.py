"""The words of the page by which the site is taken along."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.wording.pages import PageWords

ALONG = PageWords(
    marked("Take it along"),
    marked(
        "The whole site on this telephone or computer, to be read without a connection, and as one "
        "file for a "
        "workshop that has none."
    ),
)


@dataclass(frozen=True, slots=True)
class DeviceWords:
    """What is said of the copy on a device, by what has happened; `{}` is filled in by the page."""

    none: str
    kept: str
    same: str
    older: str
    offline: str
    fetching: str
    changed: str
    full: str
    failed: str
    gone: str
    unable: str
    note: str


def device() -> DeviceWords:
    return DeviceWords(
        none=_("Nothing is kept on this device yet: {} are to be fetched."),
        kept=_("A copy is kept on this device. {}"),
        same=_("The site says the same now."),
        older=_("The site says more by now. {} {} are to be fetched."),
        offline=_("There is no connection: nothing can be fetched now."),
        fetching=_("{} of {} are here."),
        changed=_("The site was changed while it was fetched. Ask for it once more."),
        full=_("The device has no room for it. What was here before is still here."),
        failed=_("The connection was lost. Ask once more: what has come is not fetched again."),
        gone=_("The copy is no longer on this device."),
        unable=_("This browser keeps no copies, or the site has no secure address (https)."),
        note=_("There is no connection: this is the copy on this device. {}"),
    )


@dataclass(frozen=True, slots=True)
class WorkshopWords:
    """What is said while the archive is made."""

    whole: str
    reading: str
    made: str
    failed: str
    large: str
    from_disk: str


def workshop() -> WorkshopWords:
    return WorkshopWords(
        whole=_("Everything"),
        reading=_("{} of {} pages are looked through."),
        made=_("It is made: {}. Unpack it and open index.html in it."),
        failed=_("The connection was lost before it was whole. Nothing was made."),
        large=_("It would be larger than an archive can be."),
        from_disk=_("This is such a copy already. {}"),
    )


def state_told(state: str) -> str:
    """Where nobody knows of which day the records are."""
    return _("The state of its records is called {}.").format(state)
