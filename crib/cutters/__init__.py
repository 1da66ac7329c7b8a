"""The kinds of cutter. To add one: a file with a `KIND`, called as the kind is, and its name in the line below."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cutters.base import KINDS as KINDS
from crib.cutters.base import Kind
from crib.cutters.base import goes_down as goes_down
from crib.cutters.base import kind_of as kind_of
from crib.cutters.cutter import LABEL, Cutter

_FILES: tuple[str, ...] = (
    "taper_end_mill", "end_mill", "face_mill", "fly_cutter", "keyseat_cutter", "t_slot_cutter", "slitting_saw",
    "side_cutter", "dovetail_cutter", "angle_cutter", "chamfer_cutter", "countersink", "corner_rounding_cutter",
    "form_cutter", "spot_drill", "centre_drill", "step_drill", "annular_cutter", "taper_reamer", "reamer",
    "counterbore", "boring_head", "grooving_bar", "trepanning_tool", "boring_bar", "slotting_tool", "broach",
    "blank", "die", "tap", "drill")

KINDS.put_in(_FILES)

STAND_INS = ("keyseat-cutter", *(file.replace("_", "-") for file in _FILES[31:]))
"""The kinds that may do the work of another, as their files say: of the first so many these, whatever is named after
them. So few are loaded to find them."""


def told_apart(kinds: Iterable[tuple[str, Kind]]) -> dict[str, Kind]:
    """The kinds by name, from the files that they are in. Raises `ValueError` with both files where two have a name, or
    are said, in the same way."""
    found: dict[str, Kind] = {}
    place: dict[str, str] = {}
    for file, kind in kinds:
        for said in dict.fromkeys((kind.name, kind.words, kind.plural)):
            if (other := place.setdefault(said, file)) != file or kind.name in found:
                raise ValueError(f"{said!r} is registered by {other} and by {file}: one kind, one file")
        found[kind.name] = kind
    return found


def and_stand_ins(kinds: Iterable[str]) -> tuple[str, ...]:
    """Kinds by name, and behind them those that do the work of one."""
    named = tuple(dict.fromkeys(kinds))
    return tuple(dict.fromkeys((*named, *(one for one in STAND_INS if {*KINDS[one].in_place_of} & {*named}))))


def _named(cutter: Cutter, units: str) -> str:
    """A cutter's name; what makes it is loaded for the first that is asked for."""
    from crib.cutters.label import named

    return named(cutter, units)


LABEL.made_by = _named
