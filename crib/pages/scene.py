"""What pictures are drawn from: bodies and metal to the nanometre, sizes by their two ends, and no words in any
unit."""

from __future__ import annotations

from crib.findings.message import Measure, Text, said
from crib.geometry.region import NOTHING, Region
from crib.geometry.silhouette import Part, Silhouette
from crib.light.choices import StrEnum
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass
from crib.machining.words import Seen, Slide

if TYPE_CHECKING:
    from crib.geometry.rounded_box import RoundedBox
    from crib.planning.told.advice import TightSpot


class Body(StrEnum):
    """What a part of a cutter that doesn't cut is to whoever looks at it. Holders don't widen a picture."""

    NECK = "neck"
    SHANK = "shank"
    PILOT = "pilot"
    HOLDER = "holder"


def body_of(part: Part) -> Body:
    """What a part that doesn't cut is.

    >>> body_of(Part("fillet", 0, 1, 2, 2)), body_of(Part("nose", 0, 1, 2, 2))
    (<Body.NECK: 'neck'>, <Body.HOLDER: 'holder'>)
    """
    if "neck" in part.name or "fillet" in part.name:
        return Body.NECK
    if part.name == "pilot":
        return Body.PILOT
    return Body.SHANK if "shank" in part.name else Body.HOLDER


@dataclass(frozen=True)
class DimensionLine:
    """A size between `low` and `high` [nm]: along x if `across`, else along z. `fine`: its tolerance is so close that
    inches want a fourth place."""

    name: str
    across: bool
    low: int
    high: int
    fine: bool = False

    @property
    def mm(self) -> float:
        """How long it is [mm]."""
        return (self.high - self.low) / 1e6


@dataclass(frozen=True)
class FromAbove:
    """The finished feature from above, x along and y across, the back at the top [nm].

    `opening`: what is open at the surface; `under`: what is open at the height of the teeth. The cutter stands with its
    axis at `x_nm`, `y_nm`, as a stop of pass `pass_no`, dialled at `along_mm` on the table and `across_mm`; `body` is
    what of it stands over the teeth. `tight`: what comes nearest to metal there, and `spot` where that metal is.
    `zero`: where positions along count from, `is_open` if that is an open end. `path`: the corners of its way, and
    `cut` the walls that it leaves, each from one place to another, where that is told.
    """

    opening: frozenset[RoundedBox]
    under: frozenset[RoundedBox]
    teeth: int
    body: Part | None
    x_nm: int
    y_nm: int
    zero: int
    pass_no: int
    along_mm: float
    across_mm: float
    tight: TightSpot | None = None
    spot: tuple[int, int] | None = None
    dimensions: tuple[DimensionLine, ...] = ()
    hole: int = 0
    is_open: bool = False
    path: tuple[tuple[int, int], ...] = ()
    cut: tuple[tuple[int, int, int, int], ...] = ()


@dataclass(frozen=True)
class HolesFromAbove:
    """Holes from above, numbered in their order, x by the table and y by the cross slide, the back at the top [nm];
    the circle that they stand round, and where both slides read nought."""

    holes: tuple[tuple[int, int], ...]
    radius: int
    middle: tuple[int, int]
    around: int
    dimensions: tuple[DimensionLine, ...] = ()


@dataclass(frozen=True)
class Scene:
    """The cross-section at a pass. Lengths in whole nanometres, the surface at z = 0.

    `stock`: the metal before; `finished`: what is gone, and `taken` what of it this pass takes, where that is
    told; `form`: the cutter, with its axis at `x_nm` and its lower face at `z_nm`; `dialled`: what the slides are set
    to for it, across, by the `slide` of that name, and down [mm], where that is told. `tight`: what comes nearest to
    metal there. `on_top`: whether z = 0 is the surface. `faces_you`: its left is the front, or seen `from_left` the
    back. `above`: the same from above, where an end is closed or several holes stand round a circle.
    """

    stock: Region
    finished: Region
    form: Silhouette
    x_nm: int
    z_nm: int
    tight: TightSpot | None = None
    dimensions: tuple[DimensionLine, ...] = ()
    on_top: bool = True
    above: FromAbove | HolesFromAbove | None = None
    taken: Region = NOTHING
    pass_no: int = 0
    faces_you: bool = False
    from_left: bool = False
    dialled: tuple[float, float] | None = None
    slide: Slide = Slide.CROSS


@dataclass(frozen=True)
class Strip:
    """A piece out of the middle of a feature with open ends, from above, the back at the top [nm]: the edges that are
    seen and those that are hidden, by how far across they run; the cutter, the way that it goes, and the walls that it
    cuts."""

    seen: tuple[int, ...]
    hidden: tuple[int, ...]
    cut: tuple[int, ...]
    y_nm: int
    teeth: int
    feeds: tuple[str, ...]


@dataclass(frozen=True)
class CutterScene:
    """A cutter as it stands, its axis at nought and its lower end at z = 0, with the sizes to check."""

    form: Silhouette
    dimensions: tuple[DimensionLine, ...]


@dataclass(frozen=True)
class Piece:
    """A piece of a cutter between two places along its axis, straight from one radius to the other [mm]; `cuts`: it has
    teeth."""

    low: float
    high: float
    radius_low: float
    radius_high: float
    cuts: bool


@dataclass(frozen=True)
class Shape:
    """A cutter from the side, in pieces from the cutting end on. `typical`: some of its sizes aren't known and were
    drawn as is usual."""

    pieces: tuple[Piece, ...]
    typical: bool

    @property
    def length(self) -> float:
        """From end to end [mm]."""
        return max(piece.high for piece in self.pieces) - min(piece.low for piece in self.pieces)

    @property
    def width(self) -> float:
        """Across the widest piece [mm]."""
        return 2 * max(max(piece.radius_low, piece.radius_high) for piece in self.pieces)


def tight_words(tight: TightSpot) -> Text:
    """The tight spot said in a few words. What is nearer than the surface, above it, is what stands beside the work.

    >>> from crib.planning.told.advice import TightSpot
    >>> tight_words(TightSpot(5, "shank", 7.62, 10.0, 0.508)).template
    '{part} clears what stands beside by {gap}'
    """
    beside = " what stands beside" if tight.view == Seen.CROSS and tight.z_mm > tight.gap_mm + 1e-4 > 0 else ""
    return said(f"{{part}} {'clears' if tight.gap_mm >= 0 else 'rubs'}{beside} by {{gap}}", part=tight.part,
                gap=Measure(abs(tight.gap_mm)))
