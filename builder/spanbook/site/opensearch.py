"""The site's one box for browsers (OpenSearch 1.1), and what it says to programs that go over sites."""

from __future__ import annotations

from xml.sax.saxutils import escape

from spanbook.site import addresses
from spanbook.wording.finder import search_in

FILE = "opensearch.xml"
ROBOTS = "robots.txt"
_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_SPACE = "http://a9.com/-/spec/opensearch/1.1/"
_SHORT = 16  # characters in a short name, by the standard


def files(name: str, site: str) -> dict[str, bytes]:
    """Both, by their addresses, of a site at an address with a slash at its end."""
    return {FILE: _description(name, site).encode(), ROBOTS: _robots(site).encode()}


def _description(name: str, site: str) -> str:
    short, long = (escape(name[:most].strip()) for most in (_SHORT, 48))
    return (
        f'{_HEAD}<OpenSearchDescription xmlns="{_SPACE}">\n'
        f"<ShortName>{short}</ShortName>\n<LongName>{long}</LongName>\n"
        f"<Description>{escape(search_in(name))}</Description>\n"
        f'<Url type="text/html" method="get" template="{escape(site)}{addresses.FIND}?q={{searchTerms}}"/>\n'
        "<InputEncoding>UTF-8</InputEncoding>\n</OpenSearchDescription>\n"
    )


def _robots(site: str) -> str:
    return f"User-agent: *\nAllow: /\nSitemap: {site}sitemap.xml\n"
