"""The finder's tables, as small scripts that any page can load, from a server or from a folder.

Keys stand sorted in blocks (`blocks.py`), so that a query loads a directory and the blocks it needs:

- `series`: how every series is stamped, and the numbers issued;
- `size`: the standard sizes that may be typed, what each is and may measure, and the parts that have it;
- `number`: by the worn form of a part number or mark, its entries;
- `turned`: every worn form turned round at every place, so that `?` can always be brought to the end;
- `word`: by word, the documents that have it in strong text, in prose, and as their name;
- `back`: every word backwards, for words of which only the end is as they are;
- `page`: the documents themselves, as `pages.py` numbers them.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from spanbook.answers import sizes_typed
from spanbook.answers.by_words import Holders
from spanbook.answers.search import Asker, Key, Known
from spanbook.answers.sizes_typed import MEASURED, folded, typeable
from spanbook.ground.language import gettext as _
from spanbook.ground.serials import Form, Stamp, fold
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.site.finder.blocks import Table, in_blocks
from spanbook.site.finder.pages import Blocks, block_of
from spanbook.site.finder.pages import in_blocks as in_page_blocks
from spanbook.wording.finder import of_size_words, words
from spanbook.wording.sizing import MIND, standard_words, typed_caution

FOLDER = "assets/finder/"
_KNOWN = list(Known)
MOST_STEPS = 24
END = "$"  # marks the end of a key among its rotations; no worn form has it


def files(asker: Asker, pictures: Mapping[str, str]) -> Iterator[tuple[str, bytes]]:
    """Every file of the finder's tables by its address, the same bytes for the same register.

    `pictures` has the addresses of small pictures by those of the pages that they stand for.
    """
    pages = in_page_blocks([one.address for one in asker.by_words.documents])
    for name, data in _tables(asker, pages, pictures):
        yield f"{FOLDER}{name}.js", script(name, data)


def _tables(asker: Asker, pages: Blocks, pictures: Mapping[str, str]) -> Iterator[tuple[str, Any]]:
    """One after another: they are large, and only one of them has to be held."""
    yield "series", _read_by(asker.register)
    yield "size", _sizes(asker)
    yield from in_blocks("number", _numbers(asker), 120, len)
    yield from in_blocks("turned", [(turned, 0) for turned in _turned(asker.by_worn)], 480)
    yield from in_blocks("word", _words(asker, pages), 640, _weight)
    back = [(word[::-1], 0) for word in sorted(asker.by_words.index, key=_backwards)]
    yield from in_blocks("back", back, 480)
    yield "page", pages.directory
    for name, begin, end in pages:
        yield f"page-{name}", block_of(asker.by_words.documents[begin:end], pictures)


def script(name: str, data: object) -> bytes:
    """A table as a script that hands it over. Nothing in it can close a script element."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    safe = text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f'spanbookTable("{name}",{safe});\n'.encode()


def _read_by(register: Register) -> list[Any]:
    """The words of the finder, the series that are read, and those that are retired."""
    return [words(), _series(register, register.series), _series(register, register.retired_series)]


def _series(register: Register, every: Mapping[str, Series]) -> list[list[Any]]:
    return [
        [
            series.id,
            stretches_of(series.stamp),
            [[run.first, run.last] for run in series.issued],
            register.machines[series.machine].title,
            series.machine,
            series.plate.casefold(),
        ]
        for series in every.values()
    ]


def stretches_of(stamp: Stamp) -> list[list[Any]]:
    """The stretches of a stamp as `read.js` takes them: first, last, the place of the first, the forms."""
    return [[one.first, one.last, one.at, [*map(_form, one.forms)]] for one in stamp.stretches]


def _form(form: Form) -> list[Any]:
    return [form.prefix, form.width, form.suffix, fold(form.prefix), fold(form.suffix)]


def _sizes(asker: Asker) -> list[Any]:
    """The caution of each sort, and the sizes: sort, name, folded name and size, what it is, zones, parts."""
    sorts = list(MEASURED)
    sizes = [
        [
            sorts.index(one.sort),
            one.name,
            folded(one.name),
            folded(one.size),
            standard_words(one),
            sizes_typed.zones(one),
            [
                [part.number, of_size_words(asker.register, one, part), addresses.of_part(part.key)]
                for part in asker.sized.get(one, ())
            ],
        ]
        for one in typeable()
    ]
    return [[typed_caution(sort) for sort in sorts], _(MIND), sizes]


def _numbers(asker: Asker) -> Table:
    return [
        (form, [_entry(asker.register, key) for key in asker.by_worn[form]]) for form in sorted(asker.by_worn)
    ]


def _entry(register: Register, key: Key) -> list[Any]:
    part = key.part
    whose = register.makers.get(part.key.by, part.key.by)
    number = "" if key.known is Known.NUMBER else part.number
    return [key.text, _KNOWN.index(key.known), number, part.name, whose, addresses.of_part(part.key)]


def _turned(forms: Iterable[str]) -> list[str]:
    ended = (f"{form}{END}" for form in forms)
    return sorted(f"{form[i:]}{form[:i]}" for form in ended for i in range(len(form)))


def _words(asker: Asker, pages: Blocks) -> Table:
    return [(word, _holders(held, pages)) for word, held in sorted(asker.by_words.index.items())]


def _holders(held: Holders, pages: Blocks) -> list[list[str | int]]:
    made = [pages.told(held.strong), pages.told(held.prose)]
    return [*made, pages.told(held.name)] if held.name else made


def _weight(holders: list[list[str | int]]) -> int:
    """What a word weighs: the names of blocks, and steps, of which a long row compresses to little."""
    names = sum(1 for some in holders for one in some if isinstance(one, str))
    return 2 * names + min(MOST_STEPS, sum(map(len, holders)) - names)


def _backwards(word: str) -> str:
    return word[::-1]
