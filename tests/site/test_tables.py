"""The tables that scripts look up in: nothing that a stranger typed can end a script or begin another."""

from __future__ import annotations

import json

from spanbook.answers.answers import Answers
from spanbook.site import assets
from spanbook.site.common import Site
from spanbook.site.forms import records
from tests.support.registers import record, register

EVIL = "</script><script>alert(1)</script><!--"
SOURCE = f"kind: source\nid: evil\ntitle: {json.dumps(EVIL)}\nclass: manual\nnotes: {json.dumps(EVIL)}\n"


def test_no_table_can_close_its_script() -> None:
    site = Site(Answers(register(record(SOURCE, "source", "evil"))))
    tables = assets.tables(site, ())
    holding = [address for address, data in tables.items() if b"alert(1)" in data]
    assert {address.rsplit("/", 1)[1].split("-")[0] for address in holding} == {"page", "records"}
    for address, data in tables.items():
        assert b"<" not in data, address


def test_a_form_is_filled_with_what_was_typed() -> None:
    made = records.files(register(record(SOURCE, "source", "evil")))
    (table,) = (data.decode() for address, data in made.items() if "records-source-" in address)
    block = json.loads(table.split(",", 1)[1].rsplit(")", 1)[0])
    assert block["evil"]["record"]["title"] == EVIL
