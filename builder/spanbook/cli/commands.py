"""Every command: the module that it is in, and the first sentence of its help.

They stand here so that `spanbook --help` need not load all that the commands use: that takes ten times as
long. A test holds each sentence to the command's own.
"""

from __future__ import annotations

COMMANDS = {
    "ask": ("asking", "Ask by serial number, part number, mark or words."),
    "build": ("making", "Build the site of FOLDER. If that fails, the previous site stays as it was."),
    "check": (
        "judging",
        "Check the records of FOLDER (a project, or its content folder) and tell every problem.",
    ),
    "compare": (
        "comparing",
        "Tell what changes in the answers between OLD and NEW: project folders, or git revisions.",
    ),
    "convert": (
        "asking",
        "Say how the machine SERIAL is converted: each step with its parts, and what it needs first.",
    ),
    "explain": (
        "asking",
        "Say what may have happened to the machine SERIAL, which holds what it should not, "
        "the likeliest first.",
    ),
    "export": (
        "exporting",
        "Lay everything recorded, and what is worked out of it, down in the new folder TARGET as tables.",
    ),
    "flow": (
        "flowing",
        "Say which way it goes through the machine SERIAL: what is cleaned, how much, and what a fault does.",
    ),
    "import": ("importing", "Make drafts of records from the rows of SHEET: an XLSX, ODS, XLS or CSV file."),
    "merge": (
        "editing",
        "Put WHAT together with INTO, because they are one thing: two records of a kind, "
        "series or positions.",
    ),
    "move": (
        "editing",
        "Move the position WHAT into the group WHERE, or the assembly WHAT to the position WHERE.",
    ),
    "new": (
        "making",
        "Ask for a record of KIND, field by field, and write its file. Enter passes over what is not known.",
    ),
    "program": (
        "making",
        "Say where the workflows of a community get the program: SOURCE is a wheel, or a full commit in git.",
    ),
    "questions": (
        "asking",
        "Tell what is not known, the worthiest first, as questions that somebody can go and answer.",
    ),
    "receive": (
        "receiving",
        "Judge PACKET, which somebody made with a form of the site, and lay it where it can be looked at.",
    ),
    "release": (
        "releasing",
        "Release the records as they stand under NAME, and tell what that changes in the answers.",
    ),
    "rename": (
        "editing",
        "Give WHAT the id NAME, in every file that mentions it; its addresses go on working.",
    ),
    "renumber": (
        "editing",
        "Give the part OLD the number NEW, because it was misread, in every file that mentions it.",
    ),
    "review": (
        "reviewing",
        "Judge a proposal: check the revision NEW as it would be merged into OLD, then compare it with OLD.",
    ),
    "schema": (
        "making",
        "Write the schemas for an editor, in which FOLDER's own records are the choices and the examples.",
    ),
    "serve": ("making", "Serve the site of FOLDER and rebuild it when a record changes."),
    "size": ("sizing", "Say which standard size SIZE is likely to be, and what to measure to be surer."),
    "split": (
        "editing",
        "Tell the assembly WHAT apart into new ids, INTO: each gets a record to be corrected further.",
    ),
    "start": (
        "making",
        "Make a fresh community in FOLDER: settings, one example of each kind, workflows, a guide.",
    ),
    "strip": (
        "stripping",
        "Say how ASSEMBLY comes apart: steps, tools, what to catch, what to renew, and putting it back.",
    ),
    "tell": (
        "holding",
        "Say which assembly of a position somebody holds by what is seen of it, and what to look at next.",
    ),
    "total": ("asking", "Say how far the series SERIES (its id) ran, by the numbers that were seen."),
}
