"""What a cell may name of what is recorded: by its id, or by its title where only one thing has it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

from spanbook.reading.fields import Field
from spanbook.reading.kinds import BY_FOLDER
from spanbook.register.model import Register

# Parts and owners are no records that have to be there.
_FREE = {"owners", "meanings", "parts/"}


@dataclass(slots=True)
class Names:
    """The names in a register, found by what a field is picked from."""

    register: Register
    _known: dict[str, Mapping[str, tuple[str, ...]]] = field(default_factory=dict)
    _ids: dict[str, frozenset[str]] = field(default_factory=dict)
    _close: dict[tuple[str, str], tuple[str, ...]] = field(default_factory=dict)

    def id_of(self, field_: Field, text: str) -> str | tuple[str, ...]:
        """The id that a text names; or the ids that it may mean, none or several."""
        pick = field_.pick
        if pick is None or pick in _FREE:
            return text
        if pick not in self._known:
            named = {id_: titles for from_ in pick.split() for id_, titles in self._of(from_)}
            self._ids[pick], self._known[pick] = frozenset(named), _by_name(named)
        if text in self._ids[pick]:
            return text  # an id means what it is, whatever else is called so
        found = self._known[pick].get(folded(text), ())
        return found[0] if len(found) == 1 else found or self._like(pick, text)

    def _like(self, pick: str, text: str) -> tuple[str, ...]:
        key = (pick, folded(text))
        if key not in self._close:
            close = get_close_matches(key[1], self._known[pick], n=3, cutoff=0.6)
            ids = dict.fromkeys(one for name in close for one in self._known[pick][name])
            self._close[key] = tuple(ids)
        return self._close[key]

    def _of(self, pick: str) -> Iterator[tuple[str, tuple[str, ...]]]:
        register = self.register
        if pick == "positions":
            yield from ((path, (path, one.title)) for path, one in register.positions.items() if one.holds)
        elif pick == "series":
            yield from ((id_, (id_,)) for id_ in register.series)
        elif pick == "cautions":
            yield from ((id_, (id_, one.title)) for id_, one in register.cautions.items())
        elif pick == "signs":
            yield from ((id_, (id_,)) for id_ in register.signs)
        else:
            kind = BY_FOLDER[pick.removesuffix("/")]
            for id_, record in register.things.get(kind.name, {}).items():
                title = getattr(record, "title", None) or getattr(record, "name", None)
                yield id_, (id_, title) if isinstance(title, str) else (id_,)


def _by_name(named: Mapping[str, tuple[str, ...]]) -> Mapping[str, tuple[str, ...]]:
    found = defaultdict[str, dict[str, None]](dict)
    for id_, titles in named.items():
        for name in titles:
            found[folded(name)][id_] = None
    return {name: tuple(ids) for name, ids in found.items()}


def folded(text: str) -> str:
    """A name as it is compared."""
    return " ".join(text.split()).casefold()
