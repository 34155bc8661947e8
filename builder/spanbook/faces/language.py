"""In which language a project is told of, at the terminal and to programs: the one its settings ask for."""

from __future__ import annotations

from pathlib import Path

from spanbook.ground.language import speak
from spanbook.reading.language import language_of


def speak_for(project: str | Path) -> None:
    """From here on the language of a project's site is spoken; English where it asks for none."""
    speak(language_of(Path(project)))
