"""What others may do with a picture, by the short names that the SPDX list of licences gives."""

from __future__ import annotations

from spanbook.ground.language import marked

LICENCES = {
    "CC0-1.0": marked("Anything, and nobody need name you"),
    "CC-BY-4.0": marked("Anything, where they name you"),
    "CC-BY-SA-4.0": marked("Anything, where they name you and let others do the same"),
    "CC-BY-NC-4.0": marked("Anything but for money, where they name you"),
}
