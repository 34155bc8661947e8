"""What may lie among the records: pictures that they show, guides and their pictures, and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import PurePosixPath

import yaml

from spanbook.ground.images import MOST_BYTES, Refused
from spanbook.ground.language import gettext as _
from spanbook.ground.reserved import is_device
from spanbook.reading.files import FILE_CLASH, FILE_RESERVED, Sort, Tree, sort_of
from spanbook.reading.image_cache import inspect
from spanbook.reading.kinds import BY_FOLDER
from spanbook.reading.phrases import thousands
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.rules.photographs import refusal_words

MOST_GUIDE = 1_000_000  # bytes

NOT_TAKEN = Rule(
    "file-not-taken",
    Severity.ERROR,
    "What lies in the content folder could reach readers; a page or a script among the records would run.",
    bad="# file: content/news.html\n<script>alert(1)</script>\n",
    good="# file: content/news.md\n# News\n",
)
LEFT_BEHIND = Rule(
    "file-left-behind",
    Severity.ADVICE,
    "What an editor or the system left behind is passed over and never published; it only misleads people.",
    bad="# file: content/sources/book.yml~\nkind: source\n",
    good="# file: content/news.md\n# News\n",
)
GUIDE_TEXT = Rule(
    "guide-text",
    Severity.ERROR,
    "A guide is UTF-8 text of up to 1 MB; anything else stops the build.",
    bad="# file: content/news.md\n# News \udcff\n",
    good="# file: content/news.md\n# News\n",
)
GUIDE_PICTURE = Rule(
    "guide-picture-refused",
    Severity.ERROR,
    "Of a guide's pictures, as of photographs, only sound JPEG, PNG and WebP files of sane size are taken.",
    bad="# file: content/plate.png\n<svg onload='alert(1)'/>\n",
    good="# picture: content/plate.png\n",
)
GUIDE_HEAD = Rule(
    "guide-head",
    Severity.ERROR,
    "What stands above a guide's text steers the theme; hide without a list stops the build.",
    bad="# file: content/news.md\n---\nhide: 5\n---\n# News\n",
    good="# file: content/news.md\n---\ntitle: News\nhide: [toc]\n---\n# News\n",
)
RULES = (NOT_TAKEN, LEFT_BEHIND, GUIDE_TEXT, GUIDE_PICTURE, GUIDE_HEAD)
_DASHES = re.compile(r"-{3}[ \t]*\n(.*?\n)(?:\.{3}|-{3})[ \t]*\n", re.DOTALL)


def find(tree: Tree, shown_as: str) -> Iterator[Problem]:
    """Every problem with the files of a content folder that are neither records nor shown by them."""
    folded: dict[str, str] = {}
    for path in sorted(tree.others()):
        place = Place(f"{shown_as}/{path}")
        match sort_of(path):
            case Sort.LEFTOVER:
                todo = _("delete it; a line in .gitignore keeps such files out")
                yield Problem.of(
                    LEFT_BEHIND, Finding(place, _("what an editor or the system left behind"), todo)
                )
                continue
            case Sort.STRAY:
                yield Problem.of(NOT_TAKEN, Finding(place, *_stray(path)))
                continue
            case Sort.GUIDE:
                data = tree.read(path, MOST_GUIDE + 1)
                if wrong := _unreadable(data):
                    yield Problem.of(GUIDE_TEXT, Finding(place, *wrong))
                elif wrong := _steering(data.decode("utf-8-sig")):
                    yield Problem.of(GUIDE_HEAD, Finding(place, *wrong))
            case Sort.PICTURE:
                try:
                    inspect(tree.read(path, MOST_BYTES + 1))
                except Refused as refused:
                    yield Problem.of(GUIDE_PICTURE, Finding(place, *refusal_words(refused)))
        earlier = folded.setdefault(path.casefold(), path)
        if earlier != path:
            read = _("{path} differs from {earlier} only in capitals").format(path=path, earlier=earlier)
            yield Problem.of(FILE_CLASH, Finding(place, read, _("rename one of them")))
        if any(map(is_device, path.split("/"))):
            yield Problem.of(
                FILE_RESERVED, Finding(place, _("the name {}").format(path), _("choose another name"))
            )


def _stray(path: str) -> tuple[str, str]:
    """What was read and what to do, for a file that is none of those taken."""
    ending = PurePosixPath(path).suffix.lower().removeprefix(".")
    if not path.isprintable():
        return _("a name with characters that no eye sees"), _("choose another name")
    if ending == "md" and not path.endswith(".md"):
        return _("a guide that ends in {}").format(path[-3:]), _("end its name in small letters: .md")
    if ending == "md":
        todo = _("put it at the top or in a folder of its own, under another name")
        return _("a guide where the pages of records are"), todo
    if ending == "txt" and path.lower().endswith(".yml.txt"):
        todo = _("name it {}; editors hide the ending that they add").format(PurePosixPath(path).name[:-4])
        return _("a record that ends in .txt"), todo
    if ending in ("markdown", "mdown", "mkd", "mkdn", "txt"):
        todo = _("write guides in Markdown, with names that end in .md")
        return _("a file that ends in .{}").format(ending), todo
    if ending in ("jpg", "jpeg", "png", "webp") and path.split("/", 1)[0] in BY_FOLDER:
        todo = _("put what was seen in photographs/, and what a guide shows in a folder of its own")
        return _("a picture among the records"), todo
    if ending == "svg":
        todo = _("put it in drawings/ and name it in a record, or save it as .png for a guide")
        return _("a drawing where none is taken"), todo
    if ending in ("gif", "bmp", "tif", "tiff", "heic", "avif", "jpg", "jpeg", "png", "webp"):
        return _("a picture of another form"), _("save it as .jpg, .png or .webp, ending in small letters")
    if ending in ("css", "js", "html", "htm", "ico", "xml", "json"):
        todo = _(
            "take it out; what dresses the whole site belongs in the theme's custom_dir, beside mkdocs.yml"
        )
        return _("a file that ends in .{}").format(ending), todo
    return (
        _("a file of no sort that is taken"),
        _("take it out; records, photographs, drawings, .md guides and their pictures"),
    )


def _unreadable(data: bytes) -> tuple[str, str] | None:
    if len(data) > MOST_GUIDE:
        return _("more than {} bytes").format(thousands(MOST_GUIDE)), _("split it into several guides")
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as wrong:
        return _("byte {:#04x}, which is not UTF-8").format(data[wrong.start]), _("save the file as UTF-8")
    return None


def _steering(text: str) -> tuple[str, str] | None:
    """What a guide's head says that would stop the build, and what to do."""
    head = _head(text.replace("\r\n", "\n"))
    if head.get("hide") and not isinstance(head["hide"], list | str | dict):
        return _("hide without a list"), _("write what to hide in brackets: hide: [toc]")
    return None


def _head(text: str) -> dict[object, object]:
    """What stands between dashes above a text; empty where MkDocs takes it for text."""
    try:
        found = yaml.load(dashed[1], yaml.CSafeLoader) if (dashed := _DASHES.match(text)) else {}
    except (yaml.YAMLError, ValueError, RecursionError):
        return {}
    return found if isinstance(found, dict) else {}
