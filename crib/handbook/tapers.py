"""Tapers of shanks, sockets and pins: by what each grows over its length, and how large it is at its ends."""

from __future__ import annotations

from functools import cache

from crib.light.tuples import NamedTuple

_INCH = 25.4
_SEEN = "as public tables of the standard tapers print them"
_MEMORY = "ISO 7388 and ASME B5.50, from memory"

# Name; large end, small end, length [in]; the ends are those of the plug.
_MORSE = (("0", .3561, .2520, 2.0), ("1", .4750, .3690, 2.125), ("2", .7000, .5720, 2.5625),
          ("3", .9380, .7780, 3.1875), ("4", 1.2310, 1.0200, 4.0625), ("4-1/2", 1.5000, 1.2660, 4.5),
          ("5", 1.7480, 1.4750, 5.1875),
          ("6", 2.4940, 2.1160, 7.25), ("7", 3.2700, 2.7500, 10.0))
_JACOBS = (("0", .2500, .22844, .4375), ("1", .3840, .33341, .65625), ("2", .5590, .48764, .875),
           ("2 short", .5488, .48764, .75), ("3", .8110, .74610, 1.21875), ("4", 1.1240, 1.0372, 1.65625),
           ("5", 1.4130, 1.31611, 1.875), ("6", .6760, .62409, 1.0), ("33", .62401, .56051, 1.0))
_BROWN = (("1", .23922, .20000, .9375), ("2", .29968, .25000, 1.1875), ("3", .37525, .31250, 1.5),
          ("4", .4207, .35000, 1.6875), ("5", .5388, .45000, 2.125), ("6", .59961, .50000, 2.375),
          ("7", .7201, .60000, 2.875), ("8", .89873, .75000, 3.5625), ("9", 1.0775, .90010, 4.25),
          ("10", 1.2597, 1.04465, 5.0), ("11", 1.4978, 1.24995, 5.9375), ("12", 1.79681, 1.50010, 7.125),
          ("13", 2.07310, 1.75005, 7.75), ("14", 2.34375, 2.0, 8.25), ("15", 2.61458, 2.25, 8.75))
# Name; large end, length [in].
_STEEP = (("30", 1.25, 1.875), ("40", 1.75, 2.6875), ("45", 2.25, 3.3125), ("50", 2.75, 4.25), ("60", 4.25, 6.375))
_SLOPE = 7 / 24


class Taper(NamedTuple):
    """A standard taper: its name, its large and small end and the length between them [mm], where that is from.
    `slope`: by how much it grows over its length [-]."""

    name: str
    large_mm: float
    small_mm: float
    length_mm: float
    source: str

    @property
    def slope(self) -> float:
        return (self.large_mm - self.small_mm) / self.length_mm


@cache
def tapers() -> tuple[Taper, ...]:
    """Every taper that is told apart here.

    References: ends and lengths of Morse, Jacobs and Brown & Sharpe tapers as public tables of the standard tapers
    print them; Jarno by its rule (eighths, tenths, halves of its number); 7:24 from memory.

    >>> [round(12 * one.slope, 4) for one in tapers() if one.name in ("Morse 2", "Jarno 6", "7:24, size 40")]
    [0.5994, 3.5, 0.6]
    """
    made = [Taper(f"{series} {name}", large * _INCH, small * _INCH, long * _INCH, _SEEN)
            for series, rows in (("Morse", _MORSE), ("Jacobs", _JACOBS), ("Brown & Sharpe", _BROWN))
            for name, large, small, long in rows]
    made += [Taper(f"7:24, size {name}", large * _INCH, (large - _SLOPE * long) * _INCH, long * _INCH, _MEMORY)
             for name, large, long in _STEEP]
    made += [Taper(f"Jarno {n}", n / 8 * _INCH, n / 10 * _INCH, n / 2 * _INCH, "Jarno's rule") for n in range(2, 21)]
    return tuple(made)
