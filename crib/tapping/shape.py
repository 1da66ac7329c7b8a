"""The shape of tap advice. Lengths in mm; what sheets show and `--json` prints is all here."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.findings.finding import Finding
from crib.findings.message import Text
from crib.findings.verdicts import Verdict
from crib.handbook.tapping import Target
from crib.handbook.threads import HoleLimits, Reading, Thread
from crib.handbook.threads.limits import NO_CLASS
from crib.light.records import dataclass
from crib.machining.holes import Hole


@dataclass(frozen=True)
class Asking:
    """What is asked of a thread. Lengths in mm. `drill_mm`: the drill in hand. `form`: cutting or forming, where
    the tap in hand isn't to be taken from the crib. `use`, `mating`: what the part is for and what goes with it.
    `power`: tapped under power, else by hand."""

    reading: Reading
    class_name: str | None = None
    material: str = ""
    depth_mm: float | None = None
    through: bool = False
    below_mm: float | None = None
    drill_mm: float | None = None
    form: str | None = None
    use: str | None = None
    mating: str | None = None
    power: bool = False

    @property
    def is_blind(self) -> bool:
        """Whether the hole is known to have a floor."""
        return self.depth_mm is not None and not self.through

    @property
    def called(self) -> bool:
        """Whether the drawing calls a class; the usual one is only looked at where none is called."""
        name = self.class_name or self.reading.class_name
        return bool(name) and (name or "").lower() != NO_CLASS


@dataclass(frozen=True)
class JudgedHole:
    """A hole judged for a tap. `percent_*` is None where percent means nothing. `score`: the lowest is best."""

    hole: Hole
    forming: bool
    percent_thread: float | None
    percent_expected: float | None
    within_class: bool | None
    within_class_by_size: bool | None
    answer: Verdict
    says: Text
    score: float
    edge: bool = False
    fix: Text = ""

    @property
    def serves(self) -> bool:
        """Whether it may be recommended."""
        return self.answer in (Verdict.AS_DRAWN, Verdict.EXTRA_PASSES, Verdict.COMPROMISE)


@dataclass(frozen=True)
class Depth:
    """Where the depth of a blind or through hole goes [mm]. `tip_mm` None: it goes through. `short_mm`: by how much the
    metal below is too little, 0 where it holds; None where what is below isn't known."""

    full_thread_mm: float
    chamfer_mm: float
    chips_mm: float
    point_mm: float
    through: bool
    taps: tuple[Cutter, ...]
    keep_mm: float = 0.0
    short_mm: float | None = None
    breaks_through: bool = False
    drill_mm: float = 0.0

    @property
    def hole_mm(self) -> float:
        """Depth of the hole at its full diameter [mm]."""
        return self.full_thread_mm + self.chamfer_mm + self.chips_mm

    @property
    def tip_mm(self) -> float:
        """Depth of the drill's point [mm]."""
        return self.hole_mm + self.point_mm


@dataclass(frozen=True)
class NotOwned:
    """A drill that would be right and isn't owned."""

    label: str
    diameter_mm: float
    percent_thread: float | None
    hole_expected_mm: float
    says: Text = ""


@dataclass(frozen=True)
class TapAdvice:
    """The answer to one question about a thread."""

    thread: Thread
    hand: str
    limits: HoleLimits
    target: Target | None
    answer: Verdict
    says: Text
    taps: tuple[Cutter, ...] = ()
    drills: tuple[JudgedHole, ...] = ()
    other_ways: tuple[JudgedHole, ...] = ()
    not_owned: tuple[NotOwned, ...] = ()
    depth: Depth | None = None
    rpm: int | None = None
    wanted_rpm: int = 0
    torque_nm: float | None = None
    fluid: str = ""
    steps: tuple[Text, ...] = ()
    warnings: tuple[Finding, ...] = ()
    assumed: tuple[Text, ...] = ()
    material: str = ""
    cautions: tuple[Text, ...] = ()
    notes: tuple[str, ...] = ()
    without: str = ""
    power: bool = False
