"""What isn't on the first screen of an answer."""

from __future__ import annotations

from crib.light.choices import StrEnum


class More(StrEnum):
    """What isn't on the first screen, by the option that asks for it."""

    STEPS = "steps"
    WHY = "why"
    OTHERS = "others"
    REFUSED = "refused"


ALL = frozenset(More)
