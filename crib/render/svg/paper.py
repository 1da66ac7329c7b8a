"""What every drawing lies on and is drawn with: a paper with its scale, lines, arrows, words (line types of ISO 128-2,
scales of ISO 5455)."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from math import hypot

from crib.light.records import dataclass
from crib.render.window import Pane

SCALES = (100, 50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100)
"""Of a drawing, the largest first (ISO 5455)."""

THICK, THIN, TEXT = 0.5, 0.25, 3.2
"""Widths of lines and height of the lettering, on paper [mm]."""

CUT = 2 * THICK
"""How thick the wall is drawn that is cut [mm]."""

CHAIN, DASHED = "6 1 1 1", "2 1"

_THIN_ONES = " .,:;'|!()[]/-fijlrtI"
_NARROW, _WIDE, _OTHER = 0.42, 1.0, 0.64
"""How wide letters are at the most, in heights of the lettering: those of the widest usual face, DejaVu Sans, whose
figures are 0.636; nobody knows which one a reader has."""


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


def scale_words(scale: float) -> str:
    """A scale as drawings have it.

    >>> scale_words(5), scale_words(0.5), scale_words(0.37)
    ('5 : 1', '1 : 2', 'not to a usual scale')
    """
    if scale not in SCALES:
        return "not to a usual scale"
    return f"{scale:g} : 1" if scale >= 1 else f"1 : {1 / scale:g}"


def length(said: str) -> float:
    """How long some words are on the paper at the most [mm].

    >>> length(".0755") > 3.2 * (0.318 + 4 * 0.636)
    True
    """
    return TEXT * sum(_NARROW if one in _THIN_ONES else _WIDE if one in "mwMW%@" or one.isupper() else _OTHER
                      for one in said)


def head(x: float, y: float, dx: float, dy: float) -> str:
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
           + head(x - 1.25 * dx, y - 1.25 * dy, dx, dy))


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
