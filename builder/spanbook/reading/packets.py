"""A packet: records and pictures that somebody sent, taken apart and told whether it is one.

`schema/packet.json` says what it is. Nothing of it is written anywhere here, and whether its records are
sound is not asked: they are held to the same rules as all others, as they would stand among them.
"""

from __future__ import annotations

import binascii
import unicodedata
from base64 import b64decode
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from spanbook.ground import images, zipped
from spanbook.ground.drawings import read as drawings
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.reserved import is_device
from spanbook.ground.zipped import Flaw, Wrong
from spanbook.reading import explain, files, schemas, text, typed, yaml
from spanbook.reading.examples import Examples
from spanbook.reading.files import CONTENT, MOST_PATH, Sort
from spanbook.reading.phrases import thousands
from spanbook.reading.problems import Finding, Place

ABOUT = "packet.json"
_TAKEN = {Sort.RECORD, Sort.PHOTOGRAPH, Sort.DRAWING}
# What an archive gets that somebody made anew on a desktop.
_LEFT_BEHIND = "__MACOSX/"
_LONGEST_HEAD = 200
_AGAIN = marked("ask who sent it to send it again")
_SEVERAL = marked("let it be sent in several")
# What is wrong with an archive, with a place for the most that is taken, and what to do.
_WORDS = {
    Flaw.NO_ZIP: (marked("it is no zip archive, or something stands behind its end"), _AGAIN),
    Flaw.DAMAGED: (marked("it is damaged and cannot be unpacked"), _AGAIN),
    Flaw.TOO_MANY_BYTES: (marked("it has more than {} bytes"), _SEVERAL),
    Flaw.TOO_MANY_FILES: (marked("it says that it holds more than {} files"), _SEVERAL),
    Flaw.TOO_MUCH_INSIDE: (marked("it unpacks to more than {} bytes"), _SEVERAL),
    Flaw.LOCKED: (marked("it has a password"), marked("let it be sent without one")),
    Flaw.LINK: (
        marked("a link or something else that is no plain file"),
        marked("let the file itself be sent"),
    ),
    Flaw.TWICE: (marked("two files of this name"), marked("let the one be sent that is meant")),
    Flaw.PACKED_OTHERWISE: (
        marked("it is packed in a way that is not taken"),
        marked("let it be stored or deflated"),
    ),
}


@dataclass(frozen=True, slots=True)
class Packet:
    """What somebody sent: `files` by their paths in the content folder, the rest as packet.json has it.

    `corrects` has the digests of records that are to be replaced, by their paths in the content folder;
    `left_out` are the names of what a system had put into the archive.
    """

    site: str
    made: str
    by: str
    data: str
    note: str
    corrects: Mapping[str, str]
    files: Mapping[str, bytes]
    left_out: tuple[str, ...]


