"""Naming an unmarked cutter from what calipers, pitch gauge and protractor say. Every reading that fits is shown; what
can't be told apart is said, with the measurement that would."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import KINDS
from crib.cutters.gauged import IN, Candidate, Gauging, Measured, fine
from crib.findings.errors import CribError
from crib.findings.message import a, said

_COARSEST_MM = 8.0
"""A coarser pitch than this is no tap's [mm]."""

_TELLING = ("pitch_mm", "width_mm", "angle_deg", "diameter_mm")
"""Measurements, the one that says most before the others."""


def gauge(measured: Measured, kind: str | None = None) -> tuple[Candidate, ...]:
    """Everything that the measurements fit, nearest first. Raises `CribError` for a kind that isn't named this way, and
    where too little was measured for it."""
    named = gauged()
    if kind is not None and kind not in named:
        raise CribError("kind", f"{a(kind)} isn't named by gauging", kind, "one of " + ", ".join(named))
    if measured.pitch_mm is not None and measured.pitch_mm > _COARSEST_MM:
        says = said("a pitch of {pitch} is no tap's", pitch=fine(measured.pitch_mm))
        raise CribError("pitch", says, str(measured.pitch_mm), "with its unit: 0.8mm, or --tpi 32")
    found = [one for gauging in _likely(measured, kind) for one in gauging.fits(measured)]
    if kind is not None and not found and measured.diameter_mm is None and measured.angle_deg is None:
        raise CribError("usage", f"to name {a(kind)} its diameter is wanted", kind, "--diameter .250")
    return tuple(sorted(found, key=_nearest))


def gauged() -> dict[str, Gauging]:
    """The kinds that gauging names."""
    return {kind.name: kind.gauging for kind in KINDS.values() if kind.gauging is not None}


def pitch_of(tpi: float) -> float:
    """The pitch of so many threads to the inch [mm].

    >>> pitch_of(20)
    1.27
    """
    return IN / tpi


def _likely(measured: Measured, kind: str | None) -> Iterator[Gauging]:
    """The kinds that the measurements could name, or the one that is asked about with those that only a look can tell
    from it: discs and angles of one size are of several kinds."""
    by = next((key for key in _TELLING if getattr(measured, key) is not None), None)
    if by is None and kind is None:
        raise CribError("usage", "nothing is measured", "", "crib gauge --diameter .249 --tpi 28")
    for name, gauging in gauged().items():
        alike = kind is not None and gauging.by == gauged()[kind].by and gauging.by in ("width_mm", "angle_deg")
        if name == kind or alike or (kind is None and by in (gauging.by, *gauging.also)):
            yield gauging


def _nearest(one: Candidate) -> tuple[bool, bool, float, str]:
    return one.twin, one.off_mm is None, abs(one.off_mm or 0.0), one.kind if one.off_mm is not None else ""
