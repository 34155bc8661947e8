"""What lists and other pages under no other are called: a navigation names them before they are made."""

from __future__ import annotations

from collections.abc import Mapping

from spanbook.reading.kinds import KINDS
from spanbook.rules import RULES
from spanbook.site import addresses
from spanbook.site.views.index import plain_title
from spanbook.wording import lists, pages, releases
from spanbook.wording.data import DATA
from spanbook.wording.holding import HOLDING, WHICH_PART
from spanbook.wording.lists import ListWords
from spanbook.wording.pages import PageWords
from spanbook.wording.planning import PLAN
from spanbook.wording.report import REPORT

_WORDS: Mapping[str, PageWords | ListWords] = {
    addresses.QUESTIONS: pages.QUESTIONS,
    addresses.HOLDING: HOLDING,
    addresses.WHICH_PART: WHICH_PART,
    addresses.PLAN: PLAN,
    addresses.CAUTIONS: pages.CAUTIONS,
    addresses.GLOSSARY: pages.GLOSSARY,
    addresses.DATA: DATA,
    addresses.CHANGES: releases.CHANGES,
    addresses.FORMS: pages.FORMS,
    addresses.REPORT: REPORT,
    addresses.SERIES: lists.SERIES,
    addresses.POSITIONS: lists.POSITIONS,
    addresses.PARTS: lists.PARTS,
    "machines/": lists.MACHINES,
    "assemblies/": lists.ASSEMBLIES,
    "absences/": lists.ABSENCES,
    "supersessions/": lists.SUPERSESSIONS,
    "conversions/": lists.CONVERSIONS,
    "sources/": lists.SOURCES,
    "teardowns/": lists.TEARDOWNS,
}


def titles() -> dict[str, str]:
    """Of each of them, by its address."""
    told = {address: words.told().title for address, words in _WORDS.items()}
    told[addresses.RULES] = pages.rules(len(RULES)).title
    for kind in KINDS.values():
        if kind.paged:
            told.setdefault(f"{kind.folder}/", plain_title(kind))
    return told
