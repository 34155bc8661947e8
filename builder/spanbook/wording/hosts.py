"""How large a site is, and what common hosts take."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.hosts import HOSTS, Host, Limit, Size
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import parted
from spanbook.reading.phrases import thousands
from spanbook.wording.grammar import decimals, listed, plural

_MB = 10**6
_MOST = {Limit.FILES: marked("{} files"), Limit.ENTRIES: marked("{} files and folders")}
_PAST = {
    Limit.FILES: marked("it has {has} files, and {most} are taken"),
    Limit.ENTRIES: marked("it has {has} files and folders, and {most} are taken"),
}


def size_told(size: Size) -> str:
    """The size of a site, and what hosts take, in a line."""
    told = _("{files} in {folders}, {size}. Hosts take: {taken}.")
    return told.format(
        files=plural(size.files, "{shown} file", "{shown} files", shown=thousands(size.files)),
        folders=plural(size.folders, "{shown} folder", "{shown} folders", shown=thousands(size.folders)),
        size=_bytes(size.total),
        taken=parted(*(f"{host.name} {_taken(host)}" for host in HOSTS)),
    )


def too_large(size: Size) -> Iterator[str]:
    """For each host that would not take the site, why."""
    for host in HOSTS:
        if past := [_past(limit, size, most) for limit, most in host.past(size)]:
            told = _("{host} does not take this site: {why}.")
            yield told.format(host=host.name, why=listed(past))


def _taken(host: Host) -> str:
    return listed([_most(limit, most) for limit, most in host.limits.items()])


def _most(limit: Limit, most: int) -> str:
    match limit:
        case Limit.BYTES:
            return _bytes(most)
        case Limit.LARGEST:
            return _("{} a file").format(_bytes(most))
        case Limit.FILES | Limit.ENTRIES:
            return _(_MOST[limit]).format(thousands(most))


def _past(limit: Limit, size: Size, most: int) -> str:
    match limit:
        case Limit.BYTES:
            told = _("it has {has}, and {most} are taken")
            return told.format(has=_bytes(size.total), most=_bytes(most))
        case Limit.LARGEST:
            told = _("its largest file has {has}, and {most} are taken")
            return told.format(has=_bytes(size.largest), most=_bytes(most))
        case Limit.FILES | Limit.ENTRIES:
            return _(_PAST[limit]).format(has=thousands(size.of(limit)), most=thousands(most))


def _bytes(count: int) -> str:
    """In millions, with one place behind the point where that tells something."""
    whole, _point, tenths = f"{count / _MB:.1f}".partition(".")
    rest = "" if tenths == "0" else decimals(f"0.{tenths}")[1:]
    return f"{thousands(int(whole))}{rest} MB"
