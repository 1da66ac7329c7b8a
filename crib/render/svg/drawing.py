"""Scenes as vector drawings to scale: metal hatched, what is cut hatched the other way, hidden edges dashed, centre
lines in dashes and dots (line types of ISO 128-2). Text is text, and every colour is the reader's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from itertools import pairwise

from crib.findings.message import Measure
from crib.geometry.region import Region, box
from crib.geometry.silhouette import Part, Silhouette
from crib.pages.scene import Body, Scene, Shape, body_of, tight_words
from crib.render.svg.paper import CHAIN, SCALES, TEXT, THICK, THIN, Paper, line, n, paper, scale_words, text
from crib.render.svg.sizes import ROW, ends_at, sizes, tight, whole
from crib.render.window import Pane, removed, window
from crib.render.words import drawn, words

_SHADES = {Body.NECK: 0.2, Body.SHANK: 0.1, Body.PILOT: 0.25, Body.HOLDER: 0.05}

_TEETH = 0.4


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
    beside = [text(sheet.left - 1, sheet.y(0) + 1, "Z 0", "end"), *_sides(scene, sheet, brief),
              *tight(place, told, title, sheet), *sizes(scene.dimensions, say, sheet)]
    below = TEXT + 1 if scene.faces_you and not brief else 0.0
    return whole(sheet, view, beside, title, scene.dimensions, say, ends_at(place, told, title, sheet), below)


def pane_of(scene: Scene) -> Pane:
    """What of a scene is worth showing."""
    gone = removed(scene.stock, scene.finished, scene.x_nm, scene.form.radius)
    return window(scene.stock, gone, scene.form, scene.x_nm, scene.z_nm)


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


def _sides(scene: Scene, sheet: Paper, brief: bool) -> Iterator[str]:
    """Which side is which, where it is looked at from the end, and where cross counts from."""
    if not scene.faces_you:
        return
    y = sheet.bottom + TEXT + 0.8 + ROW * sum(one.across for one in scene.dimensions)
    left, right = ("back", "front") if scene.from_left else ("front", "back")
    yield text(sheet.left, y, left) + text(sheet.right, y, right, "end")
    if not brief and sheet.left <= sheet.x(0) <= sheet.right:
        yield text(sheet.x(0), y + TEXT + 0.8, "cross 0", "middle")


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
