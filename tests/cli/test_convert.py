"""Conversions by the command: what it says where there is nothing to do."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from spanbook.cli import main
from spanbook.wording.conversions import no_further_words

PROJECT = str(Path(__file__).parents[2])


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        # No conversion is recorded for the series of the type D, and none for the last of the type H.
        (["DX.014", "--to", "latest"], "No conversion is recorded for the machines of this series."),
        (["HK 2000", "--to", "latest"], "No conversion that is recorded is for this machine."),
        # Not one was offered then.
        (["HK 41", "--to", "latest", "--in", "1931"], "As in 1931: Nothing to do: no conversion that is "),
        (["HK 41", "--to", "works"], "Nothing to do: it holds that already."),
    ],
)
def test_nothing_to_do_says_what_is_so(arguments: list[str], told: str) -> None:
    result = CliRunner().invoke(main, ["convert", *arguments, "--folder", PROJECT])
    assert result.output.startswith(told)


def test_where_nobody_knows_what_is_there_it_says_so() -> None:
    assert no_further_words([]) == "Nothing to do: no conversion that is recorded takes it further."
    assert no_further_words(["Oil filter", "Oil pump"]).endswith(
        "may begin from it: Oil filter and Oil pump."
    )
