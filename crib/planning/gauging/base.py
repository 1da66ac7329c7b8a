"""What a thing that is named by measuring gives."""

from __future__ import annotations

from crib.cutters.gauged import Gauging
from crib.light.tuples import NamedTuple


class Thing(NamedTuple):
    """A thing by its name, as people call it besides, and how it is named."""

    name: str
    words: tuple[str, ...]
    gauging: Gauging
