"""What somebody holds: how likely each thing is, what it was told by, and what to look at next."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from spanbook.answers.signs.key import Likely, Look, Seen, Told
from spanbook.answers.signs.things import Thing
from spanbook.answers.signs_seen import SeenOn
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Assembly, PartRecord, Shown, Sign
from spanbook.wording.grammar import inside, listed, plural, share_of
from spanbook.wording.pieces import Pieces, Ref, filled, joined
from spanbook.wording.records import the_title

UNRECORDED = marked("Something that nobody has recorded")
ELSE = marked("something else")
AGREES = marked("As recorded: {}.")
AGAINST = marked("Recorded otherwise: {}.")
ALIKE = marked("No sign that is recorded parts {} from {}.")
LOOKS: Mapping[str, str] = {
    "outside": marked("seen from outside"),
    "measured": marked("to be measured"),
    "opened": marked("seen only when it is open"),
}
RECORDED = marked("recorded: {}")
MAY_BE = marked("What it may be by what was seen")
NO_SIGNS = marked(
    "No sign is recorded of anything here: nothing is asked, and what may be held is only listed."
)
MOST_ALIKE = 4
NEXT = marked("Look next:")
ENOUGH = marked("Nothing more that is recorded here would tell much.")


def thing_title(thing: Thing | None) -> str:
    """What a thing is called; a part by its number and name."""
    if thing is None:
        return _(UNRECORDED)
    of = thing.of
    return of.title if isinstance(of, Assembly) else f"{of.number} {of.name}".strip()


def share_words(likely: Likely) -> str:
    """How likely it is: nothing is said to be surer than signs that go together allow."""
    return share_of(likely.stated)


def likely_words(likely: Likely, seen: Seen) -> str:
    """`91 %: Metal-edge strainer. As recorded: how the lid is held. Recorded otherwise: …`"""
    told = [labelled(share_words(likely), f"{thing_title(likely.thing)}.")]
    if likely.agrees:
        told.append(_(AGREES).format(listed([small(sign.asks) for sign in likely.agrees])))
    if likely.against:
        told.append(_(AGAINST).format(listed([against_words(likely, one) for one in likely.against])))
    return " ".join(told)


def against_words(likely: Likely, sign: Sign) -> str:
    """A sign with what is recorded of the thing, where something else was seen."""
    shown = shown_words(likely.thing.shows[sign.id]) if likely.thing else ""
    return f"{small(sign.asks)} ({shown})"


def sign_choice(sign: Sign) -> str:
    """A sign as a form offers it, with its answers."""
    return labelled(sign.asks, ", ".join(sign.answers))


def shown_words(shown: Shown) -> str:
    """What is seen of a sign, with what may be seen instead."""
    return listed(shown.every, "or")


def look_words(look: Look) -> str:
    """`How the lid is held, seen from outside: four nuts, one long bolt, or something else?`"""
    sign = look.sign
    return _("{asks}, {look}: {answers}, or {other}?").format(
        asks=sign.asks, look=_(LOOKS[sign.look]), answers=", ".join(sign.answers), other=_(ELSE)
    )


def alike_words(told: Told) -> str:
    """What nothing recorded parts from the likeliest; empty where all is parted."""
    first = told.likely[0].thing
    if first is None or not told.alike:
        return ""
    named = [the_thing(one) for one in told.alike[:MOST_ALIKE]]
    more = len(told.alike) - len(named)
    others = listed([*named, *([plural(more, "another", "{} others")] if more else [])], "or")
    return _(ALIKE).format(the_thing(first), others)


def seen_otherwise_words(one: SeenOn) -> str:
    """What is recorded of the things that a sign was seen on; empty where that is no other."""
    if not one.otherwise:
        return ""
    shown = ((thing, one.recorded(thing)) for thing in one.things)
    told = [
        _("{shown} of {thing}").format(shown=shown_words(of), thing=_name(thing)) for thing, of in shown if of
    ]
    return _(RECORDED).format(listed(told))


def _name(thing: Assembly | PartRecord) -> str:
    return the_title(thing) if isinstance(thing, Assembly) else thing.number


def answer_line(answer: str, things: Iterable[Thing]) -> Pieces:
    """What an answer speaks for: `four nuts: Metal-edge strainer`."""
    return (f"{answer}{_(': ')}", *joined([_ref(one) for one in things], "or"))


def nobody_line(things: Iterable[Thing]) -> Pieces:
    """Of what a sign is not recorded."""
    return filled(_("not recorded of {things}"), things=joined([_ref(one) for one in things]))


def unparted_line(one: Thing, other: Thing) -> Pieces:
    """A pair that no sign tells apart."""
    return filled(_("No sign that is recorded parts {one} from {other}."), one=_ref(one), other=_ref(other))


def _ref(thing: Thing) -> Pieces:
    title = thing_title(thing)
    return (Ref(title, thing.of) if isinstance(thing.of, Assembly) else title,)


def the_thing(thing: Thing) -> str:
    """A thing inside a sentence."""
    return the_title(thing.of) if isinstance(thing.of, Assembly) else thing_title(thing)


def small(asks: str) -> str:
    """What a sign asks, inside a sentence."""
    return inside(asks)
