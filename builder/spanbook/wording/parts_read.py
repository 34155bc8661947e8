"""Numbers that were read on an assembly beside what its parts list has."""

from __future__ import annotations

from spanbook.answers.parts_read import AlsoRead
from spanbook.ground.language import gettext as _
from spanbook.wording.pieces import Pieces, Ref, filled
from spanbook.wording.records import CONDITIONS, seen_title


def also_read_words(read: AlsoRead) -> Pieces:
    """Where a number was read, and what puts it on: ` on HK 701, seen 2019; condition untouched`."""
    seen = Ref(seen_title(read.teardown), read.teardown)
    on = filled(
        _("on {seen}; condition {condition}"), seen=seen, condition=_(CONDITIONS[read.find.condition])
    )
    if read.put_on is None:
        return " ", *on
    by = filled(_("{conversion} puts it on"), conversion=Ref(read.put_on.title, read.put_on))
    return " ", *on, _("; "), *by
