"""A part to be made: stock, and the features that it gets, each with its place.

In the part's own frame x counts from the left end, y from the front and z from the bottom up [mm].
"""

from __future__ import annotations

from collections.abc import Mapping

from crib.findings.finding import Finding
from crib.light.choices import StrEnum
from crib.light.records import dataclass


class Face(StrEnum):
    """A face of the stock as it lies on the drawing: length from left to right, width from front to back."""

    TOP = "top"
    BOTTOM = "bottom"
    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"


class Runs(StrEnum):
    """Which way a feature runs on its face: along its first direction or across it.

    The first direction is the length on top, bottom, front and back, and the width at the left and right ends.
    """

    ALONG = "along"
    ACROSS = "across"


@dataclass(frozen=True)
class Stock:
    """Squared stock, or a round bar that lies along its length where it has a diameter, before any feature [mm]."""

    length: float
    width: float
    height: float
    diameter: float | None = None


@dataclass(frozen=True)
class Place:
    """Where a feature lies on its face [mm].

    `along` and `across` say where its own zero is: its centre line, its finished wall or its axis. They count from the
    edges that meet in the front left top corner: along from the left (at the ends from the front), across from the
    front, on the four sides from the top down. Of what runs along, `along` is where it begins, and the other way round.
    `level`: how far below the face its own surface lies, as on the floor of a step. `turned`: what its drawing has on
    the right lies the other way from how its place counts; where that isn't said, it opens towards the nearer edge.
    """

    face: Face = Face.TOP
    along: float = 0.0
    across: float = 0.0
    runs: Runs = Runs.ALONG
    level: float = 0.0
    turned: bool | None = None


@dataclass(frozen=True)
class Placed:
    """A feature of a part: what it is called there, its kind and what was typed of it, its place, and the features
    that its owner wants made before it. `more`: further places at which the very same is made in one go; its `texts`
    count them."""

    name: str
    kind: str
    texts: Mapping[str, str]
    place: Place = Place()
    typed_in: str = "in"
    after: tuple[str, ...] = ()
    more: tuple[Place, ...] = ()

    @property
    def places(self) -> tuple[Place, ...]:
        """Every place at which it is made."""
        return (self.place, *self.more)


@dataclass(frozen=True)
class Part:
    """A part: `hours` are those that are in it before the first cut of the plan, `fits` what it goes with, `use` what
    it is for; `units` are those that its bare sizes are typed in. `datum`: the corner from which its owner wants to
    count. `unread`: what of its text couldn't be read; it stays in the text, to be put right."""

    name: str
    stock: Stock
    material: str = ""
    features: tuple[Placed, ...] = ()
    hours: float = 0.0
    fits: str = ""
    use: str = ""
    units: str = "in"
    notes: tuple[str, ...] = ()
    datum: str = "front left"
    unread: tuple[Finding, ...] = ()

    def feature(self, name: str) -> Placed:
        """The feature of a name. Raises KeyError where there is none."""
        for one in self.features:
            if one.name == name:
                return one
        raise KeyError(name)
