"""Years of serial numbers held against a worked table."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from spanbook.ground.years import YearTable
from tests.support.rows import each_row

TABLE = json.loads((Path(__file__).parent / "data/06_year_from_serial.json").read_text())


@each_row("case", TABLE["expect"])
def test_the_year_of_a_number(case: dict[str, Any]) -> None:
    """Worked by hand from the rule the trade uses for "first number of each year" lists (common practice,
    no source); numpy 2.4's interp gives 1932.0 at 1720, the trap that an empty year sets."""
    years = YearTable.of(dict(TABLE["table_first_serial_of_year"])).year_of(case["serial"])
    wanted = case["year"]
    if wanted is None:
        assert years is None
        return
    assert years is not None
    if case["status"].startswith("open-ended"):
        assert (years.first, years.last) == (wanted, None)
    elif isinstance(wanted, list):
        assert [years.first, years.last] == wanted
    else:
        assert (years.first, years.last) == (wanted, wanted)
