"""What is told of a packet that somebody sent: what is in it, what becomes of it, and why it is not taken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.reading.packets import Packet
from spanbook.reading.problems import Finding, Problem, one_line
from spanbook.wording.grammar import plural

_MOST = 20
IN_IT = "What is in it:"
WRONG = "What would be wrong:"
CHANGES = "What would change for readers:"
NO_CHANGE = "Nothing would change for readers."
UNTOLD = "What would change for readers cannot be told as long as records have errors."
NOT_ASKED = "Nothing was written. It can be laid: with --branch, or --into FOLDER."
NOTHING_NEW = "nothing was written: all that is in it is there already"
JUDGED_BY_FOLDER = (
    "nothing was written: it was judged by what is on the disk, and a branch begins at a revision"
)
UNDER_A_FILE = "a link or a file is in its way", "take that away, or let it be sent under another name"
_HOW = {
    "new": "new",
    "corrects": "corrects what is there",
    "same": "is there already, and says the same",
    "changed-since": "corrects a record that somebody has changed or taken away since",
    "in-the-way": "another file of that name is there, and it does not say that it corrects it",
}


def finding_line(finding: Finding) -> str:
    at = finding.place
    return f"{one_line(at.path)}:{at.line}:{at.column}: {one_line(finding.read)}; {one_line(finding.todo)}"


def no_packet(findings: Sequence[Finding]) -> str:
    """Why a file is not taken at all, with everything that is wrong with it."""
    lines = [f"  {finding_line(finding)}" for finding in findings[:_MOST]]
    if len(findings) > _MOST:
        lines.append(f"  and {len(findings) - _MOST} more")
    return "nothing was written: it is not taken as a packet\n" + "\n".join(lines)


def head_lines(packet: Packet, site: str) -> Iterator[str]:
    """Who sent what for which site, before anything else is told."""
    told = f"From {one_line(packet.by)}, made on {packet.made}"
    if packet.data:
        told += f" with the data of {packet.data}"
    yield f"{told}, for {one_line(packet.site)}."
    if site and site != packet.site:
        yield f"This community is called {one_line(site)}: is it meant for another?"
    if packet.note:
        yield "To the maintainers:"
        yield from (f"  {one_line(line)}" for line in packet.note.splitlines())


def file_line(path: str, how: str, *, anew: bool) -> str:
    """What becomes of one file. Of a picture made anew: what its file held besides is gone."""
    more = "; without what its file said besides the picture" if anew else ""
    return f"  content/{one_line(path)}: {_HOW[how]}{more}"


def lost_line(remark: str) -> str:
    return f"    its remark would be gone: {one_line(remark)}"


def left_out_line(names: Sequence[str]) -> str:
    """What a system had put into the archive."""
    return (
        plural(len(names), "{} file left out", "{} files left out")
        + f": {', '.join(map(one_line, names[:5]))}"
    )


def spoilt(problems: Sequence[Problem]) -> str:
    """Why it is refused where it would make errors."""
    lines = [f"  {problem}" for problem in problems[:_MOST]]
    if len(problems) > _MOST:
        lines.append(f"  and {len(problems) - _MOST} more")
    return "nothing was written: these would be wrong afterwards\n" + "\n".join(lines)


def in_the_way(paths: Sequence[str]) -> str:
    shown = ", ".join(f"content/{one_line(path)}" for path in paths[:5])
    more = f" and {len(paths) - 5} more" if len(paths) > 5 else ""
    return (
        f"nothing was written: it would take the place of {shown}{more}; look at both, and say --replace if "
        "what was sent is right"
    )


def dying(dead: Sequence[str]) -> str:
    more = f" and {len(dead) - 5} more" if len(dead) > 5 else ""
    return f"nothing was written: these addresses would lead nowhere: {', '.join(dead[:5])}{more}"


def judged_elsewhere(onto: str) -> str:
    return f"nothing was written: it was judged by the records of {onto}, and the folder's may be others"


def commit_message(packet: Packet, paths: Sequence[str]) -> str:
    """What a commit of it says: who sent it, and what it is about."""
    records = [path for path in paths if path.endswith(".yml")]
    told = ", ".join(path.rpartition("/")[2].removesuffix(".yml") for path in records[:3])
    more = f" and {len(records) - 3} more" if len(records) > 3 else ""
    note = "\n".join(one_line(line) for line in packet.note.splitlines()).strip()
    return "\n\n".join(
        filter(
            None,
            (
                f"Sent by {one_line(packet.by)}: {told}{more}",
                note,
                f"Made on {packet.made}" + (f" with the data of {packet.data}." if packet.data else "."),
            ),
        )
    )


def laid_branch(name: str) -> str:
    return f"Laid as the branch {name}. Look at it with: spanbook review HEAD {name}"


def laid_folder(folder: str, *, own: bool) -> str:
    told = "Taken in" if own else "Laid in"
    return f"{told} {folder}. Nothing is committed: look at it, then do that."
