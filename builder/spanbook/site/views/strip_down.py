"""Strip-downs: the sheet of an assembly, made from all accounts of it, and each account by itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from spanbook.answers.strip_down import Sheet
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import StripDown, StripStep
from spanbook.site import addresses, markdown, scripts
from spanbook.site.cautions import CautionsShown, cautions_by
from spanbook.site.common import Site
from spanbook.site.figures.stack import Stack, stack
from spanbook.site.page import Link, SitePage
from spanbook.site.sheet.tables import table_of
from spanbook.site.sheet.words import SheetWords, sheet_words
from spanbook.wording.strip_down import (
    LOCAL_RULES,
    NO_TORQUE,
    STACK,
    UNTICK,
    account_title,
    account_words,
    accounts_words,
    back_words,
    catch_words,
    either_words,
    minutes_words,
    sheet_title,
    stack_title,
    tool_words,
)


@dataclass(frozen=True, slots=True)
class SheetView:
    table: str
    assembly: Link
    accounts: tuple[Link, ...]
    local_rules: str
    untick: str
    cautions: CautionsShown
    stack: Stack | None
    stack_words: str
    words: SheetWords
    either: tuple[str, ...]
    back: tuple[str, ...]
    no_torque: str
    minutes: str | None
    script: str = scripts.SHEET


@dataclass(frozen=True, slots=True)
class StepRow:
    do: str
    frees: tuple[Link, ...]
    after: tuple[str, ...]
    tools: tuple[str, ...]
    catch: tuple[str, ...]
    renew: bool
    back: str | None


@dataclass(frozen=True, slots=True)
class AccountView:
    assembly: Link
    sheet: Link
    who: str
    cautions: CautionsShown
    steps: tuple[StepRow, ...]
    stays: tuple[Link, ...]
    licence: str | None
    notes: Markup | None


def pages(site: Site) -> Iterator[SitePage]:
    register = site.register
    for account in register.of(StripDown).values():
        yield _account(site, account)
    for sheet in site.answers.sheets.values():
        yield _sheet(site, sheet)


def _sheet(site: Site, sheet: Sheet) -> SitePage:
    address = addresses.of_sheet(sheet.assembly)
    return SitePage(
        address=address,
        title=sheet_title(sheet.assembly),
        summary=accounts_words(sheet),
        sort=_("Strip-down"),
        crumbs=(Link(_("Assemblies"), "assemblies/"), site.record_link(sheet.assembly)),
        template="views/strip_down.html",
        view=_sheet_view(site, sheet, "../" * address.count("/")),
        position=sheet.assembly.position,
    )


def _sheet_view(site: Site, sheet: Sheet, root: str) -> SheetView:
    register = site.register
    return SheetView(
        table=table_of(sheet.assembly),
        assembly=site.record_link(sheet.assembly),
        accounts=tuple(Link(account_words(one), addresses.of_record(one)) for one in sheet.accounts),
        local_rules=_(LOCAL_RULES),
        untick=_(UNTICK),
        cautions=cautions_by(site, sheet.cautions, root),
        stack=stack(
            site.answers.fits.lists, sheet.assembly, stack_title(sheet.assembly), site.renewed(sheet.assembly)
        ),
        stack_words=_(STACK),
        words=sheet_words(register, sheet),
        either=tuple(either_words(sheet)),
        back=tuple(back_words(sheet)),
        no_torque=_(NO_TORQUE),
        minutes=minutes_words(sheet),
    )


def _account(site: Site, account: StripDown) -> SitePage:
    assembly = site.register.assemblies[account.assembly]
    address = addresses.of_record(account)
    root = "../" * address.count("/")
    return SitePage(
        address=address,
        title=account_title(site.register, account),
        summary=labelled(assembly.title, f"{account_words(account)}."),
        sort=_("Strip-down"),
        crumbs=(Link(_("Strip-downs"), "strip-downs/"),),
        template="views/strip_down_account.html",
        view=AccountView(
            assembly=site.record_link(assembly),
            sheet=Link(sheet_title(assembly), addresses.of_sheet(assembly)),
            who=account_words(account),
            cautions=cautions_by(site, dict.fromkeys(id_ for s in account.steps for id_ in s.cautions), root),
            steps=tuple(_row(site, account, step) for step in account.steps),
            stays=tuple(line.link for line in site.part_lines(account, account.stays)),
            licence=account.licence,
            notes=markdown.to_html(account.notes, root) if account.notes else None,
        ),
        record=account,
    )


def _row(site: Site, account: StripDown, step: StripStep) -> StepRow:
    places = {one.id: at for at, one in enumerate(account.steps, 1)}
    return StepRow(
        do=step.do,
        frees=tuple(line.link for line in site.part_lines(account, step.frees)),
        after=tuple(labelled(str(places[earlier.step]), earlier.why) for earlier in step.after),
        tools=tuple(tool_words(tool) for tool in step.tools),
        catch=tuple(catch_words(catch) for catch in step.catch),
        renew=step.renew,
        back=step.back,
    )
