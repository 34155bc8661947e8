"""A workbook's parts out of its zip, by our own limits: no program, picture or link to elsewhere among them.

What comes out is a zip again, of nothing but the parts that cells are made from, each of its true size. So
whatever reads it next meets no bomb, no name that climbs and no declared size that is a lie.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib

from spanbook.reading.sheets.cells import NotASheet

_ENTRIES = 5_000
_WHOLE = 250_000_000  # bytes of all parts that are taken
_XLSX = re.compile(
    r"\[Content_Types\]\.xml|_rels/\.rels|xl/(?:workbook|sharedStrings|styles)\.xml|xl/_rels/workbook\.xml\.rels"
    r"|xl/theme/[\w.-]+\.xml|xl/worksheets/[\w.-]+\.xml"
)
_ODS = re.compile(r"mimetype|META-INF/manifest\.xml|(?:content|styles|meta|settings)\.xml")
_MACROS = re.compile(r".*vbaProject\.bin|Basic/.*|Scripts/.*", re.IGNORECASE)
# A document type is where a small file names itself large.
_DOCTYPE = re.compile(rb"<!\s*(?:DOCTYPE|ENTITY)|<\0!\0D\0O\0C\0T|\0<\0!\0D\0O\0C\0T", re.IGNORECASE)


def unpacked(data: bytes) -> tuple[str, bytes, bool]:
    """Which sort of workbook it is (xlsx or ods), its parts in a zip of their own, and whether it had macros.

    Raises NotASheet.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            return _taken(packed)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError) as why:
        raise NotASheet(
            f"it is no sound workbook ({why}); open it in its program and save it again"
        ) from None


def _taken(packed: zipfile.ZipFile) -> tuple[str, bytes, bool]:
    entries = packed.infolist()
    names = [entry.filename for entry in entries]
    if len(names) > _ENTRIES or len(set(names)) < len(names):
        raise NotASheet("it holds more files than a workbook has, or two of one name; save its sheet as CSV")
    sort, wanted = ("xlsx", _XLSX) if "xl/workbook.xml" in names else ("ods", _ODS)
    if sort == "ods" and "content.xml" not in names:
        raise NotASheet("it is a zip and no workbook; name an XLSX, ODS, XLS or CSV file")
    taken = [entry for entry in entries if wanted.fullmatch(entry.filename)]
    if sum(entry.file_size for entry in taken) > _WHOLE:
        raise NotASheet(f"unpacked it is over {_WHOLE // 1_000_000} MB; save the sheet alone, as CSV")
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_STORED) as clean:
        for entry in taken:
            part = packed.read(entry)  # never more than the size that was added up
            if _DOCTYPE.search(part):
                raise NotASheet(
                    f"{entry.filename} has a document type, which no workbook needs; save it again"
                )
            clean.writestr(zipfile.ZipInfo(entry.filename), part)
    return sort, made.getvalue(), any(map(_MACROS.fullmatch, names))
