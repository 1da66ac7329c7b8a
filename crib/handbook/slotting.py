"""Slotting with a single point in a spindle that is locked, and pushing a key broach through a bore."""

from __future__ import annotations

from math import ceil

_INCH = 25.4
STROKE_MM, LAST_MM, LAST_STROKES, SPRING_STROKES = 0.0025 * _INCH, 0.001 * _INCH, 4, 2
"""What a stroke takes, and each of the last ones [mm]; how many those are, and how many go by after them with nothing
set on. Common practice: .002 to .003 a stroke; the rest from memory."""

STROKES_A_MINUTE = 7.0
"""Strokes of the quill by hand a minute, the slide set on between them. From memory."""

PUSH_MM, PUSH_MINUTES = 0.045 * _INCH, 2.0
"""What a key broach takes at one push, and the minutes of a push with its shims. From memory."""

OUT_CAUTION, OUT_STOP = 3.0, 5.0
"""How far a slotting tool may stand out of its collet, in thicknesses of its stem: with care, and at all [-]. From
memory."""


def strokes(deep_mm: float) -> tuple[int, int]:
    """How many strokes slot so deep: rough ones, and the last ones with those that spring needs.

    >>> strokes(0.125 * 25.4), strokes(0.004 * 25.4)
    ((49, 6), (0, 6))
    """
    last = LAST_STROKES * LAST_MM
    return max(0, ceil((deep_mm - last) / STROKE_MM - 1e-9)), LAST_STROKES + SPRING_STROKES


def pushes(deep_mm: float) -> int:
    """How often a key broach is pushed through for a depth, with a shim more each time.

    >>> pushes(0.09 * 25.4), pushes(0.14 * 25.4)
    (2, 4)
    """
    return max(1, ceil(deep_mm / PUSH_MM - 1e-9))
