"""The records that plates are numbered by: their parts lists, and the figure that is written into them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import yaml

from plates.plate import Plate, Point

# The figure goes before the first of these, which a record has in this order.
_AFTER = ("figures:", "stack:", "ways:", "cautions:", "notes:")


@dataclass(frozen=True)
class Line:
    """One number of a parts list; what goes by the machine's serial number says no quantity."""

    by: str | None
    quantity: int | None


@dataclass(frozen=True)
class Assembly:
    """What a plate needs of an assembly's record: the parts list by number, and points as they are typed."""

    title: str
    parts: dict[str, Line]
    points: list[dict[str, str]]


def read(text: str) -> Assembly:
    record = yaml.load(text, yaml.BaseLoader)
    lines = {
        line["number"]: Line(line.get("by"), int(line["quantity"]) if "quantity" in line else None)
        for line in record["parts"]
    }
    figures = record.get("figures", [])
    return Assembly(
        record["title"], lines, [point for figure in figures for point in figure.get("points", [])]
    )


def faults(plate: Plate, points: list[Point], listed: dict[str, Line]) -> list[str]:
    """Where a plate and the parts list do not say the same. A part in several pieces may be drawn as them."""
    drawn = Counter(piece.number for piece in plate.pieces)
    told = [f"{number} is drawn, and not listed" for number in drawn if number not in listed]
    for number, line in listed.items():
        count = line.quantity or 1
        if not drawn[number] or drawn[number] % count:
            told.append(f"{number}: {count} listed, {drawn[number]} drawn")
    seen = {point.number for point in points}
    return told + [f"{number} is hidden" for number in drawn if number not in seen]


def with_figure(text: str, plate: Plate, points: list[Point], assembly: Assembly) -> str:
    """The record with this drawing as its one figure, in the place of the figure it had.

    What people typed at a part's point, a sign or words, goes along with it; points of no part stay.
    """
    cut = " and cut open" if any(piece.shape.cuts for piece in plate.pieces) else ""
    block = [
        f"figures:\n  - file: {plate.assembly}.svg\n"
        f'    shows: "{assembly.title}, taken apart{cut} (drawn for this demonstration; not to scale)"\n'
        "    licence: CC0-1.0\n    points:\n"
    ]
    order = list(assembly.parts)
    for point in sorted(points, key=lambda point: order.index(point.number)):
        found = {"x": str(point.x), "y": str(point.y), "number": point.number}
        if supplier := assembly.parts[point.number].by:
            found["by"] = supplier
        typed = next((typed for typed in assembly.points if typed.get("number") == point.number), {})
        block.append(_flow(found | {key: value for key, value in typed.items() if key not in found}))
    block += [_flow(typed) for typed in assembly.points if "number" not in typed]
    lines = text.splitlines(keepends=True)
    start = next((at for at, line in enumerate(lines) if line.startswith(_AFTER)), len(lines))
    end = start
    if start < len(lines) and lines[start].startswith("figures:"):
        inside = (at for at in range(start + 1, len(lines)) if not lines[at].startswith(" "))
        end = next(inside, len(lines))
    return "".join([*lines[:start], *block, *lines[end:]])


def _flow(point: dict[str, str]) -> str:
    """A point on a line of its own; numbers and words in quotes, as the records have them."""
    quoted = ("number", "shows")
    pairs = (f'{key}: "{value}"' if key in quoted else f"{key}: {value}" for key, value in point.items())
    return f"      - {{{', '.join(pairs)}}}\n"
