"""A part from above as a vector drawing to scale, as it lies in one of its set-ups: which faces lie to which side, and
the numbers of the operations on what they make."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from html import escape
from math import hypot

from crib.pages.part.scene import Box, Edge, Mark, PartScene, Ring, labelled
from crib.render.svg.paper import CHAIN, DASHED, SCALES, TEXT, THICK, THIN, length, line, n, ring, scale_words, text

_MARGIN, _JAW = 2 * TEXT, 3.5
"""Round the part, for what lies there, and how deep a jaw is drawn [mm]."""

_SIZE = re.compile(r'(?:width|height)="([\d.]+)mm"')
_BETWEEN = 6.0
"""Between two drawings of one sheet [mm]."""

_LEAST_RING = 0.6
"""A hole that is smaller on paper has a cross alone [mm]."""


def part(scene: PartScene, wide: float = 80.0, high: float = 60.0, is_titled: bool = True) -> str:
    """The drawing of a set-up, the part at most so wide and high [mm]: to a usual scale where its title tells it."""
    fits = min(wide / scene.wide, high / scene.deep)
    scale = next((one for one in SCALES if one <= fits), fits) if is_titled else fits
    jaws = _JAW + 0.5 if scene.in_jaws else 0.0
    head = TEXT + 3 if is_titled else 0.0
    jaw = " at the moving jaw" if scene.in_jaws else ""
    said = max(length(f"{side}{jaw}") for side in (scene.sides.near, scene.sides.away)) * 1.05
    left, top = max(_MARGIN + 1, (said - scene.wide * scale) / 2), head + _MARGIN + jaws
    title = f"set-up {scene.number}, {scene.up} up, from above, {scale_words(scale)}"
    width = max(2 * left + scene.wide * scale, length(title) if is_titled else 0.0)
    height = top + scene.deep * scale + jaws + _MARGIN
    place = _Place(left, top, scale, scene.deep)
    told = _labels(scene, place, width, height, jaws)
    height = max(height, *(at[1] + TEXT for _, _, at in told), 0.0)
    inside = [*_jaws(scene, place), *_stock(scene, place), *_sides(scene, place, jaws),
              *(one for mark in scene.marks for one in _mark(mark, place)),
              *(one for shape, mark, at in told for one in _leader(shape, mark, at, place)),
              *(_label(mark, at) for _, mark, at in told)]
    shown = text(0, TEXT, title) if is_titled else ""
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{n(width)}mm" height="{n(height)}mm" '
            f'viewBox="0 0 {n(width)} {n(height)}" role="img" aria-label="{escape(title)}" fill="none" '
            f'stroke="currentColor" stroke-width="{THIN}" font-family="sans-serif" font-size="{TEXT}">'
            f'{shown}{"".join(inside)}</svg>')


def parts_svg(scenes: Sequence[PartScene]) -> str:
    """All set-ups as one drawing, one under the other, black on white."""
    drawn = [part(scene, 150.0, 90.0) for scene in scenes]
    sizes = [tuple(map(float, _SIZE.findall(one)[:2])) for one in drawn]
    wide, top, out = max(width for width, _ in sizes), 0.0, []
    for one, (_, high) in zip(drawn, sizes, strict=True):
        out.append(one.replace("<svg ", f'<svg y="{n(top)}mm" ', 1))
        top += high + _BETWEEN
    return ('<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" '
            f'style="color:#000;background:#fff" width="{n(wide)}mm" height="{n(top)}mm">{"".join(out)}</svg>\n')


class _Place:
    """Where the part lies on the paper: its left far corner and its scale."""

    def __init__(self, left: float, top: float, scale: float, deep: float) -> None:
        self.left, self.top, self.scale, self._deep = left, top, scale, deep

    def x(self, mm: float) -> float:
        return self.left + mm * self.scale

    def y(self, mm: float) -> float:
        return self.top + (self._deep - mm) * self.scale


def _stock(scene: PartScene, place: _Place) -> Iterator[str]:
    yield _rectangle(Box(0, 0, scene.wide, scene.deep), place, f'class="stock" stroke-width="{THICK}"')


def _rectangle(box: Box, place: _Place, how: str) -> str:
    x, y = place.x(box.left), place.y(box.away)
    return (f'<rect {how} x="{n(x)}" y="{n(y)}" width="{n((box.right - box.left) * place.scale)}" '
            f'height="{n((box.away - box.near) * place.scale)}"/>')


def _jaws(scene: PartScene, place: _Place) -> Iterator[str]:
    """The jaws of the vise, the fixed one away."""
    if not scene.in_jaws:
        return
    for name, y in (("fixed", place.top - _JAW - 0.5), ("moving", place.y(0) + 0.5)):
        yield (f'<rect class="jaw {name}" x="{n(place.left - 2)}" y="{n(y)}" width="{n(scene.wide * place.scale + 4)}" '
               f'height="{_JAW}" fill="currentColor" fill-opacity="{0.35 if name == "fixed" else 0.15}"/>')


def _sides(scene: PartScene, place: _Place, jaws: float) -> Iterator[str]:
    """Which face lies to each side; behind a jaw, which jaw that is."""
    sides, middle = scene.sides, place.x(scene.wide / 2)
    fixed, moving = (" at the fixed jaw", " at the moving jaw") if scene.in_jaws else ("", "")
    yield text(middle, place.top - jaws - 1.2, f"{sides.away}{fixed}", "middle")
    yield text(middle, place.y(0) + jaws + TEXT + 0.6, f"{sides.near}{moving}", "middle")
    for x, side in ((place.left - 1.5, sides.left), (place.x(scene.wide) + TEXT + 1, sides.right)):
        yield (f'<g transform="translate({n(x)} {n(place.y(scene.deep / 2))}) rotate(-90)">'
               f'{text(0, 0, side, "middle")}</g>')


def _mark(mark: Mark, place: _Place) -> Iterator[str]:
    """A feature's edges, hidden ones dashed; of a hole its axis too."""
    for edge, shape in mark.edges:
        dashes = f' stroke-dasharray="{DASHED}"' if edge == Edge.HIDDEN else ""
        if isinstance(shape, Box):
            yield _rectangle(shape, place, f'class="{edge}" stroke-width="{0.35 if edge == Edge.SEEN else THIN}"'
                                           f"{dashes}")
            continue
        x, y, radius = place.x(shape.x), place.y(shape.y), shape.radius * place.scale
        if radius >= _LEAST_RING:
            yield ring(x, y, radius, DASHED if edge == Edge.HIDDEN else "")
        reach = radius + 1.2
        yield line(x - reach, y, x + reach, y, CHAIN) + line(x, y - reach, x, y + reach, CHAIN)


