"""Templates as ours are compiled: escaped, told in the language that is spoken, and strict."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from jinja2 import StrictUndefined, UndefinedError
from markupsafe import Markup

from spanbook.ground.language import catalogues, speaking
from spanbook.site.compiled import CompiledEnvironment, put_out
from spanbook.site.html import environment
from spanbook.site.told import in_template
from tests.site.test_told import Loud
from tests.support.rows import each_row

MACRO = "{% macro pair(first, second='two') %}{{ first }}, {{ second }}{% endmacro %}"


@dataclass(frozen=True, slots=True)
class View:
    name: object


def made(source: str, name: object = "", **values: object) -> str:
    environment = CompiledEnvironment(autoescape=True, undefined=StrictUndefined)
    environment.globals["_"] = in_template
    return environment.from_string(source).render(view=View(name), **values)


@each_row(
    ("value", "told"),
    [
        ("plain", "plain"),
        ('<a title="x">\'&', "&lt;a title=&#34;x&#34;&gt;&#39;&amp;"),
        (Markup("<b>x</b>"), "<b>x</b>"),
        (12, "12"),
        (1.5, "1.5"),
        (None, "None"),
        (True, "True"),
        (["<"], "[&#39;&lt;&#39;]"),
    ],
)
def test_what_is_put_out_is_escaped_unless_it_is_html(value: object, told: str) -> None:
    assert put_out(value) == told
    assert made("{{ view.name }}", value) == told


def test_what_a_macro_makes_is_html_and_what_it_is_given_is_not() -> None:
    assert made(MACRO + "{{ pair(view.name) }}; {{ pair('a', second=view.name) }}", "<") == (
        "&lt;, two; a, &lt;"
    )
    assert made(MACRO + "{{ pair(*view.name) }}", ("x", "y")) == "x, y"
    with pytest.raises(UndefinedError, match="'first' was not provided"):
        made(MACRO + "{{ pair() }}")
    with pytest.raises(ValueError, match="takes first, second; it was given third"):
        made(MACRO + "{{ pair('a', third=1) }}")


def test_what_is_not_there_is_an_error() -> None:
    with pytest.raises(AttributeError, match="gone"):
        made("{{ view.gone }}")
    with pytest.raises(UndefinedError, match="nobody"):
        made("{{ nobody }}")
    with pytest.raises(UndefinedError, match="nobody"):
        made("{{ nobody.name }}")
    with pytest.raises(match="calls so"):
        made("{{ view.name(**{}) }}")


def test_messages_are_told_when_a_template_is_read_and_their_values_are_escaped() -> None:
    sentence = '{{ _("Built by <{maker}>.", maker=view.name) }}'
    assert made(sentence, "A & B") == "Built by &lt;A &amp; B&gt;."
    assert made(sentence, Markup("<a>A</a>")) == "Built by &lt;<a>A</a>&gt;."
    assert made('{% set said %}{{ _("It’s") }}{% endset %}{{ said }}') == "It’s"
    with speaking("de", Loud()):
        assert made(sentence, "A & B") == "BUILT BY &lt;A &amp; B&gt;."
        assert made("{{ _(view.name) }}", "loud") == "LOUD"
        assert made('{{ [_("<a>"), _("{maker} b", maker=view.name)]|join }}', "<") == "&lt;A&gt;&lt; B"


def test_a_template_is_read_anew_in_another_language() -> None:
    def chart_key() -> str:
        macros = environment(catalogues()).get_template("views/macros.html").module
        return str(macros.chart_key([]))  # type: ignore[attr-defined]

    assert "nobody knows yet" in chart_key()
    with speaking("de"):
        assert "nobody knows yet" not in chart_key()
    assert "nobody knows yet" in chart_key()