class NoPacket(Exception):  # noqa: N818 - it says what it is
    """A file that is not taken as a packet; `findings` has everything that is wrong with it."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__(findings)
        self.findings = findings


def read(data: bytes, called: str) -> Packet:
    """The packet in an archive that messages call so. Raises NoPacket."""
    try:
        found = zipped.unzip(_unwrapped(data), _most)
    except zipped.Refused as refused:
        raise NoPacket(tuple(_finding(called, wrong) for wrong in refused.wrong)) from None
    named = _without_wrapping({name: held for name, held in found.items() if not _left_behind(name)})
    wrong = [
        Finding(Place(f"{called}/{name}"), *told)
        for name in named
        if name != ABOUT and (told := _wrong_name(name))
    ]
    wrong += _clashing(named, called)
    if ABOUT not in named:
        todo = _("a packet is made by the forms of a site; of other files, put the records in place by hand")
        wrong.insert(0, Finding(Place(called), _("no {} in it").format(ABOUT), todo))
        raise NoPacket(tuple(wrong))
    about = _about(named[ABOUT], f"{called}/{ABOUT}", wrong)
    laid = {name.removeprefix(CONTENT): held for name, held in named.items() if name != ABOUT}
    corrects = {path.removeprefix(CONTENT): digest for path, digest in about.get("corrects", {}).items()}
    for path in sorted(corrects.keys() - laid.keys()):
        read = _("it corrects {}, which is not in it").format(f"{CONTENT}{path}")
        wrong.append(Finding(Place(f"{called}/{ABOUT}"), read, _(_AGAIN)))
    if not laid and not wrong:
        wrong.append(Finding(Place(called), _("no record in it"), _(_AGAIN)))
    if wrong:
        raise NoPacket(tuple(wrong))
    return Packet(
        site=about["site"],
        made=about["made"],
        by=about["by"],
        data=about.get("data", ""),
        note=about.get("note", ""),
        corrects=corrects,
        files=dict(sorted(laid.items())),
        left_out=tuple(sorted(name for name in found if _left_behind(name))),
    )


def _unwrapped(data: bytes) -> bytes:
    """The archive in a packet that left as text, behind its first line and an empty one; else what it is.

    Share sheets of some telephones take no archive. RFC 4648, in the lines of RFC 2045.
    """
    head, __, text = data.replace(b"\r\n", b"\n").partition(b"\n\n")
    if len(head) > _LONGEST_HEAD or b"\n" in head or not head.isascii():
        return data
    try:
        return b64decode(b"".join(text.split()), validate=True)
    except binascii.Error:
        return data


def _finding(called: str, wrong: Wrong) -> Finding:
    read, todo = _WORDS[wrong.flaw]
    most = zipped.MOST_FILES if wrong.flaw is Flaw.TOO_MANY_FILES else zipped.MOST_BYTES
    place = Place(f"{called}/{wrong.name}" if wrong.name else called)
    return Finding(place, _(read).format(thousands(most)), _(todo))


def _most(name: str) -> int:
    """How much of a file is unpacked; what has more is refused by the rules for its sort."""
    if name.endswith(files.PICTURES):
        return images.MOST_BYTES
    return drawings.MOST_BYTES if name.endswith(files.DRAWING) else text.LARGEST


def _left_behind(name: str) -> bool:
    return name.startswith(_LEFT_BEHIND) or files.sort_of(name) in (Sort.LEFTOVER, Sort.HIDDEN)


def _without_wrapping(named: Mapping[str, bytes]) -> dict[str, bytes]:
    """The files by their names in the one folder that somebody packed; as they are where there is none."""
    tops = {name.partition("/")[0] for name in named}
    if len(tops) == 1 and (top := f"{min(tops)}/") != CONTENT:
        return {name.removeprefix(top): data for name, data in named.items()}
    return dict(named)


def _wrong_name(name: str) -> tuple[str, str] | None:
    """What is wrong with a file's name, and what to do. It never names anything but a place for records."""
    *folders, last = name.split("/")
    plain = name.isprintable() and unicodedata.is_normalized("NFC", name) and not set(name) & set('\\:*?"<>|')
    within = name.startswith(CONTENT) and all(folders) and not any("." in folder for folder in folders)
    relative = name.removeprefix(CONTENT)
    if not plain or not within or not last or any(word != word.strip() for word in (*folders, last)):
        return _("a name that leads out of content/ or is none"), _(
            "let it be sent again from the site's form"
        )
    if any(map(is_device, (*folders, last))):
        return _("a name that Windows keeps for itself"), _("choose another name")
    if files.is_too_long(relative):
        return _("a path of more than {} bytes").format(MOST_PATH), _("use fewer and shorter folders")
    if files.sort_of(relative) not in _TAKEN:
        return _("neither a record nor a photograph nor a drawing"), _("take it in by hand, if it is wanted")
    return None


def _clashing(named: Mapping[str, bytes], called: str) -> Iterator[Finding]:
    """Names that some disks hold to be one."""
    folded: dict[str, str] = {}
    for name in named:
        earlier = folded.setdefault(name.casefold(), name)
        if earlier != name:
            read = _("it differs from {} only in capitals").format(earlier)
            yield Finding(Place(f"{called}/{name}"), read, _("let the one be sent that is meant"))


def _about(data: bytes, path: str, wrong: list[Finding]) -> dict[str, Any]:
    """What packet.json says; what is wrong with it is added. It is read as records are: JSON is YAML."""
    try:
        node = yaml.read(data)
    except text.Refusal as refusal:
        wrong.append(Finding(Place(path, refusal.line, refusal.column), refusal.read, refusal.todo))
        return {}
    schema = schemas.of_kind("packet")
    values = typed.typed(node, schema.guide)
    if not schema.gate.is_valid(values):
        told = explain.explain(path, node, values, schema, Examples())
        wrong += [Finding(problem.place, problem.read, problem.todo) for problem in told]
        return {}
    assert isinstance(values, dict), "the schema asks for keys"
    return values
