"""Tables of which a row is looked at in less time than a test of its own takes to begin."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import wraps
from inspect import signature
from typing import Any

Test = Callable[..., None]
FOLDER = "tmp_path"


def each_row(names: str | tuple[str, ...], rows: Iterable[Any]) -> Callable[[Test], Test]:
    """One test of all rows, written as `pytest.mark.parametrize` has it; what fails says in which row.

    A row is a value where one name is given, else as many as there are names. Each has a folder of its own
    in `tmp_path`; whatever else the test asks for all have together.
    """
    asked = (names,) if isinstance(names, str) else names

    def of(test: Test) -> Test:
        @wraps(test)
        def all_rows(**fixtures: Any) -> None:
            every = list(rows)
            assert every
            for number, row in enumerate(every):
                values = dict(zip(asked, (row,) if isinstance(names, str) else row, strict=True))
                own = {name: one / str(number) if name == FOLDER else one for name, one in fixtures.items()}
                if FOLDER in own:
                    own[FOLDER].mkdir()
                try:
                    test(**values, **own)
                except BaseException as wrong:
                    wrong.add_note(f"in the row {values}")
                    raise

        whole = signature(test)
        left = [one for name, one in whole.parameters.items() if name not in asked]
        all_rows.__signature__ = whole.replace(parameters=left)  # type: ignore[attr-defined]
        return all_rows

    return of
