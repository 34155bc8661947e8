"""Record pages as pages of MkDocs, with all that is beside them, so that whoever asks can see them.

`straight.py` is the other way, on which nobody does. Both make the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from spanbook.ground.digests import digest
from spanbook.mkdocs import shell
from spanbook.mkdocs.brief import Brief
from spanbook.mkdocs.dated import Days
from spanbook.outputs.folder.written import Place, Written
from spanbook.press.data import lay
from spanbook.press.pictures import tags
from spanbook.press.press import last_files
from spanbook.press.rows import Gathered
from spanbook.reading import picture_cache
from spanbook.site import assets, pictures, record_files, views
from spanbook.site.page import Around


class Through:
    """One build on this way."""

    # Others may change what was written: it is read again.
    written: Mapping[str, Written] = {}

    def __init__(self, brief: Brief) -> None:
        self._brief = brief
        self._pages: list[File] = []
        self.state = ""

    @property
    def count(self) -> int:
        return len(self._pages)

    @property
    def depths(self) -> Iterable[int]:
        return {shell.depth_of(file) for file in self._pages}

    def front(self) -> str:
        """What the home page tells of the records."""
        return views.front(self._brief.site)

    def files(self, files: Files, config: MkDocsConfig) -> Files:
        brief = self._brief
        tables = dict(assets.every_table(brief.site, brief.guides))
        self.state = assets.state_of({path: digest(data) for path, data in tables.items()})
        data: dict[str, bytes] = {}
        laid = lay(brief.site, brief.wanted, Gathered.here(brief.site), data.__setitem__)
        around = replace(brief.around, release=laid.release, data=laid.shown)
        made = dict(self._add_pages(files, around, config)) | tables | data
        if brief.wanted.records:
            asked = (brief.site.answers, lambda one: brief.site.said(one).values, brief.wanted.licence)
            made |= dict(record_files.files(*asked))
        made |= {path: read() for path, read in brief.beside}
        made |= dict(last_files(brief.site, brief.base, brief.around, laid, self.state))
        for path, content in made.items():
            files.append(File.generated(config, path, content=content))
        return files

    def _add_pages(self, files: Files, around: Around, config: MkDocsConfig) -> Iterator[tuple[str, bytes]]:
        """The pictures by which pages are shared."""
        brief = self._brief
        for made in views.all_pages(brief.site):
            picture = brief.pictured.of(brief.site, made)
            if picture is not None:
                yield pictures.address_of(made), picture
            file = shell.record_file(made, config)
            shell.RecordPage(made, file, config, around, tags(made, brief.base, picture is not None))
            files.append(file)
            self._pages.append(file)
        picture_cache.trim()

    def navigated(self) -> None:
        """Pages stay as they are."""

    def framed(self, shells: Mapping[int, str], days: Days, config: MkDocsConfig, place: Place) -> None:
        """MkDocs makes the pages next."""
        for file in self._pages:
            page = file.page
            assert isinstance(page, shell.RecordPage), "it was made above"
            page.update_date = days.of(page.own_path)
