"""What a build tells of the files that are others than before."""

from __future__ import annotations

from spanbook.ground.changes import Changes, pages_in
from spanbook.wording.grammar import plural

SAME = "Nothing that the site is made from has changed, so it stays as it is"


def changes_told(changes: Changes) -> str:
    """In a line."""
    others = plural(pages_in(changes.changed), "{} page is another", "{} pages are others")
    files = plural(len(changes.new) + len(changes.changed), "{} file", "{} files")
    return (
        f"{others} than before, {pages_in(changes.new)} new, {pages_in(changes.gone)} gone: with all that is "
        f"beside the pages {files} to upload, {len(changes.gone)} to remove."
    )


def changes_listed(changes: Changes) -> str:
    """For a host that takes only what has changed: a line a file, what became of it and where it is."""
    words = (("new", changes.new), ("changed", changes.changed), ("gone", changes.gone))
    return "".join(f"{word}\t{path}\n" for word, paths in words for path in paths)
