"""Where chips can't get out by themselves, and how far a pass goes before the spindle is stopped to brush them out."""

from __future__ import annotations

from crib.handbook.materials import Material

LONG_MM, SHORT_MM = 50.8, 25.4
"""An inch or two of buried cut between stops [mm]. Common practice, no source."""


def spacing_mm(material: Material, deep: float, opening: float) -> float:
    """How far a buried pass goes between stops [mm]: an inch or two, by the room that chips have.

    Chips that crumble leave by the opening over a cut that is no deeper than it is wide; where they curl, or have to
    climb, half an inch less each; in aluminium, which welds to the teeth, an inch always.

    Parameters: `deep`: the cut's floor below the surface, `opening`: the width of what is open over it [mm].
    References: common practice, no source.

    >>> from crib.handbook.materials import find_material as of
    >>> [round(spacing_mm(of(name), 13.0, wide), 1) for name, wide in (("brass", 16.0), ("brass", 6.0), ("6061", 16.0))]
    [50.8, 38.1, 25.4]
    """
    if material.group == "aluminium":
        return SHORT_MM
    return LONG_MM * (1 - 0.25 * material.ductile - 0.25 * (deep > opening))


def stops(length_mm: float, spacing: float, step: float = 1e-6) -> tuple[float, ...]:
    """Where to stop in a cut of a length, from where it goes in [mm]: in pieces as equal as whole steps let them be,
    none longer than the spacing by more than a step: nobody stops at 33.333.

    >>> stops(152.4, 50.8), stops(40.0, 50.8), stops(100.0, 38.1, 1.0)
    ((50.8, 101.6), (), (33.0, 67.0))
    """
    pieces = pieces_of(length_mm, spacing)
    return tuple(round(round(length_mm * at / pieces / step) * step, 6) for at in range(1, pieces))


def pieces_of(length_mm: float, spacing: float) -> int:
    """Into how many pieces the stops part a cut."""
    return max(1, -int(-(length_mm - 1e-6) // spacing))
