"""The report: what somebody found on one machine, as its page asks for it and hands it over."""

from __future__ import annotations

from spanbook.wording.pages import PageWords
from spanbook.wording.records import CONDITIONS

REPORT = PageWords(
    "Tell what you found",
    "What you saw on one machine: tap it place by place, take pictures, hand it over. No account is needed.",
)
# What stands on the page itself.
LABELS = {
    "without": (
        "This page needs a script. Without one, write to those who keep the records; the forms are listed at"
    ),
    "serial": "Serial number, as stamped",
    "serial-help": "With its letters; ? for a digit that cannot be read.",
    "looks": "How far is the machine as it left the works?",
    "places": "What did you find?",
    "places-help": "Only where you looked. Everything else stays as it is.",
    "who": "Your name or handle, as it will stand on the site",
    "when": "Day",
    "roughly": "I only know about when",
    "exactly": "I know the day",
    "rough-help": "May 2019, about 2019, 2019 to 2021.",
    "note": "A word to those who keep the records (not published)",
    "hand-over": "Hand it over",
    "published": (
        "What you tell and your pictures will be published with the records of this site, under the "
        "same terms. The pictures were made smaller here, without the place and the camera."
    ),
    "share": "Share",
    "mail": "By mail",
    "forge": "Where the records are kept",
    "save": "Save it here",
    "others": "On this device",
    "new": "Begin another",
    "along": "Goes along",
}
# How far a machine, or one place of it, is as it left the works.
LOOKED = {key: CONDITIONS[key].capitalize() for key in ("untouched", "likely-original", "altered")} | {
    "unknown": "I cannot tell"
}
# `{}` stands for what is named.
WORDS = {
    # the serial number
    "reads": "{}: {}.",
    "may-be": "{}: one of {} machines.",
    "unread": "{} reads as no serial number known here.",
    "never": "{} was never issued.",
    "several": "{} may be of several series. Which?",
    "two": "Give one of the numbers. Which?",
    "meant": "Did you mean:",
    "mine": "My machine:",
    "unloaded": "The records could not be loaded. What you fill in is kept; try again when there is a line.",
    "try": "Try again",
    # a place
    "as-recorded": "As recorded",
    "as-recorded-this": "As recorded: {}",
    "one-of": "Recorded is one of these:",
    "blank": "Nothing is recorded of this number here.",
    "else": "Something else",
    "what": "Say what it is",
    "this": "This: {}",
    "none": "None of these",
    "unsure": "I cannot tell which of these",
    "unsure-short": "One of several, I cannot tell which",
    "none-short": "Something that nobody has recorded",
    "others": "Seen on other machines",
    "key": "Help me find out",
    "camera": "Take a picture",
    "device": "Choose a picture",
    "shows": "What it shows",
    "shown": "{} of {}: {}",
    "drop": "Take it away",
    "more": "Say more",
    "number": "A number on it",
    "note": "What there is to say of it",
    "note-none": "What is it, in a few words?",
    "condition": "How this place looks, if not as the machine",
    "same": "as the machine",
    "known": "{}: {}",
    "unknown": "{} is not known here. That is worth telling; look once more at each character.",
    # pictures
    "unreadable": "{} could not be read as a picture. Save it as a JPEG and take it again.",
    "kept": "This browser lets no page make a picture smaller. Allow it here, or take another browser.",
    "busy": "Making the picture smaller …",
    "lost": "A picture is no longer on this device. Take it again, or take its line away.",
    # keeping
    "full": "No room is left on this device: what you change now is lost with the page. Hand it over now.",
    "forbidden": "This browser keeps nothing for this site: what you fill in is lost with the page.",
    "unshelved": "This browser does not keep the pictures: hand them over before you leave the page.",
    "elsewhere": "This report is open in another tab as well: what is typed last is what is kept.",
    # what lacks
    "lacks": "Still needed:",
    "lacks-serial": "the serial number",
    "lacks-series": "of which series it is",
    "lacks-condition": "how far the machine is as it left the works",
    "lacks-places": "what you found, at one place at least",
    "lacks-what": "what it is: {}",
    "lacks-date": "the day",
    "lacks-future": "a day that is not still to come",
    "lacks-by": "your name or handle",
    "read-as": "Read as {}.",
    "about": ", about then",
    "date-unread": "This reads as no date. Write the month as a word: 26 May 2019.",
    # handing over
    "ready": "{}: {}, {}.",
    "place": "1 place",
    "places": "{} places",
    "picture": "1 picture",
    "pictures": "{} pictures",
    "no-pictures": "no picture",
    "making": "Packing it …",
    "too-large": "It is larger than 64 MB: hand over fewer pictures at once.",
    "subject": "Found on {}",
    "body": "What was found on {}, told by {}. The file {} has the records and the pictures.",
    "attach": "{} was saved on this device: attach it to the message.",
    "drag": "{} was saved on this device: attach it to the text that opened. An account is needed there.",
    "saved": "{} was saved on this device. Send it to those who keep the records.",
    "shared": "{} was handed over.",
    "unshared": "It could not be shared. Save it, and send the file.",
    "text": "A packet of records, as text. Give the whole file to those who keep the records.",
    # what else is on this device
    "begun": "begun",
    "sent": "handed over {}",
    "broken": "No report that this page can read",
    "go-on": "Go on",
    "again": "Open it again",
    "throw": "Throw it away",
    "sure": "Really throw it away?",
    "with": "Send it along",
    "leave-out": "Leave it out",
    "here": "This one",
}
