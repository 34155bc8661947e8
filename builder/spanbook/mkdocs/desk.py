"""Where records are written: what is saved is read and linked, and shown before the site is built of it."""

from __future__ import annotations

import traceback
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from threading import Condition, RLock, Thread

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fits
from spanbook.ground.drawings import read as drawing
from spanbook.ground.images import Refused
from spanbook.ground.language import spoken
from spanbook.mkdocs.early import Early, Frame
from spanbook.mkdocs.pictured import pictured
from spanbook.mkdocs.settings import Say
from spanbook.outputs.serving import Shown, SiteServer, Watch
from spanbook.reading import Reading
from spanbook.reading.again import Again, states_below
from spanbook.reading.problems import errors
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.register.relink import linked
from spanbook.rules.checking import Checked, check_read, tree_of


class Abandoned(BaseException):
    """Something was saved while the site was being built of what there was before."""


@dataclass(slots=True)
class Ending:
    """Whether the process was asked to end.

    What a signal raises is lost where Python is letting something go just then: who waits looks here as well.
    """

    asked: bool = False

    def look(self) -> None:
        """Raises KeyboardInterrupt."""
        if self.asked:
            raise KeyboardInterrupt


class Desk:
    """Follows the files of a project in a thread of its own, while the site is built in another.

    `saves` counts how often something was saved: a build is of one of them, and is given up at the next.
    """

    def __init__(self, server: SiteServer, say: Say, places: tuple[Path, ...], ending: Ending) -> None:
        self.saves = 0
        self._ending = ending
        self.watch = Watch()
        self.watch.attend(places)
        self._server = server
        self._say = say
        self._held = RLock()
        self._saved = Condition(self._held)
        self._again: Again | None = None
        self._language = ""
        self._reading: Reading | None = None
        self._register: Register | None = None
        # Of the last build that got so far.
        self._frame: Frame | None = None
        # Made of what was read last, and of what the rules were last run over.
        self._early: Early | None = None
        self._good: Early | None = None

    @contextmanager
    def following(self) -> Iterator[None]:
        thread = Thread(target=self._follow, name="desk")
        thread.start()
        try:
            yield
        finally:
            self.watch.end()
            thread.join()

    def wait(self, saves: int) -> None:
        """Until something is saved that a build has not seen. Raises KeyboardInterrupt."""
        with self._held:
            while self.saves == saves:
                self._ending.look()
                self._saved.wait(1)  # some systems tell of Ctrl-C only between two waits

    def go_on(self, saves: int) -> None:
        """Raises Abandoned where a build is no longer of what was saved last, and KeyboardInterrupt.

        A page that somebody waits for goes before those that nobody has asked for yet.
        """
        self._ending.look()
        self._server.nobody_waits.wait(1)
        if self.saves != saves:
            raise Abandoned

    def check(self, content: Path) -> Checked:
        """The records as they are, held to the rules."""
        tree, shown_as = tree_of(content)
        with self._held:
            if self._again is None or self._again.folder != tree or self._language != spoken():
                self._again, self._language = Again(tree, shown_as), spoken()
                self._reading = self._register = None
            read, before = self._read(walk=True), self._register
        register = _linked(read, before)
        with self._held:
            # Of a broken file there is no record: the next register is made of the last that had them all.
            if self._reading is read and not errors(read.problems):
                self._register = register
        return check_read(tree, shown_as, read, Fits(register), keep=True)

    def passed(self, saves: int) -> None:
        """A build has run the rules over what was saved, and found nothing that stops it."""
        with self._held:
            if saves == self.saves and self._early:
                self._early.unchecked = False
                self._good = self._early
                self._server.show(self._server.shown.but(newer=self._good))

    def framed(self, frame: Frame, fresh: Shown, saves: int) -> None:
        """A build has made what stands around its pages, which it will put into a fresh folder one by one."""
        with self._held:
            self._frame = frame
            now = self._server.shown
            current = now.root and not now.newer and not self.saves
            if saves != self.saves or self._early or current:
                return
            # Whoever waits for a page need not wait for all.
            self._early = self._good = Early(frame, frame.site, {}, saves, unchecked=False)
            self._make_looked_at(self._early)
            self._server.show((now if now.root else fresh).but(problems=now.problems, newer=self._early))

    def built(self, shown: Shown, saves: int) -> None:
        """A build is done: what was saved since is shown before it."""
        with self._held:
            now = self._server.shown
            if saves == self.saves:
                self._early = self._good = None
            else:
                shown = shown.but(problems=now.problems, newer=now.newer)
            self._server.show(shown)

    def failed(self, problems: tuple[str, ...], saves: int) -> None:
        """There is no building of what was saved: the last that was sound stays."""
        with self._held:
            if saves == self.saves:
                if self._early and self._early.save == saves:
                    self._early = self._good
                self._tell(problems)

    def _follow(self) -> None:
        while changes := self.watch.changed():
            before, now = changes
            with self._held:
                try:
                    self._take({path for path, _ in before ^ now})
                except Exception:  # the build reads it again, and tells what is wrong
                    self._reading = None
                    self._say(traceback.format_exc())
                self.saves += 1
                self._saved.notify_all()

    def _take(self, changed: set[str]) -> None:
        if self._again is None:
            return
        with suppress(OSError):  # what comes and goes is read by the build
            self._reading = None
            read = self._read()
            if broken := errors(read.problems):
                self._tell(tuple(map(str, broken)))
            else:
                self._register = _linked(read, self._register)
                self._show(self._register, changed)

    def _read(self, *, walk: bool = False) -> Reading:
        assert self._again is not None, "somebody has said what is read"
        states = states_below(str(self._again.folder.path), self.watch.seen)
        self._reading = self._again.read(states, walk=walk)
        return self._reading

    def _show(self, register: Register, changed: set[str]) -> None:
        """Show what is looked at before all else is made of the register."""
        if self._frame is None or self._again is None:
            return
        content, shown_as = self._again.folder.path, self._again.shown_as
        below = {path.removeprefix(f"{content}/") for path in changed}
        edited = [one for one in register.records if one.origin.path.removeprefix(f"{shown_as}/") in below]
        last = self._early.site if self._early else self._frame.site
        files = self._early.files if self._early else {}
        try:
            site, made = pictured(last, edited, below, content)
            guides = self._frame.guides is not None and self._frame.guides.read_again(below)
        except (OSError, ValueError, Refused, drawing.Refused):  # the build tells of it
            return
        if register is last.register and site is last and not guides:
            return
        if register is not last.register:
            site = replace(site, answers=Answers(register, last.answers.read_assumed))
        self._early = Early(self._frame, site, {**files, **made}, self.saves + 1)
        self._make_looked_at(self._early)
        self._server.show(self._server.shown.but(problems=(), newer=self._early, behind=True))

    def _make_looked_at(self, early: Early) -> None:
        """Whoever is told that there is something new finds it made."""
        for address in tuple(self._server.looked_at):
            early.page(address)

    def _tell(self, problems: tuple[str, ...]) -> None:
        """What the build finds is mostly told since it was saved: nobody's page is loaded again for that."""
        now = self._server.shown
        if (now.problems, now.newer) != (problems, self._early):
            self._server.show(now.but(problems=problems, newer=self._early))


def _linked(read: Reading, before: Register | None) -> Register:
    if before is None:
        return build(read.records, read.unread)
    return linked(read.records, read.unread, before)
