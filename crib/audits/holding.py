"""Whether the shop can hold what it owns."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from crib.audits.base import Bench, fault, numbers
from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.findings.finding import Finding
from crib.findings.message import InWords, said
from crib.holders import hold
from crib.holders.arbors import is_on_arbor
from crib.machining.tool import holding_of


def idle(bench: Bench) -> Iterator[Finding]:
    """AU21: every shank has a collet. AU22: every bore has an arbor. Told by the size, with what is idle for it."""
    holding, shop = holding_of(bench.shop), bench.shop
    shanks: dict[float, list[Cutter]] = defaultdict(list)
    bores: dict[float, list[Cutter]] = defaultdict(list)
    for cutter in bench.there:
        kind = kind_of(cutter)
        if kind.form is None:
            continue
        filled = kind.fill(cutter)
        if is_on_arbor(filled) and cutter.bore_mm is not None and shop.arbors is not None:
            if not hold(filled, holding).ok:
                bores[cutter.bore_mm].append(cutter)
        elif filled.shank_mm is not None and shop.collets_mm and not hold(filled, holding).ok:
            shanks[filled.shank_mm].append(cutter)
    for rule, sizes, option in (("AU21", shanks, "collet"), ("AU22", bores, "arbor")):
        for mm, cutters in sorted(sizes.items(), key=lambda each: -len(each[1])):
            size = InWords(mm)
            many = f"{len(cutters)} cutters stay" if len(cutters) > 1 else "1 cutter stays"
            yield fault(rule, cutters[0].id if len(cutters) == 1 else None,
                        said("{many} in the drawer for want of a {size} {option}: {numbers}", many=many, size=size,
                             option=option, numbers=numbers(cutters)),
                        f"crib shop --{option}s once you have one; crib wish-list tells what it would save")


AUDITS = (idle,)
