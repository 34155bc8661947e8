"""A workbook's parts out of its zip: no program, picture or link to elsewhere among them.

What comes out is a zip again, of nothing but the parts that cells are made from, each of its true size. So
whatever reads it next meets no bomb, no name that climbs and no declared size that is a lie.
"""

from __future__ import annotations

import io
import re
import zipfile

from spanbook.ground.language import gettext as _
from spanbook.ground.zipped import MOST_BYTES, Flaw, Refused, unzip
from spanbook.reading.sheets.cells import NotASheet

_XLSX = re.compile(
    r"\[Content_Types\]\.xml|_rels/\.rels|xl/(?:workbook|sharedStrings|styles)\.xml|xl/_rels/workbook\.xml\.rels"
    r"|xl/theme/[\w.-]+\.xml|xl/worksheets/[\w.-]+\.xml"
)
_ODS = re.compile(r"mimetype|META-INF/manifest\.xml|(?:content|styles|meta|settings)\.xml")
_MACROS = re.compile(r".*vbaProject\.bin|Basic/.*|Scripts/.*", re.IGNORECASE)
# A document type is where a small file names itself large.
_DOCTYPE = re.compile(rb"<!\s*(?:DOCTYPE|ENTITY)|<\0!\0D\0O\0C\0T|\0<\0!\0D\0O\0C\0T", re.IGNORECASE)
_LARGE = (Flaw.TOO_MANY_BYTES, Flaw.TOO_MANY_FILES, Flaw.TOO_MUCH_INSIDE)


def unpacked(data: bytes) -> tuple[str, bytes, bool]:
    """Which sort of workbook it is (xlsx or ods), its parts in a zip of their own, and whether it had macros.

    Raises NotASheet.
    """
    try:
        parts = unzip(data, lambda name: MOST_BYTES if _XLSX.fullmatch(name) or _ODS.fullmatch(name) else 0)
    except Refused as why:
        raise NotASheet(_refusal(why)) from None
    sort, wanted = ("xlsx", _XLSX) if "xl/workbook.xml" in parts else ("ods", _ODS)
    if sort == "ods" and "content.xml" not in parts:
        raise NotASheet(_("it is a zip and no workbook; name an XLSX, ODS, XLS or CSV file"))
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_STORED) as clean:
        for name, part in parts.items():
            if not wanted.fullmatch(name):
                continue
            if _DOCTYPE.search(part):
                raise NotASheet(
                    _("{} has a document type, which no workbook needs; save it again").format(name)
                )
            clean.writestr(zipfile.ZipInfo(name), part)
    return sort, made.getvalue(), any(map(_MACROS.fullmatch, parts))


def _refusal(why: Refused) -> str:
    flaws = {wrong.flaw for wrong in why.wrong}
    if Flaw.LOCKED in flaws:
        return _("it is locked with a password; save it without")
    if not flaws.isdisjoint(_LARGE):
        return _("it is over {} MB unpacked; save the sheet alone, as CSV").format(MOST_BYTES // 1_000_000)
    return _("it is no sound workbook; open it in its program and save it again")
