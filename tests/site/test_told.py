"""Templates and scripts in the language that is spoken."""

from __future__ import annotations

from gettext import NullTranslations

from markupsafe import Markup

from spanbook.ground.language import speaking
from spanbook.site.told import counted_in_template, in_script, in_template, messages


class Loud(NullTranslations):
    def gettext(self, message: str) -> str:
        return message.upper().replace("{MAKER}", "{maker}")

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return (msgid1 if n == 1 else msgid2).upper()


def test_a_templates_values_are_escaped_and_its_html_is_not() -> None:
    with speaking("de", Loud()):
        assert in_template("Built by <{maker}>.", maker="A & B") == "BUILT BY &lt;A &amp; B&gt;."
        assert in_template("Built by {maker}.", maker=Markup("<a>A</a>")) == "BUILT BY <a>A</a>."
        assert counted_in_template(2, "{} part", "{} parts") == "2 PARTS"


def test_a_scripts_messages_are_put_in_their_places() -> None:
    script = (
        'said(_("It says \\"no\\"."), _n("{} machine", "{} machines", found.count), "LANGUAGE-OF-THE-PAGES")'
    )
    assert list(messages(script)) == [('It says "no".',), ("{} machine", "{} machines")]
    assert in_script(script) == (
        'said("It says \\"no\\".", '
        'SpanbookPieces.counted({"one": "{} machine", "other": "{} machines"}, found.count), "en")'
    )
    with speaking("de", Loud()):
        assert '"IT SAYS \\"NO\\"."' in in_script(script)
        assert '{"one": "{} MACHINE", "other": "{} MACHINES"}' in in_script(script)
        assert in_script(script).endswith('"de")')


def test_the_pages_have_german_for_a_sentence_a_count_and_a_list() -> None:
    with speaking("de"):
        assert in_template("Built by {maker}.", maker="Wexmoor") == "Gebaut von: Wexmoor."
        assert in_template("{first} or {last}", first="A", last="B") == "A oder B"
        counted = [counted_in_template(count, "{} machines", "{} machines") for count in (1, 2)]
        assert counted == ["1 Maschine", "2 Maschinen"]
        assert in_script('told(_("It was never issued."))') == 'told("Sie wurde nie vergeben.")'
        assert '{"one": "Eine von {} Maschine.", "other": "Eine von {} Maschinen."}' in in_script(
            '_n("One of {} machines.", "One of {} machines.", count)'
        )
