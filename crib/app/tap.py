"""Whether tap and drill belong together, for a thread or for every tap there is."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.handbook.threads import read_thread
from crib.light.records import replace
from crib.store import Crib
from crib.tapping.advise import advise_tap
from crib.tapping.check_all import TapChecked
from crib.tapping.shape import Asking
from crib.tapping.shape import TapAdvice as TapAdvice
from crib.units import read

_FORMS = ("cutting", "forming")


def tap(crib: Crib, thread: str, *, depth: str | None = None, through: bool = False, below: str | None = None,
        class_name: str | None = None, material: str = "", drill: str | None = None, form: str | None = None,
        use: str | None = None, mating: str | None = None, power: bool = False) -> TapAdvice:
    """The taps and drills of a crib for a thread, best first, with the hole that each makes and how deep to go. Sizes
    as they are typed, in the crib's units. Raises `CribError` for what can't be read or can't be together."""
    if form is not None and form not in _FORMS:
        raise CribError("choice", f"--form {form!r} is not known", form, "cutting or forming")
    if through and depth is None:
        raise CribError("usage", "--through needs the thickness", "--through", "--depth THICKNESS --through")
    reading = read_thread(thread)
    there = crib.holdings()
    units = crib.units
    if (drill or "").strip().isdigit() and units == "in":
        raise CribError("drill", f"--drill {drill} could be a number drill or whole inches", drill or "",
                        f"#{drill}, {drill}mm, or a fraction")
    asking = Asking(reading, class_name, material, _length(depth, units, "depth"), through,
                    _length(below, units, "below"), _length(drill, units, "drill"), form, use, mating, power)
    return advise_tap(asking, there.cutters, replace(there.shop, units=units))


def check_all(crib: Crib, material: str = "", class_name: str | None = None) -> tuple[TapChecked, ...]:
    """Every tap of a crib against every drill. Raises `CribError` for a material that isn't known."""
    from crib.tapping.check_all import check_all

    there = crib.holdings()
    return check_all(there.cutters, there.shop, material, class_name)


def _length(text: str | None, units: str, what: str) -> float | None:
    return None if text is None else read(text, units, what).mm
