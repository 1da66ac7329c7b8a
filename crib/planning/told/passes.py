"""A pass as it is told: what is set on the dials, touched off, checked and turned."""

from __future__ import annotations

from crib.findings.message import Text
from crib.light.records import dataclass
from crib.machining.words import Direction, Fed, Seen, Slack, Slide
from crib.machining.words import Turned as Way


@dataclass(frozen=True)
class Dial:
    """Where a slide is set: its reading from the zero that was touched off [mm], whole turns of its screw from there
    and divisions beyond them, which way it is turned, from which side the slack is taken up."""

    slide: Slide
    reading_mm: float
    turns: int
    divisions: float
    way: Way
    slack_from: Slack


@dataclass(frozen=True)
class Place:
    """Where the spindle stands for one of several holes: by table and cross from the zero that was touched off, as
    drawn and as dialled [mm], and the same on the handwheels."""

    no: int
    x_mm: float
    y_mm: float
    dial_x_mm: float
    dial_y_mm: float
    dials: tuple[Dial, ...]


@dataclass(frozen=True)
class Turned:
    """One of several flats: in what place it is cut, which it is, how far round from the first [deg], how the work is
    brought there."""

    no: int
    flat: int
    angle_deg: float
    says: Text


@dataclass(frozen=True)
class Touch:
    """One step of touching off, and the reading that is set there [mm]; None where none is set. `each`: the same step
    of each cutter by itself, by its number, where each is touched off when it is put in."""

    says: Text
    reading_mm: float | None = None
    each: tuple[tuple[int, Text], ...] = ()


@dataclass(frozen=True)
class Check:
    """What to measure after a pass, with what, and what it should read [mm]; its limits where it is a size of the
    drawing."""

    after_no: int
    what: Text
    instrument: str
    reads_mm: float
    low_mm: float | None = None
    high_mm: float | None = None


@dataclass(frozen=True)
class Pass:
    """One pass. x: axis from the centre line (a step or edge: from the finished wall); z: lower face from the surface,
    negative downwards; `dial_x_mm`, `dial_z_mm`: the same on the user's readout. `room` names what is being cleared.

    Between closed ends `path_mm` has the corners of its way (along from the left end, across), `from_mm` and `to_mm`
    are its stops along, and `entry` is how it gets down: `free`, `hole`, `plunge`, `ramp`, or `on` where it goes on
    from the last pass. In the view from above x runs along and y across. `dials`: the same settings on the handwheels;
    `stops_mm`: how far along the cut, or down a hole, to stop for the chips; `locks`: the slides that are locked;
    `enters_mm`, `leaves_mm`: where the axis stands along, from the left end, before and after an open cut; `by_hand`:
    whether a hand feeds it.
    """

    no: int
    cutter_id: int
    role: str
    room: str
    x_mm: float
    z_mm: float
    dial_x_mm: float
    dial_z_mm: float
    radial_mm: float
    axial_mm: float
    feed: Fed
    direction: Direction
    rpm: int | None
    wanted_rpm: int
    mm_per_min: float
    minutes: float
    says: Text
    diameter_mm: float | None = None
    stop_mm: float | None = None
    view: Seen = Seen.CROSS
    y_mm: float | None = None
    from_mm: float | None = None
    to_mm: float | None = None
    dial_from_mm: float | None = None
    dial_to_mm: float | None = None
    entry: str | None = None
    path_mm: tuple[tuple[float, float], ...] = ()
    dial_path_mm: tuple[tuple[float, float], ...] = ()
    way_says: tuple[Text, ...] = ()
    dials: tuple[Dial, ...] = ()
    stops_mm: tuple[float, ...] = ()
    locks: tuple[Slide, ...] = ()
    enters_mm: float | None = None
    leaves_mm: float | None = None
    by_hand: bool = False

    @property
    def dial_cross_mm(self) -> float:
        """The reading of the cross slide: what only goes down between closed ends has its x along the feed [mm]."""
        is_seen_from_above = self.view == Seen.PLAN and self.dial_path_mm
        return self.dial_path_mm[0][1] if is_seen_from_above else self.dial_x_mm

    @property
    def spindle_is_off(self) -> bool:
        """Whether no spindle turns the cutter."""
        return self.rpm is None and self.mm_per_min == 0 and self.feed == Fed.DOWN
