"""What a build tells of the files that are others than before."""

from __future__ import annotations

from spanbook.ground.changes import Changes, pages_in
from spanbook.ground.language import gettext as _
from spanbook.reading.phrases import thousands
from spanbook.wording.grammar import plural


def same_told(folder: object) -> str:
    """Where nothing had to be built."""
    return _("Nothing that the site is made from has changed, so it stays as it is: {folder}").format(
        folder=folder
    )


def changes_told(changes: Changes) -> str:
    """In a line."""
    files = len(changes.new) + len(changes.changed)
    return _(
        "{others}, {new} new, {gone} gone: with what is beside the pages {files} to upload, {left} to remove."
    ).format(
        others=plural(
            pages_in(changes.changed), "{} page is another than before", "{} pages are others than before"
        ),
        new=pages_in(changes.new),
        gone=pages_in(changes.gone),
        files=plural(files, "{number} file", "{number} files", number=thousands(files)),
        left=len(changes.gone),
    )


def changes_listed(changes: Changes) -> str:
    """For a host that takes only what has changed: a line a file, what became of it and where it is."""
    words = (("new", changes.new), ("changed", changes.changed), ("gone", changes.gone))
    return "".join(f"{word}\t{path}\n" for word, paths in words for path in paths)
