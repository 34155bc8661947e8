"""The pages' scripts run by node, in one process: to begin takes it longer than most take to answer."""

from __future__ import annotations

import atexit
import json
import subprocess
from functools import cache
from typing import Any

# A line is a JSON string of code, and the answer to it a line: what it logged first, or why it failed.
_SERVER = """
const answer = (told) => process.stdout.write(JSON.stringify(told) + "\\n");
const failed = (why) => answer({ wrong: String((why && why.stack) || why) });
process.on("unhandledRejection", failed);
require("readline").createInterface({ input: process.stdin }).on("line", (line) => {
  let open = true;
  const log = (told) => { if (open) { open = false; answer({ told }); } };
  try { new Function("console", JSON.parse(line))({ log }); } catch (why) { failed(why); }
});
"""


@cache
def _process() -> subprocess.Popen[str]:
    made = subprocess.Popen(
        ["node", "-e", _SERVER], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8"
    )
    atexit.register(made.kill)
    return made


def in_node(code: str) -> Any:
    """What some code says as JSON by `console.log`, once: at once or when what it waits for has come."""
    process = _process()
    assert process.stdin
    assert process.stdout
    process.stdin.write(f"{json.dumps(code)}\n")
    process.stdin.flush()
    line = process.stdout.readline()
    assert line, "node has ended"
    told = json.loads(line)
    assert "wrong" not in told, told["wrong"]
    return json.loads(told["told"])
