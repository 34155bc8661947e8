"""Where records are proposed: which sort of forge keeps them, and on which branch and in which folder."""

from __future__ import annotations

import re
from dataclasses import dataclass
from urllib.parse import urlsplit

# How the forges' own addresses for editing begin, as MkDocs' edit_uri has them.
_EDIT = re.compile(r"/?(?P<way>-/edit|_edit|edit)/(?P<branch>[^/?#]+)/(?P<content>[^?#]*)")
_WAYS = {"-/edit": "gitlab", "_edit": "gitea", "edit": "github"}
_HOSTS = {"github.com": "github", "gitlab.com": "gitlab", "codeberg.org": "gitea"}


@dataclass(frozen=True, slots=True)
class Forge:
    """`sort` is github, gitlab, gitea (and Forgejo) or empty: then a record can only be sent as a file.

    `content` is the content folder in the repository, with a slash at its end.
    """

    sort: str = ""
    repository: str = ""
    branch: str = "main"
    content: str = "content/"


def forge_of(repo_url: str | None, edit_uri: str | None) -> Forge:
    """The forge that a site's settings tell of."""
    if not repo_url:
        return Forge()
    repository = repo_url.rstrip("/")
    found = _EDIT.match(edit_uri or "")
    host = urlsplit(repository).hostname or ""
    sort = _HOSTS.get(host) or (_WAYS[found["way"]] if found else "")
    if found is None:
        return Forge(sort, repository)
    content = found["content"].strip("/")
    return Forge(sort, repository, found["branch"], f"{content}/" if content else "")
