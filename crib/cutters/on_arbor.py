"""What slitting saws and side cutters share: a disc of teeth with a bore. What stands about it is the arbor's."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crib.cutters.base import Clearances, Cutter, Unknown
from crib.cutters.proposals import Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.geometry.silhouette import Silhouette
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later

if TYPE_CHECKING:
    from crib.handbook import stock
    from crib.handbook.stock import StockDisc
else:
    stock = later("crib.handbook.stock")


def form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The disc alone."""
    teeth = (cylinder("teeth", 0.0, cutter.face_mm or 0.0, cutter.diameter_mm or 0.0),)
    return Silhouette(teeth, teeth)


def unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The diameter of a reground one, and the thickness, where they aren't known."""
    size = cutter.diameter_mm or cutter.nominal_mm
    asked = []
    if cutter.diameter_mm is None and size is not None:
        asked.append(Unknown("diameter_mm", size, size - 0.06 * 25.4, "mic the diameter: it was reground"))
    if size is not None and cutter.face_mm is None:
        asked.append(Unknown("face_mm", size / 96, size / 3, "mic the thickness at the teeth"))
    return tuple(asked)


def fill(cutter: Cutter, flutes: int) -> Cutter:
    """The usual number of teeth, which only the minutes depend on, where it isn't known; none of them on the end."""
    known = cutter.but(end_teeth=False)
    if cutter.flutes is not None:
        return known
    return known.but(flutes=flutes, assumed=tuple(dict.fromkeys((*cutter.assumed, "flutes"))))


def made(discs: Iterable[StockDisc], words: str) -> Iterator[tuple[float, float, str, str]]:
    """Discs as they are made, each with its name and where that is from, for naming one that isn't marked."""
    from crib.units import in_words

    for disc in discs:
        name = f"{in_words(disc.diameter_mm, 'in')} x {in_words(disc.face_mm, 'in')} {words}"
        yield disc.diameter_mm, disc.face_mm, name, stock.SOURCE


def proposed(need: Need, kind: str, made: Iterable[StockDisc]) -> Iterator[Wanted]:
    """Those of the thickness that is called for, with a bore that an arbor takes if there is one."""
    if need.face is None:
        return
    low, high = need.face
    for one in made:
        taken = need.arbors is None or any(abs(bore - one.bore_mm) < 0.01 for bore in need.arbors)
        if taken and low - 1e-6 <= one.face_mm <= high + 1e-6:
            yield Wanted(new(kind, diameter_mm=one.diameter_mm, face_mm=one.face_mm, bore_mm=one.bore_mm, flutes=32),
                         stock.SOURCE)
