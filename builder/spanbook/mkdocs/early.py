"""Pages that somebody waits for, made before all others, in the frame that the build before has captured."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from jinja2 import Environment, TemplateNotFound
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files

from spanbook.mkdocs import shell
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around


@dataclass(frozen=True, slots=True)
class Frame:
    """What a build has made that stands around its pages."""

    config: MkDocsConfig
    env: Environment
    around: Around

    def pages(self, site: Site, addresses: Iterable[str]) -> Iterator[tuple[str, str]]:
        """Those of the pages at some addresses that can be made alone, each as a build makes it."""
        for address in addresses:
            made = views.page_at(site, address)
            if made is None:
                continue
            page = shell.RecordPage(made, shell.record_file(made, self.config), self.config, self.around)
            page.read_source(self.config)
            page.render(self.config, Files([]))
            try:
                template = self.env.get_template(page.meta["template"])
            except TemplateNotFound:  # no page stood so deep
                continue
            yield address, template.render(page=page)
