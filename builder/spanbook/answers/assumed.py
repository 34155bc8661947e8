"""What a community takes for likely before it looks, by its settings; the defaults are our own guess."""

from __future__ import annotations

from dataclasses import dataclass, field

from spanbook.answers.changepoint import GUESSED, Rates, Weights


@dataclass(frozen=True, slots=True)
class Assumed:
    """How often machines are changed, and what printed claims weigh beside one another."""

    rates: Rates = field(default_factory=Rates)
    weights: Weights = GUESSED
