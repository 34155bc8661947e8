"""A site on this machine, looked at while it is being written: served, and told when it cannot follow."""

from __future__ import annotations

from spanbook.outputs.serving.server import Newer, Shown, SiteServer
from spanbook.outputs.serving.watch import Seen, Watch, look

__all__ = ["Newer", "Seen", "Shown", "SiteServer", "Watch", "look"]
