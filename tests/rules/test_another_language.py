"""What is wrong with records is told in the language that is spoken when they are checked."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from spanbook.ground.language import speaking
from spanbook.outputs.problems.sarif import as_sarif
from spanbook.rules import RULES
from spanbook.rules.checking import check_folder
from spanbook.wording.rules import examples, explained, explanation, family_title, reason, severities
from tests.support import worlds
from tests.support.rows import each_row


@each_row(
    ("name", "read", "todo"),
    [
        ("reference-unknown", "Quelle boook gibt es nicht", "gemeint ist wohl book?"),
        (
            "standard-excluded",
            "0.370 in, 1,45 mm über dem, was 5/16 BSW zulässt",
            "das Maß, die Einheit oder die Norm in Ordnung bringen",
        ),
        ("step-circle", "Schritte, die aufeinander warten: gasket nach bolt nach gasket", "einen streichen"),
        ("span-hole", "für XA 21 bis XA 30 ist nichts eingetragen, zwischen lid und hat", "wenn es bekannt"),
        (
            "unit-years-backwards",
            "XA 80 nach XA 7: ab 1935, und die davor ab 1940",
            "die Nummern in die Reihenfolge bringen, in der es sie trug, oder die Jahre berichtigen",
        ),
        (
            "number-unclear",
            "P-1, was mehreres bezeichnet hat, und nichts hier sagt, welches",
            "means ergänzen",
        ),
        ("drawing-missing", "die Zeichnung lid.svg, die nicht in content/drawings/ liegt", "die Datei dort"),
        ("key-missing", "title fehlt", "title ergänzen, zum Beispiel title: The book"),
        ("value-amount", "gelesen: 19344", "es ist eine Zahl von 2200 oder weniger"),
        ("value-one-of", "es nennt source und teardown", "nur eines nennen: source oder teardown"),
        ("file-clash", "sources/letter-a.yml unterscheidet sich von sources/Letter-A.yml nur", "eine von"),
        ("text-hidden", "ein unsichtbares Zeichen, U+202E (right-to-left override)", "löschen oder in"),
        ("yaml-broken", '" öffnet hier und wird nicht geschlossen', 'mit " schließen, oder Text mit'),
        ("photograph-refused", "es ist kein JPEG, PNG oder WebP", "in einem Bildprogramm neu als JPEG"),
    ],
)
def test_a_finding_is_told_in_german(name: str, read: str, todo: str, tmp_path: Path) -> None:
    with speaking("de"):
        problems = worlds.check(tmp_path, RULES[name].bad).problems
    found = next(problem for problem in problems if problem.name == name)
    assert found.read.startswith(read)
    assert found.todo.startswith(todo)


def test_a_folder_that_is_none_is_refused_in_german(tmp_path: Path) -> None:
    with speaking("de"), pytest.raises(FileNotFoundError, match="den nennen, in dem content/ liegt"):
        check_folder(tmp_path / "none")


def test_the_reason_of_every_rule_has_german_words() -> None:
    with speaking("de"):
        assert [name for name, rule in RULES.items() if reason(rule) == rule.reason] == []


def test_a_rule_is_explained_in_german_with_its_examples_as_they_are() -> None:
    rule = RULES["span-reversed"]
    with speaking("de"):
        assert explained(rule) == (
            "span-reversed (Fehler): Eine Spanne, die vor ihrem Anfang endet, umfasst nichts; meist stehen "
            "zwei Nummern in der falschen Reihenfolge."
        )
        assert family_title("pairs_and_sets") == "Links und rechts, und Sätze"
        assert list(severities().values())[2] == "ist einen Blick wert und wird nie abgelehnt"
        told = explanation(rule)
    bad, good = ("\n".join(f"    {line.text}" for line in lines) for lines in examples(rule))
    _, _, refused, shown, accepted, sound = told.split("\n\n")
    assert (refused, shown, accepted, sound) == ("Abgelehnt:", bad, "Angenommen:", good)


def test_sarif_has_the_same_ids_and_other_messages(tmp_path: Path) -> None:
    def written() -> dict[str, object]:
        run = json.loads(as_sarif(worlds.check(tmp_path, RULES["span-reversed"].bad).problems, 1))["runs"][0]
        rule, result = run["tool"]["driver"]["rules"][0], run["results"][0]
        return {"ids": (rule["id"], result["ruleId"], result["level"]), "said": result["message"]["text"]}

    english = written()
    with speaking("de"):
        german = written()
    assert english["ids"] == german["ids"] == ("span-reversed", "span-reversed", "error")
    assert german["said"] == (
        "eine Spanne, die von 20 zurück zu 10 läuft; die kleinere Nummer zuerst schreiben"
    )
    assert english["said"] == "a span that runs from 20 back to 10; put the lower number first"
