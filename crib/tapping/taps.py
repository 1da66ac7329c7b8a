"""The taps that are owned for a thread, and in which order they are used."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.findings.errors import CribError
from crib.handbook.materials import Material
from crib.handbook.threads import Thread, read_thread

_CONDITIONS = ("sharp", "used", "unknown", "dull", "chipped", "burnt", "bent")
_CHAMFERS = ("plug", None, "taper", "bottoming")
_SHORT_CHIPS = ("iron", "brass")
ORDER = ("taper", None, "plug", "bottoming")
"""The order in which chamfers are used; one that isn't known is taken for a plug."""

BROKEN = ("chipped", "burnt", "bent")


def thread_of(tap: Cutter) -> Thread | None:
    """The thread that a tap cuts, None where its marking is no thread or could be several."""
    if not tap.thread:
        return None
    try:
        return read_thread(tap.thread).thread
    except CribError:
        return None


def hand_of(tap: Cutter) -> str:
    """The hand of a tap, by its record or by its marking."""
    if tap.hand == "left" or not tap.thread:
        return tap.hand
    try:
        return read_thread(tap.thread).hand
    except CribError:
        return tap.hand


def taps_for(thread: Thread, cutters: Iterable[Cutter]) -> list[Cutter]:
    """Every owned tap for a thread, whatever its hand, best first."""
    taps = (cutter for cutter in cutters if goes_down(cutter, Down.TAPPING))
    return sorted((tap for tap in taps if (cut := thread_of(tap)) and cut.same_as(thread)), key=_rank)


def _rank(tap: Cutter) -> tuple[int, int, int, int]:
    return (_CONDITIONS.index(tap.condition), tap.tap_form == "forming", _CHAMFERS.index(tap.tap_chamfer), tap.id)


def out_of_place(tap: Cutter, material: Material, blind: bool) -> str | None:
    """Why a tap of this point is the wrong one for a metal or a blind hole; None where it is in its place.

    References: common practice.

    >>> from crib.handbook.materials import find_material
    >>> out_of_place(Cutter(1, "tap", tap_point="spiral flute"), find_material("grey iron"), False)
    'its keen spiral flutes dig in and chip in iron, whose chips are short: a straight-flute tap there'
    """
    if tap.tap_point == "spiral flute" and material.group in _SHORT_CHIPS:
        return (f"its keen spiral flutes dig in and chip in {material.group}, whose chips are short: a straight-flute "
                "tap there")
    if tap.tap_point == "spiral point" and blind:
        return "it drives its chips ahead: in a blind hole they want room for four threads more, and picking out"
    return None


def sequence(last: Cutter, taps: Sequence[Cutter]) -> tuple[Cutter, ...]:
    """The taps to use before and with the last one: a taper to start where one is owned, a plug before a bottoming."""
    sort = [t for t in taps if (t.tap_form == "forming") == (last.tap_form == "forming")]
    before = []
    if last.tap_chamfer == "bottoming":
        plug = next((t for t in sort if t.tap_chamfer in ("plug", None)), None)
        taper = next((t for t in sort if t.tap_chamfer == "taper"), None)
        before = [tap for tap in (taper, plug) if tap] if not plug else [plug]
    return (*before, last)
