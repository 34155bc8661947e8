"""The applicability page of an assembly: which machines it is on, how sure that is, and on whose word."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import count

from markupsafe import Markup

from spanbook.answers.applicability import Segment
from spanbook.answers.bounds import bounds_of
from spanbook.answers.pictured import of_assembly
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Absence, Assembly, Series, Teardown
from spanbook.register.statements import Fitting, Limit, StraySpan, Use
from spanbook.site import addresses, markdown
from spanbook.site.arrangements import Drawing, drawings
from spanbook.site.cautions import CautionsShown, cautions_of
from spanbook.site.common import LimitLine, Linked, PartLine, Site, Trust, linked, part_link
from spanbook.site.each import Each
from spanbook.site.figures.figure import FigureView, Stands, figures
from spanbook.site.figures.stack import Stack, stack
from spanbook.site.page import Link, SitePage
from spanbook.site.signs import SignLine, sign_lines
from spanbook.site.trust import BreakView, breaks_of, telling, trust
from spanbook.site.views.fitted_charts import FittedChart, charts, series_of
from spanbook.site.ways import WayLine, circuits_at, way_lines
from spanbook.wording.fits import segment_words
from spanbook.wording.line_breaks import line_break_words
from spanbook.wording.parts_read import also_read_words
from spanbook.wording.places import inside_words
from spanbook.wording.records import CONDITIONS, picture_of
from spanbook.wording.retired import retired_words
from spanbook.wording.spans import fitted_words, numbers_words, span_words
from spanbook.wording.strip_down import STACK, TAKEN_APART, stack_title
from spanbook.wording.summaries import assembly_summary
from spanbook.wording.years import years_words


@dataclass(frozen=True, slots=True)
class SpanRow:
    anchor: str
    machine: Link
    series: Link
    words: str
    fitted: str
    years: str | None
    note: str | None
    trust: Trust


@dataclass(frozen=True, slots=True)
class Neighbours:
    """What is known before, between and after this assembly's numbers in one series."""

    series: Link
    before: str | None
    before_numbers: str | None
    before_link: str | None
    after: str | None
    after_numbers: str | None
    after_link: str | None


@dataclass(frozen=True, slots=True)
class SeenRow:
    link: Link
    condition: str
    note: str | None


@dataclass(frozen=True, slots=True)
class RetiredView:
    """Why it answers nothing, what went under its name, and what was said of it, each by its anchor."""

    told: Linked
    said: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class AssemblyView:
    retired: RetiredView | None
    position: tuple[Link, ...]
    inside: Linked
    number: Link | None
    spans: tuple[SpanRow, ...]
    charts: tuple[FittedChart, ...]
    neighbours: tuple[Neighbours, ...]
    breaks: tuple[BreakView, ...]
    tell: tuple[str, ...]
    tell_trust: Trust | None
    signs: tuple[SignLine, ...]
    parts: tuple[PartLine, ...]
    line_breaks: tuple[str, ...]
    also_read: tuple[tuple[Link, Linked], ...]
    made_from: tuple[Link, ...]
    made_into: tuple[Link, ...]
    short: tuple[Linked, ...]
    beyond: tuple[Linked, ...]
    seen: tuple[SeenRow, ...]
    figures: tuple[FigureView, ...]
    pictures: tuple[FigureView, ...]
    cautions: CautionsShown
    sheet: Link | None
    stack: Stack | None
    stack_words: str
    ways: tuple[WayLine, ...]
    circuits: tuple[Link, ...]
    drawings: tuple[Drawing, ...]
    notes: Markup | None


def _pages(site: Site, assembly: Assembly) -> Iterator[SitePage]:
    if not isinstance(assembly, Absence):
        yield page(site, assembly)


EACH = Each(lambda site: site.register.assemblies.values(), addresses.of_record, _pages)


def page(site: Site, assembly: Assembly) -> SitePage:
    address = addresses.of_record(assembly)
    root = "../" * address.count("/")
    position = site.position_links(assembly.position)
    return SitePage(
        address=address,
        title=assembly.title,
        summary=assembly_summary(site.register, assembly),
        sort=_("Assembly"),
        crumbs=(Link(_("Assemblies"), "assemblies/"), *position),
        template="views/assembly.html",
        view=_view(site, assembly, position, root),
        record=assembly,
        position=assembly.position,
    )


def _view(site: Site, assembly: Assembly, position: tuple[Link, ...], root: str) -> AssemblyView:
    register = site.register
    whole = register.key_of_whole(assembly)
    shown = tuple(figures(site, _shown(site, assembly), count(1), site.renewed(assembly)))
    return AssemblyView(
        retired=_retired(site, assembly),
        position=position,
        inside=linked(inside_words(register, assembly)),
        number=part_link(register.parts[whole], assembly.number) if whole else None,
        spans=tuple(_span_row(site, fitting) for fitting in register.fittings_of(assembly)),
        charts=tuple(charts(site, assembly)),
        neighbours=tuple(_neighbours(site, assembly)),
        breaks=breaks_of(site, assembly),
        tell=assembly.tell,
        tell_trust=telling(site, assembly),
        signs=sign_lines(site, assembly),
        parts=tuple(_parts(site, assembly)),
        line_breaks=tuple(line_break_words(register, one) for one in site.answers.line_breaks_in(assembly)),
        also_read=tuple(
            (part_link(read.part), linked(also_read_words(read)))
            for read in site.answers.parts_read.of(assembly).also
        ),
        made_from=tuple(site.record_link(c) for c in register.conversions_to.get(assembly.id, ())),
        made_into=tuple(site.record_link(c) for c in register.conversions_from.get(assembly.id, ())),
        short=site.shortfalls(assembly),
        beyond=site.beyond(assembly),
        seen=tuple(_seen(site, assembly)),
        figures=tuple(one for one in shown if one.of is None),
        pictures=tuple(one for one in shown if one.of is not None),
        cautions=cautions_of(site, assembly, root),
        sheet=_sheet(site, assembly),
        stack=None if any(one.drawn for one in shown) else _stack(site, assembly),
        stack_words=_(STACK),
        ways=way_lines(site, assembly),
        circuits=tuple(site.record_link(one) for one in circuits_at(site, assembly.position)),
        drawings=tuple(drawings(site, assembly.position, assembly)),
        notes=markdown.to_html(assembly.notes, root) if assembly.notes else None,
    )


