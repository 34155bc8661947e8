"""What is told of signs, in another language than English."""

from __future__ import annotations

from spanbook.answers.signs.key import Look
from spanbook.ground.language import speaking
from spanbook.wording.pieces import plain
from spanbook.wording.signs import answer_line, look_words, nobody_line, unparted_line
from tests.answers.test_signs import key_of, thing


def test_signs_are_told_in_another_language() -> None:
    key = key_of(thing("a", {"lid": ["nuts"]}), thing("b", {"lid": ["nuts"]}), thing("c", {}))
    a, b, c = key.things
    with speaking("de"):
        assert look_words(Look(key.signs[0], 1.0)) == (
            "The lid, von außen zu sehen: nuts, bolt, clamp oder etwas anderes?"
        )
        assert plain(unparted_line(a, b)) == "Kein eingetragenes Merkmal trennt a von b."
        assert plain(nobody_line([c])) == "nicht eingetragen bei c"
        assert plain(answer_line("nuts", [a, b])) == "nuts: a oder b"
