"""What a field means, as its schema says it; everything that walks over records goes by this.

In a schema `x-role` stands at every text, or at the definition it refers to; a choice of words needs none.
`x-to` says beside it which sort of thing is named: a kind of record, or series, position, caution, term,
sign.
`x-use` stands at a part number or anywhere above it and says what the number is named for.
`x-asks` is what a form says of a field in place of its description, which is written for who edits a file;
`x-pick` the list on a form's page that its words may be chosen from.
"""

from __future__ import annotations

from enum import StrEnum


class Role(StrEnum):
    """What stands in a field.

    id: what the record, or a thing inside it, goes by. former: what the record, a thing inside
    it, a part or a statement went by before.
    anchor: the address of a statement on its page. reference: the id of something else.
    place: a reference to the position where something is, a single one; assemblies that are named beside it
    are there. number: a part number. owner: whose number stands beside it. sense: a reference to the part
    that a number means which has meant several. name: what a thing is called.
    sign: how it is told apart by eye. markdown: text with links. picture: a file among the photographs or
    the drawings.
    span: an object, a run of numbers in a series. text: plain text that nothing is made of.
    """

    ID = "id"
    FORMER = "former"
    ANCHOR = "anchor"
    REFERENCE = "reference"
    PLACE = "place"
    NUMBER = "number"
    OWNER = "owner"
    SENSE = "sense"
    NAME = "name"
    SIGN = "sign"
    MARKDOWN = "markdown"
    PICTURE = "picture"
    SPAN = "span"
    TEXT = "text"


class UsedAs(StrEnum):
    """What a part number is named for, in the order in which the uses say how it is written and called.

    own: the record is about it. listed: in a parts list. old, new, needed: in a supersession. converted: put
    on or taken off. seen, measured: on a machine. whole: what the record is about is ordered by it. beside:
    in the record of another part, as its other hand or in a set with it. mentioned: anything else. itself:
    the part that the record is about once more.
    """

    OWN = "own"
    LISTED = "listed"
    OLD = "old"
    NEW = "new"
    NEEDED = "needed"
    CONVERTED = "converted"
    SEEN = "seen"
    MEASURED = "measured"
    WHOLE = "whole"
    BESIDE = "beside"
    MENTIONED = "mentioned"
    ITSELF = "itself"