_Labelled = tuple[Box | Ring, Mark, tuple[float, float]]
"""What a number names, the number, and where it stands [mm on paper]."""


def _labels(scene: PartScene, place: _Place, width: float, height: float, jaws: float) -> list[_Labelled]:
    """Where each number stands, none over another nor over the words at the sides; where there is no room left, below
    the drawing. What stands at several places is told at one of them at any rate, at others where there is room
    beside."""
    taken: list[Box] = [*_words_at_sides(scene, place, jaws)]
    out: list[_Labelled] = []
    every = sorted(labelled(scene.marks), key=lambda one: isinstance(one[0], Ring))
    once = list({mark.label: (shape, mark) for shape, mark in every}.values())
    for shape, mark in (*once, *(one for one in every if one not in once)):
        half, high = _size(mark)
        clear = [*taken, *(_axis(one, place) for one, _ in every if isinstance(one, Ring) and
                            (one is not shape or one.radius * place.scale <= half + 1))]
        at = _free(shape, place, clear, (half, high), (width, height), (shape, mark) in once)
        if at is None and (shape, mark) in once:
            at = _free(shape, place, taken, (half, high), (width, height + _BELOW)) or (half, height + high)
        if at is not None:
            taken.append(_round(at, half, high))
            out.append((shape, mark, at))
    return out


def _axis(ring: Ring, place: _Place) -> Box:
    """What of a hole nothing is written over."""
    return _round((place.x(ring.x), place.y(ring.y)), 1.0, 1.0)


def _size(mark: Mark) -> tuple[float, float]:
    """Half of how wide and how high a number's pill is."""
    return length(mark.label) / 2 + 0.6, TEXT / 2 + 0.5


