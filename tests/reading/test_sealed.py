"""What is kept comes back as it was: data classes with slots in their own way, whatever they share."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from spanbook.reading import sealed


@dataclass(frozen=True, slots=True)
class Inner:
    name: str
    said: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Outer(Inner):
    holds: list[object] = field(default_factory=list)


@dataclass
class Plain:
    one: Inner


def test_a_value_comes_back_with_all_that_it_holds(tmp_path: Path) -> None:
    inner = Inner("x", (1, 2))
    outer = Outer("y", (3,), [inner, Plain(inner)])
    outer.holds.append(outer)
    sealed.put(tmp_path / "kept", (outer, inner), 10_000)
    found = sealed.take(tmp_path / "kept")
    assert isinstance(found, tuple)
    back, again = found
    assert again == inner
    assert (type(back), back.name, back.said) == (Outer, "y", (3,))
    assert back.holds[0] is again
    assert back.holds[1] == Plain(inner)
    assert back.holds[2] is back
