"""What a site lays down for other programs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from spanbook.ground.licences import Licence
from spanbook.outputs import data
from spanbook.outputs.data.about import About
from spanbook.press.rows import Gathered
from spanbook.reading.releases import Release
from spanbook.register.credits import credits_of
from spanbook.site import feed, opensearch
from spanbook.site.addresses import DATA, STATE
from spanbook.site.common import Site
from spanbook.site.data import DataShown, Download, release_of, shown
from spanbook.site.page import Around
from spanbook.wording import releases as words
from spanbook.wording.data import credit_words


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which data a site has: its `tables` as files, its `records` beside their pages. `about` is what every
    file says of itself; `release` what the state of the records is to be called, where somebody says so."""

    about: About
    tables: bool = True
    records: bool = True
    release: str | None = None

    @property
    def licence(self) -> Licence | None:
        return self.about.licence

    def told(self) -> DataShown:
        """What every page knows of the data before there are any."""
        return DataShown(self.licence, beside=self.records)


@dataclass(frozen=True, slots=True)
class Laid:
    """`state` is that of the records by their digest, `release` what it is called, `shown` what the page of
    the data tells of the files."""

    state: str
    release: str
    shown: DataShown


def lay(site: Site, wanted: Wanted, rows: Gathered, put: Callable[[str, bytes], object]) -> Laid:
    """Make the files of data of a site of all rows, each of which `put` takes by its address, and tell what
    this state of the records is called. They are large: none is held until the next is made.

    Raises sqlite3.OperationalError where SQLite cannot make a full-text index.
    """
    made, records = rows.unpacked()
    state = release_of(made)
    named = wanted.release or name_of(state, site.releases)
    named_by = tuple((one.handle, credit_words(one)) for one in credits_of(site.register))
    tell = DataShown(wanted.licence)
    if wanted.tables:
        about = replace(wanted.about, release=named)
        laid = []
        for name, content in data.every_file(made, about, records):
            laid.append(Download.of(name, content))
            put(f"{DATA}{name}", content)
        tell = shown(wanted.licence, made, laid)
    return Laid(state, named, replace(tell, beside=wanted.records, credits=named_by))


def name_of(state: str, releases: Sequence[Release]) -> str:
    """The release that a state of the records is; its own name where it is none."""
    return next((words.named(one) for one in releases if one.state == state), state)


def for_programs(
    site: str | None, around: Around, releases: Sequence[Release], laid: Laid, records: int
) -> Iterator[tuple[str, bytes]]:
    """Which state a site shows; where it has an address, its box for browsers and the feed of releases."""
    around = replace(around, release=laid.release, data=laid.shown)
    yield STATE, feed.state(around, releases, laid.state, records)
    if site:
        yield from opensearch.files(around.name, site).items()
        if releases:
            yield feed.FEED, feed.feed(site, around, releases)
