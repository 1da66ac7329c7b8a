"""The shape of an answer: all that sheets show and `--json` prints is here and in `passes.py`, in mm and minutes."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from crib.cutters.base import Cutter
from crib.findings.finding import NO_CHANGE, Figure, Finding, Grade
from crib.findings.message import Text
from crib.findings.verdicts import Verdict
from crib.geometry.operation import Frame
from crib.geometry.view import Spot
from crib.light.hints import Any
from crib.light.records import dataclass
from crib.machining.question import ZEROS
from crib.machining.words import Seen, Slide
from crib.planning.told.passes import Check, Pass, Place, Touch, Turned
from crib.rules.catalogue import BY_ID, ids

_OF_KIND = ids("of_kind")


@dataclass(frozen=True)
class CostLine:
    """One named line of the cost, in minutes or in money, with why, and the settings of the shop behind it."""

    what: str
    minutes: float
    money: float
    why: Text
    settings: tuple[str, ...] = ()


@dataclass(frozen=True)
class FaceReport:
    """How a face that the drawing names came out: which cutters made it, in how many pieces, how far off aim, and of
    one that leans its angle from the level [deg], where its pieces differ the one that is farther off."""

    name: str
    cutter_ids: tuple[int, ...]
    joints: int
    off_mm: float
    angle_deg: float | None = None


@dataclass(frozen=True)
class TightSpot:
    """The closest that anything which doesn't cut comes to standing metal: in which pass, where, and by how much."""

    pass_no: int
    part: str
    x_mm: float
    z_mm: float
    gap_mm: float
    view: Seen = Seen.CROSS

    @staticmethod
    def of(spot: Spot) -> TightSpot:
        """The same as it is told, in the pass that the operation is."""
        return TightSpot(spot.operation + 1, spot.part.name, spot.x / 1e6, spot.z / 1e6, spot.gap / 1e6,
                         Seen.PLAN if spot.frame is Frame.PLAN else Seen.CROSS)


@dataclass(frozen=True)
class Proof:
    """What the plan leaves and spoils, found by cutting it again from stock [mm]."""

    left_mm: float
    gouge_mm: float
    neck_gap_mm: float | None
    tight: TightSpot | None = None
    faces: tuple[FaceReport, ...] = ()


@dataclass(frozen=True)
class Plan:
    """One proved way to make the feature. `fluid`: what to put on, or `dry`; `locks`: what is locked while it is cut;
    `hold`: how the work is held and indicated; `touch_off`: in order, with the reading to set; `checks`: what to
    measure. `handwheels`: how dials are come to, where there is no readout to go by. `places`: where each of several
    holes stands, and `places_from`: what that counts from. `indexed`: how the work is turned to each of several flats,
    in their order, and `index_by` what turns it."""

    answer: Verdict
    way: str
    cutters: tuple[Cutter, ...]
    passes: tuple[Pass, ...]
    proof: Proof
    deviations: tuple[Finding, ...] = ()
    figures: tuple[Figure, ...] = ()
    setup: Text = "upright"
    zeros: tuple[Text, Text] = ZEROS
    holders: tuple[Text, ...] = ()
    assumed: tuple[Text, ...] = ()
    warnings: tuple[Finding, ...] = ()
    minutes: float = 0.0
    cost: float = 0.0
    currency: str = "USD"
    cost_lines: tuple[CostLine, ...] = ()
    scrap_chance: float = 0.0
    fluid: str = ""
    locks: tuple[Slide, ...] = ()
    hold: Text = ""
    touch_off: tuple[Touch, ...] = ()
    checks: tuple[Check, ...] = ()
    handwheels: Text = ""
    places: tuple[Place, ...] = ()
    places_from: Text = ""
    indexed: tuple[Turned, ...] = ()
    index_by: str = ""


@dataclass(frozen=True)
class Gist:
    """What a proved plan comes to, without its passes and its words."""

    answer: Verdict
    way: str
    cutters: tuple[Cutter, ...]
    minutes: float
    cost: float
    cost_lines: tuple[CostLine, ...]
    scrap_chance: float
    deviations: tuple[Finding, ...] = ()