def _retired(site: Site, assembly: Assembly) -> RetiredView | None:
    if not assembly.retired:
        return None
    said = (s for s in site.register.statements_of[assembly] if isinstance(s.subject, StraySpan))
    spans = tuple(
        (s.anchor, span_words(s.subject.span, site.register.series[s.subject.span.series]))
        for s in said
        if isinstance(s.subject, StraySpan) and s.path[0] == "serials"
    )
    return RetiredView(linked(retired_words(site.register, assembly)), spans)


def _parts(site: Site, assembly: Assembly) -> Iterator[PartLine]:
    """The lines of the list, each with the other numbers that serve there and what it is limited to."""
    limits = tuple(site.register.limits_of(assembly))
    uses = tuple(site.register.uses_of(assembly))
    for use in uses:
        if use.said is use.line:
            others = (other for other in uses if other.line is use.line and other is not use)
            only = (limit for limit in limits if limit.line is use.line)
            yield replace(
                _number(site, use),
                others=tuple(_number(site, other) for other in others),
                limits=tuple(_limit(site, limit) for limit in only),
            )


def _number(site: Site, use: Use) -> PartLine:
    part = site.part_of(use.assembly, use.said)
    return PartLine(
        link=part_link(part, use.number),
        by=use.said.by,
        name=use.name or part.name,
        quantity=use.quantity,
        anchor=site.register.said[use].anchor,
        note=use.said.note,
        trust=trust(site, use),
    )


def _limit(site: Site, limit: Limit) -> LimitLine:
    anchor, words = site.register.said[limit].anchor, span_words(limit.span, limit.series)
    return LimitLine(anchor, words, limit.span.note, trust(site, limit))


def _span_row(site: Site, fitting: Fitting) -> SpanRow:
    span, series = fitting.span, fitting.series
    first, last = bounds_of(span, series)
    years = None
    if span.first != "unknown" and span.last != "unknown":
        known_last = None if last.high == float("inf") else int(last.high)
        years = series.years.span_of(int(first.low), known_last)
    return SpanRow(
        anchor=site.register.said[fitting].anchor,
        machine=site.record_link(site.machine_of(series)),
        series=site.series_link(series),
        words=span_words(span, series),
        fitted=fitted_words(span),
        years=years_words(years) if years else None,
        note=span.note,
        trust=trust(site, fitting),
    )


def _neighbours(site: Site, assembly: Assembly) -> Iterator[Neighbours]:
    for series in series_of(site, assembly):
        found = site.segments(series, assembly.position)
        own = [i for i, s in enumerate(found) if any(fit.assembly is assembly for fit in s.fits)]
        if own:
            before = _other(found[: own[0] + 1], assembly, last=True)
            after = _other(found[own[-1] :], assembly, last=False)
            yield Neighbours(site.series_link(series), *_words(before, series), *_words(after, series))


def _other(found: tuple[Segment, ...], assembly: Assembly, *, last: bool) -> Segment | None:
    """The nearest segment that this assembly is not in."""
    others = [s for s in found if all(fit.assembly is not assembly for fit in s.fits)]
    return (others[-1] if last else others[0]) if others else None


def _words(segment: Segment | None, series: Series) -> tuple[str | None, str | None, str | None]:
    if segment is None:
        return None, None, None
    target = addresses.of_record(segment.fits[0].assembly) if segment.fits else None
    return segment_words(segment), numbers_words(segment.first, segment.last, series), target


def _seen(site: Site, assembly: Assembly) -> Iterator[SeenRow]:
    for teardown in site.register.found.get(assembly.id, ()):
        for find in teardown.found:
            if find.assembly == assembly.id:
                link = site.record_link(teardown)
                yield SeenRow(link, _(CONDITIONS[find.condition]), find.note)


def _shown(site: Site, assembly: Assembly) -> Iterator[Stands]:
    """Its own figures, and every photograph that teardowns have of it."""
    for one in of_assembly(site.register, assembly):
        seen = one.record if isinstance(one.record, Teardown) else None
        yield one.figure, one.record, Link(picture_of(seen), addresses.of_record(seen)) if seen else None


def _stack(site: Site, assembly: Assembly) -> Stack | None:
    return stack(site.answers.fits.lists, assembly, stack_title(assembly), site.renewed(assembly))


def _sheet(site: Site, assembly: Assembly) -> Link | None:
    """How it comes apart, where somebody has told of it."""
    return Link(_(TAKEN_APART), addresses.of_sheet(assembly)) if site.answers.any_sheet(assembly) else None
