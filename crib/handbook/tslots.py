"""T-slots by their bolt: the slot, the cutter made for it, the bolt's head.

Inch limits are held as the sixty-fourths that they stand for: the standard prints three places, and a printed value
stands for the sixty-fourth that rounds to it, halves to the even figure (.562 is 9/16, .938 is 15/16, .969 is 31/32).
One does not: the throat for a 1/4 in bolt, .282 (9/32 would round to .281). It stands as it is printed.
"""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.light.records import dataclass
from crib.units import read

B5_1 = "ASME B5.1M-1985 (R2004), public table page"
_THROAT_MEMORY = "; throat depth from memory"
_METRIC = "ASME B5.1M-1985 (R2004) metric columns = ISO 299, public table page, cross-checked with a BS 2485 table page"
_B94 = "ASME B94.19 T-slot cutters, from memory"
_DIN = "DIN 851 / ISO 3337, from memory"
H12_SOURCE, H8_SOURCE = "ISO 286-2 H12, public table", "ISO 286-2 H8, from memory"


@dataclass(frozen=True)
class TSlot:
    """A T-slot of a standard [mm]. `throat_depth`: from the surface to the head's ceiling. `holding` and `locating`
    are the (lower, upper) deviations of the throat when the bolt only holds, and when the slot locates."""

    standard: str
    bolt: str
    throat_mm: float
    holding_mm: tuple[float, float]
    locating_mm: tuple[float, float]
    head_width_min_mm: float
    head_width_max_mm: float
    head_height_min_mm: float
    head_height_max_mm: float
    throat_depth_min_mm: float
    throat_depth_max_mm: float
    source: str


@dataclass(frozen=True)
class TSlotCutter:
    """The cutter that a standard makes for a slot [mm]; `overall_length_mm` None where it isn't known."""

    standard: str
    bolt: str
    diameter_mm: float
    face_mm: float
    neck_mm: float
    shank_mm: float
    overall_length_mm: float | None
    source: str


@dataclass(frozen=True)
class TBoltHead:
    """The head of a T-bolt: what must pass along the slot [mm]."""

    bolt: str
    width_min_mm: float
    width_max_mm: float
    height_min_mm: float
    height_max_mm: float
    source: str


_AS_PRINTED = 0
_AS_PRINTED_MM = 282 * 254 / 10_000
# Bolt; throat, head width least and most, head height least and most, throat depth least and most [1/64 in].
_INCH_SLOTS = (
    ("1/4", _AS_PRINTED, 32, 36, 13, 15, 8, 24),
    ("5/16", 22, 38, 42, 15, 17, 10, 28),
    ("3/8", 28, 46, 50, 19, 21, 14, 36),
    ("1/2", 36, 58, 62, 23, 25, 20, 44),
    ("5/8", 44, 76, 80, 29, 31, 28, 56),
    ("3/4", 52, 88, 94, 38, 40, 36, 68),
    ("1", 68, 112, 118, 50, 53, 48, 80),
    ("1-1/4", 84, 136, 142, 66, 70, 64, 100),
    ("1-1/2", 100, 164, 170, 82, 86, 80, 124),
)
_INCH_DEPTHS_SEEN = ("1/4", "5/16", "3/8")
# Bolt; the same in mm.
_METRIC_SLOTS = (
    ("M4", 5, 10, 11, 3, 3.5, 4.5, 7), ("M5", 6, 11, 12.5, 5, 6, 5, 8), ("M6", 8, 14.5, 16, 7, 8, 7, 11),
    ("M8", 10, 16, 18, 7, 8, 9, 14), ("M10", 12, 19, 21, 8, 9, 11, 17), ("M12", 14, 23, 25, 9, 11, 12, 19),
    ("M16", 18, 30, 32, 12, 14, 16, 24), ("M20", 22, 37, 40, 16, 18, 20, 29), ("M24", 28, 46, 50, 20, 22, 26, 36),
    ("M30", 36, 56, 60, 25, 28, 33, 46), ("M36", 42, 68, 72, 32, 35, 39, 53), ("M42", 48, 80, 85, 36, 40, 44, 59),
    ("M48", 54, 90, 95, 40, 44, 50, 66),
)
_METRIC_DEPTHS_SEEN = ("M4", "M5", "M6", "M8", "M10")
# Throat up to [mm]; H12 and H8 [mm].
_THROAT_GRADES = ((3, 0.100, 0.014), (6, 0.120, 0.018), (10, 0.150, 0.022), (18, 0.180, 0.027), (30, 0.210, 0.033),
                  (50, 0.250, 0.039), (80, 0.300, 0.046))
