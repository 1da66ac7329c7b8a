"""What something unmarked may be, by what was measured of it."""

from __future__ import annotations

from crib.cutters.gauged import Candidate as Candidate
from crib.cutters.gauged import Measured
from crib.findings.errors import CribError
from crib.intake.attributes import read_length, read_number
from crib.planning.gauge import Named as Named
from crib.planning.gauge import gauge as named
from crib.planning.gauge import gauged, pitch_of

_LENGTHS = {"diameter": "diameter_mm", "width": "width_mm", "pitch": "pitch_mm", "hole": "hole_mm", "small": "small_mm",
            "length": "length_mm", "radius": "radius_mm", "opening": "opening_mm", "height": "height_mm"}


def gauge(kind: str | None = None, *, units: str = "in", **texts: str | None) -> Named:
    """What fits what was measured, likeliest first; sizes as they are typed (`diameter`, `width`, `pitch` or `tpi`,
    `angle`, `hole`, `small`, `length`, `radius`, `pin` with `over_pins` or `between_pins`, `opening`, `height`), bare
    ones in `units`. Raises `CribError` for what can't be read and where nothing was measured."""
    typed = {name: text for name, text in texts.items() if text is not None}
    if "pitch" in typed and "tpi" in typed:
        raise CribError("usage", "a pitch and threads per inch say the same thing", f"{typed['pitch']} {typed['tpi']}",
                        "one of them")
    sizes = {key: read_length(typed[name], units, name) for name, key in _LENGTHS.items() if name in typed}
    if "tpi" in typed:
        sizes["pitch_mm"] = pitch_of(read_number(typed["tpi"], "tpi", 1, 200, "threads per inch"))
    if "angle" in typed:
        sizes["angle_deg"] = read_number(typed["angle"].rstrip("°"), "angle", 1, 180, "degrees")
    return named(Measured(**sizes, pins=_pins(typed, units), is_slot="between_pins" in typed), kind)


def named_kinds() -> tuple[str, ...]:
    """What gauging names."""
    return tuple(gauged())


def _pins(typed: dict[str, str], units: str) -> tuple[tuple[float, float], ...] | None:
    """Each pin with the size over or between two of it. Raises `CribError` where one is there without the other."""
    by = [name for name in ("over_pins", "between_pins") if name in typed]
    if not by and "pin" not in typed:
        return None
    if len(by) != 1 or "pin" not in typed:
        raise CribError("usage", "pins are given with the size over them or between them", " ".join(typed.values()),
                        "--pin 1/2,1/4 --over-pins 3.366,2.683 for a slide; --between-pins for a slot")
    pins, sizes = ([read_length(text, units, name.replace("_", " ")) for text in typed[name].split(",")]
                   for name in ("pin", by[0]))
    if len(pins) != len(sizes):
        raise CribError("usage", f"{len(pins)} pins and {len(sizes)} sizes don't go together", typed["pin"],
                        "a size for each pin, in the same order")
    return tuple(zip(pins, sizes, strict=True))
