"""What a form's script works out by itself, held to what the builder does."""

from __future__ import annotations

import json

from spanbook.site.forms.records import block_of
from tests.support.demo import demo
from tests.support.node import in_node
from tests.support.scripts import script_text


def test_a_block_is_found_by_the_id_alone() -> None:
    """The same sum in known.js and in records.py, run by node."""
    script = script_text("forms/known.js")
    (line,) = [line for line in script.splitlines() if "const block =" in line]
    ids = [record.id for record in demo().records]
    code = f"const BLOCKS = 64;\n{line}\nconsole.log(JSON.stringify({json.dumps(ids)}.map(block)))"
    assert in_node(code) == [block_of(id_) for id_ in ids]
