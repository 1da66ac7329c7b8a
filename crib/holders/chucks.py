"""The drill chuck, for what comes down its own axis and never cuts on its side; else a collet."""

from __future__ import annotations

from crib.cutters import kind_of
from crib.cutters.base import Cutter, Down
from crib.cutters.shanks import reamer_shank
from crib.cutters.shapes import cylinder
from crib.findings.message import InWords, said
from crib.geometry.silhouette import Part
from crib.holders import hold
from crib.holders.base import GRIP_MM, Held, Holding

CHUCK, WRENCH, PRESS = "drill chuck", "tap wrench", "arbor press"
_GRIP_SHARE, _ACROSS_MM, _BODY_MM, _SLACK = 0.35, 44.45, 100.0, 1e-6
"""The most of a cutter's length that is inside the holder [-], and the body of a half-inch drill chuck: across and as
long as it counts [mm]. From memory."""


def hold_down(cutter: Cutter, holding: Holding) -> Held:
    """What would hold a cutter for coming down its axis: the drill chuck for what may go in it, else a collet. One that
    cuts a wide floor is better in a collet where there is one, and a reamer that is turned by hand in a wrench."""
    kind = kind_of(cutter)
    shank, is_known = cutter.shank_mm or _usual_shank(cutter), cutter.shank_mm and "shank_mm" not in cutter.assumed
    if kind.by_hand(cutter) and Down.REAMING in kind.down:
        return Held(True, WRENCH)
    if not kind.in_chuck:
        return hold(cutter, holding)
    if shank is None:
        return Held(True, CHUCK, assumed=f"{cutter.label}: its shank goes in the drill chuck")
    if Down.COUNTERBORING in kind.down and cutter.shank_mm is not None and holding.collets:
        collet = hold(cutter, holding)
        if collet.ok:
            return collet
    if holding.chuck is None:
        return Held(True, CHUCK, assumed="a drill chuck that takes it: none on record")
    if shank <= holding.chuck + _SLACK:
        return Held(True, CHUCK)
    collet = hold(cutter.but(shank_mm=shank), holding)
    if collet.ok:
        return collet
    size = InWords(shank)
    says = said("the drill chuck takes {chuck}, the shank is {size}{guess}, and {says}", chuck=InWords(holding.chuck),
                size=size, guess="" if is_known else " as one of its size usually has, not measured", says=collet.says)
    fix = said("a collet for {size}, or a reduced shank" if is_known else "measure the shank, or find a collet for "
               "{size}", size=size)
    return Held(False, "no holder", says, "HD1", holding.chuck, shank, fix, unsure=not is_known)


def _usual_shank(cutter: Cutter) -> float | None:
    """What goes into a chuck stands on its own size, where nobody said otherwise; a chucking reamer on less."""
    if Down.REAMING in kind_of(cutter).down and cutter.diameter_mm is not None:
        return reamer_shank(cutter.diameter_mm)
    return cutter.diameter_mm


def over(cutter: Cutter, teeth_mm: float, held: Held, holding: Holding) -> tuple[Part, ...]:
    """The chuck or the spindle's nose above the cutter, where its length tells how far it stands out; a drill may be
    held by its flutes, anything else not by its teeth, which go so high."""
    long, in_chuck = cutter.overall_length_mm, held.label == CHUCK
    if long is None or held.label == WRENCH:
        return ()
    teeth = 0.0 if Down.DRILLING in kind_of(cutter).down else teeth_mm
    low = max(long - min(GRIP_MM, _GRIP_SHARE * long), teeth, 1.0)
    return (cylinder(CHUCK.split()[1] if in_chuck else "spindle nose", low, low + _BODY_MM,
                     _ACROSS_MM if in_chuck else holding.nose, holding.clear.neck, holding.clear.end),)
