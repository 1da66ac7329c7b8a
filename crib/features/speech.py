"""How a shop speaks of a kind of feature: what it is called, what its sizes are called, and in which order they stand
where they aren't called anything."""

from __future__ import annotations

from collections.abc import Mapping

from crib.light.records import dataclass, field

EDGE = ("edge", "edges")
"""What a chamfer and its like run along, whether it is said or not."""



@dataclass(frozen=True, eq=False)
class Speech:
    """The words for a kind of feature beside its own name and the names of its sizes, all in small letters.

    `names`: other ways to say it, in the singular. `words`: by key, what else a size or an option is called. `order`:
    how sizes without a name stand, `3/8 x 1/4 x 4`; those that it needs, where nothing is said. `together`: a word that
    stands before or behind several sizes at once, `head .975 x .240`, and their keys; one of the sizes may have none,
    for it isn't asked, and then is asked about. `tells`: words that give an option its text. `forms`: by key, the
    pattern of what can be nothing else, `606`. `counts`: the key that a count goes to. `common`: those of its names
    that name it only where nothing else names a kind. `above`: by key, another size than which it is always more, and
    so many times that at the most as nobody asks about where the other has no name; None where any is believed.
    `idle`: words that say nothing of this kind, as the edge of what runs along one. `after`: by key, the order of the
    others where that was told, as a screw that says how wide its hole is. `longer`: two sizes of which, where neither
    has a name, the first is the greater. `by_thread`: the kind that is meant where this one is called by a thread.
    `doubted`: by key, another size, a share of it, and what this one rather is where it has no name and is as much.
    """

    names: tuple[str, ...] = ()
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    order: tuple[str, ...] | None = None
    together: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    tells: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    forms: Mapping[str, str] = field(default_factory=dict)
    counts: str = "count"
    common: tuple[str, ...] = ()
    above: Mapping[str, tuple[str, float | None]] = field(default_factory=dict)
    instead: Mapping[str, str] = field(default_factory=dict)
    after: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    idle: tuple[str, ...] = ()
    by_thread: str = ""
    doubted: Mapping[str, tuple[str, float, str]] = field(default_factory=dict)
    longer: tuple[str, ...] = ()
