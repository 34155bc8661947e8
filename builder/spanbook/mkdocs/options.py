"""What may be set under the plugin in mkdocs.yml."""

from __future__ import annotations

from mkdocs.config import config_options
from mkdocs.config.base import Config

from spanbook.answers.assumed import Assumed
from spanbook.ground.language import ENGLISH, languages
from spanbook.mkdocs import sharing
from spanbook.mkdocs.assumptions import RatesConfig, odds_of, weights_of
from spanbook.mkdocs.data import ExportsConfig


class SpanbookConfig(Config):
    """The settings under `plugins: - spanbook:` in mkdocs.yml."""

    language = config_options.Choice((*languages(),), default=ENGLISH)
    help_page = config_options.Optional(config_options.Type(str))
    release = config_options.Optional(config_options.Type(str))
    contact = config_options.Optional(config_options.Type(str))
    pictures = config_options.SubConfig(sharing.PicturesConfig)
    rates = config_options.SubConfig(RatesConfig)
    weights = config_options.Type(dict, default={})
    stories = config_options.Type(dict, default={})
    licence = config_options.Optional(config_options.Type(str))
    exports = config_options.SubConfig(ExportsConfig)

    def assumed(self) -> Assumed:
        """Raises PluginError for a rate, weight or share that is none."""
        return Assumed(self.rates.as_rates(), weights_of(self.weights), odds_of(self.stories))
