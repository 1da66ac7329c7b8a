"""What can be named: features to ask for, cutters to take in, materials to cut; each with the words for it."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cutters import KINDS as CUTTERS
from crib.cutters.ways import ways
from crib.features import KINDS as FEATURES
from crib.handbook.materials import materials as known
from crib.light.records import dataclass


@dataclass(frozen=True)
class Named:
    """Something by its name, the words that are read as it, and what it can't be asked without."""

    name: str
    words: tuple[str, ...]
    needs: tuple[str, ...] = ()
    instead: tuple[str, ...] = ()


def features() -> tuple[Named, ...]:
    """The kinds of feature; `instead`: what stands for sizes of a standard."""
    return tuple(Named(one.name, (one.words,), _options(one.needed), _options(each.key for each in one.standards))
                 for one in FEATURES.values())


def cutters() -> tuple[Named, ...]:
    """The kinds of cutter."""
    return tuple(Named(one.name, ways(one)) for one in CUTTERS.values())


def materials() -> tuple[Named, ...]:
    """The materials."""
    return tuple(Named(one.name, one.words) for one in known())


def _options(keys: Iterable[str]) -> tuple[str, ...]:
    return tuple(f"--{key.replace('_', '-')}" for key in keys)
