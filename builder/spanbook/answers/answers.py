"""Everything a register answers, computed when it is first asked for and then kept, in one place.

Pages, cards, exports, the command and the Python interface share one of these, so that nothing is weighed
twice and no two of them can say different things. What depends on a question that only one person asks
(an order for so many, a way to convert one machine) is not kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from spanbook.answers.applicability import Fits
from spanbook.answers.assumed import Assumed
from spanbook.answers.beyond import Beyond, beyond, found_on
from spanbook.answers.breaks import Break, breaks_at, breaks_of
from spanbook.answers.counted import counted
from spanbook.answers.ever import Ever
from spanbook.answers.flow.converted import Converted, over_conversions
from spanbook.answers.flow.faults import Fault
from spanbook.answers.flow.figures import Worked
from spanbook.answers.flow.here import FlowHere, flow_here
from spanbook.answers.flow.inputs import Weigher
from spanbook.answers.flow.on_machine import MachineCircuit, circuits_of, machine_circuit
from spanbook.answers.flow.over_series import OverSeries, over_series
from spanbook.answers.flow.pieces import Arranged
from spanbook.answers.flow.to_measure import Measure, to_measure
from spanbook.answers.line_breaks import LineBreak, line_breaks
from spanbook.answers.lines_asked import lines_asked
from spanbook.answers.measures_asked import measures_asked
from spanbook.answers.orders import Ordering
from spanbook.answers.parts_read import PartsRead
from spanbook.answers.questions import Question, in_order, questions
from spanbook.answers.readings import Reading
from spanbook.answers.recorded_sizes import recorded_standards
from spanbook.answers.renewing import Holding, MayHold, holding, may_hold
from spanbook.answers.shortfalls import Shortfalls
from spanbook.answers.signs.asked import signs_asked
from spanbook.answers.signs.key import Key
from spanbook.answers.signs.keys import Keys
from spanbook.answers.standing import Judge, Judgement
from spanbook.answers.stories import Explainer
from spanbook.answers.strip_down import Sheet, sheet_of
from spanbook.answers.this_machine import Machines
from spanbook.ground.memo import Memo, kept
from spanbook.ground.standards import Sort
from spanbook.reading.records import Assembly, Circuit, CircuitState, Conversion, Record, Series
from spanbook.register.model import Register
from spanbook.register.statements import Statement, Subject


@dataclass(frozen=True, eq=False)
class Answers:
    """The answers of one register, by what the community assumes; asking in any order gives the same.

    That stands in a community's settings, which are read only when something depends on them. `asked` is
    what the rules asked already of what fits in it.
    """

    register: Register
    read_assumed: Callable[[], Assumed] = Assumed
    asked: Fits | None = None

    @kept
    def assumed(self) -> Assumed:
        return self.read_assumed()

    @kept
    def fits(self) -> Fits:
        """What fits where, and what was found there."""
        return self.asked or Fits(self.register)

    @kept
    def judge(self) -> Judge:
        return Judge(self.fits)

    @property
    def parts_read(self) -> PartsRead:
        """What was read on assemblies and stands in no list of theirs."""
        return self.judge.parts_read

    def standing(self, subject: Subject) -> Judgement:
        """How far what is said of a subject is to be trusted, and why."""
        return self.judge.of(self.register.said[subject])

    @kept
    def standings(self) -> Mapping[Statement, Judgement]:
        """The standing of every statement."""
        return {statement: self.judge.of(statement) for statement in self.register.statements}

    @kept
    def machines(self) -> Machines:
        """What is known of each very machine."""
        return Machines(self.fits, self.judge, self.breaks_at, self.questions_of)

    @kept
    def explainer(self) -> Explainer:
        """What may have happened to a machine that holds what it should not."""
        return Explainer(self.fits, self.judge, self.breaks_at, self.assumed)

    @kept
    def breaks_at(self) -> Memo[tuple[Series, str], tuple[Break, ...]]:
        """The breaks of a series at a position."""
        assumed = self.assumed
        return Memo(lambda at: breaks_at(self.fits, at[1], at[0], assumed.rates, assumed.weights))

    @kept
    def breaks(self) -> tuple[Break, ...]:
        """Every break of every series at every position."""
        series = self.register.series
        places = ((series[id_], position) for id_, position in sorted(self.register.fittings))
        return tuple(one for place in places for one in self.breaks_at(place))

    def breaks_of(self, one: Series | Assembly) -> Sequence[Break]:
        """The breaks in a series, or those where an assembly begins or ends: no other is weighed for them."""
        return self._breaks_of(one)

    @kept
    def _breaks_of(self) -> Memo[Series | Assembly, tuple[Break, ...]]:
        of = breaks_of(self.register, self.breaks_at)
        return Memo(lambda one: tuple(of(one)))

    @kept
    def questions(self) -> tuple[Question, ...]:
        """What is open in all records, worth most first."""
        every = self.register.series.values()
        return in_order(question for series in every for question in self.questions_of(series))

    @kept
    def questions_of(self) -> Memo[Series, tuple[Question, ...]]:
        """What is open in a series, worth most first: asked of one series alone, no other is weighed."""
        return Memo(self._questions_of)

    def _questions_of(self, series: Series) -> tuple[Question, ...]:
        places = [(series.id, position) for position in self.register.fitted_in.get(series.id, ())]
        held = dict.fromkeys(f.assembly for place in places for f in self.register.fittings[place])
        judged = {said: self.judge.of(said) for one in held for said in self.register.statements_of[one]}
        breaks = [one for _, position in places for one in self.breaks_at((series, position))]
        short = self.shortfalls.in_series(series)
        beyond = [one for one in self._beyond_with(found_on(self.register, series)) if one.series is series]
        found = questions(self.fits, judged, breaks, of=[series], shortfalls=short, beyond=beyond)
        of_lines = lines_asked(self.fits, judged, self.line_breaks(held))
        of_circuits = measures_asked(series, self._to_measure(series.machine))
        signed = (at for _, at in places if at in self.register.signed_at)
        of_signs = signs_asked(series, map(self.key, signed))
        every = (*found, *of_lines, *of_circuits, *of_signs)
        return counted(self.fits, (question for question in every if question.series is series))

    def _to_measure(self, machine: str) -> Iterator[tuple[OverSeries, tuple[tuple[Measure, float], ...]]]:
        for circuit in circuits_of(self.register.of(Circuit), machine):
            for one in self.arrangements(circuit):
                if one.sure and circuit.states:
                    yield one, self._measures(one.arranged)

    @kept
    def _measures(self) -> Memo[Arranged, tuple[tuple[Measure, float], ...]]:
        return Memo(lambda arranged: tuple(to_measure(self.running(arranged)[0])))

    @kept
    def arrangements(self) -> Memo[Circuit, tuple[OverSeries, ...]]:
        """Every arrangement of a circuit that left the works, with its numbers."""
        return Memo(lambda circuit: over_series(self.fits, circuit))

    def line_breaks(self, assemblies: Iterable[Assembly]) -> Iterator[LineBreak]:
        """Where lines of the lists of some assemblies gave way to others."""
        for assembly in assemblies:
            yield from self.line_breaks_in(assembly)

    @kept
    def line_breaks_in(self) -> Memo[Assembly, tuple[LineBreak, ...]]:
        """Where lines of one list gave way to others."""
        assumed = self.assumed
        return Memo(lambda one: tuple(line_breaks(self.fits, one, assumed.rates, assumed.weights)))

    @kept
    def shortfalls(self) -> Shortfalls:
        """Where conversions and supersessions reach less far, or farther, than what they are for."""
        return Shortfalls(self.ever)

    @kept
    def beyond(self) -> tuple[Beyond, ...]:
        """What was seen past the numbers that the records give it."""
        return tuple(self._beyond_with(sorted(self.register.found)))

    def beyond_of(self, record: Record) -> Sequence[Beyond]:
        """What was seen past the numbers of an assembly or a conversion."""
        made = record.changes if isinstance(record, Conversion) else ()
        ids = [record.id] if isinstance(record, Assembly) else sorted({change.to for change in made})
        return tuple(one for one in self._beyond_with(ids) if one.of is record)

    def _beyond_with(self, ids: Iterable[str]) -> Iterator[Beyond]:
        known = self.register.assemblies
        return (one for id_ in ids if id_ in known for one in self.beyond_in(known[id_]))

    @kept
    def beyond_in(self) -> Memo[Assembly, tuple[Beyond, ...]]:
        """Where an assembly was seen past the numbers that the records give it."""
        return Memo(lambda assembly: tuple(beyond(self.ever, assembly)))

    @kept
    def ever(self) -> Ever:
        """What may ever have been where."""
        return Ever(self.fits)

    @kept
    def any_sheet(self) -> Memo[Assembly, Sheet | None]:
        """How an assembly comes apart on any machine, where somebody has told of it."""
        accounts = self.register.strip_downs
        return Memo(lambda one: sheet_of(self.fits.lists, one, accounts.get(one.id, ())))

    @kept
    def sheets(self) -> Mapping[Assembly, Sheet]:
        """How each assembly comes apart that somebody has told of."""
        known = self.register.assemblies
        told = (known[id_] for id_ in self.register.strip_downs if id_ in known)
        return {one: sheet for one in told if (sheet := self.any_sheet(one))}

    def sheet(self, assembly: Assembly, machine: Reading | None) -> Sheet | None:
        """How an assembly comes apart on one machine, or on any.

        It is that of any machine where the number of another plate tells of the position: it is not known
        which lines of the list such a machine has.
        """
        told = self.any_sheet(assembly)
        if told is None or machine is None:
            return told
        by = self.fits.speaking.of(machine, assembly.position)
        if self.fits.speaking.plate_to_ask(by.series, assembly.position):
            return told
        return sheet_of(self.fits.lists, assembly, told.accounts, by)

    def may_hold(self, assembly: Assembly, machine: Reading) -> MayHold | None:
        """Whether and how a machine may hold an assembly; None where its model has no such position."""
        has = self.fits.positions(self.register.machines[machine.series.machine])
        if assembly.position not in has:
            return None
        places = {one.position: one for one in self.machines.of(machine).positions}
        return may_hold(places[assembly.position], assembly, self.sheet(assembly, machine))

    def holding(self, machine: Reading) -> tuple[Holding, ...]:
        """What each position of an issued machine may hold, and how that comes apart."""
        every = self.register.assemblies
        places = self.machines.of(machine).positions
        return tuple(holding(place, every, lambda one: self.sheet(one, machine)) for place in places)

    @kept
    def recorded_standards(self) -> Mapping[Sort, Mapping[str, int]]:
        """How many things of each series of standard sizes are recorded."""
        return recorded_standards(self.register)

    @kept
    def _keys(self) -> Keys:
        return Keys(self.fits)

    def key(self, position: str, *, parts: bool = False) -> Key:
        """Which of the assemblies at a position somebody holds, or which of their parts."""
        return self._keys.of((position, parts))

    def circuits(self, reading: Reading, holds: Mapping[str, Assembly]) -> tuple[MachineCircuit, ...]:
        """Every circuit of an issued machine, with what it holds and what it may have left the works with."""
        known = circuits_of(self.register.of(Circuit), reading.series.machine)
        return tuple(machine_circuit(self.fits, self.breaks_at, one, reading, holds) for one in known)

    def flows_here(self, reading: Reading) -> tuple[FlowHere, ...]:
        """Every circuit of an issued machine as it may have left the works, and after conversions."""
        known = circuits_of(self.register.of(Circuit), reading.series.machine)
        return tuple(flow_here(self.fits, circuit, reading) for circuit in known)

    @kept
    def converted(self) -> Memo[Circuit, tuple[Converted, ...]]:
        """What conversions make of the arrangements of a circuit that left the works."""
        return Memo(lambda circuit: over_conversions(self.register, self.arrangements(circuit)))

    def worked(self, arranged: Arranged, state: CircuitState, fault: Fault | None = None) -> Worked:
        """What goes where in an arrangement, in one state and with one fault."""
        return Worked(arranged, state, self._weigher, fault)

    @kept
    def running(self) -> Memo[Arranged, tuple[Worked, ...]]:
        """One of the arrangements that are kept here, in each way in which its circuit runs."""
        return Memo(lambda one: tuple(self.worked(one, state) for state in one.circuit.states))

    @kept
    def _weigher(self) -> Weigher:
        return Weigher(self.register.sources)

    @kept
    def ordering(self) -> Ordering:
        """What to order for any number, on any machine."""
        return Ordering(self.register)
