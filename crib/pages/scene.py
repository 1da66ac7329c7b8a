"""What the picture of a plan is drawn from."""

from __future__ import annotations

from dataclasses import dataclass

from crib.geometry.region import Region
from crib.geometry.rounded_box import RoundedBox
from crib.geometry.silhouette import Form, Part
from crib.planning.advice import TightSpot


@dataclass(frozen=True)
class Label:
    """A size written beside the picture, between `low` and `high` [nm]: along x if `across`, else along z."""

    says: str
    across: bool
    low: int
    high: int


@dataclass(frozen=True)
class FromAbove:
    """The finished feature from above, x along and y across, the back at the top [nm].

    `opening`: what is open at the surface; `under`: what is open at the height of the teeth. The cutter stands with its
    axis at `x_nm`, `y_nm`; `body` is what of it stands over the teeth. `spot`: where metal is nearest to that, and what
    is said there. `heading`: where it stands, in words. `zero`: where positions along count from, `is_open` if that is
    an open end.
    """

    opening: frozenset[RoundedBox]
    under: frozenset[RoundedBox]
    teeth: int
    body: Part | None
    x_nm: int
    y_nm: int
    zero: int
    heading: str
    spot: tuple[int, int] | None = None
    spot_text: str = ""
    labels: tuple[Label, ...] = ()
    hole: int = 0
    is_open: bool = False


@dataclass(frozen=True)
class Scene:
    """The cross-section at the pass that decides. Lengths in whole nanometres, the surface at z = 0.

    `stock`: the metal before; `finished`: what is gone at the end; `form`: the cutter, with its axis at `x_nm` and its
    lower face at `z_nm`. `tight_text` replaces the words made from `tight`. `on_top`: whether z = 0 is the surface.
    `above`: the same from above, where an end is closed.
    """

    stock: Region
    finished: Region
    form: Form
    x_nm: int
    z_nm: int
    tight: TightSpot | None = None
    tight_text: str = ""
    labels: tuple[Label, ...] = ()
    on_top: bool = True
    above: FromAbove | None = None
