"""The hubs: one page a kind that lists everything of it, for readers without a script and for engines."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace

from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import folded
from spanbook.ground.punctuation import parted
from spanbook.reading.fields import asked_of, title_of
from spanbook.reading.kinds import KINDS, Kind
from spanbook.reading.records import Absence, Assembly
from spanbook.register.led import Led, led_numbers
from spanbook.register.model import Part, Position
from spanbook.site import addresses
from spanbook.site.common import Site, part_link
from spanbook.site.page import Link, SitePage
from spanbook.site.rows import Group, IndexView, Row, in_pieces
from spanbook.site.thumbnails import of_machine
from spanbook.wording import lists
from spanbook.wording.grammar import listed, small
from spanbook.wording.lists import ListWords
from spanbook.wording.records import CONDITIONS, SOURCE_CLASSES
from spanbook.wording.spans import run_words, span_words
from spanbook.wording.years import year_words


def pages(site: Site) -> Iterator[SitePage]:
    made = [
        make(site)
        for make in (
            _machines,
            _series,
            _positions,
            _assemblies,
            _absences,
            _parts,
            _supersessions,
            _conversions,
            _sources,
            _teardowns,
        )
    ]
    listed_already = {page.address for page in made}
    others = (
        _plain(site, kind)
        for kind in KINDS.values()
        if kind.paged and f"{kind.folder}/" not in listed_already
    )
    for page in (*made, *others, *_owners(site)):
        yield from in_pieces(page)


def _page(address: str, words: ListWords, groups: Iterable[Group]) -> SitePage:
    groups = tuple(group for group in groups if group.rows)
    return SitePage(
        address=address,
        title=words.title,
        summary=words.lead,
        sort="List",
        crumbs=(),
        template="views/index.html",
        view=IndexView(words.lead, words.columns, groups),
    )


def _one(rows: Iterable[Row]) -> list[Group]:
    return [Group("", None, tuple(rows))]


def _plain(site: Site, kind: Kind) -> SitePage:
    """A kind of which nothing more is to be listed than its records."""
    rows = (Row(site.record_link(record), ()) for record in site.register.of(kind.cls).values())
    words = ListWords(plain_title(kind), asked_of(kind.name), (title_of(kind.name),))
    return _page(f"{kind.folder}/", words, _one(rows))


def plain_title(kind: Kind) -> str:
    """What such a list is called."""
    return _(kind.folder.capitalize())


def _machines(site: Site) -> SitePage:
    rows = (
        Row(site.record_link(m), (m.maker, parted(*(run_words(s) for s in m.series))), of_machine(site, m))
        for m in site.register.machines.values()
    )
    return _page("machines/", lists.MACHINES.told(), _one(rows))


def _series(site: Site) -> SitePage:
    rows = (
        Row(site.series_link(s), (site.machine_of(s).title, run_words(s), s.plate))
        for s in site.register.series.values()
    )
    return _page("series/", lists.SERIES.told(), _one(rows))


def _positions(site: Site) -> SitePage:
    groups = []
    for top in (p for p in site.register.positions.values() if p.above is None):
        inside = [p for p in site.register.positions.values() if f"{p.path}/".startswith(f"{top.path}/")]
        rows = (Row(_position_link(p), (_count(site, p),)) for p in inside if p.holds)
        heading = Link(top.title, addresses.of_position(top))
        groups.append(Group(top.path, None if top.holds else heading, tuple(rows)))
    return _page("positions/", lists.POSITIONS.told(), groups)


def _position_link(position: Position) -> Link:
    return Link(position.title, addresses.of_position(position))


def _count(site: Site, position: Position) -> str:
    held = site.register.at_position.get(position.path, ())
    count = sum(not isinstance(one, Absence) for one in held)
    return str(count) if count else lists.none_yet()


def _assemblies(site: Site) -> SitePage:
    groups = (
        Group(
            addresses.anchor_of_position(path),
            Link(
                ", ".join(link.text for link in site.position_links(path)),
                addresses.of_position(path),
            ),
            tuple(_assembly_row(site, a) for a in assemblies if not isinstance(a, Absence)),
        )
        for path, assemblies in ((p, site.register.at_position.get(p, ())) for p in site.register.positions)
    )
    return _page("assemblies/", lists.ASSEMBLIES.told(), groups)


def _assembly_row(site: Site, assembly: Assembly) -> Row:
    spans = parted(*(span_words(s, site.register.series[s.series]) for s in assembly.serials))
    return Row(site.record_link(assembly), (assembly.number or "", spans))


def _absences(site: Site) -> SitePage:
    rows = (
        Row(
            site.record_link(one),
            (site.register.positions[one.position].title, _assembly_row(site, one).cells[-1]),
        )
        for one in site.register.of(Absence).values()
    )
    return _page("absences/", lists.ABSENCES.told(), _one(rows))


def _by_owner(site: Site) -> dict[str, list[tuple[str, Part]]]:
    """The numbers of each firm, with the part that each is of."""
    owners: defaultdict[str, list[tuple[str, Part]]] = defaultdict(list)
    for part in site.register.parts.values():
        owners[part.key.by].append((part.number, part))
    for led in led_numbers(site.register).values():
        if led.how is Led.ALSO:
            owners[led.by].append((led.number, led.part))
    for parts in owners.values():
        parts.sort(key=lambda one: folded(one[0]))
    # The makers of the machines come before their suppliers.
    return dict(sorted(owners.items(), key=lambda item: (item[0] not in site.register.makers, item[0])))


def _owner_name(site: Site, owner: str) -> str:
    return site.register.makers.get(owner, owner)


def _parts(site: Site) -> SitePage:
    rows = (
        Row(Link(_owner_name(site, owner), f"{addresses.PARTS}{owner}/"), (str(len(parts)),))
        for owner, parts in _by_owner(site).items()
    )
    return _page("parts/", lists.PARTS.told(), _one(rows))


def _owners(site: Site) -> Iterator[SitePage]:
    for owner, parts in _by_owner(site).items():
        name = _owner_name(site, owner)
        page = _page(
            f"{addresses.PARTS}{owner}/",
            lists.parts_of(name),
            _one(_part_row(number, part) for number, part in parts),
        )
        yield replace(page, crumbs=(Link(lists.PARTS.told().title, addresses.PARTS),))


def _part_row(number: str, part: Part) -> Row:
    assemblies = listed(list(dict.fromkeys(use.assembly.title for use in part.uses)))
    return Row(part_link(part, number), (part.name, assemblies))


def _supersessions(site: Site) -> SitePage:
    rows = (
        Row(
            site.record_link(act),
            (year_words(act.year), lists.limited() if act.serials else ""),
        )
        for act in site.register.supersessions.values()
    )
    return _page("supersessions/", lists.SUPERSESSIONS.told(), _one(rows))


def _conversions(site: Site) -> SitePage:
    titles = {id_: a.title for id_, a in site.register.assemblies.items()}
    rows = (
        Row(
            site.record_link(c),
            (
                listed([titles[id_] for id_ in c.start], "or"),
                titles[c.to],
                year_words(c.year),
            ),
        )
        for c in site.register.conversions.values()
    )
    return _page("conversions/", lists.CONVERSIONS.told(), _one(rows))


def _sources(site: Site) -> SitePage:
    rows = (
        Row(
            site.record_link(s),
            (
                _(SOURCE_CLASSES[s.sort]),
                year_words(s.year),
                str(len(site.register.cited.get(s, ()))),
            ),
        )
        for s in site.register.sources.values()
    )
    return _page("sources/", lists.SOURCES.told(), _one(rows))


def _teardowns(site: Site) -> SitePage:
    def positions(found: Iterable[str]) -> str:
        return listed([small(site.register.positions[path].title) for path in dict.fromkeys(found)])

    rows = (
        Row(
            site.record_link(t),
            (t.seen_by, _(CONDITIONS[t.condition]), positions(f.position for f in t.found)),
        )
        for t in site.register.teardowns.values()
    )
    return _page("teardowns/", lists.TEARDOWNS.told(), _one(rows))
