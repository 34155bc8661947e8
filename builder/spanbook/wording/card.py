"""The machine card: what its script says that is not about one assembly."""

from __future__ import annotations

# `{}` stands for the number.
WORDS = {
    "unread": "{} reads as no serial number known here. Write it with its letters, as stamped.",
    "never": "{} was never issued in this series.",
    "several": "{} may be any of these. Below is what they have in common.",
    "differs": "differs between them",
    "year": "Built",
    "no-year": "The year is not known.",
    "conversions": "It could have been converted:",
    "questions": "What this machine could settle",
    "all-questions": "Everything that is open in the series",
    "title": "{}: what it left the works with",
}
