"""What is called otherwise, told apart or put together: which bytes of which files change for it.

Nothing here reads or writes a file: from a register and the guides to a `Plan`. What cannot be done raises
`CannotChange`, and what is there stays as it is.
"""

from __future__ import annotations

from spanbook.editing.plan import CannotChange, FileChange, Plan

__all__ = ["CannotChange", "FileChange", "Plan"]
