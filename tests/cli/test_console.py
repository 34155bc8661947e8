"""What is asked on a terminal is answered in the language that it is asked in, or in English."""

from __future__ import annotations

import click
from click.testing import CliRunner

from spanbook.cli import console
from spanbook.ground.language import speaking
from tests.support.rows import each_row


@each_row(
    ("language", "typed", "shown", "agrees"),
    [
        ("en", "", "[y/N]", False),
        ("en", "YES", "[y/N]", True),
        ("de", "", "[j/N]", False),
        ("de", "j", "[j/N]", True),
        ("de", "Ja", "[j/N]", True),
        ("de", "y", "[j/N]", True),
        ("de", "nein", "[j/N]", False),
        ("fr", "oui", "[o/N]", True),
        ("fr", "non", "[o/N]", False),
    ],
)
def test_yes_and_no_are_said_in_the_language_of_the_question(
    language: str, typed: str, shown: str, agrees: bool
) -> None:
    assert asked(language, f"{typed}\n") == (f"Do it? {shown}: {typed}\n", agrees)


def test_what_is_neither_is_asked_again() -> None:
    said, agrees = asked("de", "o\nj\n")
    assert said.count("Do it? [j/N]: ") == 2
    assert "j oder n eingeben" in said
    assert agrees


def asked(language: str, typed: str) -> tuple[str, bool]:
    agreed: list[bool] = []
    with speaking(language):
        done = CliRunner().invoke(
            click.command()(lambda: agreed.append(console.agreed("Do it?"))), [], input=typed
        )
    assert done.exit_code == 0
    return done.output, agreed[0]
