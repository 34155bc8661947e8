"""The hand-written pages among the files of a content folder."""

from __future__ import annotations

from collections.abc import Iterator

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files

from spanbook.answers.by_words import Document
from spanbook.ground.language import gettext as _
from spanbook.reading.files import Sort, sort_of


def only_guides(files: Files, config: MkDocsConfig) -> list[str]:
    """Leave of the content folder's files the guides alone, and name the pictures, to be made anew."""
    pictures = []
    for file in list(files):
        if file.src_dir == config.docs_dir and (sort := sort_of(file.src_uri)) is not Sort.GUIDE:
            files.remove(file)
            if sort is Sort.PICTURE:
                pictures.append(file.src_uri)
    return pictures


def guides(files: Files) -> Iterator[Document]:
    """The hand-written pages, to be found by their words."""
    for file in sorted(files.documentation_pages(), key=lambda file: file.src_uri):
        if file.generated_by is None:
            text = file.content_string
            heading = next(
                (line[2:].strip() for line in text.splitlines() if line.startswith("# ")), file.name
            )
            yield Document("" if file.url == "./" else file.url, heading, _("Guide"), heading, text)
