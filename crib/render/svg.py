"""Scenes as vector drawings to scale: metal hatched, what is cut hatched the other way, hidden edges dashed, centre
lines in dashes and dots (line types of ISO 128-2). Text is text, and every colour is the reader's own."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from html import escape
from itertools import pairwise
from math import hypot

from crib.findings.message import Measure
from crib.geometry.region import Region, box
from crib.geometry.silhouette import Part, Silhouette
from crib.pages.scene import Body, DimensionLine, Scene, Shape, body_of, tight_words
from crib.records import dataclass
from crib.render.picture import drawn
from crib.render.window import Pane, removed, window
from crib.render.words import words

SCALES = (100, 50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100)
"""Of a drawing, the largest first (ISO 5455)."""

THICK, THIN, TEXT = 0.5, 0.25, 3.2
"""Widths of lines and height of the lettering, on paper [mm]."""

CHAIN, DASHED = "6 1 1 1", "2 1"
_SHADES = {Body.NECK: 0.2, Body.SHANK: 0.1, Body.PILOT: 0.25, Body.HOLDER: 0.05}
_TEETH = 0.4
_LETTER = 0.55 * TEXT
"""How wide a letter is at about [mm]."""

_ROW = 6.0
"""Between dimension lines [mm]."""


@dataclass(frozen=True)
class Paper:
    """Where a drawing lies on its paper: so many times as large as life, from the corner of its box. `name` begins the
    names of its patterns."""

    box: Pane
    scale: float
    name: str
    left: float = 9.0
    top: float = TEXT + 4.0

    def x(self, nm: float) -> float:
        """From the left edge of the paper [mm]."""
        return self.left + (nm - self.box.left) / 1e6 * self.scale

    def y(self, nm: float) -> float:
        """From the upper edge of the paper [mm]."""
        return self.top + (self.box.top - nm) / 1e6 * self.scale

    @property
    def right(self) -> float:
        """Where the drawing ends on the right [mm]."""
        return self.x(self.box.right)

    @property
    def bottom(self) -> float:
        """Where it ends below [mm]."""
        return self.y(self.box.bottom)


def paper(pane: Pane, name: str, wide: float, high: float) -> Paper:
    """The largest usual scale at which a window fits [mm]."""
    across, up = (pane.right - pane.left) / 1e6, (pane.top - pane.bottom) / 1e6
    fits = (scale for scale in SCALES if across * scale <= wide and up * scale <= high)
    return Paper(pane, next(fits, min(wide / across, high / up)), name)


def section(scene: Scene, units: str, name: str = "section", wide: float = 110.0, high: float = 90.0,
            pane: Pane | None = None, brief: bool = False) -> str:
    """The cross-section of a scene, its view at most so wide and high [mm]; `pane`: what of it is shown, where that is
    asked for; `brief`: the tight spot in its number alone."""
    sheet = paper(pane or pane_of(scene), name, wide, high)
    view = [*_metal(scene, sheet), *_cutter(scene.form, scene.x_nm, scene.z_nm, sheet),
            *edges(scene.stock - scene.finished, sheet), *_zeros(sheet)]
    say = partial(drawn, units=units)
    spot = scene.tight
    told = words(Measure(abs(spot.gap_mm)) if brief else tight_words(spot), units) if spot else ""
    title = f"{f'pass {scene.pass_no}' if scene.pass_no else 'section'}, {scale_words(sheet.scale)}"
    place = (sheet.x(spot.x_mm * 1e6), sheet.y(spot.z_mm * 1e6)) if spot else None
    beside = [text(sheet.left - 1, sheet.y(0) + 1, "Z 0", "end"), *_sides(scene, sheet),
              *tight(place, told, title, sheet), *sizes(scene.dimensions, say, sheet)]
    return whole(sheet, view, beside, title, scene.dimensions, say, ends_at(place, told, title, sheet))


def pane_of(scene: Scene) -> Pane:
    """What of a scene is worth showing."""
    gone = removed(scene.stock, scene.finished, scene.x_nm, scene.form.radius)
    return window(scene.stock, gone, scene.form, scene.x_nm, scene.z_nm)


def scale_words(scale: float) -> str:
    """A scale as drawings have it.

    >>> scale_words(5), scale_words(0.5), scale_words(0.37)
    ('5 : 1', '1 : 2', 'not to a usual scale')
    """
    if scale not in SCALES:
        return "not to a usual scale"
    return f"{scale:g} : 1" if scale >= 1 else f"1 : {1 / scale:g}"


def whole(sheet: Paper, view: Iterable[str], beside: Iterable[str], title: str, those: Sequence[DimensionLine] = (),
          say: Callable[[DimensionLine], str] = str, right: float = 0.0) -> str:
    """A drawing: what is cut off at the edge of its box, what stands beside that as far as `right`, its sizes and its
    title."""
    tall = sum(not one.across for one in those)
    far = max((sheet.x(one.high) for one in those if one.across), default=0.0)
    ends = [far + 4 + length(f"{one.name} {say(one)}") for one in those if one.across]
    width = max(sheet.right + 2 + (_ROW * tall + TEXT if tall else 0), sheet.left + length(title), right, *ends)
    height = sheet.bottom + 5 + _ROW * (len(those) - tall)
    clip = (f'<clipPath id="{sheet.name}-box"><rect x="{n(sheet.left)}" y="{n(sheet.top)}" '
            f'width="{n(sheet.right - sheet.left)}" height="{n(sheet.bottom - sheet.top)}"/></clipPath>')
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{n(width)}mm" height="{n(height)}mm" '
            f'viewBox="0 0 {n(width)} {n(height)}" role="img" aria-label="{escape(title)}" fill="none" '
            f'stroke="currentColor" stroke-width="{THIN}" font-family="sans-serif" font-size="{TEXT}">'
            f"<defs>{clip}{_hatch(sheet.name, 'metal', 45, 2.2)}{_hatch(sheet.name, 'taken', -45, 1.1)}</defs>"
            f'{text(sheet.left, TEXT, title)}<g clip-path="url(#{sheet.name}-box)">{"".join(view)}</g>'
            f'{"".join(beside)}</svg>')


def length(said: str) -> float:
    """About how long some words are on the paper [mm]."""
    return len(said) * _LETTER


def _hatch(name: str, what: str, angle: int, apart: float) -> str:
    return (f'<pattern id="{name}-{what}" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({angle})"><path d="M0 0V{apart}" stroke="currentColor" stroke-width=".3"/>'
            "</pattern>")


def _metal(scene: Scene, sheet: Paper) -> Iterator[str]:
    """What stands, and what of the rest this pass takes."""
    shown = box(sheet.box.left, sheet.box.bottom, sheet.box.right, sheet.box.top)
    yield f'<path class="metal" d="{area((scene.stock - scene.finished) & shown, sheet)}" stroke="none" ' \
          f'fill="url(#{sheet.name}-metal)"/>'
    if scene.taken:
        yield f'<path class="taken" d="{area(scene.taken & shown, sheet)}" stroke="none" ' \
              f'fill="url(#{sheet.name}-taken)"/>'


def area(region: Region, sheet: Paper) -> str:
    """A region as a path of its pieces, which meet where its slabs do."""
    return "".join(polygon([(s.left_low, slab.low), (s.right_low, slab.low), (s.right_high, slab.high),
                            (s.left_high, slab.high)], sheet) for slab in region.slabs for s in slab.spans)


def polygon(points: Iterable[tuple[float, float]], sheet: Paper) -> str:
    """A closed path through some points [nm]."""
    return "M" + "L".join(f"{n(sheet.x(x))} {n(sheet.y(z))}" for x, z in points) + "Z"


def edges(standing: Region, sheet: Paper) -> Iterator[str]:
    """The outline of what stands, in thick lines: both ends of every span, and of levels what only one side has."""
    lines = [line for slab in standing.slabs for s in slab.spans for line in (
        (s.left_low, slab.low, s.left_high, slab.high), (s.right_low, slab.low, s.right_high, slab.high))]
    for z in {level for slab in standing.slabs for level in (slab.low, slab.high)}:
        below = [(s.left_high, s.right_high) for slab in standing.slabs if slab.high == z for s in slab.spans]
        above = [(s.left_low, s.right_low) for slab in standing.slabs if slab.low == z for s in slab.spans]
        ends = sorted({end for span in (*below, *above) for end in span})
        lines += [(left, z, right, z) for left, right in pairwise(ends)
                  if any(a <= left and right <= b for a, b in below) != any(a <= left and right <= b for a, b in above)]
    path = "".join(f"M{n(sheet.x(a))} {n(sheet.y(b))}L{n(sheet.x(c))} {n(sheet.y(d))}"
                   for a, b, c, d in _within(lines, sheet.box))
    yield f'<path class="edge" d="{path}" stroke-width="{THICK}" stroke-linecap="round"/>'


def _within(lines: Iterable[tuple[int, int, int, int]], pane: Pane) -> Iterator[tuple[int, int, int, int]]:
    """Lines as far as a window shows them, level and upright ones cut off at its edge; what lies outside is left
    out."""
    for a, b, c, d in lines:
        (left, right), (low, high) = sorted((a, c)), sorted((b, d))
        if right < pane.left or left > pane.right or high < pane.bottom or low > pane.top:
            continue
        if b == d:
            a, c = max(a, pane.left), min(c, pane.right)
        elif a == c:
            b, d = max(b, pane.bottom), min(d, pane.top)
        yield a, b, c, d


def _cutter(form: Silhouette, x: int, z: int, sheet: Paper) -> Iterator[str]:
    """The cutter with its axis: what doesn't cut is light, teeth are dark."""
    for part in form.clear:
        shade = f'class="{(role := body_of(part))}" fill="currentColor" fill-opacity="{_SHADES[role]}"'
        yield f'<path {shade} d="{_part(part, x, z, sheet)}"/>'
    for part in form.sure:
        yield f'<path class="teeth" d="{_part(part, x, z, sheet)}" fill="currentColor" fill-opacity="{_TEETH}"/>'
    yield line(sheet.x(x), sheet.top, sheet.x(x), sheet.y(z) + 3, CHAIN)


