"""A register that answers: open a folder of records, ask what fits.

>>> register = spanbook.open_register("my-community")
>>> register.fits("HK 588")
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cached_property
from pathlib import Path

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Card
from spanbook.answers.breaks import Break, breaks_at, total_of
from spanbook.answers.changepoint import Rates, Weights
from spanbook.answers.conversions import as_it_left_the_works, as_late_as_it_can_be
from spanbook.answers.flow.on_machine import MachineCircuit
from spanbook.answers.instead import Substitutes, would_do
from spanbook.answers.listed import Listed, listed
from spanbook.answers.orders import Orders, orders
from spanbook.answers.pictured import Pictured, pictured
from spanbook.answers.plans import NoPlan, Plan, convert
from spanbook.answers.questions import Question
from spanbook.answers.readings import Reading
from spanbook.answers.renewing import Holding
from spanbook.answers.search import Answer, Asker
from spanbook.answers.signs.key import Key
from spanbook.answers.sizes_asked import Asked, sizes
from spanbook.answers.sizing import Sized, Tool, Wear
from spanbook.answers.standing import Judgement
from spanbook.answers.steps import Holds
from spanbook.answers.stories import Explanation
from spanbook.answers.strip_down import Sheet
from spanbook.answers.supersession import Need, order_now
from spanbook.answers.this_machine import ThisMachine
from spanbook.answers.together import machines_in
from spanbook.answers.totals import Total
from spanbook.faces.meant import Wanted, held_at, known_assemblies, meant, reading_of
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.standards import Sort
from spanbook.mkdocs.asked import assumed_of
from spanbook.reading.problems import Problems, errors
from spanbook.reading.records import Condition
from spanbook.register.model import Register
from spanbook.register.statements import Statement
from spanbook.rules.checking import check_folder, content_of, open_folder
from spanbook.site.documents import documents


@dataclass(frozen=True, eq=False)
class OpenRegister(Register):
    """A register that answers. Everything it holds is read-only; what was once asked is kept."""

    project: Path  # where the settings are

    def ask(self, query: str) -> Answer:
        """What a query gives, as the site's one box finds it: serial numbers, part numbers and marks, pages.

        `?` in a serial or part number stands for one character that cannot be read.
        """
        return self.asker.ask(query)

    def read_serial(self, text: str) -> tuple[Reading, ...]:
        """Every series in which a text reads as a serial number, in any case and spacing.

        A number that was never issued is given too, with `issued` false; nothing for other texts. Several
        numbers of one machine, `F 118 / HK 588`, are that one machine.
        """
        return machines_in(self, text)

    def fits(self, text: str) -> tuple[Card, ...]:
        """For every reading of a serial number, what each position of that machine has."""
        return tuple(self.answers.fits.card(reading) for reading in self.read_serial(text))

    def this_machine(self, text: str) -> tuple[ThisMachine, ...]:
        """For every reading of a serial number, what is known of that very machine, position by position.

        Apart from each other: what it left the works with, with its odds at a break and its standing; what
        teardowns of this number (or of a worn one that may be it) found, and what that means; what it may
        have been changed to. Raises BuildFailed for settings that cannot be read: the odds go by `rates`.
        """
        return tuple(self.answers.machines.of(reading) for reading in self.read_serial(text))

    def standings(self) -> Mapping[Statement, Judgement]:
        """How far each statement of the records is to be trusted, and every reason for it."""
        return self.answers.standings

    def questions(self) -> tuple[Question, ...]:
        """What is not known, worth most first: machines affected times how unsure, by `rates` in mkdocs.yml.

        Raises BuildFailed for settings that cannot be read.
        """
        return self.answers.questions

    def breaks(
        self, position: str, series: str, rates: Rates | None = None, weights: Weights | None = None
    ) -> tuple[Break, ...]:
        """Where production changed at a position (its full name) over a series (its id), as far as is known.

        Without `rates` or `weights`, by those in mkdocs.yml. Raises LookupError for a position or series that
        no record has, and BuildFailed for settings that cannot be read.
        """
        if position not in self.positions or series not in self.series:
            raise LookupError(
                _("no record has the position {position} or the series {series}").format(
                    position=position, series=series
                )
            )
        answers = self.answers
        rates = rates or answers.assumed.rates
        weights = weights or answers.assumed.weights
        return breaks_at(answers.fits, position, self.series[series], rates, weights)

    def total(self, series: str) -> Total | None:
        """How far a series (its id) ran, by the numbers seen; None where none was seen.

        Raises LookupError for a series that no record has.
        """
        if series not in self.series:
            raise LookupError(_("no record has the series {}").format(series))
        return total_of(self.answers.fits, self.series[series])

    def order_now(self, wanted: Wanted) -> Need:
        """The tree of what replaces so many of a number today, for one machine if its serial is given.

        With a year it is as the works would have sent it in that year, by the acts made by then.

        It stops after twenty acts in a row, with the ending that it goes on; `orders` goes to the end.

        Raises UnknownNumber (a LookupError) when no record mentions the number, LookupError when it is
        several makers' and `by` does not say whose, when it has meant several things and nothing tells which,
        or when the serial number does not read as exactly one issued machine.
        """
        key, reading = self._asked(wanted)
        return order_now(self, key, wanted.quantity, reading, wanted.year)

    def orders(self, wanted: Wanted) -> Orders:
        """Every complete way to order so many of a number, today or in a year.

        Raises LookupError as order_now.
        """
        key, reading = self._asked(wanted)
        return orders(self, key, wanted.quantity, reading, wanted.year)

    def would_do(self, wanted: Wanted) -> Substitutes:
        """The numbers usable instead, however many, each with the acts (in a year those made by then) that
        say so.

        Raises LookupError as order_now.
        """
        key, reading = self._asked(wanted)
        return would_do(self, key, reading, wanted.year)

    def listed(self, wanted: Wanted) -> tuple[Listed, ...]:
        """What lists say of a number, on one machine or on any: limits, what others have, what serves too.

        Raises LookupError as order_now.
        """
        key, reading = self._asked(wanted)
        return listed(self.answers.ever, key, reading)

    def pictured(self, wanted: Wanted) -> tuple[Pictured, ...]:
        """The figures of a number: its own, those of the assemblies that it is the number of, and all that
        point it out; each with the record that it stands in.

        Raises LookupError as order_now.
        """
        key, _ = self._asked(wanted)
        return pictured(self, self.parts[key])

    def _asked(self, wanted: Wanted) -> tuple[PartKey, Reading | None]:
        reading = reading_of(self, wanted.serial)
        return meant(self, wanted, reading), reading

    def convert(
        self,
        serial: str,
        wanted: Holds | None = None,
        holds: Holds | None = None,
        *,
        latest: bool = False,
        year: int | None = None,
    ) -> Plan | NoPlan:
        """How a machine is converted to what is wanted (position to assembly id), by the fewest new parts.

        A plan has the others beside it that are as cheap; without one, `NoPlan` says why, and whether that
        is sure.
        What `holds` does not say is taken as it left the works where that is settled. Without `wanted`
        the goal is as it left the works, or with `latest` as late as it can be. With `year` it goes by the
        conversions that were offered in that year. Raises LookupError for a
        serial number that is not exactly one machine, or for an assembly at a position not its own.
        """
        reading = self.machine(serial)
        works = as_it_left_the_works(self.answers.fits, reading)
        start = {**works, **(holds or {})}
        goal = wanted or (as_late_as_it_can_be(self, reading, start, year) if latest else works)
        held_at(self, start)
        held_at(self, goal)
        return convert(self, reading, start, goal, year)

    def size(
        self,
        text: str,
        *,
        per_inch: float | None = None,
        pitch: float | None = None,
        flanks: float | None = None,
        inside: bool = False,
        sort: Sort | None = None,
        read_with: Tool = Tool.CALIPER,
        state: Wear = Wear.USED,
    ) -> tuple[Sized, ...]:
        """Which standard size a thing is likely to be: `5/16 in`, or `17x40x12 mm` of a bearing.

        Threads to the inch or a pitch in mm, and the angle of the flanks in degrees, tell a thread; `inside`
        is the bore of its nut. Raises ValueError, saying what to write, for what is no size.
        """
        asked = Asked(text, per_inch, pitch, flanks, inside, sort, read_with, state)
        return sizes(asked, self.answers.recorded_standards)

    def explain(self, serial: str, found: Holds, condition: Condition = "unknown") -> Explanation:
        """What may have happened to a machine that holds what it should not, the likeliest first.

        `found` is what was found on it (position to assembly id), in one condition; all that was found is
        weighed together. Raises LookupError as `convert`, also where nothing is found, and BuildFailed for
        settings that cannot be read.
        """
        reading = self.machine(serial)
        if not found:
            raise LookupError(_("say what was found, each as position=assembly"))
        has = self.answers.fits.positions(self.machines[reading.series.machine])
        held = held_at(self, found)
        for position in held:
            if position not in has:
                raise LookupError(
                    _("{machine} has no {position}").format(
                        machine=reading.series.stamp.show(reading.number), position=position
                    )
                )
        return self.answers.explainer.explain(reading, held, condition)

    def machine(self, serial: str) -> Reading:
        """The one issued machine that a serial number is. Raises LookupError where it is none, or several."""
        reading = reading_of(self, serial)
        assert reading is not None, "a serial number was given"
        return reading

    def strip(self, assembly: str, serial: str | None = None) -> Sheet | None:
        """How an assembly (its id) comes apart, from all accounts, on one machine if a serial is given.

        None where nobody has told of it. Raises LookupError for an assembly that no record has, or when the
        serial number does not read as exactly one issued machine.
        """
        self.places(assembly)
        return self.answers.sheet(self.assemblies[assembly], reading_of(self, serial))

    def renewing(self, serial: str) -> tuple[Holding, ...]:
        """What each position of a machine may hold, with the sheet by which that comes apart on it, where
        somebody has told: its `renewed` is what is renewed.

        Raises LookupError when the serial number does not read as exactly one issued machine.
        """
        return self.answers.holding(self.machine(serial))

    def flow(self, serial: str, holds: Holds | None = None) -> tuple[MachineCircuit, ...]:
        """Every circuit of a machine, with each arrangement that it may have, likeliest first.

        `holds` is what it is known to have now (position to assembly id); elsewhere it is taken as it may
        have left the works. `answers.worked` works out one arrangement in one state. Raises LookupError for a
        serial number that is not exactly one machine, and for an assembly at a position not its own.
        """
        reading = self.machine(serial)
        return self.answers.circuits(reading, held_at(self, holds or {}))

    def key(self, position: str, *, parts: bool = False) -> Key:
        """What may be held from a position (its full name), assemblies or their parts, and what tells them.

        Its `told` says by what is seen (`seen_of`) which it is likely to be. Raises LookupError for a
        position that no record has.
        """
        if position not in self.positions:
            raise LookupError(
                _("no record has the position {}; it is the end of its page's address").format(position)
            )
        return self.answers.key(position, parts=parts)

    def places(self, *assemblies: str) -> dict[str, str]:
        """Assemblies by their positions, as `convert` wants them. Raises LookupError for an unknown id."""
        return {self.assemblies[id_].position: id_ for id_ in known_assemblies(self, assemblies)}

    @cached_property
    def answers(self) -> Answers:
        """All that the pages say, each computed when it is first asked for."""
        return Answers(self, lambda: assumed_of(self.project))

    @cached_property
    def asker(self) -> Asker:
        """What finds; its indexes are made once."""
        return Asker(self.answers, documents(self))


def open_register(path: str | Path) -> OpenRegister:
    """The register of a project folder (one with `content/` in it) or of a content folder itself.

    Raises Problems with every problem when a record has an error, FileNotFoundError without a folder.
    """
    folder = Path(path)
    opened = open_folder(folder)
    if errors(opened.problems):
        raise Problems(check_folder(folder).problems)
    held = {field.name: getattr(opened.register, field.name) for field in fields(Register)}
    return OpenRegister(**held, project=content_of(folder).parent)