AnyPlan = Plan | Gist


@dataclass(frozen=True, kw_only=True)
class Refusal(Finding):
    """Why a cutter can't, with both numbers and one change that would do. `helps`: whether it is for something that
    nothing else that is owned does."""

    cutter: Cutter
    helps: bool = True

    @property
    def answer(self) -> Verdict:
        """Whether it may do once it is measured, or can't."""
        return Verdict.MEASURE_FIRST if self.unsure else Verdict.CANNOT

    @property
    def is_hopeful(self) -> bool:
        """Whether one change of this cutter would do."""
        return bool(self.fix) and self.fix != NO_CHANGE and self.id not in _OF_KIND


def refused(cutter: Cutter, id: str, says: Text, has_mm: float | None = None, needs_mm: float | None = None,
            fix: Text | None = None, short_mm: float = inf, unsure: bool = False) -> Refusal:
    """The refusal of a cutter; lengths in mm."""
    return Refusal(id, Grade.REFUSES, says, BY_ID[id].source, cutter.id, has_mm, needs_mm, fix or NO_CHANGE, short_mm,
                   unsure, cutter=cutter)


@dataclass(frozen=True)
class Change:
    """A size of the drawing changed: its key, from what to what [mm, or degrees], and the plan that it lets in."""

    key: str
    before: float
    after: float
    plan: Plan

    @property
    def by(self) -> float:
        """How far it is changed, less than nothing where it gets smaller."""
        return self.after - self.before


@dataclass(frozen=True)
class WayIn:
    """A hole that isn't asked for and would let a disc in between closed ends: the change, with what is then made; how
    wide it may be at the most and how deep its floor is [mm]; how it is made itself, None where nothing owned does."""

    change: Change
    most_mm: float
    depth_mm: float
    made: Plan | None

    @property
    def minutes(self) -> float:
        """Minutes of both, as far as they are known."""
        return self.change.plan.minutes + (self.made.minutes if self.made else 0.0)


@dataclass(frozen=True)
class Rival:
    """A plan that the first isn't clearly better than: its place among the plans, its cutters, its minutes, and how far
    it lies outside the drawing at the most [mm]."""

    place: int
    cutters: tuple[Cutter, ...]
    minutes: float
    beyond_mm: float = 0.0


@dataclass(frozen=True)
class Advice:
    """The answer to one question. `feature` is the feature's own description in contract keys (`*_mm`). `refused` are
    the nearest of `all_refused`, or all of them where that isn't said. `changes`: of the drawing, where they were asked
    for; `way_in`: a hole between closed ends with which it would be better. `away`: what is lent or lost and would do
    better. `in_part`: not everything was tried, for it would have taken too long. `as_good`: plans that cost so nearly
    what the first does, and keep the drawing as well, that the order decides nothing; `nearer`: plans that keep to the
    drawing twice as nearly as the first, where that doesn't keep to it; `quicker`: plans that cost clearly less than
    the first, which stands before them because it misses less."""

    feature: dict[str, Any]
    answer: Verdict
    plans: Sequence[Plan] = ()
    refused: Sequence[Refusal] = ()
    says: Text = ""
    assumed: tuple[Text, ...] = ()
    cautions: tuple[str, ...] = ()
    buy: dict[str, Any] | None = None
    all_refused: int | None = None
    changes: tuple[Change, ...] | None = None
    way_in: WayIn | None = None
    away: tuple[dict[str, Any], ...] = ()
    in_part: bool = False
    as_good: tuple[Rival, ...] = ()
    nearer: tuple[Rival, ...] = ()
    quicker: tuple[Rival, ...] = ()

    @property
    def refused_count(self) -> int:
        """How many cutters are refused."""
        return len(self.refused) if self.all_refused is None else self.all_refused

    @property
    def not_told(self) -> int:
        """How many more are refused than are told of."""
        return self.refused_count - len(self.refused)
