"""Addresses in running text: in notes, in guides and in the list of what is gone."""

from __future__ import annotations

import re
from collections.abc import Mapping

from spanbook.reading.kinds import KINDS

_SORTS = "|".join(sorted({k.folder for k in KINDS.values() if k.paged} | {"series", "positions", "parts"}))
# From the site's root or relative to a guide, but not the end of another site's address.
_ADDRESS = re.compile(
    rf"(?<![\w.:/~-])(?P<up>/|(?:\.{{1,2}}/)*)(?P<page>(?:{_SORTS}|open-questions)/[\w.~/-]*)"
)
_ENDS = re.compile(r"(?:\.md|/index\.md|/strip-down(?:\.md|/)?|/)?")


def led_on(text: str, pages: Mapping[str, str]) -> str:
    """A text with every link to one of these pages leading to the other; both without a slash at the end."""

    def mend(found: re.Match[str]) -> str:
        page = found["page"]
        for was, now in pages.items():
            if page.startswith(was) and _ENDS.fullmatch(page, len(was)):
                return f"{found['up']}{now}{page[len(was) :]}"
        return found[0]

    return _ADDRESS.sub(mend, text)
