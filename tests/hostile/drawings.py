"""Files offered as drawings: what must be told of each. `ok` where lines are left after all."""

from __future__ import annotations

from collections.abc import Callable

from spanbook.ground.drawings.read import MOST_BYTES, MOST_DEEP, MOST_ELEMENTS, MOST_SEGMENTS
from tests.support.drawings import LINE, svg

Make = Callable[[], bytes]
_TENFOLD = (f"&l{i - 1};" * 10 for i in range(1, 10))
_LOL = "".join(f'<!ENTITY l{i} "{ten}">' for i, ten in enumerate(_TENFOLD, 1))
_XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


def _typed(inside: str, body: str = LINE) -> bytes:
    return f"<!DOCTYPE svg [{inside}]>".encode() + svg(body)


def _uses(depth: int) -> str:
    """Each of which draws the one before it ten times."""
    first = '<g id="u0"><path stroke="black" d="M0 0h9"/></g>'
    uses = [f'<use href="#u{i}"/>' * 10 for i in range(depth - 1)]
    return first + "".join(f'<g id="u{i}">{ten}</g>' for i, ten in enumerate(uses, 1))


DRAWINGS: dict[str, tuple[Make, str]] = {
    # what would run
    "a script": (lambda: svg(f"<script>alert(1)</script>{LINE}"), "does"),
    "a script in capitals": (lambda: svg(f"<SCRIPT>alert(1)</SCRIPT>{LINE}"), "does"),
    "a script of HTML": (
        lambda: svg(f'<x:script xmlns:x="http://www.w3.org/1999/xhtml">alert(1)</x:script>{LINE}'),
        "does",
    ),
    "a script in what is passed over": (lambda: svg(f"<defs><script>1</script></defs>{LINE}"), "does"),
    "a script from elsewhere": (lambda: svg(f'<script href="https://x.example/a.js"/>{LINE}'), "does"),
    "a handler of the sheet": (lambda: svg(LINE, ' onload="alert(1)"'), "does"),
    "a handler of a line": (lambda: svg('<path onclick="alert(1)" stroke="black" d="M0 0h9"/>'), "does"),
    "a handler in capitals": (lambda: svg('<path ONCLICK="alert(1)" stroke="black" d="M0 0h9"/>'), "does"),
    "a page inside": (lambda: svg(f"<foreignObject><b>x</b></foreignObject>{LINE}"), "does"),
    "a frame inside": (
        lambda: svg(f'<h:iframe xmlns:h="http://www.w3.org/1999/xhtml" src="//x.example"/>{LINE}'),
        "does",
    ),
    "an animation": (
        lambda: svg('<path stroke="red" d="M0 0h9"><animate attributeName="d"/></path>'),
        "does",
    ),
    "a change of an address": (
        lambda: svg(f'<set attributeName="href" to="javascript:alert(1)"/>{LINE}'),
        "does",
    ),
    # what would load
    "a picture from elsewhere": (lambda: svg(f'<image href="https://x.example/a.png"/>{LINE}'), "ok"),
    "a picture from this machine": (
        lambda: svg(f'<image {_XLINK} xlink:href="file:///etc/passwd"/>{LINE}'),
        "ok",
    ),
    "a picture in itself": (lambda: svg(f'<image href="data:image/png;base64,AAAA"/>{LINE}'), "ok"),
    "another drawing": (lambda: svg(f'<use href="https://x.example/a.svg#b"/>{LINE}'), "ok"),
    "a link that runs": (lambda: svg(f'<a href="javascript:alert(1)">{LINE}</a>{LINE}'), "ok"),
    "a colour from elsewhere": (
        lambda: svg('<path fill="url(https://x.example/a#b)" stroke="red" d="M0 0h9v9"/>'),
        "ok",
    ),
    "a style from elsewhere": (
        lambda: b'<?xml-stylesheet href="https://x.example/a.css"?>' + svg(),
        "ok",
    ),
    "a style sheet": (lambda: svg(f"<style>path{{fill:red}}</style>{LINE}"), "styled"),
    "a style sheet that loads": (
        lambda: svg(f"<style><![CDATA[@import url(//x.example)]]></style>{LINE}"),
        "styled",
    ),
    "an empty style sheet": (lambda: svg(f"<style> </style>{LINE}"), "ok"),
    "a style that loads": (
        lambda: svg('<path style="stroke:red;background:url(//x.example)" d="M0 0h9"/>'),
        "ok",
    ),
    # what a document type may bring
    "an entity": (lambda: _typed('<!ENTITY a "b">', f"<title>&a;</title>{LINE}"), "doctype"),
    "an entity of this machine": (
        lambda: _typed('<!ENTITY a SYSTEM "file:///etc/passwd">', f"<title>&a;</title>{LINE}"),
        "doctype",
    ),
    "entities of entities": (lambda: _typed('<!ENTITY l0 "lol">' + _LOL, "<title>&l9;</title>"), "doctype"),
    "a parameter entity": (lambda: _typed('<!ENTITY % a SYSTEM "https://x.example/a"> %a;'), "doctype"),
    "an attribute by default": (lambda: _typed('<!ATTLIST path onclick CDATA "alert(1)">'), "doctype"),
    "the published document type": (
        lambda: (
            b'<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" '
            b'"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">' + svg()
        ),
        "ok",
    ),
    "an entity that nobody declared": (lambda: svg(f"<title>&a;</title>{LINE}"), "broken"),
    # what would never end
    "too many bytes": (lambda: svg(f"<!--{'x' * MOST_BYTES}-->{LINE}"), "too-many-bytes"),
    "a huge path": (
        lambda: svg(f'<path fill="none" stroke="black" d="M0 0{"h1" * (MOST_SEGMENTS + 1)}"/>'),
        "too-much",
    ),
    "many paths": (lambda: svg(LINE * (MOST_SEGMENTS // 2 + 1)), "too-much"),
    "many elements": (lambda: svg("<g/>" * MOST_ELEMENTS + LINE), "too-much"),
    "a bomb of uses": (lambda: svg(LINE + _uses(40)), "ok"),
    "a drawing in itself without end": (lambda: svg(f'{LINE}<g id="a"><use href="#a"/></g>'), "ok"),
    "deep groups": (lambda: svg("<g>" * MOST_DEEP + LINE + "</g>" * MOST_DEEP), "too-deep"),
    "deep groups of an editor": (
        lambda: svg('<x:g xmlns:x="y">' * 10_000 + "</x:g>" * 10_000 + LINE),
        "too-deep",
    ),
    "200,000 spaces": (lambda: svg(f'<path stroke="black" d="M0 0{" " * 200_000}x"/>'), "no-number"),
    "200,000 commas": (lambda: svg(f'<path stroke="black" d="M0 0{"," * 200_000}"/>'), "no-number"),
    "200,000 digits": (lambda: svg(f'<path stroke="black" d="M0 0h{"1" * 200_000}"/>'), "no-number"),
    "200,000 brackets": (lambda: svg(f'<g transform="{"(" * 200_000}">{LINE}</g>'), "no-number"),
    "10,000 transforms": (lambda: svg(f'<g transform="{"scale(1)" * 10_000}">{LINE}</g>'), "no-number"),
    "a transform that grows": (
        lambda: svg('<g transform="scale(999999)">' * 10 + LINE + "</g>" * 10),
        "no-number",
    ),
    "a style of 100,000 colons": (lambda: svg(f'<path style="{":;" * 100_000}" d="M0 0h9"/>'), "ok"),
    # what is no number, or no sheet
    "a number without end": (lambda: svg('<path stroke="black" d="M0 0L1e999 1"/>'), "no-number"),
    "no number": (lambda: svg('<path stroke="black" d="M0 0L NaN 1"/>'), "no-number"),
    "a tiny arc": (lambda: svg(f'{LINE}<path stroke="red" d="M0 0A9 9 0 0 1 1e-300 0"/>'), "ok"),
    "an arc of tiny radii": (
        lambda: svg(f'{LINE}<path stroke="red" d="M0 0A1e-300 1e-9 0 0 1 9 0"/>'),
        "no-number",
    ),
    "far away": (lambda: svg('<path stroke="black" d="M0 0L9999999 1"/>'), "no-number"),
    "a sheet of nothing": (lambda: svg().replace(b"200 100", b"0 0"), "no-size"),
    "a sheet turned inside out": (lambda: svg().replace(b"200 100", b"-5 -5"), "no-size"),
    "a sheet like a thread": (lambda: svg().replace(b"200 100", b"9000 1"), "too-lean"),
    "a sheet without a size": (lambda: svg().replace(b"viewBox", b"class"), "no-size"),
    "a share for a length": (lambda: svg('<circle r="50%" stroke="black"/>'), "no-number"),
    # what is no drawing
    "no lines": (lambda: svg("<text>Lid</text>"), "empty"),
    "a page": (lambda: b"<!doctype html><script>alert(1)</script>", "no-drawing"),
    "a page of XML": (lambda: b'<html xmlns="http://www.w3.org/1999/xhtml"/>', "no-drawing"),
    "no namespace": (lambda: b"<svg viewBox='0 0 9 9'><path d='M0 0h9'/></svg>", "no-drawing"),
    "a namespace that only begins so": (
        lambda: svg().replace(b"2000/svg", b"2000/svg2"),
        "no-drawing",
    ),
    "a namespace that goes on": (
        lambda: svg(f'<x:path xmlns:x="http://www.w3.org/2000/svg&#10;path" d="M0 0"/>{LINE}'),
        "broken",
    ),
    "empty": (lambda: b"", "no-drawing"),
    "cut off": (lambda: svg()[:-8], "broken"),
    "another after it": (lambda: svg() + svg(), "broken"),
    "a picture": (lambda: b"\x89PNG\r\n\x1a\n" + bytes(40), "no-drawing"),
    "packed": (lambda: b"\x1f\x8b\x08" + bytes(40), "no-drawing"),
    "another encoding": (lambda: svg().decode().encode("utf-16"), "no-drawing"),
    "bytes that are no UTF-8": (lambda: svg().replace(b"M10", b"M\xff10"), "broken"),
    "an encoding that is none": (lambda: b'<?xml version="1.0" encoding="x-evil"?>' + svg(), "ok"),
    "a zero byte": (lambda: svg().replace(b"M10", b"M\x0010"), "broken"),
}
