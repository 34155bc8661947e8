"""What may be set under the plugin in mkdocs.yml."""

from __future__ import annotations

from mkdocs.config import config_options

from spanbook.ground.language import ENGLISH, languages
from spanbook.mkdocs import sharing
from spanbook.mkdocs.assumptions import AssumedConfig
from spanbook.mkdocs.data import ExportsConfig


class SpanbookConfig(AssumedConfig):
    """The settings under `plugins: - spanbook:` in mkdocs.yml."""

    language = config_options.Choice((*languages(),), default=ENGLISH)
    help_page = config_options.Optional(config_options.Type(str))
    release = config_options.Optional(config_options.Type(str))
    contact = config_options.Optional(config_options.Type(str))
    pictures = config_options.SubConfig(sharing.PicturesConfig)
    licence = config_options.Optional(config_options.Type(str))
    exports = config_options.SubConfig(ExportsConfig)