def _part(part: Part, x: int, z: int, sheet: Paper) -> str:
    low, high = z + part.low, min(z + part.high, sheet.box.top + 10_000_000)
    wide = part.radius_at(high - z) if high < z + part.high else part.radius_high
    return polygon([(x - part.radius_low, low), (x + part.radius_low, low), (x + wide, high), (x - wide, high)], sheet)


def _zeros(sheet: Paper) -> Iterator[str]:
    """The lines from which cross and Z count."""
    yield (f'<g class="zero">{line(sheet.left, sheet.y(0), sheet.right, sheet.y(0), CHAIN)}'
           f"{line(sheet.x(0), sheet.y(0) - 4, sheet.x(0), sheet.bottom, CHAIN)}</g>")


def _sides(scene: Scene, sheet: Paper) -> Iterator[str]:
    """Which side is which, where it is looked at from the end."""
    if scene.faces_you:
        y = sheet.bottom + TEXT + 0.8 + _ROW * sum(one.across for one in scene.dimensions)
        yield text(sheet.left, y, "front") + text(sheet.right, y, "back", "end")


def tight(place: tuple[float, float] | None, told: str, title: str, sheet: Paper) -> Iterator[str]:
    """A ring about the tight spot on the paper, with a line to what is said of it, behind the title; no ring where the
    spot lies outside of the drawing."""
    if place is None:
        return
    (x, y), to = place, _beside(place, title, sheet)
    yield text(to, TEXT, told)
    if not (sheet.left <= x <= sheet.right and sheet.top <= y <= sheet.bottom):
        return
    yield ring(x, y, 2.0)
    far = hypot(to - x, TEXT + 1 - y) or 1.0
    yield line(x + 2 * (to - x) / far, y + 2 * (TEXT + 1 - y) / far, to, TEXT + 1)


