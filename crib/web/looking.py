"""Looking for cutters: by words, and drawer by drawer with their silhouettes."""

from __future__ import annotations

from collections.abc import Sequence

from starlette.responses import Response

from crib.app import looking
from crib.app.opening import Cutter
from crib.light.records import dataclass
from crib.pages.silhouette import silhouette
from crib.render.svg import drawing as svg
from crib.render.svg import paper as svg_paper
from crib.web.call import Call

_MOST = 200


@dataclass(frozen=True)
class Drawn:
    """A cutter with its silhouette, empty where no size of it is known; `typical`: some of it is drawn as usual."""

    cutter: Cutter
    shape: str
    typical: bool


@dataclass(frozen=True)
class Row:
    """Cutters drawn to one scale, which is said."""

    drawn: tuple[Drawn, ...]
    scale: str


def row(cutters: Sequence[Cutter]) -> Row:
    """Some cutters drawn to one scale."""
    shapes = [silhouette(cutter) for cutter in cutters]
    scale = svg.common_scale([shape for shape in shapes if shape], 80.0, 25.0)
    return Row(tuple(Drawn(cutter, svg.silhouette(shape, scale) if shape else "", bool(shape and shape.typical))
                     for cutter, shape in zip(cutters, shapes, strict=True)), svg_paper.scale_words(scale))


def drawers(call: Call) -> Response:
    """Every place, and how much lies there."""
    with call.open() as crib:
        places = sorted(looking.places(crib).items())
        loose = len(looking.nowhere(crib))
    return call.page("drawers.html", places=places, loose=loose)


def drawer(call: Call) -> Response:
    """What should lie in a place; without a name what has none."""
    name = call.text("place")
    with call.open() as crib:
        found = looking.place(crib, name) if name else looking.Place("no place yet", looking.nowhere(crib), [])
        return call.page("drawer.html", place=found, row=row(found.cutters))


def find(call: Call) -> Response:
    """Cutters by what a shop means by the words; all of them without."""
    words = call.text("words")
    with call.open() as crib:
        most = None if call.text("all") else _MOST
        found = looking.find(crib, words.split(), most)
        shown = found.cutters[:most]
        return call.page("find.html", words=words, found=found, row=row(shown),
                         more=len(found.cutters) - len(shown) + found.more)
