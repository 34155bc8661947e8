"""`python -m plates CONTENT [ASSEMBLY …]`: plates into CONTENT/drawings, their points into the records."""

from __future__ import annotations

import sys
from pathlib import Path

from plates import records
from plates.demonstration import PLATES
from plates.plate import draw


def main(content: Path, wanted: list[str]) -> int:
    """0 when all was drawn, 1 when a plate and its parts list differ: of that one nothing is written."""
    files = {file.stem: file for file in (content / "assemblies").rglob("*.yml")}
    drawings = content / "drawings"
    drawings.mkdir(exist_ok=True)
    failed = False
    for name in wanted or PLATES:
        text = files[name].read_text(encoding="utf-8")
        assembly, plate = records.read(text), PLATES[name]()
        drawn = draw(plate)
        if told := records.faults(plate, drawn.points, assembly.parts):
            failed = True
            print(f"{name}: {'; '.join(told)}", file=sys.stderr)
            continue
        svg = drawn.svg()
        (drawings / f"{name}.svg").write_text(svg, encoding="utf-8")
        files[name].write_text(records.with_figure(text, plate, drawn.points, assembly), encoding="utf-8")
        print(f"{name}: {len(svg) / 1000:.1f} kB, {len(drawn.points)} numbers", flush=True)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), sys.argv[2:]))
