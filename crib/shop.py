"""The shop's settings: what the machine and its holders can do, and what the owner's time is worth."""

from __future__ import annotations

from collections.abc import Sequence

from crib.light.hints import Any
from crib.light.records import asdict, dataclass, fields, replace

THOU = 0.0254


@dataclass(frozen=True)
class Arbor:
    """An arbor for cutters with a bore, with the diameter of its flange, that of the nose above it, and how far over
    the cutter that begins [mm]; None where the owner hasn't said."""

    bore_mm: float
    flange_mm: float
    nose_mm: float | None = None
    reach_mm: float | None = None


@dataclass(frozen=True)
class BoringHead:
    """A boring head: the shank of its bars, from and to what diameter it bores [mm], the fastest that it may turn
    [rev/min], whether its dial counts on the `diameter` or on the `radius`; `faces`: whether it feeds its tool out by
    itself as it turns."""

    bar_mm: float
    least_mm: float
    most_mm: float
    rpm: float = 1000.0
    dial: str = "diameter"
    faces: bool = False


@dataclass(frozen=True)
class OwnHole:
    """A hole that the owner has drilled and measured: the drill's size and the hole's [mm]."""

    drill_mm: float
    hole_mm: float


def middle(values: Sequence[float]) -> float:
    """The median: as many lie above as below, so one that went wrong doesn't count for much.

    >>> middle([1.1, 9.0, 1.3]), middle([1.0, 2.0])
    (1.3, 1.5)
    """
    ranked = sorted(values)
    half = len(ranked) // 2
    return ranked[half] if len(ranked) % 2 else (ranked[half - 1] + ranked[half]) / 2


@dataclass(frozen=True)
class Own:
    """What the owner's own results come to. `pace`: real minutes over reckoned ones, the median of so many plans timed;
    `hour_rate`: what an hour is worth, where the shop's rate stands for an hour at that pace."""

    pace: float = 1.0
    timed: int = 0
    holes: tuple[OwnHole, ...] = ()
    hour_rate: float | None = None


_LEAST_RATE = 1e-4
"""What an hour is reckoned at where it is worth nothing: no cent in a week, and yet of plans that cost the same the
quicker one is better."""


