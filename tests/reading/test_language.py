"""Which language a project's settings ask for."""

from __future__ import annotations

from pathlib import Path

from spanbook.reading.language import language_of
from tests.support.rows import each_row


@each_row(
    ("settings", "language"),
    [
        ("plugins:\n- search\n- spanbook:\n    language: de\n", "de"),
        ("plugins:\n  spanbook: {language: de}\n", "de"),
        ("plugins:\n- spanbook:\n    language: xx\n", "en"),
        ("plugins:\n- spanbook\n", "en"),
        ("plugins:\n- spanbook:\n    language: [de]\n", "en"),
        ("plugins: [search]\nlanguage: de\n", "en"),
        ("x: !ENV [A, b]\nplugins:\n- spanbook:\n    language: de\n", "de"),
        ("plugins: {", "en"),
        ("", "en"),
    ],
)
def test_the_plugins_own_setting_is_read(tmp_path: Path, settings: str, language: str) -> None:
    (tmp_path / "mkdocs.yml").write_text(settings)
    assert language_of(tmp_path) == language


def test_without_settings_it_is_english(tmp_path: Path) -> None:
    assert language_of(tmp_path) == "en"
