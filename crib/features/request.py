"""What is asked of a kind of feature: the sizes by key, what every feature takes, and what stands beside it."""

from __future__ import annotations

from collections.abc import Mapping

from crib.findings.errors import CribError
from crib.findings.message import a
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.units import Size
from crib.units.angles import Angle

if TYPE_CHECKING:
    from crib.handbook.mates import Mate


@dataclass(frozen=True)
class Wall:
    """Something that stands beside the feature: its height over the surface and its distance from the feature's
    centre line or finished wall, below zero in front of it, at the picture's left [mm]."""

    height: float
    distance: float


@dataclass(frozen=True)
class Request:
    """What is asked: the sizes by key, what every feature takes, and what was said to a kind's own options."""

    kind: str
    sizes: Mapping[str, Size]
    material: str = ""
    length: float | None = None
    ends: str = "open"
    floor_radius: float = 0.0
    below: float | None = None
    walls: tuple[Wall, ...] = ()
    hardness: str | None = None
    count: int = 1
    hours: float = 0.0
    use: str | None = None
    mating: str | None = None
    corner_relief: float = 0.0
    source: str | None = None
    said: Mapping[str, str] = field(default_factory=dict)
    angles: Mapping[str, Angle] = field(default_factory=dict)
    units: str = "in"
    mate: Mate | None = None
    overruled: tuple[str, ...] = ()

    def angle(self, key: str = "angle") -> Angle:
        """The angle of that key. Raises `CribError` where it wasn't given."""
        if key not in self.angles:
            raise CribError("angle", f"{a(self.kind)} needs its {key}", "", f"--{key} in degrees")
        return self.angles[key]

    def size(self, key: str) -> Size:
        """The size of that key. Raises `CribError` where it wasn't given."""
        try:
            return self.sizes[key]
        except KeyError:
            name = key.replace("_", " ")
            raise CribError("size", f"{a(self.kind)} needs its {name}", "", f"--{name.replace(' ', '-')}") from None


class Spoken(NamedTuple):
    """What was typed to an option, all that was typed beside it, and the units that go without saying."""

    text: str
    texts: Mapping[str, str]
    units: str = "in"


_YES = ("yes", "true")


def is_said(request: Request, key: str) -> bool:
    """Whether an option that is yes or no was said to be."""
    return is_yes(request.said.get(key, "no"))


def is_yes(text: str) -> bool:
    """Whether what was typed for such an option says that it is."""
    return text.strip().lower() in _YES
