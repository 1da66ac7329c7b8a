"""What the picture of a plan is drawn from."""

from __future__ import annotations

from dataclasses import dataclass

from crib.planning.advice import TightSpot
from crib.section.form import Form
from crib.section.region import Region


@dataclass(frozen=True)
class Label:
    """A size written beside the picture, between `low` and `high` [nm]: along x if `across`, else along z."""

    says: str
    across: bool
    low: int
    high: int


@dataclass(frozen=True)
class Scene:
    """The cross-section at the pass that decides. Lengths in whole nanometres, the surface at z = 0.

    `stock`: the metal before; `finished`: what is gone at the end; `form`: the cutter, with its axis at `x_nm` and its
    lower face at `z_nm`. `tight_text` replaces the words made from `tight`. `on_top`: whether z = 0 is the surface.
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
