"""What a community assumes, as its settings say it: rates of change, and what printed claims weigh."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from fractions import Fraction
from typing import TypeGuard

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.exceptions import PluginError

from spanbook.answers.assumed import Assumed, StoryOdds
from spanbook.answers.changepoint import CLASSES, GUESSED, Rates, Weights
from spanbook.answers.standing import Standing
from spanbook.ground.language import gettext as _

NONE = "none_of_them"
MOST = 1000
MOST_TO_ONE = 10


class RatesConfig(Config):
    """How often machines show what they did not leave the works with: numbers from 0 to 0.5, or ranges."""

    converted = config_options.Type((int, float, list), default=0.1)
    robbed = config_options.Type((int, float, list), default=0.03)
    untouched_converted = config_options.Type((int, float, list), default=0.01)
    untouched_robbed = config_options.Type((int, float, list), default=0.01)

    def as_rates(self) -> Rates:
        """Raises PluginError for a rate that is none."""
        four = (self.converted, self.robbed, self.untouched_converted, self.untouched_robbed)
        ranges = [rate if isinstance(rate, list) else [rate, rate] for rate in four]
        if not all(map(_is_range, ranges)):
            raise PluginError(
                _(
                    "rates: read {}; each is a number from 0 to 0.5, or the two ends of a range: [0.05, 0.2]"
                ).format(four)
            )
        lowest, highest = (Rates(*(Fraction(str(one[i])) for one in ranges)) for i in (0, 1))
        return lowest if lowest == highest else replace(lowest, upto=highest)


class AssumedConfig(Config):
    """All of it, as it stands under the plugin in mkdocs.yml."""

    rates = config_options.SubConfig(RatesConfig)
    weights = config_options.Type(dict, default={})
    stories = config_options.Type(dict, default={})

    def assumed(self) -> Assumed:
        """Raises PluginError for a rate, weight or share that is none."""
        return Assumed(self.rates.as_rates(), weights_of(self.weights), odds_of(self.stories))


def _is_range(typed: list[object]) -> bool:
    numbers = [end for end in typed if _is_number(end) and 0 <= end <= 0.5]
    return len(numbers) == len(typed) == 2 and numbers[0] <= numbers[1]


def weights_of(typed: Mapping[object, object]) -> Weights:
    """The weights by class of source, those left out as guessed. Raises PluginError for what is none."""
    unknown = [str(name) for name in typed if name not in CLASSES and name != NONE]
    if unknown:
        known = ", ".join((*CLASSES, NONE))
        raise PluginError(
            _("weights: read {unknown}; the classes of sources are {known}").format(
                unknown=unknown[0], known=known
            )
        )
    classes = {name: _weight(name, typed.get(name, guess)) for name, guess in CLASSES.items()}
    none = typed.get(NONE, GUESSED.none_of_them)
    if not _is_number(none) or not 0 <= none <= 0.5:
        raise PluginError(
            _("weights: {name}: read {none}; it is a share, a number from 0 to 0.5").format(
                name=NONE, none=none
            )
        )
    return Weights(classes, Fraction(str(none)))


def _weight(name: str, typed: object) -> Fraction:
    if not _is_number(typed) or not 0 < typed <= MOST:
        raise PluginError(
            _("weights: {name}: read {typed}; a weight is a number above 0, up to {most}").format(
                name=name, typed=typed, most=MOST
            )
        )
    return Fraction(str(typed))


def odds_of(typed: Mapping[object, object]) -> StoryOdds:
    """How likely stories are, those left out as guessed. Raises PluginError for what is none."""
    names = [field.name for field in fields(StoryOdds)]
    if unknown := [str(name) for name in typed if name not in names]:
        raise PluginError(
            _("stories: read {unknown}; there are {known}").format(unknown=unknown[0], known=", ".join(names))
        )
    guessed = StoryOdds()
    wrong = typed.get("wrong", {})
    if not isinstance(wrong, dict) or any(name not in list(Standing) for name in wrong):
        raise PluginError(
            _("stories: wrong: read {wrong}; it is a share for each of {known}").format(
                wrong=wrong, known=", ".join(Standing)
            )
        )
    return StoryOdds(
        _share("sold_later", typed.get("sold_later", guessed.sold_later), MOST_TO_ONE),
        _share("unrecorded", typed.get("unrecorded", guessed.unrecorded), MOST_TO_ONE),
        _share("swapped", typed.get("swapped", guessed.swapped), 0.5),
        {one: _share(f"wrong: {one}", wrong.get(one, guessed.wrong[one]), 0.5) for one in Standing},
    )


def _share(name: str, typed: object, most: float) -> Fraction:
    if not _is_number(typed) or not 0 <= typed <= most:
        raise PluginError(
            _("stories: {name}: read {typed}; it is a number from 0 to {most}").format(
                name=name, typed=typed, most=format(most, "g")
            )
        )
    return Fraction(str(typed))


def _is_number(typed: object) -> TypeGuard[float | Fraction]:
    return isinstance(typed, int | float | Fraction) and not isinstance(typed, bool)
