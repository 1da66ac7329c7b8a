"""A place with what should lie in it: a row of words for each cutter and its silhouette, and the same as a list to
tick."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.pages.blocks import Blocks, Lineup, TickList
from crib.pages.scene import Shape
from crib.pages.silhouette import silhouette


def drawer_page(place: str, cutters: Sequence[Cutter]) -> Blocks:
    """What lies in a place, all to one scale."""
    drawn = [(cutter, silhouette(cutter)) for cutter in cutters]
    count = sum(cutter.count for cutter in cutters)
    return (Lineup(f"{place}: {count} cutter{'' if count == 1 else 's'}",
                   tuple((_words(cutter, shape, place), shape) for cutter, shape in drawn)),)


def tick_list(place: str, cutters: Sequence[Cutter]) -> TickList:
    """A place as a list to tick on paper."""
    items = tuple((cutter.id, _ticked(cutter, place)) for cutter in cutters)
    return TickList(place, ("there", "dull", "missing"), items, "more that lies here: ______________________________")


def _ticked(cutter: Cutter, place: str) -> str:
    many = f", {cutter.count} of them" if cutter.count > 1 else ""
    gone = f"  ({'; '.join(cutter.away)})" if cutter.away else "  (was missing)" if not cutter.count else ""
    where = f"  [{cutter.drawer}]" if cutter.drawer and cutter.drawer.lower() != place.lower() else ""
    return f"{cutter.label}{many}{gone}{where}"


def _words(cutter: Cutter, shape: Shape | None, place: str) -> str:
    parts = [cutter.label]
    parts += ["missing" if not cutter.count else f"{cutter.count} of them"] if cutter.count != 1 else []
    parts += cutter.away
    parts += [word for word in (cutter.material, cutter.condition) if word != "unknown"]
    parts += [f"in {cutter.drawer}"] if cutter.drawer and cutter.drawer.lower() != place.lower() else []
    return f"{cutter.id:>4}{'~' if shape and shape.typical else ' '} {', '.join(parts)}"
