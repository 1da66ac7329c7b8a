"""What an unmarked cutter may be, by what was measured of it."""

from __future__ import annotations

from crib.cutters.gauged import Candidate as Candidate
from crib.cutters.gauged import Measured
from crib.findings.errors import CribError
from crib.intake.attributes import read_length, read_number
from crib.planning.gauge import gauge as named
from crib.planning.gauge import pitch_of


def gauge(kind: str | None = None, *, diameter: str | None = None, width: str | None = None, pitch: str | None = None,
          tpi: str | None = None, angle: str | None = None, units: str = "in") -> tuple[Candidate, ...]:
    """What fits what was measured, likeliest first; sizes as they are typed, bare ones in `units`. Raises `CribError`
    for what can't be read and where nothing was measured."""
    if pitch is not None and tpi is not None:
        raise CribError("usage", "a pitch and threads per inch say the same thing", f"{pitch} {tpi}", "one of them")
    turns = None if tpi is None else pitch_of(read_number(tpi, "tpi", 1, 200, "threads per inch"))
    return tuple(named(Measured(
        None if diameter is None else read_length(diameter, units, "diameter"),
        None if width is None else read_length(width, units, "width"),
        turns if pitch is None else read_length(pitch, units, "pitch"),
        None if angle is None else read_number(angle.rstrip("°"), "angle", 1, 180, "degrees"),
    ), kind))
