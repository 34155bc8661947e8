"""What to order, in words that a person reads in a terminal."""

from __future__ import annotations

from spanbook.answers.supersession import Need, Orders
from spanbook.site.common import Site
from spanbook.site.ordering import answer, step_rows


def as_text(site: Site, need: Need, found: Orders) -> str:
    """The answer first, then act by act on what terms, then the acts that do not apply."""
    lines = [answer(site.register, found, need)]
    for row in step_rows(site, need):
        terms = f" ({'; '.join(row.terms)})" if row.terms else ""
        sources = ", ".join(reason.link.text for reason in row.trust.reasons) or "no evidence named"
        lines.append(f"{'  ' * (row.depth + 1)}{row.act.text}: {row.gives}{terms}. On the word of {sources}.")
    lines += [
        f"  {dropped.act.id} does not apply: it is limited to other machines." for dropped in need.dropped
    ]
    return "\n".join(lines)
