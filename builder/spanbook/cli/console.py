"""What goes to a terminal and comes from one, whatever its alphabet: nothing ends in a traceback."""

from __future__ import annotations

import codecs
import sys
from collections.abc import Iterator
from io import TextIOWrapper
from pathlib import Path

import click

from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext

_ESCAPED = "spanbook-escaped"
_MARK = codecs.BOM_UTF8


def ready() -> None:
    """What the console's alphabet lacks is written as an escape that JSON reads as the character meant."""
    codecs.register_error(_ESCAPED, _escape)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors=_ESCAPED)
    if isinstance(sys.stdin, TextIOWrapper):
        sys.stdin.reconfigure(errors="surrogateescape")  # what is typed is asked for again: `unread`


def _escape(failure: UnicodeError) -> tuple[str, int]:
    assert isinstance(failure, UnicodeEncodeError), "consoles are written to"
    units = failure.object[failure.start : failure.end].encode("utf-16-be", "surrogatepass")
    escapes = (f"\\u{units[at : at + 2].hex()}" for at in range(0, len(units), 2))
    return "".join(escapes), failure.end


def lines() -> Iterator[str]:
    """The lines of standard input. Raises ClickException at the first that is not UTF-8."""
    for number, line in enumerate(sys.stdin.buffer, 1):
        yield _decoded(line, _("line {} of standard input").format(number)).rstrip("\r\n")


def text_of(file: Path) -> str:
    """A file that a person names. Raises ClickException where it is not UTF-8."""
    return _decoded(file.read_bytes(), _shown(str(file)))


def argument(context: click.Context, parameter: click.Parameter, text: str | None) -> str | None:
    """An argument as it was typed. Raises BadParameter where it holds bytes that are no letters."""
    if text and unread(text):
        raise click.BadParameter(
            _("{text} is not UTF-8, which is what is read here").format(text=_shown(text))
        )
    return text


def agreed(question: str) -> bool:
    """Whether somebody says yes to a question, in words of the language spoken or in English; Enter is no."""

    def read(typed: str) -> bool:
        said = typed.strip().casefold()
        if said in ("y", "yes", *pgettext("typed for yes", "y, yes").split(", ")):
            return True
        if said in ("", "n", "no", *pgettext("typed for no", "n, no").split(", ")):
            return False
        raise click.UsageError(_("type y or n"))

    asked = f"{question} {pgettext('yes or no, and Enter is no', '[y/N]')}"
    return bool(click.prompt(asked, default="", show_default=False, value_proc=read))


def unread(text: str) -> bool:
    """Whether a text that was typed holds bytes that are no letters."""
    return any("\ud800" <= character <= "\udfff" for character in text)


def _shown(text: str) -> str:
    from spanbook.reading.problems import one_line  # a command's help needs none of it

    return one_line(text)


def _decoded(data: bytes, where: str) -> str:
    try:
        return data.removeprefix(_MARK).decode()
    except UnicodeDecodeError as wrong:
        byte = wrong.object[wrong.start]
        raise click.ClickException(
            _("{where} is not UTF-8: byte {byte} after {count} others; save it as UTF-8").format(
                where=where, byte=f"{byte:#04x}", count=wrong.start
            )
        ) from None
