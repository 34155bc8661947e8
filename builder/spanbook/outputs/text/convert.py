"""How a machine is converted, in words for the terminal."""

from __future__ import annotations

from typing import Any

from spanbook.register.model import Register

Object = dict[str, Any]


def as_text(register: Register, made: Object) -> str:
    """The JSON answer in words that a person reads in a terminal."""
    if not made["possible"]:
        return "\n".join(_refusal(register, made))
    if not made["steps"]:
        return "Nothing to do: it holds that already."
    lines = [f"{len(made['steps'])} steps, {made['new-parts']} new parts."]
    for number, step in enumerate(made["steps"], 1):
        maybe = " (this machine may be one that it is for)" if step["applies"] == "maybe" else ""
        lines.append(f"{number}. {step['title']}{maybe}")
        lines += [f"   get {_counted(part)}{_ordered(part)}" for part in step["get"]]
        lines += [f"   comes off, keep it: {_counted(part)}" for part in step["keep"]]
        lines += [
            f"   first: {need['position']} holds {' or '.join(need['assemblies'])}" for need in step["needs"]
        ]
    return "\n".join(lines)


def _refusal(register: Register, made: Object) -> list[str]:
    wanted = register.assemblies[made["wanted"]["assembly"]].title
    lines = [f"There is no recorded way to the {wanted}."]
    if unmet := made["unmet"]:
        held = " or ".join(unmet["assemblies"])
        lines.append(f"{unmet['conversion']} needs {held} at {unmet['position']} first: {unmet['why']}.")
    if made["missing"]:
        lines.append("These parts would have to be found:")
        lines += [f"   {_counted(part)}" for part in made["missing"]]
    return lines


def _counted(part: Object) -> str:
    return f"{part['quantity']} × {part['number']} {part['name']}".strip()


def _ordered(part: Object) -> str:
    """What is ordered today, where that is not the number itself."""
    ways = [", ".join(f"{leaf['quantity']} × {leaf['number']}" for leaf in way) for way in part["order"]]
    own = f"{part['quantity']} × {part['number']}"
    return f" (order today: {' or '.join(ways)})" if ways != [own] else ""
