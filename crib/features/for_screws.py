"""Sizes of round features by the screw that they are for, and of holes by their fit."""

from __future__ import annotations

from crib.features.base import OptionSpec
from crib.features.request import Spoken
from crib.findings.errors import CribError
from crib.handbook.screws import FITS, Sized, clearance_hole, flat_head, hexagon_seat, socket_head
from crib.handbook.sizes import read_size
from crib.units import Size, in_words

FIT = OptionSpec("fit", "the screw's hole: normal, close or loose", "|".join(FITS))
FITTED = {f"{name} fit": ("fit", name) for name in FITS}
"""How a shop says it."""

SCREW = r"#\d{1,2}(?:-\d{2})?|m ?\d{1,2}(?:[.,]\d)?(?: ?x ?\d*[.,]?\d+)?"
"""What can be nothing but a screw's size, where a head or a hole for one is asked for."""

HEAD = OptionSpec("head", "the screw's: flat, of a machine screw, or socket", "flat|socket")
HEADS = ("flat", "socket")

_UNDER_MM, _OVER_MM = 0.005 * 25.4, 0.015 * 25.4
"""What a counterbore may always be under the table's size, and how much wider or deeper [mm]. Common practice."""

_RIM_MM = 0.010 * 25.4
"""How much wider than a flat head its countersink may be: it lies so much deeper [mm]. Common practice."""

SEAT_MM = 0.25 * 25.4
"""How much wider than asked a seat may come out: the head sits on it all the same [mm]. Common practice."""


def _through(spoken: Spoken) -> Sized:
    return clearance_hole(spoken.text, spoken.texts.get("fit", FITS[0]).strip().lower())


def _on_its_hole(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The hole that a head stands over: as typed, else what the screw goes through."""
    if "hole" in spoken.texts:
        return {}, ""
    hole = _through(spoken)
    return {"hole": Size(hole.least, hole.least, hole.most, hole.text)}, f"; {hole.source}"


def hole_for(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The hole that a screw goes through. Raises `CribError`, as all of these do."""
    hole = _through(spoken)
    return {"diameter": Size(hole.least, hole.least, hole.most, hole.text)}, hole.source


def elongated_for(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """As wide as the hole that a screw goes through."""
    found, source = hole_for(spoken)
    return {"width": found["diameter"]}, source


def fitted(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """A hole's limits by its class; a screw's fit says nothing here."""
    if "screw" in spoken.texts:
        return {}, ""
    if "diameter" not in spoken.texts:
        raise CribError("fit", "a fit puts limits on a diameter, and none was given", spoken.text,
                        "--diameter 1/2 --fit H7")
    size = read_size(spoken.texts["diameter"], spoken.units, "diameter", (0.0, 0.0))
    if size.given:
        raise CribError("fit", f"the diameter has limits of its own, {size.text}, beside the fit {spoken.text}",
                        size.text, "one of them: --diameter 1/2 --fit H7")
    from crib.handbook.mates import own_limits

    low, high, source = own_limits(size.nominal, spoken.text)
    return {"diameter": Size(size.nominal, low, high, size.text)}, source


def counterbore_for(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """For a socket head cap screw: as wide as the table says, or as little as its head needs; as deep as that is
    high."""
    (bore, least, high), (hole, of) = socket_head(spoken.text), _on_its_hole(spoken)
    units = "mm" if "mm" in bore.text else "in"
    return hole | {
        "diameter": Size(bore.least, min(least, bore.least - _UNDER_MM), bore.least + _OVER_MM, bore.text,
                         aim=bore.least),
        "depth": Size(high, high, high + _OVER_MM, in_words(high, units)),
        "head_height": Size(high, high, high, in_words(high, units)),
    }, bore.source + of


def spotface_for(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """For the head of a hexagon screw."""
    seat, (hole, of) = hexagon_seat(spoken.text), _on_its_hole(spoken)
    seats = Size(seat.least, seat.least, seat.least + SEAT_MM, seat.text, True, seat.most)
    return hole | {"diameter": seats}, seat.source + of


def _flat(spoken: Spoken) -> tuple[float, float, str]:
    head = spoken.texts.get("head", HEADS[0]).strip().lower()
    if head not in HEADS:
        raise CribError("head", f"head {head!r} is not known", head, "one of " + ", ".join(HEADS))
    return flat_head(spoken.text, head == "socket")


def countersink_for(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """For a flat head: as wide as it is to a sharp edge, so that it lies flush or a little under."""
    (across, _, source), (hole, of) = _flat(spoken), _on_its_hole(spoken)
    units = "mm" if source.startswith("M") else "in"
    return hole | {"diameter": Size(across, across, across + _RIM_MM, in_words(across, units))}, source + of


def countersink_angle(spoken: Spoken) -> dict[str, float]:
    """The angle of that head [deg]."""
    return {"angle": _flat(spoken)[1]}
