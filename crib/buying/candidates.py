"""What could be bought for a feature: the sizes that its rooms ask for, made to order, and the sizes that are made."""

from __future__ import annotations

from collections.abc import Iterable

from crib.buying.needs import FIRST_ID, Need, Wanted
from crib.buying.owned import owned_one
from crib.buying.proposals import PROPOSES
from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.features.base import Feature
from crib.handbook.drill_sizes import drill_name
from crib.shop import Shop


def candidates(feature: Feature, shop: Shop, owned: Iterable[Cutter] = ()) -> tuple[Wanted, ...]:
    """What could be bought for a feature and isn't `owned`, each size once, numbered from `FIRST_ID` on, named in the
    shop's units."""
    every = tuple(owned)
    rooms = {room.name: room for room in feature.outline.rooms}
    found: dict[Cutter, Wanted] = {}
    for name, calls in feature.calls_for.items():
        need = Need(feature, name, calls, shop, rooms.get(name))
        for kind in dict.fromkeys((*calls.kinds, *_also(need))):
            for wanted in _proposed(kind, need):
                if owned_one(wanted.cutter, every) is None:
                    found.setdefault(wanted.cutter, wanted)
    return tuple(_numbered(wanted, FIRST_ID + place, shop.units) for place, wanted in enumerate(found.values()))


def _proposed(kind: str, need: Need) -> tuple[Wanted, ...]:
    return tuple(PROPOSES[kind](need)) if kind in PROPOSES else ()


def said_cutter(cutter: Cutter, shop: Shop) -> Wanted:
    """A cutter that was named, as one that could be bought: new, of high-speed steel where nothing else was said."""
    new = cutter.but(condition="sharp", material="hss" if cutter.material == "unknown" else cutter.material)
    return _numbered(Wanted(new, "as you say", "; ".join(cutter.questions)), FIRST_ID, shop.units)


def _numbered(wanted: Wanted, number: int, units: str) -> Wanted:
    is_drill = wanted.cutter.kind == "drill" and wanted.cutter.diameter_mm is not None
    words = f"{drill_name(wanted.cutter.diameter_mm or 0.0)} drill" if is_drill else label(wanted.cutter, units)
    named = wanted.cutter.but(label=words)
    return Wanted(named.but(id=number), wanted.source, wanted.ask)


def _also(need: Need) -> tuple[str, ...]:
    """A keyseat cutter does under a lip what a T-slot cutter is made for."""
    return ("keyseat-cutter",) if "t-slot-cutter" in need.calls.kinds else ()
