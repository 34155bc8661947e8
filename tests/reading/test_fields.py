"""What a form asks for comes from what the schema says a field means."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from spanbook.ground.language import ENGLISH, languages, speaking
from spanbook.reading.fields import Field, Sort, asked_of, fields_of
from spanbook.reading.kinds import KINDS, WITH_FORM
from spanbook.reading.roles import Role
from spanbook.reading.shapes import Shape, Slot, kinds_named, shape_of
from tests.support.rows import each_row

# What a field is picked from, by what it names.
INSIDE = {"position": "positions", "series": "series", "caution": "cautions", "sign": "signs"}


def pairs(fields: tuple[Field, ...], shape: Shape) -> Iterator[tuple[Field, Slot]]:
    """Each field of a form with the slot of the record that it writes."""
    slots = {slot.key: slot for slot in shape.slots}
    for field in fields:
        slot = slots[field.key]
        yield field, slot
        if slot.shape:
            yield from pairs(field.fields, slot.shape)


def expected(slot: Slot) -> str | None:
    match slot.role:
        case Role.NUMBER:
            return "parts/"
        case Role.OWNER:
            return "owners"
        case Role.SENSE:
            return "meanings"
        case Role.REFERENCE | Role.PLACE:
            return INSIDE.get(slot.to) or " ".join(f"{KINDS[k].folder}/" for k in kinds_named(slot.to))
        case _:
            return "licences" if slot.key == "licence" else None


@each_row("kind", WITH_FORM)
def test_what_is_named_is_picked_from_all_there_is(kind: str) -> None:
    found = list(pairs(fields_of(kind), shape_of(kind)))
    assert {slot.role for _, slot in found} >= ({Role.ID} if KINDS[kind].single else {Role.ID, Role.MARKDOWN})
    for field, slot in found:
        assert field.pick == expected(slot), field.key


@pytest.mark.parametrize(
    "typed", ["588", "588 to 612", "about 588 ± 12", "about 588 +- 12", "unknown", "open"]
)
def test_every_way_to_write_a_bound_is_typed_into_one_field(typed: str) -> None:
    (spans,) = (field for field in fields_of("assembly") if field.key == "serials")
    (last,) = (field for field in spans.fields if field.key == "last")
    assert last.pattern
    assert re.fullmatch(last.pattern, typed)
    assert not re.fullmatch(last.pattern, "about 588")


# Words of those who edit files, or of a program; what stands in braces is on a plate.
STRANGE = re.compile(
    r"ISO 8601|SPDX|Markdown|HTML|ASCII|\b[Ii]ds?\b|\.yml|^true\b|content/|\[\d|\brecord\b|\banchor", re.M
)


def every(fields: tuple[Field, ...]) -> Iterator[Field]:
    for field in fields:
        yield field
        yield from every(field.fields)


@each_row("kind", WITH_FORM)
def test_a_form_speaks_as_a_mechanic_does(kind: str) -> None:
    said = [asked_of(kind), *(text for f in every(fields_of(kind)) for text in (f.title, f.item, f.help))]
    assert [text for text in said if STRANGE.search(text)] == []


def test_a_field_asks_in_its_own_words_and_not_in_those_of_what_it_refers_to() -> None:
    """A caution's text says what to do; what any notes are asked for would be beside the point."""
    (cautions,) = fields_of("cautions")
    (text,) = (field for field in cautions.fields if field.key == "text")
    assert text.help.startswith("What to do, in our own words.")
    (title,) = (field for field in fields_of("assembly") if field.key == "title")
    assert title.help == "What the assembly is called."


def test_positions_inside_of_a_group_are_asked_for_like_the_group() -> None:
    (positions,) = fields_of("positions")
    (inside,) = (field for field in positions.fields if field.key == "positions")
    assert (inside.again, inside.fields, inside.item) == (True, (), positions.item)
    assert not any(
        field.again for kind in WITH_FORM if kind != "positions" for field in every(fields_of(kind))
    )


@each_row("kind", WITH_FORM)
def test_markdown_is_written_on_several_lines(kind: str) -> None:
    for field, slot in pairs(fields_of(kind), shape_of(kind)):
        assert (field.sort is Sort.NOTES) == (slot.role is Role.MARKDOWN), field.key


@each_row("kind", [kind for kind in WITH_FORM if not KINDS[kind].single])
def test_what_the_site_keeps_order_by_is_asked_last(kind: str) -> None:
    keys = [field.key for field in fields_of(kind)]
    assert keys[-2:] == ["id", "formerly"]


def test_an_anchor_is_asked_last_among_its_own() -> None:
    (serials,) = (field for field in fields_of("assembly") if field.key == "serials")
    assert [field.key for field in serials.fields[-2:]] == ["anchor", "formerly"]


def test_what_is_picked_in_the_schemas_of_today() -> None:
    """By hand, so that a role that is lost from a schema shows."""
    picks = {
        f"{kind}.{field.key}": field.pick
        for kind in ("assembly", "conversion", "teardown")
        for field in fields_of(kind)
        if field.pick
    }
    assert picks == {
        "assembly.position": "positions",
        "assembly.number": "parts/",
        "assembly.by": "owners",
        "assembly.now": "assemblies/ absences/",
        "assembly.cautions": "cautions",
        "conversion.position": "positions",
        "conversion.from": "assemblies/ absences/",
        "conversion.to": "assemblies/ absences/",
        "conversion.number": "parts/",
        "conversion.by": "owners",
        "conversion.cautions": "cautions",
        "teardown.series": "series",
        "teardown.licence": "licences",
    }


def test_an_example_in_words_is_in_the_language_spoken_and_no_other_example_is() -> None:
    def examples(fields: tuple[Field, ...]) -> Iterator[Field]:
        for field in fields:
            yield field
            yield from examples(field.fields)

    for language in languages():
        if language == ENGLISH:
            continue
        for kind in KINDS:
            english = [*examples(fields_of(kind))]
            with speaking(language):
                told = [*examples(fields_of(kind))]
            assert len(told) == len(english)
            for one, other in zip(english, told, strict=True):
                if not one.worded:
                    assert other.example == one.example, (kind, one.key)
                elif one.key in ("note", "tell", "do", "why", "notes", "seen"):
                    assert other.example != one.example, (kind, one.key, language)
                if other.sort in (Sort.TEXT, Sort.TEXTS):
                    assert re.fullmatch(other.pattern or ".*", other.example), (kind, other.key)
