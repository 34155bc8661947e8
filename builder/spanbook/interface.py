"""All names of the Python interface; `import spanbook` gives them, and loads this for the first."""

from spanbook.answers.applicability import AtPosition, Card, Fit, State
from spanbook.answers.breaks import Break
from spanbook.answers.changepoint import Rates, Weights
from spanbook.answers.diff.model import Comparison
from spanbook.answers.flow.asked import FlowAsked
from spanbook.answers.flow.faults import Wrong
from spanbook.answers.flow.on_machine import MachineCircuit
from spanbook.answers.instead import Substitutes
from spanbook.answers.meaning import Meaning, Means
from spanbook.answers.orders import Orders
from spanbook.answers.pictured import Pictured
from spanbook.answers.plans import NoPlan, Plan
from spanbook.answers.questions import Question
from spanbook.answers.readings import Reading
from spanbook.answers.search import Answer
from spanbook.answers.signs.key import Key, Length, Likely, Look, Seen, Told
from spanbook.answers.sizing import Sized, Tool, Wear
from spanbook.answers.standing import Judgement, Standing
from spanbook.answers.stories import Explained, Explanation
from spanbook.answers.story import Story
from spanbook.answers.strip_down import Sheet
from spanbook.answers.supersession import Need
from spanbook.answers.this_machine import ChangedTo, Left, Odds, SeenHere, ThisMachine, ThisPosition
from spanbook.answers.totals import Total
from spanbook.editing import CannotChange, FileChange
from spanbook.faces.api import OpenRegister, open_register
from spanbook.faces.diff import NotComparable, compare
from spanbook.faces.editing import Correction, merge, move, rename, renumber, split
from spanbook.faces.exporting import export, tables
from spanbook.faces.flowing import flow_asked
from spanbook.faces.judging import all_rules, check, dead_addresses, explain, fails
from spanbook.faces.language import speak_for
from spanbook.faces.making import build, serve
from spanbook.faces.meant import UnknownNumber, Wanted
from spanbook.faces.own_schemas import write_schemas
from spanbook.faces.proposals import Pair, Proposal, Proposals, review_all
from spanbook.faces.receiving import How, Receipt, Sent, receive
from spanbook.faces.recording import record_text, write_record
from spanbook.faces.releasing import NotReleased, release
from spanbook.faces.reviewing import Review, review
from spanbook.faces.scaffold import NotStarted, start
from spanbook.faces.seen import seen_of
from spanbook.faces.sheets import Imported, guess_map, import_sheet
from spanbook.ground.changes import Changes
from spanbook.ground.standards import Sort
from spanbook.ground.table import Column, Table
from spanbook.mkdocs.built import Built
from spanbook.mkdocs.failures import BuildFailed
from spanbook.reading.git import NoRevision
from spanbook.reading.packets import NoPacket, Packet
from spanbook.reading.problems import Place, Problem, Problems, Rule, Severity
from spanbook.reading.records import Condition
from spanbook.reading.releases import BrokenRelease, Release
from spanbook.reading.sheets import NotASheet
from spanbook.register.statements import Statement
from spanbook.rules.checking import Checked

__all__ = [
    "Answer",
    "AtPosition",
    "Break",
    "BrokenRelease",
    "BuildFailed",
    "Built",
    "CannotChange",
    "Card",
    "ChangedTo",
    "Changes",
    "Checked",
    "Column",
    "Comparison",
    "Condition",
    "Correction",
    "Explained",
    "Explanation",
    "FileChange",
    "Fit",
    "FlowAsked",
    "How",
    "Imported",
    "Judgement",
    "Key",
    "Left",
    "Length",
    "Likely",
    "Look",
    "MachineCircuit",
    "Meaning",
    "Means",
    "Need",
    "NoPacket",
    "NoPlan",
    "NoRevision",
    "NotASheet",
    "NotComparable",
    "NotReleased",
    "NotStarted",
    "Odds",
    "OpenRegister",
    "Orders",
    "Packet",
    "Pair",
    "Pictured",
    "Place",
    "Plan",
    "Problem",
    "Problems",
    "Proposal",
    "Proposals",
    "Question",
    "Rates",
    "Reading",
    "Receipt",
    "Release",
    "Review",
    "Rule",
    "Seen",
    "SeenHere",
    "Sent",
    "Severity",
    "Sheet",
    "Sized",
    "Sort",
    "Standing",
    "State",
    "Statement",
    "Story",
    "Substitutes",
    "Table",
    "ThisMachine",
    "ThisPosition",
    "Told",
    "Tool",
    "Total",
    "UnknownNumber",
    "Wanted",
    "Wear",
    "Weights",
    "Wrong",
    "all_rules",
    "build",
    "check",
    "compare",
    "dead_addresses",
    "explain",
    "export",
    "fails",
    "flow_asked",
    "guess_map",
    "import_sheet",
    "merge",
    "move",
    "open_register",
    "receive",
    "record_text",
    "release",
    "rename",
    "renumber",
    "review",
    "review_all",
    "seen_of",
    "serve",
    "speak_for",
    "split",
    "start",
    "tables",
    "write_record",
    "write_schemas",
]
