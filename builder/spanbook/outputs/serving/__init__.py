"""A site on this machine, looked at while it is being written: served, and told when it cannot follow."""

from __future__ import annotations

from spanbook.outputs.serving.server import Shown, SiteServer
from spanbook.outputs.serving.watch import Seen, changed, look

__all__ = ["Seen", "Shown", "SiteServer", "changed", "look"]
