"""Boring heads: they hold a bar by its shank and set its tooth out to any diameter in their range."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.cutters.boring_head import KIND
from crib.findings.message import InWords, said
from crib.holders.base import Held
from crib.light.tuples import NamedTuple

LABEL = "boring head"
_SLACK = 0.001 * 25.4
_RPM, _GOES_TO = 1000.0, 2.0
"""Of a head that is in a drawer with nothing but its size: the fastest that it is turned [rev/min] and the largest
bore, of its own diameter [-]. From memory."""


class Head(NamedTuple):
    """A boring head: the shank of its bars, from and to what diameter it bores [mm], the fastest that it may turn
    [rev/min], whether its dial counts on the diameter or on the radius, whether it feeds out as it turns. `assumed`:
    what of that isn't known."""

    bar: float
    least: float
    most: float
    rpm: float
    dial: str
    assumed: str = ""
    faces: bool = False

    @property
    def counts(self) -> int:
        """How much its dial moves for a cut of one a side."""
        return 2 if self.dial == "diameter" else 1


def is_head(cutter: Cutter) -> bool:
    """Whether something in a drawer is a boring head."""
    return cutter.kind == KIND.name


def takes(bar_mm: float, shank_mm: float) -> bool:
    """Whether a head for bars of a size takes a shank [mm]."""
    return abs(bar_mm - shank_mm) <= _SLACK


def from_drawer(head: Cutter) -> Head:
    """A head by its record in the crib, the rest assumed."""
    bar = head.bore_mm or 0.0
    return Head(bar, bar / 2, _GOES_TO * (head.diameter_mm or 4 * bar), _RPM, "diameter",
                f"{head.label}: its range, {_RPM:.0f} rpm at the most, its dial on the diameter; look at it, then "
                "crib shop --boring-heads")


def hold(cutter: Cutter, bore_mm: float, heads: Sequence[Head], feeds: bool = False, untold: Cutter | None = None
         ) -> tuple[Held, Head | None]:
    """The head that takes a bar's shank and bores that diameter, the fastest first, where it `feeds` out one that does
    so by itself before; else why none does. `untold`: a head in a drawer of which the shop says nothing."""
    shank = cutter.shank_mm or cutter.diameter_mm or 0.0
    size = InWords(shank)
    taking = [head for head in heads if takes(head.bar, shank)]
    if not taking and untold is not None:
        return _not_told(untold, shank), None
    if not heads:
        return Held(False, "no boring head", "a bar is set out by a boring head, and the crib has none; held in a "
                    "collet it turns on its own axis and bores nothing", "HD1", 0.0, shank,
                    said("a boring head for {size} bars; one that is there is told by crib shop --boring-heads "
                         "BAR:FROM:TO", size=size)), None
    if not taking:
        near = min(heads, key=lambda head: abs(head.bar - shank)).bar
        unsure = cutter.shank_mm is None
        guess, ask = (" (the shank is assumed, not measured)", "measure the shank, or ") if unsure else ("", "")
        says = said("no boring head takes a shank of {size}: the nearest takes {near}{guess}", size=size,
                    near=InWords(near), guess=guess)
        fix = said("{ask}a boring head for {size} bars", ask=ask, size=size)
        return Held(False, "no boring head", says, "HD1", near, shank, fix, unsure=unsure), None
    fits = [head for head in taking if head.least - 1e-6 <= bore_mm <= head.most + 1e-6]
    if fits:
        best = max(fits, key=lambda head: (head.faces and feeds, head.rpm))
        return Held(True, said("{label}, {bar} bars", label=LABEL,
                               bar=InWords(best.bar)), assumed=best.assumed or None), best
    near = min((end for head in taking for end in (head.least, head.most)), key=lambda end: abs(end - bore_mm))
    return Held(False, "no boring head", said("its boring head goes to {near}, the bore is {bore}", near=InWords(near),
                                              bore=InWords(bore_mm)), "HD1", near, bore_mm,
                said("a boring head that bores {bore}", bore=InWords(bore_mm))), None


def _not_told(head: Cutter, shank: float) -> Held:
    """What is asked of a head in a drawer that may take a bar, and nobody has said so."""
    says = said("no. {number}, {label}, is in a drawer, and the shop's settings don't say what it takes and bores",
                number=head.id, label=head.label)
    fix = said("say it by crib shop --boring-heads BAR:FROM:TO: the shank of its bars, here {size}, and from and to "
               "what diameter it bores", size=InWords(shank))
    return Held(False, "no boring head", says, "HD1", None, shank, fix, unsure=True)
