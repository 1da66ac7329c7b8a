"""What comes of planning a whole part, as data: pages, files and programs read it."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.findings.finding import Finding
from crib.findings.message import Text
from crib.light.records import dataclass
from crib.parts.part import Face, Part, Runs
from crib.planning.dialled.finish import Proved
from crib.planning.told.advice import Advice, Plan
from crib.planning.told.passes import Pass


@dataclass(frozen=True)
class PartSetup:
    """One clamping: how the work lies, how it is held and indicated, from which corner it counts, and its minutes;
    `runs`: which direction of the face that is up lies along the table; `turned`: end for end; `stands`: how it or the
    head is tilted besides, empty where neither is."""

    no: int
    face: Face
    words: Text
    holds: Text
    datum: Text
    minutes: float
    plan: Plan
    runs: Runs = Runs.ALONG
    turned: bool = False
    stands: str = ""


@dataclass(frozen=True)
class PartOperation:
    """One go with one cutter at one feature, in the order of the whole. `key` is the same for the same work whenever
    the part is planned again; `passes` are those of its plan, `proved` that plan with its trace. `puts_up`: whether
    the cutter is put up for it, `changes_holder`: whether the holder is."""

    no: int
    key: str
    feature: str
    setup_no: int
    cutter: Cutter
    holder: Text
    passes: tuple[Pass, ...]
    minutes: float
    proved: Proved
    puts_up: bool = True
    changes_holder: bool = True
    done: bool = False


@dataclass(frozen=True)
class Lacking:
    """What the part lacks: `what` is a cutter, a collet, a tap, a measure or a feature; with what would mend it."""

    what: str
    feature: str
    says: Text


@dataclass(frozen=True)
class Unmade:
    """A feature for which there is no plan, with the answer that says why."""

    feature: str
    advice: Advice


@dataclass(frozen=True)
class PlannedPart:
    """The whole part: set-ups and operations in order, what they come to and the least that they can come to.

    `minutes` and `money` are of the whole; `least_minutes` is the proved lower bound of what was made the least of,
    in minutes, `proven` whether the plan meets it. `alone`: set-ups, holder changes, cutter changes and minutes
    where each feature is made by itself.
    """

    part: Part
    setups: tuple[PartSetup, ...]
    operations: tuple[PartOperation, ...]
    setup_changes: int
    holder_changes: int
    cutter_changes: int
    minutes: float
    money: float
    currency: str
    least_minutes: float
    proven: bool
    alone: tuple[int, int, int, float] = (0, 0, 0, 0.0)
    lacking: tuple[Lacking, ...] = ()
    unmade: tuple[Unmade, ...] = ()
    findings: tuple[Finding, ...] = ()