def _beside(place: tuple[float, float], title: str, sheet: Paper) -> float:
    """Where it is said what a place on the paper is: behind the title, and to the right of the place [mm]."""
    return max(sheet.left + length(title) + 5, place[0] + 4)


def ends_at(place: tuple[float, float] | None, told: str, title: str, sheet: Paper) -> float:
    """Where that ends [mm]."""
    return _beside(place, title, sheet) + length(told) if place else 0.0


def sizes(those: Sequence[DimensionLine], say: Callable[[DimensionLine], str], sheet: Paper) -> Iterator[str]:
    """Sizes with their lines: level ones below, the shortest first, upright ones on the right (ISO 129-1)."""
    level = sorted((one for one in those if one.across), key=lambda one: one.mm)
    tall = sorted((one for one in those if not one.across), key=lambda one: one.mm)
    said = {one: f"{one.name} {say(one)}".strip() for one in those}
    far = max((one.high for one in level), default=0)
    drawn = [*(_level(one, said[one], row, sheet, far) for row, one in enumerate(level, start=1)),
             *(_upright(one, said[one], row, sheet) for row, one in enumerate(tall, start=1))]
    yield from (f'<g class="size">{one}</g>' for one in drawn)


def _level(one: DimensionLine, said: str, row: int, sheet: Paper, farthest: int) -> str:
    """A size across, in a row below; where its words find no room they stand beyond the lines of all the others."""
    a, b, y = sheet.x(one.low), sheet.x(one.high), sheet.bottom + _ROW * row
    told = text((a + b) / 2, y - 1, said, "middle")
    if length(said) > b - a:
        beyond = max(b + 2.5, sheet.x(farthest)) + 1
        told = line(b, y, beyond - 0.5, y) + text(beyond, y + 1, said)
    return line(a, sheet.bottom + 1, a, y + 1) + line(b, sheet.bottom + 1, b, y + 1) + _arrows(a, y, b, y) + told


def _upright(one: DimensionLine, said: str, row: int, sheet: Paper) -> str:
    """A size up and down, in a row on the right; where its words find no room they begin at the end that is nearer to
    the edge of the drawing, and run inwards."""
    a, b, x = sheet.y(one.high), sheet.y(one.low), sheet.right + _ROW * row
    at, anchor = (a + b) / 2, "middle"
    if length(said) > b - a:
        at, anchor = (a, "end") if a + b < sheet.top + sheet.bottom else (b, "start")
    told = f'<g transform="translate({n(x + TEXT)} {n(at)}) rotate(-90)">{text(0, 0, said, anchor)}</g>'
    return line(sheet.right + 1, a, x + 1, a) + line(sheet.right + 1, b, x + 1, b) + _arrows(x, a, x, b) + told


