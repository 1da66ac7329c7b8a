"""The kinds of cutter. To add one: a file with a `KIND`, called as the kind is, and its name in the line below."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from importlib import import_module

from crib.cutters.base import Cutter, Down, Kind
from crib.findings.errors import CribError

_FILES: tuple[str, ...] = (
    "taper_end_mill", "end_mill", "face_mill", "fly_cutter", "keyseat_cutter", "t_slot_cutter", "slitting_saw",
    "side_cutter", "dovetail_cutter", "angle_cutter", "chamfer_cutter", "countersink", "corner_rounding_cutter",
    "form_cutter", "spot_drill", "centre_drill", "step_drill", "annular_cutter", "taper_reamer", "reamer",
    "counterbore", "boring_head", "grooving_bar", "trepanning_tool", "boring_bar", "slotting_tool", "broach",
    "blank", "die", "tap", "drill")


class _Kinds(Mapping[str, Kind]):
    """The kinds by name, each loaded when it is asked for: a short answer is about few of them."""

    def __init__(self, files: Iterable[str]) -> None:
        self._file_of = {file.replace("_", "-"): file for file in files}
        self._loaded: dict[str, Kind] = {}

    def __getitem__(self, name: str) -> Kind:
        if name not in self._loaded:
            self._loaded[name] = import_module(f"crib.cutters.{self._file_of[name]}").KIND
        return self._loaded[name]

    def __contains__(self, name: object) -> bool:
        return name in self._file_of

    def __iter__(self) -> Iterator[str]:
        return iter(self._file_of)

    def __len__(self) -> int:
        return len(self._file_of)


KINDS: Mapping[str, Kind] = _Kinds(_FILES)

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


def kind_of(cutter: Cutter | str) -> Kind:
    """The kind of a cutter, or the kind of that name. Raises `CribError` for a name that no kind has."""
    name = cutter if isinstance(cutter, str) else cutter.kind
    try:
        return KINDS[name]
    except KeyError:
        raise CribError("kind", f"{name!r} is not a kind of cutter", name, "one of " + ", ".join(KINDS)) from None


def goes_down(cutter: Cutter, what: Down) -> bool:
    """Whether a cutter does this down its own axis."""
    return what in kind_of(cutter).down


def and_stand_ins(kinds: Iterable[str]) -> tuple[str, ...]:
    """Kinds by name, and behind them those that do the work of one."""
    named = tuple(dict.fromkeys(kinds))
    return tuple(dict.fromkeys((*named, *(one for one in STAND_INS if {*KINDS[one].in_place_of} & {*named}))))