# Bolt; diameter, face, neck, shank, overall length [1/64 in].
_INCH_CUTTERS = (
    ("1/4", 36, 15, 17, 32, 166), ("5/16", 42, 17, 21, 32, 172), ("3/8", 50, 21, 26, 48, 208),
    ("1/2", 62, 25, 34, 48, 220), ("5/8", 80, 31, 42, 64, 252), ("3/4", 94, 40, 50, 64, 284),
    ("1", 118, 53, 66, 80, 308),
)
# Bolt; diameter, face, neck, shank [mm].
_METRIC_CUTTERS = (
    ("M4", 11, 3.5, 4, 10), ("M5", 12.5, 6, 5, 10), ("M6", 16, 8, 7, 10), ("M8", 18, 8, 8, 12), ("M10", 21, 9, 10, 12),
    ("M12", 25, 11, 12, 16), ("M16", 32, 14, 15, 16), ("M20", 40, 18, 19, 25), ("M24", 50, 22, 25, 32),
    ("M30", 60, 28, 30, 32),
)
# Bolt; head width least and most, head height least and most [1/64 in].
_INCH_HEADS = (
    ("1/4", 28, 30, 9, 10), ("5/16", 34, 36, 11, 12), ("3/8", 42, 44, 15, 16), ("1/2", 54, 56, 19, 20),
    ("5/8", 70, 72, 25, 26), ("3/4", 82, 84, 32, 34), ("1", 106, 108, 42, 44), ("1-1/4", 130, 132, 58, 60),
    ("1-1/2", 158, 160, 74, 76),
)
# Bolt; the same in mm.
_METRIC_HEADS = (
    ("M4", 8.5, 9, 2.1, 2.5), ("M5", 9.5, 10, 3.6, 4), ("M6", 12, 13, 5.6, 6), ("M8", 14, 15, 5.6, 6),
    ("M10", 17, 18, 6.6, 7), ("M12", 21, 22, 7.6, 8), ("M16", 27, 28, 9.6, 10), ("M20", 33, 34, 13.2, 14),
    ("M24", 42, 43, 17.2, 18), ("M30", 52, 53, 22.2, 23), ("M36", 63, 64, 27.2, 28), ("M42", 74, 75, 30.5, 32),
    ("M48", 84, 85, 34.5, 36),
)


def slots() -> tuple[TSlot, ...]:
    """Every slot: the inch rows, then the metric ones.

    >>> len(slots()), slots()[3].bolt, slots()[3].throat_mm
    (22, '1/2', 14.2875)
    """
    return (*(_inch_slot(*row) for row in _INCH_SLOTS), *(_metric_slot(*row) for row in _METRIC_SLOTS))


def slot_for_bolt(text: str) -> TSlot:
    """The slot that a standard gives for a bolt: `1/2`, `1/2 in`, `.5"`, `M12`, `12mm`.

    Parameters: the bolt as it is typed [-]. Returns: the slot. Raises: `bolt` where the standard has none, with the
    sizes that there are. References: as each row says.

    >>> slot_for_bolt("M12").throat_mm, slot_for_bolt("1/2 in").head_width_max_mm
    (14.0, 24.60625)
    """
    bolt = _bolt_name(text)
    for slot in slots():
        if slot.bolt == bolt:
            return slot
    raise CribError("bolt", f"no T-slot for a bolt of {text.strip()!r}", text,
                    f"one of: {', '.join(slot.bolt for slot in slots())}")


