"""The least and the most that a tapped hole's minor diameter may be, as the standards print them."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

from crib.findings.errors import CribError
from crib.handbook.threads.base import IN, Thread
from crib.light.records import dataclass

INCH_CLASSES, METRIC_CLASSES = ("2B", "1B"), ("6H",)
NO_CLASS = "none"

_TD1_UM: dict[float, int] = {
    0.3: 85, 0.35: 100, 0.4: 112, 0.45: 125, 0.5: 140, 0.6: 160, 0.7: 180, 0.75: 190, 0.8: 200, 1: 236, 1.25: 265,
    1.5: 300, 1.75: 335, 2: 375, 2.5: 450, 3: 500, 3.5: 560, 4: 600,
}
"""Tolerance of the minor diameter, grade 6 [um] by pitch [mm]. ISO 965-1; 0.3 to 0.7 seen in print, 0.75 and up from
memory. At 0.2 and 0.25 the printed table leaves grade 6 blank."""

_SMALL_IN = Decimal("0.138")
_B1 = "ASME B1.1 formulas; the order of rounding was found by fitting the printed table"


@dataclass(frozen=True)
class HoleLimits:
    """A class and its limits of the minor diameter [mm]. `name` is None where the thread has no class here, `most`
    None where no most is given."""

    name: str | None
    least: float | None
    most: float | None
    source: str

    def holds(self, hole_mm: float) -> bool | None:
        """Whether a hole is within the limits; None where there is nothing to judge by."""
        if self.least is None or self.most is None:
            return None
        return self.least - 1e-6 <= hole_mm <= self.most + 1e-6


def default_class(thread: Thread) -> str | None:
    """The class that is meant where none is called: 2B, 6H, or None for threads without one here."""
    return "2B" if thread.is_unified else "6H" if thread.is_metric else None


def hole_limits(thread: Thread, name: str | None = None) -> HoleLimits:
    """The limits of a class, as printed; the usual class where none is named.

    2B, least D - 1.08253175 P. Tolerance: up to 1/4 in 0.05 P^(2/3) + 0.03 P/D - 0.002, not more than 0.394 P nor less
    than 0.25 P - 0.4 P^2; over 1/4 in 0.25 P - 0.4 P^2 for 4 tpi and finer, 0.15 P for coarser [in]. 1B is the same.
    P to 8 places, least to 6, tolerance to 4, sum to 4, then from #6 up to 3, halves to even.
    6H: least D - 1.0825318 P, most with the tabled tolerance.

    Parameters: thread; class. Returns: limits [mm]. Raises: `class` for one that isn't known for this thread.
    References: ASME B1.1 as worked in Machinery's Handbook 31st ed. Table 6; ISO 965-1. The order of rounding is our
    own finding: it reproduces 41 of 41 printed rows.

    >>> from crib.handbook.threads import read_thread
    >>> [round(mm / 25.4, 4) for mm in (lambda x: (x.least, x.most))(hole_limits(read_thread("1/4-20").thread))]
    [0.196, 0.207]
    """
    if thread.minor_fixed_mm and name is None:
        return HoleLimits("ISO 228", *thread.minor_fixed_mm, thread.source)
    wanted = name or default_class(thread)
    if wanted is None or wanted.lower() == NO_CLASS:
        return HoleLimits(None, None, None, "")
    wanted = wanted.upper()
    if thread.is_unified and wanted in INCH_CLASSES:
        least, most = _unified(thread)
        return HoleLimits(wanted, least, most, _B1)
    if thread.is_metric and wanted in METRIC_CLASSES:
        return HoleLimits(wanted, *_metric(thread), "ISO 965-1")
    known = INCH_CLASSES if thread.is_unified else METRIC_CLASSES if thread.is_metric else ()
    right = f"--class {known[0]}, or --class none" if known else "leave --class away: no class is tabled for it here"
    raise CribError("class", f"class {name!r} isn't known for {thread.designation}", name or "", right)


def printed_2b(major_in: Decimal, tpi: Decimal) -> tuple[Decimal, Decimal]:
    """The limits of class 2B as they are printed [in].

    >>> [str(limit) for limit in printed_2b(Decimal("0.112"), Decimal(40))]
    ['0.0849', '0.0939']
    """
    pitch = _to(1 / tpi, "1e-8")
    least = _to(major_in - Decimal("1.08253175") * pitch, "1e-6")
    most = _to(least + _to(_tolerance(major_in, pitch, tpi), "1e-4"), "1e-4")
    if major_in >= _SMALL_IN:
        return _to(least, "1e-3", ROUND_HALF_EVEN), _to(most, "1e-3", ROUND_HALF_EVEN)
    return _to(least, "1e-4"), most


def _tolerance(major: Decimal, pitch: Decimal, tpi: Decimal) -> Decimal:
    large = Decimal("0.25") * pitch - Decimal("0.4") * pitch**2
    if major > Decimal("0.25"):
        return large if tpi >= 4 else Decimal("0.15") * pitch
    two_thirds = pitch ** (Decimal(2) / Decimal(3))
    small = Decimal("0.05") * two_thirds + Decimal("0.03") * pitch / major - Decimal("0.002")
    return max(min(small, Decimal("0.394") * pitch), large)


def _unified(thread: Thread) -> tuple[float, float]:
    major = _to(Decimal(str(thread.major_mm)) / Decimal("25.4"), "1e-6")
    tpi = _to(Decimal(IN / thread.pitch_mm), "0.1")
    least, most = printed_2b(_to(major, "1e-4", ROUND_HALF_EVEN), tpi)
    return float(least) * IN, float(most) * IN


def _metric(thread: Thread) -> tuple[float, float | None]:
    least = round(thread.major_mm - 1.0825318 * thread.pitch_mm, 3)
    tolerance = next((um for pitch, um in _TD1_UM.items() if abs(pitch - thread.pitch_mm) < 1e-6), None)
    return least, None if tolerance is None else round(least + tolerance / 1000, 3)


def _to(value: Decimal, place: str, way: str = ROUND_HALF_UP) -> Decimal:
    return value.quantize(Decimal(place), way)
