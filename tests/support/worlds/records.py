"""Small records as text, to be laid over the base: worlds are put together of them."""

from __future__ import annotations


def assembly(id_: str, *spans: str, position: str = "body/cover", more: str = "") -> str:
    lines = "".join(f"- {{series: {span}, evidence: [{{source: book}}]}}\n" for span in spans)
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_}\n"
        f"position: {position}\nserials:\n{lines}{more}"
    )


def machine(**fields: str) -> str:
    held = {"first": "1", "last": "90", "stamped": '"Z {number}"'} | fields
    lines = ", ".join(f"{key}: {value}" for key, value in held.items())
    return (
        "# file: content/machines/z-one.yml\nkind: machine\nid: z-one\ntitle: Z\nmaker: Z Works\nseries:\n"
        f"- {{id: za, plate: machine, evidence: [{{source: book}}], {lines}}}\n"
    )


def act(id_: str, old: str, new: str, more: str = "") -> str:
    sides = [", ".join(f'{{number: "{n}", by: w}}' for n in side.split()) for side in (old, new)]
    return (
        f"# file: content/supersessions/{id_}.yml\nkind: supersession\nid: {id_}\n"
        f"old: [{sides[0]}]\nnew: [{sides[1]}]\nevidence: [{{source: book}}]\n{more}"
    )


def conversion(start: str, to: str, more: str = "") -> str:
    return (
        "# file: content/conversions/kit.yml\nkind: conversion\nid: kit\ntitle: Kit\nposition: body/cover\n"
        f"from: [{start}]\nto: {to}\nevidence: [{{source: book}}]\nserials:\n"
        f"- {{series: xa, first: 1, last: 20}}\n{more}"
    )


def parts(*numbers: str) -> str:
    return "parts:\n" + "".join(f'- {{number: "{n}", name: Part {n}}}\n' for n in numbers)


def teardown(serial: str, more: str = "") -> str:
    return (
        "# file: content/teardowns/t.yml\nkind: teardown\nid: t\ndate: 2024\nseen-by: m\n"
        f"serial: {serial}\ncondition: untouched\nfound:\n- {{position: body/cover, note: A lid}}\n{more}"
    )


LID = assembly("lid", "xa, first: 1, last: 20")
TWO = assembly("lid", "xa, first: 1, last: 20", more=parts("L-1", "L-2")) + assembly(
    "hat", "xa, first: 1, last: 20, fitted: field", more=parts("H-1", "H-2")
)
