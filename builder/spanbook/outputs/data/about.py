"""What a file of data says of itself besides its tables."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from spanbook.ground.licences import Licence


@dataclass(frozen=True, slots=True)
class About:
    """`name` in small letters, digits and hyphens; `address` is the site's, `release` a name for this state
    of the records, `day` the day of it; None for what nobody has said."""

    name: str
    title: str
    description: str | None
    address: str | None
    licence: Licence | None
    release: str
    day: date | None
