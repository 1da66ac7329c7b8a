"""The ways that work and cutter stand to each other. A set-up turns the section so that the axis always stands upright,
and adds its own minutes and risk. One file each, with its `SETUP`, called as the set-up is and named in the line below.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from crib.light.modules import load
from crib.setups.base import Setup

_FILES = ("upright", "on_its_side", "tilted", "face_level")


class _Setups(Mapping[str, Setup]):
    """The set-ups by name, each loaded when it is asked for: most work is asked in the usual one alone."""

    def __init__(self) -> None:
        self._file_of = {file.replace("_", " "): file for file in _FILES}
        self._loaded: dict[str, Setup] = {}

    def __getitem__(self, name: str) -> Setup:
        if name not in self._loaded:
            self._loaded[name] = load(f"crib.setups.{self._file_of[name]}").SETUP
        return self._loaded[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._file_of)

    def __len__(self) -> int:
        return len(self._file_of)


SETUPS: Mapping[str, Setup] = _Setups()
