"""A folder as a whole: where a site may go, and how it takes its place so that nothing is ever lost."""

from __future__ import annotations

from spanbook.outputs.folder.publish import published
from spanbook.outputs.folder.refusal import NoPlace, Sources, allow, settled

__all__ = ["NoPlace", "Sources", "allow", "published", "settled"]
