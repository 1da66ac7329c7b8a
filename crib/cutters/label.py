"""A cutter's short name, as a shop would say it: `5/8 x 3/16 keyseat cutter`, `1/4-20 tap, plug`, `#7 drill`."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from operator import attrgetter

from crib.cutters.base import Cutter, Down, Kind, kind_of
from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.units import as_fraction, in_words, nm, show
from crib.units.drills import LETTER_DRILLS, NUMBER_DRILLS

_NM_PER_TENTH = 2540
_DRILLS = {size * _NM_PER_TENTH: f"#{number}" for number, size in NUMBER_DRILLS.items()} | {
    size * _NM_PER_TENTH: letter for letter, size in LETTER_DRILLS.items()
}
_SAME_NM = 5 * _NM_PER_TENTH

_PLAIN = {"tap_form": "cutting", "tap_point": "straight", "hand": "right"}
"""Values that go without saying."""

_DISC_ONLY_SIZE = ("flutes",)
"""Not named where the face already tells two cutters apart."""

_PHRASES: dict[str, Callable[[Any, str], str]] = {
    "flutes": lambda n, _: f"{n} flute" + ("s" if n != 1 else ""),
    "angle_deg": lambda angle, _: f"{angle:g} degrees",
    "corner_radius_mm": lambda mm, units: f"{in_words(mm, units)} corner radius" if mm else "",
    "radius_mm": lambda mm, units: f"{in_words(mm, units)} radius",
    "bore_mm": lambda mm, units: f"{in_words(mm, units)} bore",
    "pilot_mm": lambda mm, units: f"{in_words(mm, units)} pilot",
    "min_hole_mm": lambda mm, units: f"holes from {in_words(mm, units)}",
    "overall_length_mm": lambda mm, units: f"{in_words(mm, units)} long",
    "tap_chamfer": lambda word, _: str(word),
    "tap_point": lambda word, _: str(word),
    "tap_form": lambda word, _: str(word),
    "hand": lambda hand, _: f"{hand} hand",
}


def label(cutter: Cutter, units: str, exact: bool = False) -> str:
    """The cutter's name: its size, its kind and what sets it apart. Fractions where a shop says fractions. `exact`:
    with tenths of a thou, whatever it is."""
    kind = kind_of(cutter.kind)
    ball = _is_ball(cutter)
    words = ("ball " if ball else "") + (kind.called(cutter) or kind.words)
    name = " ".join(part for part in (_size(cutter, kind, units, exact), words) if part)
    skip = {"corner_radius_mm"} if ball else set()
    if "face_mm" in kind.shown_keys:
        skip.update(_DISC_ONLY_SIZE)
    keys = [key for key in (*kind.shown_keys, "hand") if key not in skip]
    said = [_phrase(cutter, key, units) for key in dict.fromkeys(keys)]
    return ", ".join(part for part in (name, *said, _reground(cutter, units)) if part)


def in_full(cutter: Cutter, units: str) -> str:
    """The cutter's name with tenths of a thou, whatever it is: as it is called, where it is called so by them."""
    across = cutter.nominal_mm if cutter.nominal_mm is not None else cutter.diameter_mm
    if cutter._units == units and not cutter.ends and all(
            mm is None or _in_shop(mm, units) == as_said(mm, units) for mm in (across, cutter.face_mm)):
        return cutter.label
    return label(cutter, units, exact=True)


def named(cutter: Cutter, units: str) -> str:
    """The cutter's name; that of its kind alone where it can't be made. Kept: of many that are alike it is made
    once."""
    if cutter.ends:
        return _named(cutter, units)
    place = (_by(cutter), units, kind_of(cutter.kind).called(cutter))
    if place not in _KNOWN:
        if len(_KNOWN) >= _MOST_KNOWN:
            _KNOWN.clear()
        _KNOWN[place] = _named(cutter, units)
    return _KNOWN[place]


_by = attrgetter("kind", "thread", "diameter_mm", "nominal_mm", "face_mm", "reground", "measured", *_PHRASES)
"""Of the fields of a cutter without two ends what it could be named by, beside what its kind calls it."""

_KNOWN: dict[tuple[tuple[object, ...], str, str], str] = {}
_MOST_KNOWN = 8192


