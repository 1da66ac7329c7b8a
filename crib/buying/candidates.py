"""What could be bought for a feature: the sizes that its rooms ask for, made to order, and the sizes that are made."""

from __future__ import annotations

from collections.abc import Iterable

from crib.buying.needs import FIRST_ID, needs
from crib.buying.owned import owned_one
from crib.cutters import and_stand_ins, kind_of
from crib.cutters.base import Cutter, Down
from crib.cutters.label import label
from crib.cutters.proposals import Wanted
from crib.features.base import Feature
from crib.handbook.drill_sizes import drill_name
from crib.light.records import replace
from crib.shop import Shop
from crib.units import in_words


def candidates(feature: Feature, shop: Shop, owned: Iterable[Cutter] = ()) -> tuple[Wanted, ...]:
    """What could be bought for a feature and isn't `owned`, each size once, numbered from `FIRST_ID` on, named in the
    shop's units."""
    every = tuple(owned)
    found: dict[Cutter, Wanted] = {}
    for kinds, need in needs(feature, shop, every):
        for kind in and_stand_ins(kinds):
            for wanted in kind_of(kind).proposes(need):
                if owned_one(wanted.cutter, every) is None:
                    found.setdefault(wanted.cutter, wanted)
    return tuple(_numbered(wanted, FIRST_ID + place, shop.units) for place, wanted in enumerate(found.values()))


def said_cutter(cutter: Cutter, shop: Shop) -> Wanted:
    """A cutter that was named, as one that could be bought: new, of high-speed steel where nothing else was said."""
    new = cutter.but(condition="sharp", material="hss" if cutter.material == "unknown" else cutter.material)
    return _numbered(Wanted(new, "as you say", "; ".join(cutter.questions)), FIRST_ID, shop.units)


def _numbered(wanted: Wanted, number: int, units: str) -> Wanted:
    kind = kind_of(wanted.cutter)
    is_drill = Down.DRILLING in kind.down and wanted.cutter.diameter_mm is not None
    words = f"{drill_name(wanted.cutter.diameter_mm or 0.0)} {kind.words}" if is_drill else label(wanted.cutter, units)
    if wanted.long_mm is not None:
        words += f", {in_words(wanted.long_mm, units)} length of cut"
    return replace(wanted, cutter=wanted.cutter.but(id=number, label=words))
