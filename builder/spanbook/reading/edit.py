"""Changes to a YAML file by place: all else in it, comments and order too, stays as it was typed."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import cast

import yaml
from yaml._yaml import CParser

from spanbook.ground.language import gettext as _
from spanbook.reading.nodes import Step
from spanbook.reading.text import to_text
from spanbook.reading.write import flow

_COMMENT = re.compile(r"(?:^|(?<=[ \n]))#[^\n]*")


class NotEditable(Exception):  # noqa: N818 - it says what cannot be done
    """A place that cannot be changed without touching what is around it. The message says what to do."""


@dataclass(slots=True)
class Spot:
    """Where a value stands: `style` is that of a scalar, or of brackets (`[`, `{`), or of lines (`-`, `:`).

    What is written in lines ends where the last thing in it does.
    """

    start: int
    end: int
    style: str
    keys: dict[str, Spot] = field(default_factory=dict)
    values: dict[str, Spot] = field(default_factory=dict)
    items: list[Spot] = field(default_factory=list)

    @property
    def below(self) -> list[Spot]:
        return [*self.items, *self.keys.values(), *self.values.values()]


def comments(data: bytes) -> list[str]:
    """Every comment of a file, in order."""
    text = to_text(data)
    at, found = 0, list[str]()
    for scalar in sorted(_scalars(_spots(text)), key=lambda spot: spot.start):
        found += _COMMENT.findall(text, at, max(scalar.start, at))
        # A block's header may have one, and its text has none.
        header = text.find("\n", scalar.start) if scalar.style in "|>" else scalar.end
        found += _COMMENT.findall(text, scalar.start + 1, header) if scalar.style in "|>" else []
        at = scalar.end
    return [*found, *_COMMENT.findall(text, at)]


def _scalars(spot: Spot) -> Iterator[Spot]:
    if spot.style in "-:[{":
        for below in spot.below:
            yield from _scalars(below)
    else:
        yield spot


class Draft:
    """A file as it is to be. Every place is named as it is now, whatever else is changed."""

    def __init__(self, data: bytes) -> None:
        self._windows = b"\r\n" in data
        text = to_text(data)
        self.text = text if text.endswith("\n") else f"{text}\n"
        self._root = _spots(self.text)
        self._splices: list[tuple[int, int, str]] = []

    def result(self) -> bytes:
        """The file with all changes made."""
        made, at = [], 0
        for start, end, new in sorted(self._splices, key=lambda one: one[:2]):
            if start < at:
                raise NotEditable(_("two changes would meet at one place; make them one after the other"))
            made += [self.text[at:start], new]
            at = end
        whole = "".join([*made, self.text[at:]])
        return (whole.replace("\n", "\r\n") if self._windows else whole).encode()

    def spot(self, *steps: Step) -> Spot:
        """Raises LookupError where there is nothing."""
        at = self._root
        for step in steps:
            at = at.values[step] if isinstance(step, str) else at.items[step]
        return at

    def has(self, *steps: Step) -> bool:
        try:
            self.spot(*steps)
        except LookupError:
            return False
        return True

    def replace(self, steps: tuple[Step, ...], text: str) -> None:
        """Another text in the place of one, quoted as that was where it can be."""
        spot = self.spot(*steps)
        if spot.style == "'" and "\n" not in text:
            written = "'" + text.replace("'", "''") + "'"
        else:
            written = json.dumps(text, ensure_ascii=False) if spot.style else flow(text)
        self._splice(spot.start, spot.end, written)

    def within(self, steps: tuple[Step, ...], change: Callable[[str], str]) -> None:
        """A change inside a text as it is typed, such as of a word that needs no quotes."""
        spot = self.spot(*steps)
        raw = self.text[spot.start : spot.end]
        if (new := change(raw)) != raw:
            self._splice(spot.start, spot.end, new)

    def rekey(self, steps: tuple[Step, ...], key: str, value: object) -> None:
        """Another key in the place of one, with another value."""
        above = self.spot(*steps[:-1])
        self._splice(above.keys[str(steps[-1])].start, self.spot(*steps).end, f"{key}: {flow(value)}")

    def retype(self, steps: tuple[Step, ...], value: object) -> None:
        """Another value in the place of one that is no text alone, such as a pair."""
        spot = self.spot(*steps)
        self._splice(spot.start, spot.end, flow(value))

    def put(self, steps: tuple[Step, ...], key: str, value: object, after: str) -> None:
        """A new key of a mapping, after another that it has."""
        self._put(steps, f"{key}: {flow(value)}", after)

    def put_lines(self, steps: tuple[Step, ...], key: str, lines: list[str], after: str) -> None:
        """A new key of a mapping with a list under it, typed in lines: in brackets where there is no room."""
        if self.spot(*steps).style == "{" and len(lines) == 1 and not _COMMENT.search(lines[0]):
            self._put(steps, f"{key}: [{lines[0].removeprefix('- ')}]", after)
            return
        self._put(steps, "\n".join([f"{key}:", *(f"  {line}".rstrip() for line in lines)]), after)

    def _put(self, steps: tuple[Step, ...], written: str, after: str) -> None:
        spot = self.spot(*steps)
        beside = spot.values[after]
        if spot.style == "{":
            if "\n" in written:
                raise NotEditable(
                    _("{{…}} has no room for lines; write the keys beside {} one a line").format(after)
                )
            self._splice(beside.end, beside.end, f", {written}")
            return
        indent = " " * self._column(next(iter(spot.keys.values())).start)
        at = self._after(beside)
        self._splice(at, at, "".join(f"{indent}{line}".rstrip() + "\n" for line in written.split("\n")))

    def add(self, steps: tuple[Step, ...], value: object) -> None:
        """One more item at the end of a list that has some."""
        self.add_lines(steps, [flow(value)])

    def add_lines(self, steps: tuple[Step, ...], lines: list[str], above: list[str] | None = None) -> None:
        """The same of an item that takes several lines, with comments above it."""
        spot = self.spot(*steps)
        last = spot.items[-1]
        if spot.style == "[":
            if len(lines) > 1 or above or _COMMENT.search(lines[0]):
                raise NotEditable(_("{} is in brackets; write it one item a line first").format(steps[-1]))
            self._splice(last.end, last.end, f", {lines[0]}")
            return
        indent = " " * self._column(self._dash(spot.items[0]))
        at = self._after(last)
        rest = [f"  {line}".rstrip() for line in lines[1:]]
        whole = [*(above or ()), f"- {lines[0]}", *rest]
        self._splice(at, at, "".join(f"{indent}{line}\n" if line else "\n" for line in whole))

    def add_to(self, steps: tuple[Step, ...], key: str, values: list[object], after: str) -> None:
        """Items at the end of the list under a key, which need not be there yet."""
        if self.has(*steps, key):
            for value in values:
                self.add((*steps, key), value)
        elif values:
            self.put(steps, key, values, after)

    def remove(self, steps: tuple[Step, ...]) -> None:
        """A key, or an item of a list, with the comments above it; the last item takes its key along."""
        above, last = self.spot(*steps[:-1]), steps[-1]
        if isinstance(last, int) and len(above.items) == 1:
            self.remove(steps[:-1])
        elif above.style in "[{":
            each = [(s.start, s.end) for s in above.items] or [
                (key.start, above.values[name].end) for name, key in above.keys.items()
            ]
            i = last if isinstance(last, int) else list(above.keys).index(last)
            if i:
                self._splice(each[i - 1][1], each[i][1], "")
            else:
                self._splice(each[0][0], each[1][0], "")
        else:
            self._splice(*self._lines_of(steps), "")

    def lines(self, steps: tuple[Step, ...]) -> tuple[list[str], list[str]]:
        """The comments above an item of a list, and the item as it is typed, from the margin."""
        spot, of = self.spot(*steps), self.spot(*steps[:-1])
        if of.style == "[":
            return [], self.text[spot.start : spot.end].split("\n")
        start, end = self._lines_of(steps)
        dash = self._dash(spot)
        above = [line.strip() for line in self.text[start : self._line(dash)].splitlines()]
        margin = self._column(spot.start)
        first, *rest = self.text[spot.start : end].splitlines()
        return above, [first, *(line[margin:] if not line[:margin].strip() else line for line in rest)]

    def key_lines(self, key: str) -> list[str]:
        """A key of the record as it is typed, with the comments above it."""
        start, end = self._lines_of((key,))
        return self.text[start:end].splitlines()

    def put_raw(self, lines: list[str], after: str) -> None:
        """Keys of the record as they are typed, after another."""
        at = self._after(self.spot(after))
        self._splice(at, at, "".join(f"{line}\n" for line in lines))

    def write_block(self, steps: tuple[Step, ...], text: str) -> None:
        """A text of several lines in the place of one of the record's own."""
        spot = self.spot(*steps)
        lines = [f"  {line}".rstrip() for line in text.split("\n")]
        ended = self.text[spot.end - 1] == "\n"
        if not ended and self.text[spot.end : self._after(spot)].strip():
            raise NotEditable(_("a comment stands beside {}; move it above").format(steps[-1]))
        self._splice(spot.start, spot.end, "\n".join(["|", *lines]) + ("\n" if ended else ""))

    def _lines_of(self, steps: tuple[Step, ...]) -> tuple[int, int]:
        """The lines of a key or of an item, and of the comments right above them."""
        above, last = self.spot(*steps[:-1]), steps[-1]
        spot = self.spot(*steps)
        first = self._dash(spot) if isinstance(last, int) else above.keys[last].start
        start = self._line(first)
        if self.text[start:first].strip():
            raise NotEditable(
                _("{} begins in the middle of a line; write it on a line of its own first").format(last)
            )
        while start:
            before = self._line(start - 1)
            if not self.text[before:start].lstrip().startswith("#"):
                break
            start = before
        return start, self._after(spot)

    def _dash(self, item: Spot) -> int:
        found = re.search(r"-[ \n]*$", self.text[: item.start])
        if not found:
            raise NotEditable(_("a comment stands between a - and its item; move it above"))
        return found.start()

    def _line(self, at: int) -> int:
        return self.text.rfind("\n", 0, at) + 1

    def _column(self, at: int) -> int:
        return at - self._line(at)

    def _after(self, spot: Spot) -> int:
        """The beginning of the line after a value."""
        end = spot.end
        if end and self.text[end - 1] == "\n":
            return end
        return self.text.index("\n", end) + 1

    def _splice(self, start: int, end: int, new: str) -> None:
        self._splices.append((start, end, new))


def _spots(text: str) -> Spot:
    following = cast(Callable[[], yaml.Event], CParser(text).get_event)
    for __ in range(2):
        following()  # the start of the stream, and of the document
    return _spot(following(), following)


def _spot(event: yaml.Event, following: Callable[[], yaml.Event]) -> Spot:
    assert event.start_mark is not None, "libyaml marks every event"
    assert event.end_mark is not None, "libyaml marks every event"
    start = event.start_mark.index
    if isinstance(event, yaml.ScalarEvent):
        return Spot(start, event.end_mark.index, event.style or "")
    listed = isinstance(event, yaml.SequenceStartEvent)
    in_brackets = bool(getattr(event, "flow_style", False))
    spot = Spot(start, start, "-:[{"[2 * in_brackets + (not listed)])
    while not isinstance(event := following(), yaml.SequenceEndEvent | yaml.MappingEndEvent):
        one = _spot(event, following)
        if listed:
            spot.items.append(one)
        else:
            name = cast(yaml.ScalarEvent, event).value
            spot.keys[name], spot.values[name] = one, _spot(following(), following)
    assert event.end_mark is not None, "libyaml marks every event"
    spot.end = event.end_mark.index if in_brackets else max((s.end for s in spot.below), default=start)
    return spot