def of_end(item: Cutter, end: Cutter) -> str:
    """The name of one end of a double-ender: by its size, where that sets it apart, else by its state."""
    units = getattr(item, "_units", None) or "in"
    sizes = {_across(one, units, False) for one in item.ends}
    apart = _across(end, units, False) if len(sizes) > 1 else "better" if end.condition == "unknown" else end.condition
    return f"{item.label}, its {apart} end"


def _named(cutter: Cutter, units: str) -> str:
    try:
        return label(cutter, units)
    except CribError:
        return cutter.kind


def _size(cutter: Cutter, kind: Kind, units: str, exact: bool) -> str:
    if cutter.thread and "thread" in kind.size_keys:
        return cutter.thread
    if len(cutter.ends) > 1:
        sizes = dict.fromkeys(_across(end, units, exact) for end in cutter.ends)
        return " and ".join(size for size in sizes if size) + " double-ended"
    say = as_said if exact else _in_shop
    face = say(cutter.face_mm, units) if cutter.face_mm is not None and "face_mm" in kind.shown_keys else ""
    across = _across(cutter, units, exact)
    both = (face, across) if kind.speech.order[:1] == ("face_mm",) else (across, face)
    size = " x ".join(part for part in both if part)
    return f'{size}"' if units == "in" and size.isdigit() else size


def _across(cutter: Cutter, units: str, exact: bool) -> str:
    """The size that a cutter goes by: what is stamped on it, else what it measures."""
    mm = cutter.nominal_mm if cutter.nominal_mm is not None else cutter.diameter_mm
    if mm is None:
        return ""
    down = kind_of(cutter).down
    if Down.DRILLING in down and not (units == "in" and as_fraction(mm)) and nm(mm) in _DRILLS:
        return _DRILLS[nm(mm)]
    tenths = exact or Down.REAMING in down or "diameter_mm" in cutter.measured
    return as_said(mm, units) if tenths else _in_shop(mm, units)


def _in_shop(mm: float, units: str) -> str:
    """A size as a shop says it: three places, and in mm where it has whole tenths of one, for then it was so said.

    >>> _in_shop(5.1, "in"), _in_shop(13.4645, "in")
    ('5.1 mm', '.530')
    """
    return as_said(mm, units) if not nm(mm) % 100_000 else in_words(mm, units)


@lru_cache(maxsize=4096)
def as_said(mm: float, units: str) -> str:
    """A size as it was most likely said: hundredths of a millimetre in mm, tenths of a thou where it has them.

    >>> as_said(6.8, "in"), as_said(12.6873, "in"), as_said(12.7, "in"), as_said(1.6, "mm")
    ('6.8 mm', '.4995', '1/2', '1.6 mm')
    """
    if units == "mm" or as_fraction(mm):
        return in_words(mm, units)
    hundredths, thou = nm(mm) / 10_000, nm(mm) / 25_400
    if hundredths == int(hundredths) and (thou != int(thou) or not hundredths % 10):
        return f"{hundredths / 100:g} mm"
    return _measured(mm, units)


def _is_ball(cutter: Cutter) -> bool:
    corner = cutter.corner_radius_mm
    across = [size for size in (cutter.nominal_mm, cutter.diameter_mm) if size is not None]
    return corner is not None and corner > 0 and any(abs(nm(size) - 2 * nm(corner)) <= _SAME_NM for size in across)


def _phrase(cutter: Cutter, key: str, units: str) -> str:
    value = getattr(cutter, key)
    if value is None or value == _PLAIN.get(key):
        return ""
    say = _PHRASES.get(key)
    return say(value, units) if say else ""


def _reground(cutter: Cutter, units: str) -> str:
    """What became of the stamped size."""
    if cutter.diameter_mm is None:
        return "reground, not measured" if cutter.reground else ""
    changed = cutter.nominal_mm is not None and abs(nm(cutter.nominal_mm) - nm(cutter.diameter_mm)) > _SAME_NM
    if changed:
        how = "reground to" if cutter.reground else "measures" if "diameter_mm" in cutter.measured else "stated"
        return f"{how} {_measured(cutter.diameter_mm, units)}"
    return "reground" if cutter.reground else ""


def _measured(mm: float, units: str) -> str:
    """A size off a micrometer, to the tenth of a thou where it was read so."""
    exact = show(mm, units, places=4)
    return in_words(mm, units) if units == "mm" or exact.endswith("0") else exact