def _arrows(a: float, b: float, c: float, d: float) -> str:
    """A dimension line with its heads; they stand outside where there is no room between."""
    short = abs(c - a) + abs(d - b) < 7
    heads = "".join(_head(x, y, (dx if not short else -dx), (dy if not short else -dy))
                    for x, y, dx, dy in ((a, b, *_towards(a, b, c, d)), (c, d, *_towards(c, d, a, b))))
    return line(a, b, c, d) + heads


def _towards(a: float, b: float, c: float, d: float) -> tuple[float, float]:
    return (float(c > a) - float(c < a), float(d > b) - float(d < b))


def _head(x: float, y: float, dx: float, dy: float) -> str:
    """The head of an arrow at a point, its shaft going that way."""
    end, side = (x + 2.5 * dx, y + 2.5 * dy), (0.5 * dy, 0.5 * dx)
    points = ((x, y), (end[0] - side[0], end[1] - side[1]), (end[0] + side[0], end[1] + side[1]))
    return f'<path d="M{"L".join(f"{n(a)} {n(b)}" for a, b in points)}Z" fill="currentColor" stroke="none"/>'


def arrow(a: float, b: float, c: float, d: float) -> Iterator[str]:
    """A line from one place to another on the paper [mm], the head of an arrow in its middle; nothing where they are
    one."""
    far = hypot(c - a, d - b)
    if far < 1e-6:
        return
    x, y, dx, dy = (a + c) / 2, (b + d) / 2, (a - c) / far, (b - d) / far
    yield (f'<path class="way" d="M{n(a)} {n(b)}L{n(c)} {n(d)}" stroke-width="{THICK}"/>'
           + _head(x - 1.25 * dx, y - 1.25 * dy, dx, dy))


def common_scale(shapes: Sequence[Shape], wide: float = 120.0, high: float = 30.0) -> float:
    """The largest usual scale, life-size at the most, at which each of some cutters fits on so much paper [mm]."""
    fits = (scale for scale in SCALES if scale <= 1
            and all(one.length * scale <= wide and one.width * scale <= high for one in shapes))
    return next(fits, SCALES[-1])


def silhouette(shape: Shape, scale: float) -> str:
    """A cutter on its side."""
    width, height = shape.length * scale + 1, shape.width * scale + 1
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{n(width)}mm" height="{n(height)}mm" '
            f'viewBox="-.5 {n(-height / 2)} {n(width)} {n(height)}" stroke="currentColor" stroke-width="{THIN}">'
            + "".join(pieces(shape, scale, 'fill="currentColor"', 'fill="none"')) + "</svg>")


def pieces(shape: Shape, scale: float, teeth: str, body: str) -> Iterator[str]:
    """The pieces of a cutter on its side, the axis at nought, teeth over what holds them; how each is filled."""
    start = min(piece.low for piece in shape.pieces)
    for piece in sorted(shape.pieces, key=lambda piece: piece.cuts):
        low, high = (piece.low - start) * scale, (piece.high - start) * scale
        a, b = piece.radius_low * scale, piece.radius_high * scale
        path = "L".join(f"{n(x)} {n(y)}" for x, y in ((low, -a), (high, -b), (high, b), (low, a)))
        yield f'<path d="M{path}z" {teeth if piece.cuts else body}/>'


def line(a: float, b: float, c: float, d: float, dashes: str = "") -> str:
    """A thin line on the paper [mm]."""
    return f'<path d="M{n(a)} {n(b)}L{n(c)} {n(d)}"' + (f' stroke-dasharray="{dashes}"/>' if dashes else "/>")


def ring(x: float, y: float, radius: float, dashes: str = "") -> str:
    """A thin circle on the paper [mm]."""
    return f'<circle cx="{n(x)}" cy="{n(y)}" r="{n(radius)}"' + (f' stroke-dasharray="{dashes}"/>' if dashes else "/>")


def text(x: float, y: float, said: str, anchor: str = "start") -> str:
    """Words on the paper."""
    return f'<text x="{n(x)}" y="{n(y)}" text-anchor="{anchor}" fill="currentColor" stroke="none">{escape(said)}</text>'


def n(number: float) -> str:
    """A number as it is written in a drawing: to a hundred-thousandth.

    >>> n(2.0), n(-0.000001), n(1.234567)
    ('2', '0', '1.23457')
    """
    return f"{round(number, 5) + 0.0:.5f}".rstrip("0").rstrip(".")
