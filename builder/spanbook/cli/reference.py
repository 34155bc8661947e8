"""The pages about the command, made from the command itself, so that they cannot say anything else.

`cog -r README.md builder/spanbook/cli/README.md` writes them anew; a test holds them to `--help`.
"""

from __future__ import annotations

from collections.abc import Iterator

import click

from spanbook.cli.main import main


def table() -> str:
    """One line a command, as a Markdown table."""
    rows = (f"| `{_usage(name, command)}` | {_first(command)} |" for name, command in commands())
    return "\n".join(["| command | what it does |", "| --- | --- |", *rows, ""])


def reference() -> str:
    """Every command with all that its help says, as Markdown."""
    return "\n".join(line for name, command in commands() for line in _section(name, command))


def commands() -> Iterator[tuple[str, click.Command]]:
    """Every command by its name, in order."""
    assert isinstance(main, click.Group)
    context = click.Context(main)
    for name in main.list_commands(context):
        command = main.get_command(context, name)
        assert command is not None, name
        yield name, command


def _usage(name: str, command: click.Command) -> str:
    arguments = (p for p in command.params if isinstance(p, click.Argument))
    return " ".join(["spanbook", name, *(_argument(argument) for argument in arguments)])


def _argument(argument: click.Argument) -> str:
    name = argument.human_readable_name.upper()
    return name if argument.required else f"[{name}]"


def _paragraphs(command: click.Command) -> list[str]:
    return [" ".join(part.split()) for part in (command.help or "").split("\n\n")]


def _first(command: click.Command) -> str:
    return _paragraphs(command)[0]


def _section(name: str, command: click.Command) -> Iterator[str]:
    yield from (f"## `{_usage(name, command)}`", "")
    for paragraph in _paragraphs(command):
        yield from (paragraph, "")
    options = [p for p in command.params if isinstance(p, click.Option)]
    if options:
        yield from ("| option | what it does |", "| --- | --- |")
        yield from (f"| `{_spelling(option)}` | {option.help or ''} |" for option in options)
        yield ""


def _spelling(option: click.Option) -> str:
    name = option.opts[0]
    if option.is_flag:
        return name
    if isinstance(option.type, click.Choice):
        return f"{name} {', '.join(map(str, option.type.choices))}"
    return f"{name} {option.metavar or option.type.name.upper().replace(' RANGE', '')}"
