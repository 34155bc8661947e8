"""The report: what its tables have of every number, and the small twins that its script is made of."""

from __future__ import annotations

import io
import json
import random
import re
from base64 import b64decode
from typing import Any
from zipfile import ZIP_STORED, ZipFile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.readings import machine_of
from spanbook.ground.language import speaking
from spanbook.ground.zipped import unzip
from spanbook.reading.records import Series
from spanbook.reading.schemas import bundled
from spanbook.site.common import Site
from spanbook.site.report.tables import table, things
from tests.support.demo import shown
from tests.support.machines import random_world
from tests.support.node import in_node
from tests.support.scripts import script_text
from tests.support.tries import tries


def node(files: list[str], code: str) -> Any:
    """What a script says as JSON, with some of the page's own before it."""
    return in_node(f"{script_text(*files)}\n{code}")


def held(site: Site, series: Series) -> None:
    """Every issued number has at each place what the records have, from the works and later."""
    made = table(site, series)
    listed = things(site)
    numbers = [n for n in range(series.first, (series.last or series.first + 40) + 1) if n in series.issued]
    for path, title, _, _, runs, here in made["places"]:
        assert title == site.register.positions[path].title
        ids = [thing[0] for thing in listed.get(path, [])]
        assert ids == [one.id for one in site.register.at_position.get(path, ())]
        fitted = {one.assembly.id for one in site.register.fittings.get((series.id, path), ())}
        assert fitted <= {ids[i] for i in here}
        for number in numbers[:: max(1, len(numbers) // 60)]:
            (run,) = (r for r in runs if r[0] <= number and (r[1] is None or number <= r[1]))
            at = site.answers.fits.at(machine_of(site.register, series, number), path)
            works = {fit.assembly.id for fit in at.segment.fits}
            assert {ids[i] for i in run[2]} == works, (path, number)
            assert run[4] == (at.state if at.state in ("no-place", "other-plate") and not works else "")
            assert {ids[i] for i in run[3]} == {fit.assembly.id for fit in at.fits} - works, (path, number)


@pytest.mark.parametrize("seed", range(tries(20)))
def test_what_is_recorded_of_every_number_of_a_random_world(seed: int) -> None:
    answers = random_world(random.Random(seed))
    for series in answers.register.series.values():
        held(Site(answers), series)


@pytest.mark.slow
def test_what_is_recorded_in_the_demonstration() -> None:
    site = shown()
    for series in site.register.series.values():
        held(site, series)


NAMES = st.text(st.characters(codec="utf-8", exclude_characters="\0/\\"), min_size=1, max_size=40)
FILES = st.lists(st.tuples(NAMES, st.binary(max_size=300)), max_size=6, unique_by=lambda one: one[0])
ZIPPED = """
const when = new Date(2026, 10, 26, 17, 5, 30);
const filed = (files) => files.map(([name, bytes]) => [name, Uint8Array.from(bytes)]);
const whole = (pieces) => Buffer.concat(pieces.map((one) => Buffer.from(one))).toString("base64");
console.log(JSON.stringify(cases.map((files) => whole(SpanbookZip.of(filed(files), when)))));
"""


def test_an_archive_is_one_that_others_read() -> None:
    """Held to Python's own zipfile, to unzip's sums, and to what `spanbook receive` takes (APPNOTE 6.3)."""
    cases: list[list[tuple[str, bytes]]] = []

    @given(FILES)
    @settings(database=None)
    def gather(files: list[tuple[str, bytes]]) -> None:
        cases.append(files)

    gather()
    plain = [[[name, list(data)] for name, data in files] for files in cases]
    for files, made in zip(
        cases, node(["report/zip.js"], f"const cases = {json.dumps(plain)};{ZIPPED}"), strict=True
    ):
        data = b64decode(made)
        with ZipFile(io.BytesIO(data)) as archive:
            assert archive.testzip() is None
            assert [(one.filename, archive.read(one)) for one in archive.infolist()] == files
            assert {one.compress_type for one in archive.infolist()} <= {ZIP_STORED}
            assert {one.date_time for one in archive.infolist()} <= {(2026, 11, 26, 17, 5, 30)}
        assert list(unzip(data, lambda _: 1000).items()) == files


# Worked by hand. ISO 8601-2 (EDTF) writes what is about, and what lies between, as the records do.
DATES = {
    "2024-05-11": "2024-05-11",
    "2024-5-1": "2024-05-01",
    "11.5.2024": "2024-05-11",
    "11. May 2024": "2024-05-11",
    "11 May 2024": "2024-05-11",
    "May 11, 2024": "2024-05-11",
    "3rd of": "",
    "3rd Sept 2019": "2019-09-03",
    "sep 2019": "2019-09",
    "2019": "2019",
    "about 2019": "2019~",
    "ca. May 2019": "2019-05~",
    "2019 to 2021": "2019/2021",
    "May 2019 - 2021": "2019-05/2021",
    "2021 to 2019": "",
    "31 June 2019": "",
    "29 Feb 2024": "2024-02-29",
    "29 Feb 2023": "",
    "25/12/2019": "2019-12-25",
    "12/25/2019": "2019-12-25",
    "5/5/2019": "2019-05-05",
    "3/4/2019": "",  # the third of April or the fourth of March
    "Mayhem 2019": "",
    "m 2019": "",
    "yesterday": "",
    "": "",
}


def test_days_are_read_as_people_write_them() -> None:
    code = f"console.log(JSON.stringify({json.dumps(list(DATES))}.map(SpanbookDates.read)))"
    assert dict(zip(DATES, node(["report/dates.js"], code), strict=True)) == DATES


GERMAN_DATES = {
    "11. Mai 2024": "2024-05-11",
    "3. März 2019": "2019-03-03",
    "Okt. 2019": "2019-10",
    "Dezember 2019": "2019-12",
    "etwa 2019": "2019~",
    "Mai 2019 bis 2021": "2019-05/2021",
    "3 May 2019": "2019-05-03",
    "jeder 2019": "",
}


# A month only where no other begins so.
FRENCH_DATES = {
    "26 mai 2019": "2019-05-26",
    "1er août 2019": "2019-08-01",
    "aout 2019": "2019-08",
    "fév 2019": "2019-02",
    "jui 2019": "",
    "juil 2019": "2019-07",
    "2019 à 2021": "2019/2021",
    "environ 2019": "2019~",
    "3 March 2019": "2019-03-03",
}


@pytest.mark.parametrize(("language", "dates"), [("de", GERMAN_DATES), ("fr", FRENCH_DATES)])
def test_days_are_read_as_people_write_them_in_the_language_of_the_pages(
    language: str, dates: dict[str, str]
) -> None:
    code = f"console.log(JSON.stringify({json.dumps(list(dates))}.map(SpanbookDates.read)))"
    with speaking(language):
        assert dict(zip(dates, node(["report/dates.js"], code), strict=True)) == dates


def test_how_large_a_file_is_has_the_decimal_sign_of_the_language() -> None:
    code = "console.log(JSON.stringify([12345678, 1900, 2345678901].map(SpanbookAlong.words)))"
    assert node(["along/sizes.js"], code) == ["12.3 MB", "2 kB", "2345.7 MB"]
    with speaking("de"):
        assert node(["along/sizes.js"], code) == ["12,3 MB", "2 kB", "2345,7 MB"]


def test_what_a_day_reads_as_is_a_date_of_a_record() -> None:
    pattern = bundled("teardown")["properties"]["date"]["pattern"].removesuffix("(?!\\n)")
    assert all(re.fullmatch(pattern, date) for date in DATES.values() if date)


def test_a_day_still_to_come_is_none() -> None:
    still_to_come = {
        "2026-11-26": False,
        "2026-11-27": True,
        "2026-11": False,
        "2026-12": True,
        "2026": False,
        "2027~": True,
        "2019/2030": False,
    }
    future = "(date) => SpanbookDates.future(date, '2026-11-26')"
    code = f"console.log(JSON.stringify({json.dumps(list(still_to_come))}.map({future})))"
    assert dict(zip(still_to_come, node(["report/dates.js"], code), strict=True)) == still_to_come


def test_a_packet_as_text_is_the_same_packet() -> None:
    """RFC 4648 and 2045: base64 in lines of 76, which any share sheet and any message takes."""
    data = bytes(random.Random(1).randbytes(100_001))
    code = (
        f"const whole = Uint8Array.from({json.dumps(list(data))});"
        "const pieces = [whole.subarray(0, 40000), whole.subarray(40000)];"
        "console.log(JSON.stringify(SpanbookLeave.asText(pieces, 'A packet.')))"
    )
    head, _, text = node(["report/leave.js"], code).partition("\n\n")
    assert head == "A packet."
    assert max(map(len, text.splitlines())) == 76
    assert b64decode(text) == data


def test_the_address_at_the_forge_holds_all_that_is_said() -> None:
    code = (
        "console.log(JSON.stringify(['github', 'gitea', 'gitlab'].map((forge) => "
        "SpanbookLeave.issue(forge, 'https://forge.example/a/b', 'Found on HK 600', 'a & b'))))"
    )
    assert node(["report/leave.js"], code) == [
        "https://forge.example/a/b/issues/new?title=Found%20on%20HK%20600&body=a%20%26%20b",
        "https://forge.example/a/b/issues/new?title=Found%20on%20HK%20600&body=a%20%26%20b",
        "https://forge.example/a/b/-/issues/new?issue%5Btitle%5D=Found%20on%20HK%20600&issue%5Bdescription%5D=a%20%26%20b",
    ]


# A series as the page's tables have it: its form, the numbers that were issued, the machine.
A = ["xa", [[1, 40, 1, [["XA ", 1, "", "xa", ""]]]], [[1, 20], [30, 40]], "X One", "x", "engine"]
B = ["xb", [[1, 40, 1, [["X A", 1, "", "xa", ""]]]], [[1, 40]], "Y", "y", "engine"]
PLATES: dict[str, dict[str, Any]] = {
    "XA 7": {"state": "one", "shown": "XA 7"},
    "xa7": {"state": "one", "shown": "XA 7"},
    "XA 25": {"state": "never", "meant": []},
    "XA ?": {"state": "may-be", "count": 9},
    "XA I7": {"state": "unread", "meant": ["XA 17"]},
    "7 XA": {"state": "unread", "meant": ["XA 7"]},
    "XA 7 / XA 8": {"state": "two", "meant": ["XA 7", "XA 8"]},
    "nonsense": {"state": "unread", "meant": []},
}


def plates(series: list[Any], asked: list[tuple[str, str]]) -> list[dict[str, Any]]:
    """What each number reads as, of the series wanted, or of any where none is."""
    code = (
        f"const spanbookLoad = async () => [{{}}, {json.dumps(series)}, []];"
        f"Promise.all({json.dumps(asked)}.map(([text, wanted]) => SpanbookPlate.read(text, wanted)))"
        ".then((found) => console.log(JSON.stringify(found)));"
    )
    found: list[dict[str, Any]] = node(["finder/matching.js", "finder/serials.js", "forms/plate.js"], code)
    return found


def test_a_serial_number_is_told_for_what_it_reads_as() -> None:
    found = plates([A], [(text, "") for text in PLATES])
    told = {text: {key: one[key] for key in PLATES[text]} for text, one in zip(PLATES, found, strict=True)}
    assert told == PLATES


def test_a_number_of_two_series_is_one_once_its_series_is_said() -> None:
    both, said, gone = plates([A, B], [("xa7", ""), ("xa7", "xb"), ("xa7", "gone")])
    assert (both["state"], [one[0] for one in both["of"]]) == ("several", ["xa", "xb"])
    assert said["series"][0] == "xb"
    assert gone["state"] == "several"


def test_a_size_between_two_is_read_in_french() -> None:
    code = "console.log(JSON.stringify(SpanbookLengths.written('12 à 15 mm')))"
    with speaking("fr"):
        french = node(["finder/matching.js", "holding/lengths.js"], code)
    assert french == node(["finder/matching.js", "holding/lengths.js"], code.replace(" à ", " to "))
    assert french
