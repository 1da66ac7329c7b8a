"""Whether a tap has what belongs to it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.audits.base import Bench, fault, name, numbers
from crib.cutters import kind_of
from crib.cutters.base import Cutter, Down
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.handbook.threads import read_thread
from crib.tapping.advise import advise_tap
from crib.tapping.shape import Asking

_METALS = ("mild steel", "grey iron", "6061")


def no_drill(bench: Bench) -> Iterator[Finding]:
    """AU31: every tap has its drill. AU32: a tap that has no bottoming one beside it ends a blind hole early."""
    taps = [cutter for cutter in bench.there if Down.TAPPING in kind_of(cutter).down and cutter.thread]
    for thread in dict.fromkeys(tap.thread for tap in taps):
        these = [tap for tap in taps if tap.thread == thread]
        try:
            reading = read_thread(thread or "")
        except CribError:
            yield fault("AU33", these[0].id, f"{name(these[0])}: {thread!r} is no thread that is known",
                        f"look at the shank again: crib amend {these[0].id} --thread 1/4-20")
            continue
        lacking = [metal for metal in _METALS
                   if not any(one.serves for one in advise_tap(Asking(reading, material=metal), bench.there,
                                                               bench.shop).drills)]
        if lacking:
            where = "" if len(lacking) == len(_METALS) else f" in {' or '.join(lacking)}"
            yield fault("AU31", these[0].id, f"no drill that is owned serves the {thread} tap{where}",
                        f"crib tap {thread} names the sizes that would")
        if not any(_bottoms(tap) for tap in these) and any(tap.tap_chamfer for tap in these):
            yield fault("AU32", these[0].id, f"of {thread} there is {numbers(these)} and no bottoming tap: the last "
                        "threads of a blind hole can't be cut", "drill blind holes deeper, or grind an old one's nose")


def _bottoms(tap: Cutter) -> bool:
    return tap.tap_chamfer == "bottoming" or tap.tap_form == "forming"


AUDITS = (no_drill,)
