"""What a screw measures across: the limits of its major diameter, as the standards print them."""

from __future__ import annotations

from crib.handbook.threads.base import IN, Thread
from crib.light.tuples import NamedTuple

_B1 = "class 2A of ASME B1.1"
_LONG = ("UNEF", "12-UN", "16-UN", "20-UN", "28-UN", "32-UN", "special")
"""Series whose length of engagement is nine pitches; that of the others is a diameter."""

_6G: dict[float, tuple[int, int]] = {
    0.2: (17, 56), 0.25: (18, 67), 0.35: (19, 85), 0.4: (19, 95), 0.45: (20, 100), 0.5: (20, 106), 0.6: (21, 125),
    0.7: (22, 140), 0.75: (22, 140), 0.8: (24, 150), 1: (26, 180), 1.25: (28, 212), 1.5: (32, 236), 1.75: (34, 265),
    2: (38, 280), 2.5: (42, 335), 3: (48, 375), 3.5: (53, 425), 4: (60, 475),
}
"""By pitch: how far the greatest screw is under basic, and the tolerance under that [um]. ISO 965-1; M1.6 to M6 and the
tolerances of M10 to M36 seen in public tables of ISO 965, the rest from memory."""

_PIPE_MM = (0.107, 0.125, 0.142, 0.180)
"""Half of the tolerance of class B: 28, 19, 14 and 11 to the inch [mm]. ISO 228-1, from memory."""

_TAPER_MM = (1.0, 0.25)
"""How far a pipe taper is under and over its basic diameter, by where it is measured [mm]. Common practice."""


class ScrewLimits(NamedTuple):
    """The least and the most that a screw measures as it is made [mm], and by what."""

    least: float
    most: float
    source: str


def screw_limits(thread: Thread) -> ScrewLimits:
    """The limits of a screw's major diameter in the usual class.

    2A: most D - es, es = 0.3 Td2, Td2 = 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3); least 0.060 P^(2/3) less;
    LE is D for the coarse and fine series, else 9 P; all to four places, es with halves down, which
    is what the printed table does [in]. 6g by the table of
    ISO 965-1. Whitworth forms: tolerance of the effective diameter and 0.01 P^(1/2) under basic, medium class. BA: a
    fifth of the pitch.

    Parameters: thread. Returns: limits [mm]. References: ASME B1.1, ISO 965-1; BS 84, BS 93 and ISO 228-1 from memory.

    >>> from crib.handbook.threads import read_thread
    >>> [round(mm / 25.4, 4) for mm in screw_limits(read_thread("1/4-20").thread)[:2]]
    [0.2408, 0.2489]
    """
    if thread.taper:
        return ScrewLimits(thread.major_mm - _TAPER_MM[0], thread.major_mm + _TAPER_MM[1], "a taper: by the place")
    if thread.is_metric:
        return _metric(thread)
    if thread.series == "BSPP":
        tolerance = 2 * next(mm for tpi, mm in zip((28, 19, 14, 11), _PIPE_MM, strict=True) if thread.tpi >= tpi - 0.1)
        return ScrewLimits(thread.major_mm - tolerance, thread.major_mm, "ISO 228 class B, from memory")
    if thread.series == "BA":
        return ScrewLimits(thread.major_mm - 0.2 * thread.pitch_mm, thread.major_mm, "BS 93, from memory")
    return _unified(thread) if thread.is_unified else _whitworth(thread)


def _unified(thread: Thread) -> ScrewLimits:
    across, pitch = thread.major_mm / IN, thread.pitch_mm / IN
    engaged = 9 * pitch if thread.series in _LONG else across
    effective = 0.0015 * across ** (1 / 3) + 0.0015 * engaged**0.5 + 0.015 * pitch ** (2 / 3)
    most = across - round(0.3 * _places(effective) - 1e-9, 4)
    return ScrewLimits((most - _places(0.060 * pitch ** (2 / 3))) * IN, most * IN, _B1)


def _metric(thread: Thread) -> ScrewLimits:
    under, tolerance = next(um for pitch, um in _6G.items() if abs(pitch - thread.pitch_mm) < 1e-6)
    most = thread.major_mm - under / 1000
    return ScrewLimits(most - tolerance / 1000, most, "class 6g of ISO 965-1")


def _whitworth(thread: Thread) -> ScrewLimits:
    across, pitch = thread.major_mm / IN, thread.pitch_mm / IN
    effective = 0.002 * across ** (1 / 3) + 0.003 * across**0.5 + 0.005 * pitch**0.5
    return ScrewLimits((across - _places(effective + 0.01 * pitch**0.5)) * IN, thread.major_mm,
                       "medium class of BS 84, from memory")


def _places(inches: float) -> float:
    """To four places, halves up, as the standard rounds."""
    return int(inches * 10_000 + 0.5 + 1e-9) / 10_000
