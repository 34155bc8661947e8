"""Bytes offered as a record: what must be told of each. `ok` where it is a sound record after all."""

from __future__ import annotations

GOOD = "kind: source\nid: a\ntitle: A letter\nclass: correspondence\n"


def _with(line: str) -> bytes:
    return (GOOD + line).encode("utf-8", "surrogatepass")


def _titled(value: str) -> bytes:
    return GOOD.replace("A letter", value).encode("utf-8", "surrogatepass")


def _year(value: str) -> bytes:
    return _with(f"year: {value}\n")


_LAUGHS = "a: &a [x, x]\n" + "".join(
    f"{b}: &{b} [*{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)

RECORDS: dict[str, tuple[bytes, str]] = {
    # bytes that are no text
    "nothing at all": (b"", "yaml-broken"),
    "spaces alone": (b"   \n\n", "yaml-broken"),
    "a remark alone": (b"# nothing\n", "yaml-broken"),
    "a nul": (_with("notes: a\0b\n"), "text-hidden"),
    "nuls alone": (bytes(100), "text-hidden"),
    "utf-16": (GOOD.encode("utf-16"), "text-encoding"),
    "utf-16 without its mark": (GOOD.encode("utf-16-le"), "text-hidden"),
    "utf-32": (GOOD.encode("utf-32"), "text-encoding"),
    "latin-1": (_titled("x").replace(b"x", b"Lager\xe4nderung"), "text-encoding"),
    "a byte-order mark": (b"\xef\xbb\xbf" + GOOD.encode(), "text-byte-order-mark"),
    "an overlong slash": (_titled("x").replace(b" x", b" \xc0\xaf"), "text-encoding"),
    "an overlong nul": (_titled("x").replace(b" x", b" \xc0\x80"), "text-encoding"),
    "half a surrogate pair": (_titled("\ud83d"), "text-encoding"),
    "beyond the last character": (_titled("x").replace(b" x", b" \xf4\x90\x80\x80"), "text-encoding"),
    "a character cut in half": (GOOD.encode() + b"notes: \xe2\x82", "text-encoding"),
    "an executable": (b"\x7fELF\x02\x01\x01" + bytes(50), "text-hidden"),
    "a zip": (b"PK\x03\x04\x14\x00\x00\x00\x08\x00" + bytes(range(128, 160)), "text-encoding"),
    "too large": (_with("notes: " + "a" * 65_536 + "\n"), "file-size"),
    "too large and broken": (b"[" * 70_000, "file-size"),
    # characters that deceive
    **{
        f"the hidden character {ord(c):04x}": (_titled(f"A{c}B"), "text-hidden")
        for c in "\x01\x07\x08\x0b\x0c\x1b\x7f\x80\x85\x9f\u00ad\u061c\u180e\u200b\u200c\u200e\u200f"
        "\u2028\u2029\u202a\u202b\u202d\u202e\u2060\u2066\u2067\u2069\ufeff\ufff9\U000e0041\U000e007f\ufdd0\ufffe\U0010ffff"
    },
    # what a script cannot do without (tests/outside/test_joiners_outside.py has the sources)
    "persian with a non-joiner": (_titled("\u0646\u0627\u0645\u0647\u200c\u0627\u06cc"), "ok"),
    "hindi with a joiner": (_titled("\u0915\u094d\u200d\u0937"), "ok"),
    "an emoji of three": (_titled("\u2764\ufe0f\u200d\U0001f525"), "ok"),
    "a telephone as a picture": (_titled("\u260e\ufe0f"), "ok"),
    "a non-joiner after its word": (_titled("\u0646\u0627\u0645\u0647\u200c"), "text-hidden"),
    "a selector on a digit": (_with('notes: "1\ufe0f81"\n'), "text-hidden"),
    "a selector by an escape": (_titled('"A\\uFE0F"'), "text-hidden"),
    "a supplementary selector": (_titled("A\U000e0100"), "text-hidden"),
    "a wanted joiner by an escape": (_titled('"\\u0915\\u094d\\u200d\\u0937"'), "ok"),
    "an escape that makes a hidden character": (_titled('"A\\u202eB"'), "text-hidden"),
    "an escape that makes a nul": (_titled('"A\\0B"'), "text-hidden"),
    "an escape that makes a bell": (_titled('"A\\aB"'), "text-hidden"),
    "an escape that makes half a pair": (_titled('"\\ud800"'), "yaml-broken"),
    "a line break in a title": (_titled('"A\\nB"'), "value-form"),
    "a return in a title": (_titled('"A\\rB"'), "text-hidden"),
    # yaml's own machinery
    "an anchor": (_with("notes: &a x\n"), "yaml-anchor"),
    "an alias": (_with("notes: *a\n"), "yaml-anchor"),
    "laughs by the billion": (_LAUGHS.encode(), "yaml-anchor"),
    "a loop": (b"&a [*a]\n", "yaml-anchor"),
    "a merge key": (_with("<<: {year: 1}\n"), "yaml-merge"),
    "a tag of python's": (_with("notes: !!python/object/apply:os.system ['true']\n"), "yaml-tag"),
    "a python name": (_with("notes: !!python/name:os.system\n"), "yaml-tag"),
    "a tag of one's own": (_with("notes: !run x\n"), "yaml-tag"),
    "a binary": (_with("notes: !!binary aGk=\n"), "yaml-tag"),
    "a set": (_with("notes: !!set {a, b}\n"), "yaml-tag"),
    "text said to be an integer": (_titled("!!int 5"), "yaml-tag"),
    "a directive": (b"%YAML 1.1\n---\n" + GOOD.encode(), "yaml-directive"),
    "a tag directive": (b"%TAG ! tag:x,2000:\n---\n" + GOOD.encode(), "yaml-directive"),
    "a second document": (_with("---\nkind: source\n"), "yaml-second-document"),
    "an end and more": (_with("...\nkind: source\n"), "yaml-broken"),
    "a key twice": (_with("title: B\n"), "key-twice"),
    "a key twice by escapes": (_with('"t\\u0069tle": B\n'), "key-twice"),
    "a list for a key": (_with("[a]: b\n"), "yaml-key"),
    "a mapping for a key": (_with("{a: b}: c\n"), "yaml-key"),
    "a key with a question mark": (_with("? [a]\n: b\n"), "yaml-key"),
    "a tab for indentation": (b"kind: source\nid: a\ntitle: x\nclass: manual\ncopy:\n\tx\n", "text-tab"),
    "an unclosed quote": (_titled('"never closed'), "yaml-broken"),
    "an unclosed bracket": (_with("formerly: [a\n"), "yaml-broken"),
    "brackets crossed": (_with("formerly: [a}\n"), "yaml-broken"),
    "a colon too many": (_titled("a: b: c"), "yaml-broken"),
    "an at sign": (_titled("@a"), "yaml-broken"),
    "a backtick": (_titled("`a`"), "yaml-broken"),
    "a bad escape": (_titled('"\\q"'), "yaml-broken"),
    "indented otherwise": (b"kind: source\n  id: a\n", "yaml-broken"),
    "a sequence at the top": (b"- kind: source\n", "kind-wrong"),
    "a text at the top": (b"source\n", "kind-wrong"),
    "seventeen levels": (_with("notes: " + "[" * 17 + "]" * 17 + "\n"), "nested-too-deep"),
    "five thousand levels": (_with("notes: " + "[" * 5000 + "]" * 5000 + "\n"), "yaml-broken"),
    "levels that never close": (_with("notes: " + "[" * 5000), "yaml-broken"),
    "mappings in mappings": (_with("notes: " + "{a: " * 40 + "b" + "}" * 40 + "\n"), "nested-too-deep"),
    "five thousand values": (
        _with(f"formerly: [{', '.join('a' for _ in range(5001))}]\n"),
        "too-many-values",
    ),
    "five thousand keys": (_with("".join(f"k{i}: 1\n" for i in range(5001))), "too-many-values"),
    "json": (b'{"kind": "source", "id": "a", "title": "A", "class": "manual"}', "ok"),
    "windows line ends": (GOOD.replace("\n", "\r\n").encode(), "ok"),
    # what a program would guess
    **{
        f"the year {value}": (_year(value), "value-kind")
        for value in (
            "nineteen",
            "1_934",
            "0x78e",
            "0o3616",
            "1934.0",
            "1.934e3",
            "+1934",
            "19:34",
            ".inf",
            ".nan",
        )
    },
    **{f"the year {value}": (_year(value), "value-amount") for value in ("-1934", "99999", "1")},
    "a year of 4,300 digits": (_year("9" * 4300), "value-kind"),
    "a year of 5,000 digits": (_year("9" * 5000), "value-kind"),
    "the year true": (_year("true"), "value-kind"),
    "no year": (_year(""), "value-kind"),
    "a year in a list": (_year("[1934]"), "value-amount"),
    "a title that is a list": (_titled("[a]"), "value-kind"),
    "a title that is a mapping": (_titled("{a: b, c: d}"), "value-kind"),
    "a title that a colon took to pieces": (_titled("{a: b}"), "text-unquoted"),
    "no title": (_titled(""), "value-form"),
    "a title of spaces": (_titled('"   "'), "value-form"),
    "a title of 301 letters": (_titled("a" * 301), "value-amount"),
    "no is a word": (_titled("no"), "ok"),
    "a date is a word": (_titled("2026-04-01"), "ok"),
    "null is a word": (_titled("null"), "ok"),
    # ids and keys
    **{
        f"the id {value}": (GOOD.replace("id: a", f"id: {value!s}").encode(), "value-form")
        for value in (
            "../a",
            "a/b",
            "A",
            "a_b",
            "-a",
            "a-",
            "a--b",
            "a.yml",
            "'a '",
            '"a\\n"',
            "~",
            "ä",
            "а",
        )
    },
    "an id of 81 letters": (GOOD.replace("id: a", f"id: {'a' * 81}").encode(), "value-amount"),
    "another id than the file": (GOOD.replace("id: a", "id: b").encode(), "file-name"),
    "no id": (GOOD.replace("id: a\n", "").encode(), "key-missing"),
    "a key nobody knows": (_with("titel: B\n"), "key-unknown"),
    "a key like python's own": (_with("__class__: B\n"), "key-unknown"),
    "a key like a script's own": (_with("__proto__: {a: b}\n"), "key-unknown"),
    "the key constructor": (_with("constructor: B\n"), "key-unknown"),
    "an empty key": (_with('"": B\n'), "key-unknown"),
    "a key with letters from elsewhere": (_with("nоtes: B\n"), "key-unknown"),  # a Cyrillic letter
    "another kind": (GOOD.replace("source", "teardown", 1).encode(), "kind-wrong"),
    "a kind that is a list": (GOOD.replace("kind: source", "kind: [source]").encode(), "kind-wrong"),
    "a class that is none": (GOOD.replace("correspondence", "gossip").encode(), "value-not-a-choice"),
    "a class in capitals": (GOOD.replace("correspondence", "Manual").encode(), "value-not-a-choice"),
    "former ids twice": (_with("formerly: [b, b]\n"), "value-amount"),
    "no former ids": (_with("formerly: []\n"), "value-amount"),
    "a line that looks like a command": (_with("::error file=x::y: 1\n"), "key-unknown"),
    "a text that looks like a command": (_titled('"::error file=x::y"'), "ok"),
}
