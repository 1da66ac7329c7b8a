"""What a set-up must give."""

from __future__ import annotations

from collections.abc import Callable

from crib.geometry.outline import Outline
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from crib.geometry.layers import Layers


@dataclass(frozen=True)
class Setup:
    """A frame: how it turns a section, what the job must be clamped and the head be tilted for beyond the usual, and
    what it risks.

    `lay`: how it turns what the same section is seen from above; None where that can't be told. `words`: how the work
    lies, for whoever sets it up; `held`: how it is held so, and what is indicated ({true}: along the table, how true).
    `zeros`: what x and z count from in a section so turned; None
    where they count as the section is drawn. `suits`: whether a section as it is drawn can be turned so. `warns`: what
    it puts at risk, empty where it is the usual.
    """

    name: str
    words: str
    held: str
    turn: Callable[[Outline], Outline]
    lay: Callable[[Layers, Outline], Layers] | None = None
    zeros: Callable[[Outline], tuple[str, str] | None] = lambda outline: None
    suits: Callable[[Outline], bool] = lambda outline: True
    clampings: int = 0
    tilts: int = 0
    warns: str = ""
