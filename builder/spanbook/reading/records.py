"""What contributors typed, one class a kind. Raw: a bound here is as it stands in the file.

An attribute is called as its key in the schema (`seen_by` for seen-by), or tells its key.
Records are told apart by identity, are frozen, and know the file and the place of everything in them.
Each family has a module of its own; this is the one list of them, by which everything else calls them.
"""

from spanbook.reading.assemblies import Absence as Absence
from spanbook.reading.assemblies import Assembly as Assembly
from spanbook.reading.assemblies import Fitted as Fitted
from spanbook.reading.assemblies import FittedSpan as FittedSpan
from spanbook.reading.assemblies import ListedPart as ListedPart
from spanbook.reading.assemblies import Shape as Shape
from spanbook.reading.assemblies import StackPart as StackPart
from spanbook.reading.basics import Around as Around
from spanbook.reading.basics import Beside as Beside
from spanbook.reading.basics import End as End
from spanbook.reading.basics import Evidence as Evidence
from spanbook.reading.basics import Origin as Origin
from spanbook.reading.basics import Record as Record
from spanbook.reading.basics import SaidSpan as SaidSpan
from spanbook.reading.basics import SeriesSpan as SeriesSpan
from spanbook.reading.basics import Typed as Typed
from spanbook.reading.basics import YearEnd as YearEnd
from spanbook.reading.circuits import Circuit as Circuit
from spanbook.reading.circuits import CircuitPlace as CircuitPlace
from spanbook.reading.circuits import CircuitState as CircuitState
from spanbook.reading.circuits import Port as Port
from spanbook.reading.circuits import Way as Way
from spanbook.reading.circuits import WaySize as WaySize
from spanbook.reading.conversions import Change as Change
from spanbook.reading.conversions import Conversion as Conversion
from spanbook.reading.conversions import PartTaken as PartTaken
from spanbook.reading.conversions import PositionNeed as PositionNeed
from spanbook.reading.machines import Machine as Machine
from spanbook.reading.machines import Series as Series
from spanbook.reading.numbered import Declined as Declined
from spanbook.reading.numbered import Mark as Mark
from spanbook.reading.numbered import OtherNumber as OtherNumber
from spanbook.reading.numbered import PartUse as PartUse
from spanbook.reading.numbered import ReadWith as ReadWith
from spanbook.reading.numbered import Size as Size
from spanbook.reading.numbered import Worn as Worn
from spanbook.reading.parts import AlsoNumber as AlsoNumber
from spanbook.reading.parts import FormerNumber as FormerNumber
from spanbook.reading.parts import Hand as Hand
from spanbook.reading.parts import Misprint as Misprint
from spanbook.reading.parts import OtherPart as OtherPart
from spanbook.reading.parts import PartRecord as PartRecord
from spanbook.reading.parts import Reuse as Reuse
from spanbook.reading.parts import SetPart as SetPart
from spanbook.reading.parts import Supplied as Supplied
from spanbook.reading.series_typed import Plant as Plant
from spanbook.reading.series_typed import SecondIssue as SecondIssue
from spanbook.reading.single import Caution as Caution
from spanbook.reading.single import Cautions as Cautions
from spanbook.reading.single import Glossary as Glossary
from spanbook.reading.single import Gone as Gone
from spanbook.reading.single import GonePage as GonePage
from spanbook.reading.single import PositionEntry as PositionEntry
from spanbook.reading.single import Positions as Positions
from spanbook.reading.single import Publication as Publication
from spanbook.reading.single import Term as Term
from spanbook.reading.sources import Source as Source
from spanbook.reading.strip_downs import Catch as Catch
from spanbook.reading.strip_downs import Earlier as Earlier
from spanbook.reading.strip_downs import StripDown as StripDown
from spanbook.reading.strip_downs import StripStep as StripStep
from spanbook.reading.strip_downs import ToolUsed as ToolUsed
from spanbook.reading.supersessions import ActNeed as ActNeed
from spanbook.reading.supersessions import Interchange as Interchange
from spanbook.reading.supersessions import Supersession as Supersession
from spanbook.reading.teardowns import Condition as Condition
from spanbook.reading.teardowns import Find as Find
from spanbook.reading.teardowns import Photograph as Photograph
from spanbook.reading.teardowns import Teardown as Teardown
from spanbook.reading.units import Unit as Unit
from spanbook.reading.units import UnitNumber as UnitNumber
