"""What a thread is: its form, its size and where both come from."""

from __future__ import annotations

from math import sqrt

from crib.light.records import dataclass
from crib.units import nm

IN = 25.4


@dataclass(frozen=True)
class ThreadForm:
    """The shape of a thread. `percent_factor`: the double depth that counts as 100 percent, as a share of the pitch;
    `minor_factor`: the double depth from major to basic minor diameter of the hole; `base` names the first."""

    angle_deg: float
    percent_factor: float
    minor_factor: float
    base: str


SIXTY = ThreadForm(60, 3 * sqrt(3) / 4, 5 * sqrt(3) / 8, "1.299 P (60 degrees, 3/4 H; by 1.0825 P a hole reads 1.2 "
                   "times as much)")
WHITWORTH = ThreadForm(55, 1.280654, 1.280654, "1.2807 P (55 degrees)")
ASSOCIATION = ThreadForm(47.5, 1.2, 1.2, "1.2 P (47.5 degrees)")
PIPE = ThreadForm(60, 1.6, 1.6, "1.6 P (60 degrees, taper pipe)")
"""Double depths: geometry of the forms; ASME B1.1, BS 84, BS 93 and ASME B1.20.1."""


@dataclass(frozen=True)
class Thread:
    """A thread of a standard or an old special, in mm. `name` is how it is written without its series.

    `drill`: the drill that charts give, as it is written, None where none was found; `minor_fixed_mm` where a table
    gives the hole's least and most minor diameter. `taper`: on diameter, 0 where it is straight.
    """

    name: str
    series: str
    major_mm: float
    pitch_mm: float
    form: ThreadForm
    source: str
    drill: str | None = None
    drill_source: str = ""
    minor_fixed_mm: tuple[float, float] | None = None
    taper: float = 0.0

    @property
    def designation(self) -> str:
        """The thread as it is called: `1/4-28 UNF`, `M6x1`, `0 BA`.

        >>> Thread("1/4-28", "UNF", 6.35, 25.4 / 28, SIXTY, "").designation
        '1/4-28 UNF'
        """
        word = {"special": "NS", "ISO coarse": "", "ISO fine": "", "BSPP": ""}.get(self.series, self.series)
        word = "UN" if word.endswith("-UN") else word
        return f"{self.name} {word}".strip()

    @property
    def tpi(self) -> float:
        """Threads per inch [-]."""
        return IN / self.pitch_mm

    @property
    def is_metric(self) -> bool:
        """Whether it is an ISO metric thread."""
        return self.series.startswith("ISO")

    @property
    def is_unified(self) -> bool:
        """Whether class 2B is reckoned for it: the Unified series and the American specials."""
        return self.series.startswith("UN") or self.series.endswith("-UN") or self.series == "special"

    @property
    def is_small(self) -> bool:
        """Whether it is below #6 or M3.5, where taps break of themselves."""
        return self.major_mm < 0.138 * IN - 1e-6

    @property
    def minor_basic_mm(self) -> float:
        """The basic minor diameter of the hole [mm]."""
        if self.minor_fixed_mm:
            return self.minor_fixed_mm[0]
        return self.major_mm - self.form.minor_factor * self.pitch_mm

    def same_as(self, other: Thread) -> bool:
        """Whether a tap for the one cuts the other: size, pitch and form agree whatever the series is called.

        >>> unf, un = (Thread("10-32", s, 4.826, 25.4 / 32, SIXTY, "") for s in ("UNF", "32-UN"))
        >>> unf.same_as(un)
        True
        """
        return (nm(self.major_mm), nm(self.pitch_mm), self.form, self.taper) == (
            nm(other.major_mm), nm(other.pitch_mm), other.form, other.taper)
