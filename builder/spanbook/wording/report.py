"""The report: what somebody found on one machine, as its page asks for it and hands it over."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.wording.grammar import capital
from spanbook.wording.pages import PageWords
from spanbook.wording.records import CONDITIONS

REPORT = PageWords(
    marked("Tell what you found"),
    marked(
        "What you saw on one machine: tap it place by place, take pictures, hand it over. No account "
        "is needed."
    ),
)
_LABELS = {
    "without": marked(
        "This page needs a script. Without one, write to those who keep the records; the forms are listed at"
    ),
    "serial": marked("Serial number, as stamped"),
    "serial-help": marked("With its letters; ? for a digit that cannot be read."),
    "looks": marked("How far is the machine as it left the works?"),
    "places": marked("What did you find?"),
    "places-help": marked("Only where you looked. Everything else stays as it is."),
    "who": marked("Your name or handle, as it will stand on the site"),
    "when": marked("Day"),
    "roughly": marked("I only know about when"),
    "exactly": marked("I know the day"),
    "rough-help": marked("May 2019, about 2019, 2019 to 2021."),
    "note": marked("A word to those who keep the records (not published)"),
    "hand-over": marked("Hand it over"),
    "published": marked(
        "What you tell and your pictures will be published with the records of this site, under the "
        "same terms. The pictures were made smaller here, without the place and the camera."
    ),
    "share": marked("Share"),
    "mail": marked("By mail"),
    "forge": marked("Where the records are kept"),
    "save": marked("Save it here"),
    "others": marked("On this device"),
    "new": marked("Begin another"),
    "along": marked("Goes along"),
}
# `{}` stands for what is named.
_WORDS = {
    # the serial number
    "reads": marked("{}: {}."),
    "unread": marked("{} reads as no serial number known here."),
    "never": marked("{} was never issued."),
    "several": marked("{} may be of several series. Which?"),
    "two": marked("Give one of the numbers. Which?"),
    "meant": marked("Did you mean:"),
    "mine": marked("My machine:"),
    "unloaded": marked(
        "The records could not be loaded. What you fill in is kept; try again when there is a line."
    ),
    "try": marked("Try again"),
    # a place
    "as-recorded": marked("As recorded"),
    "as-recorded-this": marked("As recorded: {}"),
    "one-of": marked("Recorded is one of these:"),
    "blank": marked("Nothing is recorded of this number here."),
    "no-place": marked("By the records it left the works without such a place."),
    "other-plate": marked("What is recorded here goes by the number of another plate."),
    "else": marked("Something else"),
    "what": marked("Say what it is"),
    "this": marked("This: {}"),
    "none": marked("None of these"),
    "unsure": marked("I cannot tell which of these"),
    "unsure-short": marked("One of several, I cannot tell which"),
    "none-short": marked("Something that nobody has recorded"),
    "others": marked("Seen on other machines"),
    "key": marked("Help me find out"),
    "camera": marked("Take a picture"),
    "device": marked("Choose a picture"),
    "shows": marked("What it shows"),
    "shown": marked("{} of {}: {}"),
    "drop": marked("Take it away"),
    "more": marked("Say more"),
    "number": marked("A number on it"),
    "note": marked("What there is to say of it"),
    "note-none": marked("What is it, in a few words?"),
    "condition": marked("How this place looks, if not as the machine"),
    "same": marked("as the machine"),
    "known": marked("{}: {}"),
    "unknown": marked("{} is not known here. That is worth telling; look once more at each character."),
    # pictures
    "unreadable": marked("{} could not be read as a picture. Save it as a JPEG and take it again."),
    "kept": marked(
        "This browser lets no page make a picture smaller. Allow it here, or take another browser."
    ),
    "busy": marked("Making the picture smaller …"),
    "lost": marked("A picture is no longer on this device. Take it again, or take its line away."),
    # keeping
    "full": marked(
        "No room is left on this device: what you change now is lost with the page. Hand it over now."
    ),
    "forbidden": marked("This browser keeps nothing for this site: what you fill in is lost with the page."),
    "unshelved": marked("This browser does not keep the pictures: hand them over before you leave the page."),
    "elsewhere": marked("This report is open in another tab as well: what is typed last is what is kept."),
    # what lacks
    "lacks": marked("Still needed:"),
    "lacks-serial": marked("the serial number"),
    "lacks-series": marked("of which series it is"),
    "lacks-condition": marked("how far the machine is as it left the works"),
    "lacks-places": marked("what you found, at one place at least"),
    "lacks-what": marked("what it is: {}"),
    "lacks-date": marked("the day"),
    "lacks-future": marked("a day that is not still to come"),
    "lacks-by": marked("your name or handle"),
    "read-as": marked("Read as {}."),
    "about": marked(", about then"),
    "date-unread": marked("This reads as no date. Write the month as a word: 26 May 2019."),
    # handing over
    "ready": marked("{}: {}, {}."),
    "no-pictures": marked("no picture"),
    "making": marked("Packing it …"),
    "too-large": marked("It is larger than 64 MB: hand over fewer pictures at once."),
    "subject": marked("Found on {}"),
    "body": marked("What was found on {}, told by {}. The file {} has the records and the pictures."),
    "attach": marked("{} was saved on this device: attach it to the message."),
    "drag": marked(
        "{} was saved on this device: attach it to the text that opened. An account is needed there."
    ),
    "saved": marked("{} was saved on this device. Send it to those who keep the records."),
    "shared": marked("{} was handed over."),
    "unshared": marked("It could not be shared. Save it, and send the file."),
    "text": marked("A packet of records, as text. Give the whole file to those who keep the records."),
    # what else is on this device
    "begun": marked("begun"),
    "sent": marked("handed over {}"),
    "broken": marked("No report that this page can read"),
    "go-on": marked("Go on"),
    "again": marked("Open it again"),
    "throw": marked("Throw it away"),
    "sure": marked("Really throw it away?"),
    "with": marked("Send it along"),
    "leave-out": marked("Leave it out"),
    "here": marked("This one"),
}


def labels() -> dict[str, str]:
    """What stands on the page itself."""
    return {name: _(told) for name, told in _LABELS.items()}


def looked() -> dict[str, str]:
    """How far a machine, or one place of it, is as it left the works."""
    known = {name: capital(_(CONDITIONS[name])) for name in ("untouched", "likely-original", "altered")}
    return {**known, "unknown": _("I cannot tell")}


def words() -> dict[str, str]:
    """What the script of the page says."""
    return {name: _(told) for name, told in _WORDS.items()}
