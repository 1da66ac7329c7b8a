"""Cutters that are alike in all that what they can make hangs on."""

from __future__ import annotations

from collections.abc import Callable
from operator import attrgetter

from crib.cutters.base import CUTTER_KEYS, Cutter
from crib.cutters.edges import SERRATED, is_serrated

_ITS_OWN = frozenset({"id", "label", "count", "drawer", "price", "currency", "marking", "note"})
"""What tells cutters that are alike apart, and changes nothing of what they can make."""

_shared: Callable[[Cutter], tuple[object, ...]] = attrgetter(*(key for key in CUTTER_KEYS if key not in _ITS_OWN))


def alike(cutter: Cutter) -> tuple[object, ...]:
    """All of a cutter that what it can make hangs on."""
    own = _shared(cutter)
    return (*own, SERRATED) if is_serrated(cutter) else own