def _words_at_sides(scene: PartScene, place: _Place, jaws: float) -> Iterator[Box]:
    """Where the words at the sides stand [mm on paper]."""
    middle, jaw = place.x(scene.wide / 2), " at the moving jaw" if scene.in_jaws else ""
    for side, y in ((scene.sides.away, place.top - jaws - 1.2 - TEXT / 3), (
            scene.sides.near, place.y(0) + jaws + TEXT * 0.67 + 0.6)):
        yield _round((middle, y), length(f"{side}{jaw}") / 2, TEXT / 2)
    for side, x in ((scene.sides.left, place.left - 1.5 - TEXT / 3), (
            scene.sides.right, place.x(scene.wide) + TEXT * 0.67 + 1)):
        yield _round((x, place.y(scene.deep / 2)), TEXT / 2, length(side) / 2)


def _round(at: tuple[float, float], half: float, high: float) -> Box:
    return Box(at[0] - half, at[1] - high, at[0] + half, at[1] + high)


def _free(shape: Box | Ring, place: _Place, taken: list[Box], size: tuple[float, float], paper: tuple[float, float],
          far: bool = True) -> tuple[float, float] | None:
    """Where a number stands [mm on paper]: in what it names, or beside it, else, where it may stand `far`, as near as
    there is room; None where there is none."""
    half, high = size
    if isinstance(shape, Ring):
        x, y, off = place.x(shape.x), place.y(shape.y), shape.radius * place.scale
        first = [(x, y)] if off > half + 1 else [(x + way * (off + half + 0.8), y + up * (off + 1.2))
                                                for up in (-1, 1) for way in (1, -1)]
    else:
        x, y = (place.x(shape.left) + place.x(shape.right)) / 2, (place.y(shape.near) + place.y(shape.away)) / 2
        room = (shape.right - shape.left) * place.scale / 2 - half
        first = [(x + by, y) for by in (0.0, *(sign * room * part / 4 for part in (1, 2, 3) for sign in (1, -1)))]
    farther = ((x + dx, y + dy) for dx, dy in _SPIRAL) if far else ()
    return next((at for at in (*first, *farther) if _fits(_round(at, half, high), taken, paper)), None)


def _fits(box: Box, taken: list[Box], paper: tuple[float, float]) -> bool:
    """Whether it lies on the paper, over nothing that stands there."""
    return box.left >= 0 and box.near >= 0 and box.right <= paper[0] and box.away <= paper[1] and not any(
        _meet(box, other) for other in taken)


_BELOW = 60.0
"""How far numbers may go below the drawing at the most [mm]."""

_SPIRAL = sorted(((dx * 1.2, dy * 1.2) for dx in range(-50, 51) for dy in range(-50, 51)), key=lambda at: hypot(*at))
"""Places round a place, the nearest first [mm]."""


def _meet(one: Box, other: Box) -> bool:
    return (one.left < other.right and other.left < one.right and one.near < other.away and other.near < one.away)


def _leader(shape: Box | Ring, mark: Mark, at: tuple[float, float], place: _Place) -> Iterator[str]:
    """A line from a number to what it names, where it isn't in it nor right beside it."""
    half, high = _size(mark)
    if isinstance(shape, Ring):
        x, y, off = place.x(shape.x), place.y(shape.y), shape.radius * place.scale + 1.6
    else:
        x, off = min(max(at[0], place.x(shape.left)), place.x(shape.right)), 0.0
        y = min(max(at[1], place.y(shape.away)), place.y(shape.near))
    if abs(at[0] - x) > half + off or abs(at[1] - y) > high + off:
        yield line(at[0], at[1], x, y)


def _label(mark: Mark, at: tuple[float, float]) -> str:
    """A number in a pill; what is done is struck through."""
    half, high = _size(mark)
    done = line(at[0] - half, at[1], at[0] + half, at[1]) if mark.is_done else ""
    return (f'<rect class="ground" x="{n(at[0] - half)}" y="{n(at[1] - high)}" width="{n(2 * half)}" '
            f'height="{n(2 * high)}" rx="{n(high)}" fill="Canvas" stroke-width=".2"/>'
            f"{text(at[0], at[1] + TEXT * 0.36, mark.label, 'middle')}{done}")