def head_for_bolt(text: str) -> TBoltHead | None:
    """The head of a T-bolt. Raises: `bolt` where the standard has no such slot. References: as each row says.

    >>> head_for_bolt("M12").width_max_mm
    22.0
    """
    bolt = slot_for_bolt(text).bolt
    return next((head for head in heads() if head.bolt == bolt), None)


def cutters() -> tuple[TSlotCutter, ...]:
    """The T-slot cutters of both standards, inch first.

    >>> len(cutters())
    17
    """
    inch = (TSlotCutter("ASME B94.19", bolt, _mm(diameter), _mm(face), _mm(neck), _mm(shank), _mm(overall), _B94)
            for bolt, diameter, face, neck, shank, overall in _INCH_CUTTERS)
    metric = (TSlotCutter("DIN 851 / ISO 3337", bolt, float(diameter), float(face), float(neck), float(shank), None,
                          _DIN)
              for bolt, diameter, face, neck, shank in _METRIC_CUTTERS)
    return (*inch, *metric)


def heads() -> tuple[TBoltHead, ...]:
    """The heads of T-bolts, inch first.

    >>> len(heads())
    22
    """
    inch = (TBoltHead(bolt, _mm(w0), _mm(w1), _mm(h0), _mm(h1), B5_1) for bolt, w0, w1, h0, h1 in _INCH_HEADS)
    metric = (TBoltHead(bolt, float(w0), float(w1), float(h0), float(h1), B5_1)
              for bolt, w0, w1, h0, h1 in _METRIC_HEADS)
    return (*inch, *metric)


def _bolt_name(text: str) -> str:
    bare = re.sub(r"(?i)\b(?:t-?)?(?:bolts?|studs?|screws?)\b", "", text).strip()
    if found := re.fullmatch(r"(?i)m\s*(\d+(?:\.\d+)?)(?:\s*mm)?|(\d+(?:\.\d+)?)\s*mm", bare):
        return f"M{float(found.group(1) or found.group(2)):g}"
    from fractions import Fraction  # long in loading, and seldom asked for

    try:
        inches = Fraction(read(bare, "in", "bolt").mm).limit_denominator(10_000_000) / Fraction(254, 10)
    except CribError as error:
        raise CribError("bolt", f"bolt {text.strip()!r} is not a size", text,
                        f"one of: {', '.join(slot.bolt for slot in slots())}") from error
    whole, rest = divmod(inches, 1)
    return f"{whole}-{rest}" if whole and rest else str(rest or whole)


def _mm(sixty_fourths: int) -> float:
    return sixty_fourths * 254 / 640


def _inch_slot(bolt: str, throat: int, w0: int, w1: int, h0: int, h1: int, d0: int, d1: int) -> TSlot:
    source = B5_1 if bolt in _INCH_DEPTHS_SEEN else B5_1 + _THROAT_MEMORY
    return TSlot("ASME B5.1M", bolt, _mm(throat) if throat else _AS_PRINTED_MM, (0.0, 0.254), (0.0, 0.0254),
                 _mm(w0), _mm(w1), _mm(h0), _mm(h1), _mm(d0), _mm(d1), source)


def _metric_slot(bolt: str, throat: float, w0: float, w1: float, h0: float, h1: float, d0: float, d1: float) -> TSlot:
    h12, h8 = next((wide, close) for up_to, wide, close in _THROAT_GRADES if throat <= up_to)
    source = _METRIC if bolt in _METRIC_DEPTHS_SEEN else _METRIC + _THROAT_MEMORY + ", confirmed by the BS 2485 page"
    return TSlot("ISO 299", bolt, float(throat), (0.0, h12), (0.0, h8),
                 float(w0), float(w1), float(h0), float(h1), float(d0), float(d1), source)
