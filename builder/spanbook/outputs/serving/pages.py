"""What is put into a page while it is served: the script that reloads it, and a banner when it is behind."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape

from spanbook.ground.language import gettext as _
from spanbook.ground.language import ngettext, spoken

# Under a hidden name, which no site has.
OWN = "/.spanbook-serve/"
_MOST = 12
_BODY = re.compile(rb"<body[^>]*>", re.IGNORECASE)
_HEAD = re.compile(rb"</head>", re.IGNORECASE)


def served(page: bytes, state: str, problems: Sequence[str], note: str = "") -> bytes:
    """A page of the site with what belongs to serving in it, and a line that says how new it is."""
    body = _BODY.search(page)
    if body and (problems or note):
        told = _banner(problems, behind()) if problems else _note(note)
        page = page[: body.end()] + told.encode() + page[body.end() :]
    head = _HEAD.search(page)
    at = head.start() if head else 0
    return page[:at] + _head(state).encode() + page[at:]


def behind() -> str:
    return _("This page is as it was before the last change.")


def follows() -> str:
    """Of a page that can be made only when all others are."""
    return f"{behind()} {_('It follows when the site is built.')}"


def unchecked() -> str:
    """Of a page that is made of what was saved, before anybody knows whether that is right."""
    return _("This page is of what was just saved. The rules are still being run.")


def instead(state: str, problems: Sequence[str]) -> bytes:
    """The page at every address as long as there is no site."""
    told = (
        _banner(problems, _("There is no page to show yet."))
        if problems
        else f"<p>{escape(_('The site is being built.'))}</p>"
    )
    return (
        f'<!doctype html>\n<html lang="{spoken()}"><head><meta charset="utf-8">'
        f"<title>{escape(_('Not built yet'))}</title>"
        '<meta name="viewport" content="width=device-width">'
        f'{_head(state)}</head><body class="sb-serve-page">{told}</body></html>\n'
    ).encode()


def _head(state: str) -> str:
    return (
        f'<link rel="stylesheet" href="{OWN}serve.css">'
        f'<script src="{OWN}serve.js" data-state="{escape(state)}" defer></script>'
    )


def _note(said: str) -> str:
    return f'<p class="sb-serve-note" role="status">{escape(said)}</p>'


def _banner(problems: Sequence[str], said: str) -> str:
    rows = "".join(f"<li>{escape(problem)}</li>" for problem in problems[:_MOST])
    more = len(problems) - _MOST
    told = ngettext(
        "{} more are told where the server was started.",
        "{} more are told where the server was started.",
        more,
    )
    rest = f"<p>{escape(told.format(more))}</p>" if more > 0 else ""
    mended = _("It follows by itself as soon as this is mended:")
    return (
        f'<div class="sb-serve" role="alert"><p><strong>{escape(said)}</strong> '
        f"{escape(mended)}</p><ul>{rows}</ul>{rest}</div>"
    )
