"""From plain values that fit their schema to records."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from spanbook.ground.serials import Stamp
from spanbook.ground.years import YearTable
from spanbook.reading import records as r

Values = Mapping[str, Any]
T = TypeVar("T")


def record(kind: str, values: Values, origin: r.Origin) -> r.Record:
    """The record for values that passed the schema of their kind."""
    return _MAKERS[kind](values, origin)


def _shared(values: Values, origin: r.Origin, title: str) -> dict[str, Any]:
    return {
        "kind": values["kind"],
        "id": values.get("id", values["kind"]),
        "origin": origin,
        "formerly": tuple(values.get("formerly", ())),
        "title": title,
        "notes": values.get("notes"),
    }


def _evidence(values: Values) -> tuple[r.Evidence, ...]:
    keys = ("source", "teardown", "at", "note")
    return tuple(r.Evidence(*(e.get(key) for key in keys)) for e in values.get("evidence", ()))


def _end(value: Any) -> r.End:
    return (value[0], value[1]) if isinstance(value, list) else value


def _span(values: Values) -> r.SeriesSpan:
    return r.SeriesSpan(values["series"], _end(values["first"]), _end(values["last"]))


def _fitted(values: Values) -> r.FittedSpan:
    return r.FittedSpan(
        series=values["series"],
        first=_end(values["first"]),
        last=_end(values["last"]),
        fitted=values.get("fitted", "factory"),
        option=values.get("option", False),
        anchor=values.get("anchor"),
        evidence=_evidence(values),
        note=values.get("note"),
    )


def _use(values: Values) -> r.PartUse:
    return r.PartUse(
        number=values["number"],
        by=values.get("by"),
        name=values.get("name"),
        quantity=values.get("quantity", 1),
        evidence=_evidence(values),
        note=values.get("note"),
    )


def _each(values: Values, key: str, make: Callable[[Values], T]) -> tuple[T, ...]:
    return tuple(make(value) for value in values.get(key, ()))


def _mark(values: Values) -> r.Mark:
    return r.Mark(values["text"], values.get("how"), values.get("where"))


def _photograph(values: Values) -> r.Photograph:
    return r.Photograph(values["file"], values["shows"], values.get("licence"))


def _size(values: Values) -> r.Size:
    return r.Size(values["what"], values.get("number"), values["value"], values["unit"])


def _machine(values: Values, origin: r.Origin) -> r.Machine:
    def series(v: Values) -> r.Series:
        return r.Series(
            id=v["id"],
            machine=values["id"],
            title=v.get("title"),
            stamp=Stamp.of(v["stamped"]),
            plate=v["plate"],
            where=v.get("where"),
            first=v["first"],
            last=None if v["last"] == "unknown" else v["last"],
            years=YearTable.of({int(year): first for year, first in v.get("years", {}).items()}),
            skipped_as_typed=tuple((first, last) for first, last in v.get("skipped", ())),
            evidence=_evidence(v),
            notes=v.get("notes"),
        )

    return r.Machine(
        **_shared(values, origin, values["title"]),
        maker=values["maker"],
        positions=tuple(values.get("positions", ())),
        series=_each(values, "series", series),
    )


def _assembly(values: Values, origin: r.Origin) -> r.Assembly:
    return r.Assembly(
        **_shared(values, origin, values["title"]),
        position=values["position"],
        number=values.get("number"),
        by=values.get("by"),
        serials=_each(values, "serials", _fitted),
        tell=tuple(values.get("tell", ())),
        parts=_each(values, "parts", _use),
        cautions=tuple(values.get("cautions", ())),
    )


def _part(values: Values, origin: r.Origin) -> r.PartRecord:
    return r.PartRecord(
        **_shared(values, origin, values["name"]),
        number=values["number"],
        by=values.get("by"),
        marks=_each(values, "marks", _mark),
        tell=tuple(values.get("tell", ())),
        material=values.get("material"),
        sizes=_each(values, "sizes", _size),
        supplied=values.get("supplied", "unknown"),
        supplier=values.get("supplier"),
        cautions=tuple(values.get("cautions", ())),
        evidence=_evidence(values),
    )


def _supersession(values: Values, origin: r.Origin) -> r.Supersession:
    def need(v: Values) -> r.ActNeed:
        return r.ActNeed(_use(v) if "number" in v else None, v.get("conversion"), v.get("why"))

    return r.Supersession(
        **_shared(values, origin, ""),
        old=_each(values, "old", _use),
        new=_each(values, "new", _use),
        interchange=values.get("interchange", "new-for-old"),
        serials=_each(values, "serials", _span),
        needs=_each(values, "needs", need),
        year=values.get("year"),
        evidence=_evidence(values),
    )


def _conversion(values: Values, origin: r.Origin) -> r.Conversion:
    def need(v: Values) -> r.PositionNeed:
        return r.PositionNeed(v["position"], tuple(v["assemblies"]), v["why"])

    return r.Conversion(
        **_shared(values, origin, values["title"]),
        number=values.get("number"),
        by=values.get("by"),
        position=values["position"],
        start=tuple(values["from"]),
        to=values["to"],
        serials=_each(values, "serials", _span),
        adds=_each(values, "adds", _use),
        removes=_each(values, "removes", _use),
        needs=_each(values, "needs", need),
        year=values.get("year"),
        cautions=tuple(values.get("cautions", ())),
        evidence=_evidence(values),
    )


def _source(values: Values, origin: r.Origin) -> r.Source:
    return r.Source(
        **_shared(values, origin, values["title"]),
        sort=values["class"],
        form=values.get("form"),
        edition=values.get("edition"),
        year=values.get("year"),
        copy=values.get("copy"),
        url=values.get("url"),
        licence=values.get("licence"),
    )


def _teardown(values: Values, origin: r.Origin) -> r.Teardown:
    def find(v: Values) -> r.Find:
        return r.Find(
            position=v["position"],
            assembly=v.get("assembly"),
            condition=v.get("condition", values["condition"]),
            parts=_each(v, "parts", _use),
            marks=_each(v, "marks", _mark),
            measurements=_each(v, "measurements", _size),
            photographs=_each(v, "photographs", _photograph),
            note=v.get("note"),
        )

    return r.Teardown(
        **_shared(values, origin, f"{values['serial']}, {values['date']}"),
        date=values["date"],
        seen_by=values["seen-by"],
        serial=values["serial"],
        series=values.get("series"),
        condition=values["condition"],
        found=_each(values, "found", find),
        licence=values.get("licence"),
    )


def _positions(values: Values, origin: r.Origin) -> r.Positions:
    def entry(v: Values) -> r.PositionEntry:
        return r.PositionEntry(v["id"], v["title"], v.get("where"), _each(v, "positions", entry))

    return r.Positions(**_shared(values, origin, "Positions"), positions=_each(values, "positions", entry))


def _cautions(values: Values, origin: r.Origin) -> r.Cautions:
    def caution(v: Values) -> r.Caution:
        return r.Caution(
            id=v["id"],
            title=v["title"],
            text=v["text"],
            words=tuple(v.get("words", ())),
            positions=tuple(v.get("positions", ())),
            follows=_each(v, "follows", lambda f: r.Publication(f["body"], f["title"])),
        )

    return r.Cautions(**_shared(values, origin, "Cautions"), cautions=_each(values, "cautions", caution))


def _glossary(values: Values, origin: r.Origin) -> r.Glossary:
    terms = _each(values, "terms", lambda v: r.Term(v["id"], v["term"], v["meaning"]))
    return r.Glossary(**_shared(values, origin, "Glossary"), terms=terms)


_MAKERS: Mapping[str, Callable[[Values, r.Origin], r.Record]] = {
    "machine": _machine,
    "assembly": _assembly,
    "part": _part,
    "supersession": _supersession,
    "conversion": _conversion,
    "source": _source,
    "teardown": _teardown,
    "positions": _positions,
    "cautions": _cautions,
    "glossary": _glossary,
}
