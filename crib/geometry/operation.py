"""What is done and where: an operation is a body on its way, in a frame; a frame is what stays the same meanwhile."""

from __future__ import annotations

from crib.geometry.outline import Outline
from crib.geometry.silhouette import Silhouette
from crib.light.choices import StrEnum
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple

if TYPE_CHECKING:
    from crib.geometry.layers import Layers

Point = tuple[int, int]
Path = tuple[Point, ...]


class Frame(StrEnum):
    """Constant along the way of a body: a section. All round an axis: rounds. At each height: the plan from above."""

    SECTION = "section"
    AXIS = "axis"
    PLAN = "plan"


class Operation(NamedTuple):
    """A body on its way, its lower face at z; `tag` says whose it is.

    In a section it passes along with its axis at x. Down an axis, the work's `axis`-th, it comes from above. In plan it
    goes along a `path`, corner by corner; what passes along a section and has a path is followed in plan too. `free`:
    the radius round its first corner that must be clear above z before it comes down there; None where it goes on from
    where the last one stopped; of one that only comes down an axis the radius in which it takes nothing, so that all
    which must go there is gone before. `start`: about an axis, where its own axis stands before it goes out, or in, to
    x and once round: as it comes down there, or has stopped; None where it only comes down.
    """

    frame: Frame
    form: Silhouette
    z: int
    x: int = 0
    tag: int = 0
    path: Path = ()
    free: int | None = None
    axis: int = 0
    start: int | None = None

    @staticmethod
    def along(form: Silhouette, x: int, z: int, tag: int = 0, path: Path = (), free: int | None = None) -> Operation:
        """Along a section."""
        return Operation(Frame.SECTION, form, z, x, tag, path, free)

    @staticmethod
    def down(form: Silhouette, z: int, tag: int = 0, axis: int = 0, free: int | None = None) -> Operation:
        """Down an axis."""
        return Operation(Frame.AXIS, form, z, 0, tag, free=free, axis=axis)

    @staticmethod
    def round(form: Silhouette, x: int, z: int, start: int, tag: int = 0, axis: int = 0, on: bool = False) -> Operation:
        """Round an axis, its own axis as far from that as x; `on`: it is there at its height from before."""
        return Operation(Frame.AXIS, form, z, x, tag, axis=axis, start=start, free=None if on else 0)

    @property
    def goes_round(self) -> bool:
        """Whether it goes round an axis, beside it."""
        return self.start is not None

    @property
    def goes_on(self) -> bool:
        """Whether it doesn't come down from above."""
        return self.goes_round and self.free is None

    def follows(self, last: Operation | None) -> bool:
        """Whether it goes on from where the one before it stopped."""
        return last is not None and (last.tag, last.z, last.x) == (self.tag, self.z, self.start)

    @staticmethod
    def above(form: Silhouette, path: Path, z: int, free: int | None = None, tag: int = 0) -> Operation:
        """Seen from above alone."""
        return Operation(Frame.PLAN, form, z, path[0][1], tag, path, free)


@dataclass(frozen=True)
class Work:
    """What is asked, in each frame that is concerned: a section, rounds about some axes, the layers of a plan."""

    section: Outline | None = None
    axes: tuple[Outline, ...] = ()
    layers: Layers | None = None
