"""A page for each kind of record with a form that writes it, and the page that leads to them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.reading.fields import Field, asked_of, fields_of, title_of
from spanbook.reading.kinds import KINDS, WITH_FORM
from spanbook.reading.schemas import bundled
from spanbook.reading.write import to_yaml
from spanbook.register.led import owners_of
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.forms import SCRIPTS
from spanbook.site.page import Link, SitePage
from spanbook.wording.licences import LICENCES
from spanbook.wording.numbers import sense_words
from spanbook.wording.pages import FORMS, form_title, to_rules
from spanbook.wording.report import REPORT
from spanbook.wording.signs import sign_choice


@dataclass(frozen=True, slots=True)
class Choice:
    value: str
    label: str


@dataclass(frozen=True, slots=True)
class FormView:
    kind: str
    folder: str
    suggest: str
    fields: tuple[Field, ...]
    picks: Mapping[str, tuple[Choice, ...]]
    example: str
    report: str
    scripts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FormsView:
    report: tuple[Link, str]
    forms: tuple[tuple[Link, str], ...]
    rules: Link


def pages(site: Site) -> Iterator[SitePage]:
    links = tuple((Link(title_of(kind), _begun(site, kind)), asked_of(kind)) for kind in WITH_FORM)
    words, report = FORMS.told(), REPORT.told()
    yield SitePage(
        address=addresses.FORMS,
        title=words.title,
        summary=words.summary,
        sort="List",
        crumbs=(),
        template="views/forms.html",
        view=FormsView(
            (Link(report.title, addresses.REPORT), report.summary), links, Link(to_rules(), addresses.RULES)
        ),
    )
    picks = _picks(site)
    for kind in WITH_FORM:
        yield _page(kind, picks)


def _begun(site: Site, kind: str) -> str:
    """The form of a kind; of what is one file alone, filled with what is recorded."""
    recorded = any(record.kind == kind for record in site.register.records)
    filled = KINDS[kind].single and recorded
    return addresses.to_correct(kind, kind) if filled else addresses.of_form(kind)


def _page(kind: str, picks: Mapping[str, tuple[Choice, ...]]) -> SitePage:
    schema = bundled(kind)
    return SitePage(
        address=addresses.of_form(kind),
        title=form_title(title_of(kind)),
        summary=asked_of(kind),
        sort=_("Form"),
        crumbs=(Link(FORMS.told().title, addresses.FORMS),),
        template="views/form.html",
        view=FormView(
            kind=kind,
            folder=KINDS[kind].folder,
            suggest=KINDS[kind].suggest,
            fields=fields_of(kind),
            picks=picks,
            example=to_yaml(schema["examples"][0]),
            report=addresses.REPORT,
            scripts=SCRIPTS,
        ),
    )


def _picks(site: Site) -> dict[str, tuple[Choice, ...]]:
    """The short lists that stand in a form itself; what is long is asked of the finder."""
    register = site.register
    owners = {by: register.makers.get(by, by) for by in owners_of(register)}
    return {
        "positions": tuple(
            Choice(path, _(": ").join(link.text for link in site.position_links(path)))
            for path in register.positions
        ),
        "series": tuple(
            Choice(s.id, f"{s.name}, {site.machine_of(s).title}") for s in register.series.values()
        ),
        "signs": tuple(Choice(sign.id, sign_choice(sign)) for sign in register.signs.values()),
        "cautions": tuple(Choice(caution.id, caution.title) for caution in register.cautions.values()),
        "meanings": tuple(
            Choice(sense.part.id, labelled(sense.part.number, sense_words(register, sense.part)))
            for senses in register.numbering.senses.values()
            for sense in senses
        ),
        "licences": tuple(Choice(name, _(words)) for name, words in LICENCES.items()),
        "owners": tuple(Choice(by, name) for by, name in sorted(owners.items())),
    }
