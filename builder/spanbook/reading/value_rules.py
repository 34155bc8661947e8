"""The rules of what a record's schema asks for: its keys, and what they hold."""

from __future__ import annotations

from spanbook.reading.problems import Rule, Severity

_HEAD = "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\n"
_GOOD = _HEAD + "title: A letter\nclass: correspondence\n"
_ACT = "# file: content/supersessions/pad.yml\nkind: supersession\nid: pad\nold: [{number: P1}]\n"
_HEAD_PART = "# file: content/parts/pack.yml\nkind: part\nid: pack\n"
_GOOD_PART = _HEAD_PART + 'number: "X-1"\nname: Pack\nevidence:\n- {source: book}\n'

KEY_UNKNOWN = Rule(
    "key-unknown",
    Severity.ERROR,
    "A key that nobody reads is a statement lost; most are misspelt.",
    bad=_GOOD + "yaer: 1934\n",
    good=_GOOD + "year: 1934\n",
)
KEY_MISSING = Rule(
    "key-missing",
    Severity.ERROR,
    "Without it the record does not say what a record of its kind must say.",
    bad=_HEAD + "class: correspondence\n",
    good=_GOOD,
)
TEXT_UNQUOTED = Rule(
    "text-unquoted",
    Severity.ERROR,
    "Inside braces a comma ends a value, and anywhere a colon and a space end a key: such text is quoted.",
    bad=_GOOD_PART.replace("{source: book}", "{source: book, at: p. 31, fig. 12}"),
    good=_GOOD_PART.replace("{source: book}", '{source: book, at: "p. 31, fig. 12"}'),
)
VALUE_NOT_A_NUMBER = Rule(
    "value-not-a-number",
    Severity.ERROR,
    "Where a whole number is wanted, nothing is guessed from words or other notations.",
    bad=_ACT + "new: [{number: P2, quantity: two}]\n",
    good=_ACT + "new: [{number: P2, quantity: 2}]\n",
)
VALUE_NOT_A_CHOICE = Rule(
    "value-not-a-choice",
    Severity.ERROR,
    "Some values are a choice of a few words, so that pages can group and count by them.",
    bad=_HEAD + "title: A letter\nclass: letter\n",
    good=_GOOD,
)
VALUE_FORM = Rule(
    "value-form",
    Severity.ERROR,
    "Ids, dates, stamps and the like have a form, so that they can be looked up and put in order.",
    bad=_GOOD + "formerly: [Letter A]\n",
    good=_GOOD + "formerly: [letter-one]\n",
)
VALUE_KIND = Rule(
    "value-kind",
    Severity.ERROR,
    "A list stands where a list is wanted, a group of keys where those are, and text where text is.",
    bad=_GOOD + "formerly: letter-one\n",
    good=_GOOD + "formerly: [letter-one]\n",
)
VALUE_AMOUNT = Rule(
    "value-amount",
    Severity.ERROR,
    "Too many, too few, too long, too large or twice the same: nobody meant it so.",
    bad=_GOOD + "year: 19344\n",
    good=_GOOD + "year: 1934\n",
)
VALUE_ONE_OF = Rule(
    "value-one-of",
    Severity.ERROR,
    "Some entries name either one thing or another, never both and never neither.",
    bad=_GOOD_PART.replace("{source: book}", "{source: book, teardown: x-5-merrin}"),
    good=_GOOD_PART,
)
RULES = (
    KEY_UNKNOWN,
    KEY_MISSING,
    TEXT_UNQUOTED,
    VALUE_NOT_A_NUMBER,
    VALUE_NOT_A_CHOICE,
    VALUE_FORM,
    VALUE_KIND,
    VALUE_AMOUNT,
    VALUE_ONE_OF,
)
