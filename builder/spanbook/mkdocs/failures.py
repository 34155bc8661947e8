"""What can go wrong while settings are read or a site is made, as one thing that can be told."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from mkdocs.exceptions import MkDocsException

from spanbook.outputs.text.failure import sentence


class BuildFailed(Exception):  # noqa: N818 - it says what happened
    """The site was not built; the previous one is whole. The message says why."""


@contextmanager
def failures_told() -> Iterator[None]:
    """What a guide, a setting or the system can make go wrong, as BuildFailed.

    Anything else is a fault of ours and is shown whole.
    """
    try:
        yield
    except OSError as failure:
        raise BuildFailed(sentence(failure)) from failure
    except (MkDocsException, SystemExit, UnicodeError) as failure:
        raise BuildFailed(str(failure)) from failure
