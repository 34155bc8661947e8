"""The language that a project's settings ask for, without all else that settings are."""

from __future__ import annotations

from pathlib import Path

import yaml

from spanbook.ground.language import ENGLISH, languages

_SETTINGS = "mkdocs.yml"


def language_of(project: Path) -> str:
    """What `language` under `plugins: - spanbook:` says; English where it says nothing that is told here.

    A build reads its settings for itself and tells what is wrong with them; a question asked at the
    terminal is answered all the same.
    """
    try:
        tree = yaml.compose((project / _SETTINGS).read_bytes(), Loader=yaml.CSafeLoader)
    except (OSError, yaml.YAMLError):
        return ENGLISH
    plugin = _below(_below(tree, "plugins"), "spanbook")
    found = _below(plugin, "language")
    return found.value if isinstance(found, yaml.ScalarNode) and found.value in languages() else ENGLISH


def _below(node: yaml.Node | None, name: str) -> yaml.Node | None:
    """What stands under a name, in a mapping or in a list of mappings; no tag of MkDocs' own is looked at."""
    if isinstance(node, yaml.SequenceNode):
        return next(filter(None, (_below(one, name) for one in node.value)), None)
    if isinstance(node, yaml.MappingNode):
        return next((value for key, value in node.value if key.value == name), None)
    return None