@dataclass(frozen=True)
class Shop:
    """Every setting with its default. Lengths in mm, money in `currency`, times in minutes, chances and shares of 1.

    `spindle_rpm` and `collets_mm` are None until the owner has said; an empty tuple means none at all. Times, shares
    and clearances are common practice, from memory; the owner's own figures replace them. `own` is no setting: it is
    what was measured in this shop; nor is `this_time`, which rules the owner overrules for one question.
    """

    units: str = "in"
    spindle_rpm: tuple[int, ...] | None = None
    collets_mm: tuple[float, ...] | None = None
    chuck_mm: float | None = None
    arbors: tuple[Arbor, ...] | None = None
    boring_heads: tuple[BoringHead, ...] | None = None
    collet_blocks: bool = False
    dividing_turns: int | None = None
    rotary_turns: int | None = None
    nose_mm: float = 50.8
    collet_nose_mm: float | None = None
    collet_nose_length_mm: float = 38.1
    dro: bool = True
    stiffness: str = "knee"
    motor_kw: float | None = None
    hand_feed_mm: float = 203.2
    power_feed_mm: float | None = None
    unknown_steel: str = "unknown"
    magnesium: bool = False
    backlash_mm: float = 5 * THOU
    screw_lead_mm: float | None = None
    knee_lead_mm: float | None = None
    edge_finder_mm: float | None = None
    paper_mm: float | None = None
    mill_runout_mm: float | None = None
    saw_runout_mm: float | None = None
    neck_clearance_mm: float = 10 * THOU
    end_clearance_mm: float = 30 * THOU
    general_tolerance_mm: float = 5 * THOU
    loose_tolerance_mm: float = 15 * THOU
    most_levels: int = 4
    hour_rate: float = 15.0
    currency: str = "USD"
    blank_cost: float = 30.0
    setup_minutes: float = 20.0
    cutter_minutes: float = 2.0
    collet_minutes: float = 1.5
    touch_minutes: float = 3.0
    touch_disc_minutes: float = 4.0
    pass_minutes: float = 0.6
    buried_pass_minutes: float = 1.2
    measure_minutes: float = 1.5
    chip_stop_minutes: float = 0.5
    deburr_minutes: float = 2.0
    deburr_inch_minutes: float = 0.1
    peck_minutes: float = 0.2
    remember_questions: bool = True
    sheet_paper: str | None = None
    saw_allowance_mm: float = 125 * THOU
    square_allowance_mm: float = 125 * THOU
    hold_allowance_mm: float = 750 * THOU
    tilt_minutes: float = 12.0
    index_setup_minutes: float = 15.0
    index_minutes: float = 1.0
    protractor_minutes: float = 6.0
    file_minutes: float = 6.0
    file_inch_minutes: float = 4.0
    trial_minutes: float = 15.0
    base_chance: float = 0.01
    warn_chance: float = 0.01
    caution_chance: float = 0.03
    careful_chance: float = 0.04
    assumed_chance: float = 0.04
    overhang_chance: float = 0.03
    hand_chance: float = 0.03
    miss_chance: float = 0.05
    easy_wear: float = 0.005
    buried_wear: float = 0.02
    hard_wear: float = 0.08
    grind_minutes: float = 25.0
    borrow_minutes: float = 30.0
    regrind_worth: float = 0.6
    regrind_price: float | None = None
    regrind_days: float = 14.0
    neighbour_rate: float | None = None
    years_ahead: float = 2.0
    future_doubt: float = 0.7
    overruled: tuple[str, ...] = ()
    own: Own = Own()
    this_time: tuple[str, ...] = ()

    @property
    def power_w(self) -> float:
        """The motor's power [W]; where the owner hasn't said, what a mill of this build usually has, from memory.

        >>> Shop().power_w, Shop(motor_kw=0.75).power_w
        (1100.0, 750.0)
        """
        return 1000 * (_USUAL_KW[self.stiffness] if self.motor_kw is None else self.motor_kw)

    @property
    def most_feed_mm(self) -> float:
        """The fastest that the table is fed [mm/min]: by its power feed, else by hand."""
        return self.hand_feed_mm if self.power_feed_mm is None else self.power_feed_mm

    @property
    def finder_mm(self) -> float:
        """The edge finder's diameter [mm]; where the owner hasn't said, a usual one: .200 in or 10 mm."""
        return self.edge_finder_mm or (5.08 if self.units == "in" else 10.0)

    @property
    def feeler_mm(self) -> float:
        """The paper's thickness [mm]; where the owner hasn't said, a usual one: .003 in or 0.08 mm."""
        return self.paper_mm or (3 * THOU if self.units == "in" else 0.08)

    @property
    def readout_mm(self) -> float:
        """The finest step that can be set: .0005 in or .005 mm on a readout, .001 in or .01 mm on dials."""
        if self.units == "in":
            return 0.0127 if self.dro else 0.0254
        return 0.005 if self.dro else 0.01

    @property
    def rough_mm(self) -> float:
        """The step of what is only about so far: .05 in, or 1 mm."""
        return 1.27 if self.units == "in" else 1.0

    def at_own_pace(self) -> Shop:
        """The shop in which a reckoned hour costs what it really takes: its rate is that of an hour at the own pace.

        >>> Shop(hour_rate=20.0, own=Own(pace=1.25, timed=3)).at_own_pace().hour_rate
        25.0
        """
        if self.own.hour_rate is not None:
            return self
        rate = max(self.hour_rate, _LEAST_RATE) * self.own.pace
        return replace(self, hour_rate=rate, own=replace(self.own, hour_rate=self.hour_rate))

    @property
    def pace(self) -> float:
        """What reckoned minutes are multiplied by, where the rate says so too."""
        return self.own.pace if self.own.hour_rate is not None else 1.0

    @property
    def real_hour(self) -> float:
        """What an hour is worth, whatever the pace."""
        return self.hour_rate if self.own.hour_rate is None else self.own.hour_rate

    def as_json(self) -> dict[str, Any]:
        """Every setting under its own name."""
        return {key: value for key, value in asdict(self).items() if key != "this_time"}


SETTINGS: tuple[str, ...] = tuple(field.name for field in fields(Shop) if field.name not in ("own", "this_time"))
STIFFNESS = ("bench", "knee", "heavy")
_USUAL_KW = {"bench": 0.55, "knee": 1.1, "heavy": 2.2}


def from_json(values: dict[str, Any]) -> Shop:
    """A shop from stored settings; names that this version doesn't know are passed over."""
    known = {key: value for key, value in values.items() if key in SETTINGS}
    for key in ("spindle_rpm", "collets_mm", "overruled"):
        if known.get(key) is not None:
            known[key] = tuple(known[key])
    if known.get("arbors") is not None:
        known["arbors"] = tuple(Arbor(**arbor) for arbor in known["arbors"])
    if known.get("boring_heads") is not None:
        known["boring_heads"] = tuple(BoringHead(**head) for head in known["boring_heads"])
    return Shop(**known)
