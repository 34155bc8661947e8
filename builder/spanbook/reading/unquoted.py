"""Text without quotes that YAML took to pieces: what its writer meant, put together again."""

from __future__ import annotations

from collections.abc import Container
from collections.abc import Mapping as Values
from itertools import pairwise

from spanbook.ground.language import gettext as _
from spanbook.reading.nodes import Mapping, Node, Scalar, Sequence, Step
from spanbook.reading.write import flow

_LONGEST = 200  # characters of what is written out to be copied


def to_quote(whole: str) -> str:
    """What to do about text that needs quotes; `whole` is how it is written."""
    if len(whole) > _LONGEST:
        return _("put the whole text in quotes")
    return _("put the whole text in quotes: {}").format(whole)


def by_commas(node: Node, where: tuple[Step, ...], known: Container[str]) -> dict[str, str]:
    """Keys of a group in braces that are none: the rest of a text with commas in it.

    Under the first such key stands what to write, `at: "p. 31, fig. 12"`; under the others nothing.
    """
    group = _at(node, where)
    if not isinstance(group, Mapping):
        return {}
    found: dict[str, str] = {}
    begun, pieces, first = "", list[Scalar](), ""
    for key, value in group.values.items():
        bare = isinstance(value, Scalar) and not value.text and ends_at(group.keys[key], value)
        if bare and pieces and key not in known:
            first = first or key
            pieces.append(group.keys[key])
            found[key] = ""
            found[first] = f"{begun}: {flow(_whole(pieces))}"
        else:
            begun, first = key, ""
            pieces = [value] if isinstance(value, Scalar) and value.text else []
    return found


def _whole(pieces: list[Scalar]) -> str:
    """Text that commas took to pieces, as it was typed."""
    whole = pieces[0].text
    for before, piece in pairwise(pieces):
        close = (piece.line, piece.column) == (before.line, before.column + len(before.text) + 1)
        whole += f"{',' if close else ', '}{piece.text}"
    return whole


def by_colon(value: object) -> str:
    """What to write for a text that a colon made a key and its value of; empty for anything else."""
    if isinstance(value, Values) and len(value) == 1:
        ((key, rest),) = value.items()
        if isinstance(rest, str):
            return flow(f"{key}: {rest}".strip())
    return ""


def ends_at(key: Scalar, value: Scalar) -> bool:
    """Whether a value begins where its key ends, so that no colon stands between them."""
    return (value.line, value.column) == (key.line, key.column + len(key.text))


def _at(node: Node, where: tuple[Step, ...]) -> Node | None:
    here: Node | None = node
    for step in where:
        if isinstance(here, Mapping) and isinstance(step, str):
            here = here.values.get(step)
        elif isinstance(here, Sequence) and isinstance(step, int):
            here = here.items[step]
        else:
            return None
    return here
