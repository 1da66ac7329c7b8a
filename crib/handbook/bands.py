"""What a way of cutting can hold on a manual machine in fair order, as deviations from the size that is aimed at.

Common practice, to be replaced by the owner's own measured figures. Drill oversize: formula from memory of a handbook's
report of tests on holes 1/8 to 1 in.
"""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.light.records import dataclass

INSIDE_MM = 4.0
"""Narrower than the jaws of an inside caliper or micrometer go in [mm]. From memory."""

_THOU = 0.0254


@dataclass(frozen=True)
class Band:
    """How a way comes out: from the lower to the upper deviation [mm], as usual and with care."""

    way: str
    usual_mm: tuple[float, float]
    careful_mm: tuple[float, float]
    source: str = "common practice"


def _even(usual: float, careful: float) -> tuple[tuple[float, float], tuple[float, float]]:
    return (-usual * _THOU / 2, usual * _THOU / 2), (-careful * _THOU / 2, careful * _THOU / 2)


BANDS: tuple[Band, ...] = (
    Band("own size", (0.0, 4 * _THOU), (0.5 * _THOU, 2 * _THOU)),
    Band("stepped by dials", *_even(3, 1.5)),
    Band("stepped by readout", *_even(2, 1)),
    Band("one setting, measured before it", *_even(1, 1)),
    Band("opposite flats at one setting, measured across and mended by half", *_even(1, 0.5)),
    Band("two levels", *_even(4, 2)),
    Band("own face", (0.0, 0.5 * _THOU), (0.0, 0.0), "as seats of ANSI/ASME B17.2 may be over their width"),
    Band("saw", (1 * _THOU, 3 * _THOU), (1 * _THOU, 2 * _THOU)),
    Band("two drills", (1 * _THOU, 3 * _THOU), (0.5 * _THOU, 1.5 * _THOU)),
    Band("ream", *_even(1, 0.5)),
    Band("bore", *_even(1, 0.3)),
    Band("place by layout", *_even(15, 5)),
    Band("place by dials", *_even(3, 1)),
)
"""The ways that don't depend on a diameter; `own size`, `own face` and `saw` are over the cutter's measured size.
Opposite flats are told from the middle: a setting counts twice across them, and mended by half of what is over it is
off by half."""

ANGLE_DEG = 0.25, 0.02
"""How far an angle may be off to each side as usual, by protractor or as a cutter is ground, and with care, by sine bar
[deg]. Common practice."""

RADIUS_MM = 1.0 * _THOU, 0.5 * _THOU
"""The same of a radius, which is as its cutter is ground; with care one that was measured [mm]. From memory."""

ONE_PASS_LEAST_MM = 0.5 * _THOU
"""A slot cut in one pass comes out at least this much over its cutter [mm]. Common practice."""


def band(way: str) -> Band:
    """The band of a way.

    Parameters: way, one of `BANDS` [-]. Returns: the band [mm]. Raises: `way` for one that isn't known.
    References: common practice.

    >>> [round(mm / 0.0254, 4) for mm in band("stepped by readout").usual_mm]
    [-1.0, 1.0]
    """
    for each in BANDS:
        if each.way == way:
            return each
    raise CribError("way", f"no band is known for {way!r}", way, f"one of: {', '.join(b.way for b in BANDS)}")


def drilled(diameter_mm: float) -> Band:
    """The band of a drilled hole over its drill: the mean +/- .001 in; with care from the least to the mean.

    mean = .002 + .005 d, least = .001 + .003 d [in]

    Parameters: d [mm]. Returns: the band over the drill's size [mm]. Valid for: d 1/8 to 1 in.
    References: formula from memory of a handbook's report of tests.

    >>> [round(mm / 0.0254, 2) for mm in drilled(25.4 / 4).usual_mm]
    [2.25, 4.25]
    """
    mean, least = drill_mean(diameter_mm), drill_least(diameter_mm)
    return Band("drill", (mean - _THOU, mean + _THOU), (least, mean), "from memory of a handbook's report of tests")


def drill_mean(diameter_mm: float) -> float:
    """The mean oversize of a drilled hole: .002 + .005 d [in]; in and out in mm.

    References: formula from memory of a handbook's report of tests.

    >>> round(drill_mean(25.4) / 0.0254, 4)
    7.0
    """
    return 2 * _THOU + 0.005 * diameter_mm


def drill_least(diameter_mm: float) -> float:
    """The least oversize of a drilled hole: .001 + .003 d [in]; in and out in mm.

    References: formula from memory of a handbook's report of tests.

    >>> round(drill_least(25.4) / 0.0254, 4)
    4.0
    """
    return 1 * _THOU + 0.003 * diameter_mm


def drill_most(diameter_mm: float) -> float:
    """The most oversize of a drilled hole: .005 + .005 d [in]; in and out in mm.

    References: formula from memory of a handbook's report of tests.

    >>> round(drill_most(25.4) / 0.0254, 4)
    10.0
    """
    return 5 * _THOU + 0.005 * diameter_mm


def one_pass(runs_out_mm: float | None = None) -> Band:
    """The band of a slot that an end mill cuts in one pass, over its measured diameter.

    usual .0005 to .004, with care .0005 to .002 [in]; where more run-out is measured at its edges, from that on, as far

    Parameters: what an indicator reads in all at its edges, half of it on each side [mm]. Returns: the band over the
    diameter [mm]. References: common practice.

    >>> known = one_pass(0.0381)
    >>> [round(mm / 0.0254, 3) for mm in (*one_pass().usual_mm, *known.usual_mm, *known.careful_mm)]
    [0.5, 4.0, 1.5, 5.0, 1.5, 3.0]
    """
    own, least = band("own size"), max(ONE_PASS_LEAST_MM, runs_out_mm or 0.0)
    more = least - ONE_PASS_LEAST_MM
    return Band(own.way, (least, own.usual_mm[1] + more), (least, own.careful_mm[1] + more))


def sawn(runs_out_mm: float | None = None) -> Band:
    """The band of a slit over its saw: a thou to two or three; with its run-out to the side measured, from that on.

    Parameters: the run-out, what an indicator reads in all at the saw's side [mm]. Returns: the band over the saw's
    thickness [mm]. References: common practice.

    >>> [round(mm / 0.0254, 3) for mm in (*sawn().usual_mm, *sawn(0.0508).usual_mm, *sawn(0.0508).careful_mm)]
    [1.0, 3.0, 2.0, 4.0, 2.0, 3.0]
    """
    usual = band("saw")
    if runs_out_mm is None:
        return usual
    more = runs_out_mm - usual.usual_mm[0]
    (low, high), (least, most) = usual.usual_mm, usual.careful_mm
    return Band(usual.way, (low + more, high + more), (least + more, most + more))


def holds(way: Band, drawing_band_mm: float) -> str:
    """Whether a way holds a drawing's band when it aims at the middle.

    Parameters: the way's band; the drawing's whole band [mm]. Returns: `usual`, `with care` or `no`.
    References: common practice.

    >>> [holds(band("stepped by readout"), thou * 0.0254) for thou in (2, 1, 0.9)]
    ['usual', 'with care', 'no']
    """
    for name, (lo, hi) in (("usual", way.usual_mm), ("with care", way.careful_mm)):
        if hi - lo <= drawing_band_mm + 1e-9:
            return name
    return "no"
