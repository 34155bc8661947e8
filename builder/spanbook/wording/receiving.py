"""What is told of a packet that somebody sent: what is in it, what becomes of it, and why it is not taken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.packets import Packet
from spanbook.reading.problems import Finding, Problem, one_line
from spanbook.wording.grammar import first_of, more, plural

_MOST = 20
_HOW = {
    "new": marked("new"),
    "corrects": marked("corrects what is there"),
    "same": marked("is there already, and says the same"),
    "changed-since": marked("corrects a record that somebody has changed or taken away since"),
    "in-the-way": marked("another file of that name is there, and it does not say that it corrects it"),
}


def in_it() -> str:
    return _("What is in it:")


def wrong() -> str:
    return _("What would be wrong:")


def changes() -> str:
    return _("What would change for readers:")


def no_change() -> str:
    return _("Nothing would change for readers.")


def untold() -> str:
    return _("What would change for readers cannot be told as long as records have errors.")


def not_asked() -> str:
    return _("Nothing was written. It can be laid: with --branch, or --into FOLDER.")


def nothing_new() -> str:
    return _("nothing was written: all that is in it is there already")


def judged_by_folder() -> str:
    return _("nothing was written: it was judged by what is on the disk, and a branch begins at a revision")


def under_a_file() -> tuple[str, str]:
    """What is wrong where nothing can be laid, and what to do."""
    return _("a link or a file is in its way"), _("take that away, or let it be sent under another name")


def finding_line(finding: Finding) -> str:
    at = finding.place
    said = parted(one_line(finding.read), one_line(finding.todo))
    return f"{one_line(at.path)}:{at.line}:{at.column}: {said}"


def no_packet(findings: Sequence[Finding]) -> str:
    """Why a file is not taken at all, with everything that is wrong with it."""
    lines = [f"  {finding_line(finding)}" for finding in findings[:_MOST]]
    if len(findings) > _MOST:
        lines.append(f"  {more(len(findings) - _MOST)}")
    return "\n".join([_("nothing was written: it is not taken as a packet"), *lines])


def head_lines(packet: Packet, site: str) -> Iterator[str]:
    """Who sent what for which site, before anything else is told."""
    told = (
        _("From {who}, made on {made} with the data of {data}, for {site}.")
        if packet.data
        else _("From {who}, made on {made}, for {site}.")
    )
    yield told.format(who=one_line(packet.by), made=packet.made, data=packet.data, site=one_line(packet.site))
    if site and site != packet.site:
        yield _("This community is called {}: is it meant for another?").format(one_line(site))
    if packet.note:
        yield _("To the maintainers:")
        yield from (f"  {one_line(line)}" for line in packet.note.splitlines())


def file_line(path: str, how: str, *, anew: bool, sent_as: str | None = None) -> str:
    """What becomes of one file. Of a picture made anew: what its file held besides is gone."""
    told = _(_HOW[how])
    if sent_as:
        told = _("{what}; it was sent as {name}").format(what=told, name=one_line(sent_as.rpartition("/")[2]))
    if anew:
        told = _("{what}; without what its file said besides the picture").format(what=told)
    return labelled(f"  content/{one_line(path)}", told)


def lost_line(remark: str) -> str:
    return f"    {_('its remark would be gone: {}').format(one_line(remark))}"


def left_out_line(names: Sequence[str]) -> str:
    """What a system had put into the archive."""
    return plural(
        len(names),
        "{} file left out: {names}",
        "{} files left out: {names}",
        names=", ".join(map(one_line, names[:5])),
    )


def spoilt(problems: Sequence[Problem]) -> str:
    """Why it is refused where it would make errors."""
    lines = [f"  {problem}" for problem in problems[:_MOST]]
    if len(problems) > _MOST:
        lines.append(f"  {more(len(problems) - _MOST)}")
    return "\n".join([_("nothing was written: these would be wrong afterwards"), *lines])


def spoilt_as_told() -> str:
    """The same where all that would be wrong stands above it."""
    return _("nothing was written: the errors told above would be in the records afterwards")


def in_the_way(paths: Sequence[str]) -> str:
    told = _(
        "nothing was written: it would take the place of {}; look at both, and say --replace if what "
        "was sent is right, or --beside to lay it under a name of its own"
    )
    return told.format(first_of([f"content/{one_line(path)}" for path in paths], 5))


def taken(paths: Sequence[str]) -> str:
    """Why it is refused where another record has the id of one that was sent."""
    told = _(
        "nothing was written: the id of {} is another record's already; --beside lays it under one of its own"
    )
    return told.format(first_of([f"content/{one_line(path)}" for path in paths], 5))


def dying(dead: Sequence[str]) -> str:
    told = _("nothing was written: these addresses would lead nowhere: {}")
    return told.format(first_of(dead, 5))


def judged_elsewhere(onto: str) -> str:
    told = _("nothing was written: it was judged by the records of {}, and the folder's may be others")
    return told.format(onto)


def commit_message(packet: Packet, paths: Sequence[str]) -> str:
    """What a commit of it says: who sent it, and what it is about."""
    records = [path for path in paths if path.endswith(".yml")]
    told = first_of([path.rpartition("/")[2].removesuffix(".yml") for path in records], 3)
    made = (
        _("Made on {day} with the data of {data}.").format(day=packet.made, data=packet.data)
        if packet.data
        else _("Made on {}.").format(packet.made)
    )
    note = "\n".join(one_line(line) for line in packet.note.splitlines()).strip()
    return "\n\n".join(
        filter(
            None,
            (
                _("Sent by {who}: {records}").format(who=one_line(packet.by), records=told),
                note,
                made,
            ),
        )
    )


def laid_branch(name: str) -> str:
    told = _("Laid as the branch {name}. Look at it with: spanbook review HEAD {name}")
    return told.format(name=name)


def laid_folder(folder: str, *, own: bool) -> str:
    if own:
        return _("Taken in among your records. Nothing is committed: look at it, then do that.")
    return _("Laid in {}. Nothing is committed: look at it, then do that.").format(folder)
