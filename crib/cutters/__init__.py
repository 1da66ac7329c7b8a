"""The kinds of cutter. To add one: a file with a `KIND` (or `KINDS`), and its name in the line below."""

from __future__ import annotations

from importlib import import_module

from crib.cutters.base import Cutter, Kind
from crib.findings.errors import CribError

_FILES = ("end_mill", "keyseat_cutter", "t_slot_cutter", "slitting_saw", "side_cutter", "recorded", "dovetail_cutter",
          "angle_cutter", "chamfer_cutter", "drill", "centre_drill", "spot_drill", "countersink", "counterbore",
          "reamer", "tap", "boring_bar")


def _all() -> dict[str, Kind]:
    kinds: dict[str, Kind] = {}
    for file in _FILES:
        module = import_module(f"crib.cutters.{file}")
        for kind in getattr(module, "KINDS", None) or (module.KIND,):
            kinds[kind.name] = kind
    return kinds


KINDS: dict[str, Kind] = _all()


def kind_of(cutter: Cutter | str) -> Kind:
    """The kind of a cutter, or the kind of that name. Raises `CribError` for a name that no kind has."""
    name = cutter if isinstance(cutter, str) else cutter.kind
    try:
        return KINDS[name]
    except KeyError:
        raise CribError("kind", f"{name!r} is not a kind of cutter", name, "one of " + ", ".join(KINDS)) from None
