"""What a page is about, for programs that read pages: JSON-LD in the words of schema.org."""

from __future__ import annotations

import json
from typing import Any

from spanbook.reading.records import Assembly, Machine, PartRecord, Record, Source, Teardown
from spanbook.site.addresses import DATA
from spanbook.site.page import Around, SitePage

Object = dict[str, Any]
# Nothing in it can end the element that it stands in, whatever a record says.
_SAFE = {ord("<"): "\\u003c", ord(">"): "\\u003e", ord("&"): "\\u0026"}


def element(page: SitePage, around: Around) -> str:
    """A block of data, which no browser runs; none where the site does not say where it is."""
    if around.canonical is None:
        return ""
    text = json.dumps(_page(page, around), ensure_ascii=False, separators=(",", ":")).translate(_SAFE)
    return f'<script type="application/ld+json">{text}</script>\n'


def _page(page: SitePage, around: Around) -> Object:
    assert around.canonical is not None
    site = around.canonical.removesuffix(page.address)
    made: Object = {
        "@context": "https://schema.org",
        "@type": "WebPage",
        "@id": around.canonical,
        "name": page.title,
        "description": page.summary,
        "isPartOf": {"@type": "WebSite", "@id": site, "name": around.name},
    }
    if licence := around.data.licence:
        made["license"] = licence.address
    if page.crumbs:
        made["breadcrumb"] = _crumbs(page, site)
    about = _data(page, around, site) if page.address == DATA else _about(page.own_record)
    return {**made, "mainEntity": about} if about else made


def _crumbs(page: SitePage, site: str) -> Object:
    items = [
        {"@type": "ListItem", "position": place, "name": link.text, "item": f"{site}{link.address}"}
        for place, link in enumerate(page.crumbs, 1)
    ]
    return {"@type": "BreadcrumbList", "itemListElement": items}


def _about(record: Record | None) -> Object | None:
    """The thing itself, where schema.org has a word for it; of years those that are exact."""
    match record:
        case Machine():
            maker = {"@type": "Organization", "name": record.maker}
            return {"@type": "ProductModel", "name": record.title, "manufacturer": maker}
        case Assembly():
            return _product(record.title, record.number)
        case PartRecord():
            return _product(record.title, record.number)
        case Source():
            made = {"@type": "CreativeWork", "name": record.title}
            return {**made, "datePublished": str(record.year)} if isinstance(record.year, int) else made
        case Teardown():
            author = {"@type": "Person", "name": record.seen_by}
            return {"@type": "Report", "name": record.title, "author": author}
        case _:
            return None


def _product(name: str, number: str | None) -> Object:
    made = {"@type": "Product", "name": name}
    return {**made, "mpn": number} if number else made


def _data(page: SitePage, around: Around, site: str) -> Object:
    """All of it, with its files."""
    made: Object = {"@type": "Dataset", "name": around.name, "version": around.release}
    made |= {"url": around.canonical, "description": page.summary}
    if licence := around.data.licence:
        made["license"] = licence.address
    files = ((one, f"{site}{DATA}{one.name}") for one in around.data.whole)
    made["distribution"] = [
        {"@type": "DataDownload", "name": one.name, "contentUrl": address, "sha256": one.digest}
        for one, address in files
    ]
    return made
