"""Records written as YAML read back as they were meant."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from spanbook.reading import yaml
from spanbook.reading.nodes import Mapping, Node, Scalar
from spanbook.reading.text import hidden
from spanbook.reading.write import Value, to_yaml

# What the reader accepts of texts; test_text.py holds that the rest is refused where it stands.
TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Zl", "Zp"]), max_size=20).filter(
    lambda text: hidden(text) is None
)
NUMBERS = st.integers(0, 10**12 - 1)
KEYS = st.sampled_from(["number", "seen-by", "first", "notes", "found", "at"])
LEAVES = TEXTS | NUMBERS | st.booleans() | st.lists(NUMBERS, max_size=2)
VALUES: st.SearchStrategy[dict[str, Value]] = st.dictionaries(
    KEYS,
    st.recursive(
        LEAVES,
        lambda below: (
            st.lists(st.dictionaries(KEYS, below, min_size=1, max_size=3), max_size=3)
            | st.dictionaries(KEYS, below, min_size=1, max_size=3)
            | st.lists(TEXTS, max_size=3)
        ),
        max_leaves=8,
    ),
    min_size=1,
    max_size=4,
)


def read_back(node: Node) -> object:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Mapping):
        return {key: read_back(below) for key, below in node.values.items()}
    return [read_back(item) for item in node.items]


def as_text(value: Value) -> object:
    """Every leaf as the characters that stand in the file."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return {key: as_text(below) for key, below in value.items()}
    return [as_text(one) for one in value] if isinstance(value, list) else str(value)


@given(VALUES)
def test_what_is_written_reads_back(values: dict[str, Value]) -> None:
    assert read_back(yaml.parse(to_yaml(values))) == as_text(values)


def test_a_record_as_a_person_reads_it() -> None:
    values: dict[str, Value] = {
        "number": "0012",
        "serials": [{"series": "hk", "first": 1, "last": [588, 612]}, {"series": "no", "option": True}],
        "tell": ['A "knob"', "no"],
        "new": [],
        "years": {"1931": 1},
    }
    assert to_yaml(values, "https://x.example/s.json") == (
        "# yaml-language-server: $schema=https://x.example/s.json\n"
        'number: "0012"\n'
        "serials:\n"
        '  - series: "hk"\n'
        "    first: 1\n"
        "    last: [588, 612]\n"
        '  - series: "no"\n'
        "    option: true\n"
        "tell:\n"
        '  - "A \\"knob\\""\n'
        '  - "no"\n'
        "new: []\n"
        "years:\n"
        "  1931: 1\n"
    )
