"""A feature with closed ends from above as a vector drawing: its outline thick, what its lip hides dashed, the cutter
at its stop."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from itertools import pairwise

from crib.findings.message import Measure
from crib.geometry.box_outline import Arc, Line, outline
from crib.pages.above import ends
from crib.pages.scene import DimensionLine, FromAbove, tight_words
from crib.render.svg.paper import (
    CHAIN,
    CUT,
    DASHED,
    TEXT,
    THICK,
    Paper,
    arrow,
    length,
    line,
    n,
    paper,
    ring,
    scale_words,
    text,
)
from crib.render.svg.sizes import ends_at, sizes, tight, whole
from crib.render.window import Pane
from crib.render.words import words


def plan(scene: FromAbove, units: str, name: str = "plan", wide: float = 150.0, high: float = 60.0) -> str:
    """The view of a scene from above, at most so wide and high [mm]."""
    sheet = paper(_box(scene), name, wide, high)
    view = [*_outline(scene, sheet), *_cutter(scene, sheet), *_way(scene, sheet)]
    told = words(tight_words(scene.tight), units) if scene.tight and scene.spot else ""
    title = f"from above, pass {scene.pass_no}{_at(scene, units)}, {scale_words(sheet.scale)}"
    say = partial(_size, units=units)
    place = (sheet.x(scene.spot[0]), sheet.y(scene.spot[1])) if scene.spot and scene.tight else None
    beside = [*sizes(scene.dimensions, say, sheet), *tight(place, told, title, sheet), _zero(scene, sheet)]
    return whole(sheet, view, beside, title, scene.dimensions, say, ends_at(place, told, title, sheet))


def _at(scene: FromAbove, units: str) -> str:
    """Where the cutter stands, where that isn't the end of its way."""
    if scene.path:
        return ""
    along, across = words(Measure(scene.along_mm), units), words(Measure(scene.across_mm, sign=True), units)
    return f": stop at table {along}, cross {across}"


def _size(one: DimensionLine, units: str) -> str:
    return words(Measure(one.mm), units)


def _box(scene: FromAbove) -> Pane:
    """The feature with some metal round it; where it opens at its left, from a bit before that."""
    shapes = scene.opening | scene.under
    (left, right), half = ends(shapes), max(one.high + one.radius for one in shapes)
    pad = half // 2
    left = min(scene.zero, scene.x_nm - scene.teeth) if scene.is_open else left
    return Pane(left - pad, right + pad, -half - pad, half + pad)


def _outline(scene: FromAbove, sheet: Paper) -> Iterator[str]:
    """What is open at the surface by its edge, and the edge of the room under the lip: a view, so no hatching."""
    left = sheet.x(scene.zero) if scene.is_open else sheet.left
    hidden = set(outline(scene.under)) - set(outline(scene.opening))
    yield _edge("under", hidden, scene, sheet, f'stroke-dasharray="{DASHED}"')
    yield _edge("edge", outline(scene.opening), scene, sheet, f'stroke-width="{THICK}" stroke-linecap="round"')
    if scene.is_open:
        half = max(one.high + one.radius for one in scene.opening)
        yield (f'<path class="face" d="M{n(left)} {n(sheet.top)}V{n(sheet.y(half))}M{n(left)} {n(sheet.y(-half))}'
               f'V{n(sheet.bottom)}" stroke-width="{THICK}"/>')
    if scene.hole:
        yield ring(sheet.x(0), sheet.y(0), scene.hole / 1e6 * sheet.scale, DASHED)


def _edge(name: str, pieces: Iterable[Line | Arc], scene: FromAbove, sheet: Paper, how: str) -> str:
    """The pieces of an outline, those beyond an open end left out."""
    begin = scene.zero if scene.is_open else sheet.box.left
    return f'<path class="{name}" d="{"".join(_piece(one, begin, sheet) for one in pieces)}" {how}/>'


def _piece(one: Line | Arc, begin: int, sheet: Paper) -> str:
    if isinstance(one, Line):
        if one.right < begin or (one.left == one.right and one.left <= begin):
            return ""
        left = max(one.left, begin)
        return f"M{n(sheet.x(left))} {n(sheet.y(one.low))}L{n(sheet.x(one.right))} {n(sheet.y(one.high))}"
    (x, y), (to_x, to_y), r = one.at(one.start), one.at(one.end), n(one.radius / 1e6 * sheet.scale)
    if one.x < begin:
        return ""
    return f"M{n(sheet.x(x))} {n(sheet.y(y))}A{r} {r} 0 0 0 {n(sheet.x(to_x))} {n(sheet.y(to_y))}"


def _cutter(scene: FromAbove, sheet: Paper) -> Iterator[str]:
    """The teeth, what stands over them, and the axis."""
    x, y, r = sheet.x(scene.x_nm), sheet.y(scene.y_nm), scene.teeth / 1e6 * sheet.scale
    yield f'<circle class="teeth" cx="{n(x)}" cy="{n(y)}" r="{n(r)}" fill="currentColor" fill-opacity=".25"/>'
    if scene.body:
        body = scene.body.widest / 1e6 * sheet.scale
        yield f'<circle class="body" cx="{n(x)}" cy="{n(y)}" r="{n(body)}" fill="currentColor" fill-opacity=".3"/>'
    yield line(x - r - 2, y, x + r + 2, y, CHAIN) + line(x, y - r - 2, x, y + r + 2, CHAIN)
    yield line(sheet.left, sheet.y(0), sheet.right, sheet.y(0), CHAIN)


def _way(scene: FromAbove, sheet: Paper) -> Iterator[str]:
    """The walls that are cut, and the cutter's way with an arrow in the middle of each leg."""
    begin = scene.zero if scene.is_open else sheet.box.left
    path = "".join(f"M{n(sheet.x(max(a, begin)))} {n(sheet.y(b))}L{n(sheet.x(c))} {n(sheet.y(d))}"
                   for a, b, c, d in scene.cut)
    yield f'<path class="cut" d="{path}" stroke-width="{CUT}"/>' if path else ""
    for (a, b), (c, d) in pairwise(scene.path):
        yield from arrow(sheet.x(a), sheet.y(b), sheet.x(c), sheet.y(d))


def _zero(scene: FromAbove, sheet: Paper) -> str:
    """Where positions along count from."""
    at = sheet.x(scene.zero)
    return text(at, sheet.bottom + TEXT + 0.5, "table 0", "end" if at > length("table 0") else "start")
