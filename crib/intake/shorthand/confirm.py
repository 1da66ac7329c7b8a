"""What was read, in one line of plain words: what it is, what isn't known, what is assumed, what must be asked."""

from __future__ import annotations

from collections.abc import Sequence
from operator import attrgetter

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.cutters.label import as_said, in_full, label
from crib.intake.shorthand.line import Line
from crib.units import in_words

_ALSO = {"diameter_mm": "stated {}", "shank_mm": "{} shank", "length_of_cut_mm": "{} length of cut",
         "overall_length_mm": "{} overall", "face_mm": "{} face", "neck_mm": "neck {}", "reach_mm": "reach {}",
         "tip_mm": "tip {}", "bore_mm": "{} bore", "pilot_mm": "{} pilot", "radius_mm": "{} radius",
         "corner_radius_mm": "{} corner radius", "min_hole_mm": "holes from {}"}
"""What is said of a cutter beside its label, unless that says it."""

_also_of = attrgetter(*_ALSO)

_FEW = 8
"""So many cutters of a line are told one by one."""


def confirm(line: Line, taken: Sequence[Cutter], units: str) -> str:
    """One line about what came of one."""
    if not taken:
        return f"held back: {line.why}; {line.help}"
    here = [cutter for cutter in taken if cutter.count]
    if len(taken) > 2:
        said = _set(here, [cutter for cutter in taken if not cutter.count], units)
    else:
        said = "; ".join(described(_without(cutter, line.unused), units) for cutter in here or taken)
    first = taken[0]
    parts = [said, _read_as(line), _listed("not used", line.unused)]
    parts += [_listed("not known", [name_of(key) for key in unknown(first)])] if len(taken) <= 2 else []
    parts += [_listed("assumed", [name_of(key) for key in first.assumed]), _listed("to ask", first.questions)]
    return "; ".join(part for part in parts if part)


def described(cutter: Cutter, units: str) -> str:
    """A cutter with all that was said of it, in words."""
    parts = [in_full(cutter, units)]
    if "flute" not in parts[0] and cutter.flutes:
        parts.append(f"{cutter.flutes} flutes" if cutter.flutes > 1 else "1 flute")
    sizes = zip(_ALSO.items(), _also_of(cutter), strict=True)
    parts += [said for (key, words), size in sizes if size is not None and (
        said := _said(cutter, key, words, parts[0], size, units))]
    if "thread" in kind_of(cutter).size_keys and cutter.diameter_mm is not None:
        parts.append(f"{in_words(cutter.diameter_mm, units)} across")
    if cutter.angle_deg is not None and "degrees" not in parts[0]:
        parts.append(f"{cutter.angle_deg:g} degrees")
    if cutter.centre_cutting is not None:
        parts.append("centre-cutting" if cutter.centre_cutting else "not centre-cutting")
    parts += [word for word in (cutter.material, cutter.condition) if word != "unknown"]
    parts += [f"one end {end.condition}" for end in cutter.ends if end.condition not in ("unknown", cutter.condition)]
    parts += [f"{cutter.count} of them"] if cutter.count != 1 else []
    parts += [f"limit {cutter.limit}"] if cutter.limit else []
    parts += [f"price {cutter.price:g} {cutter.currency or ''}".strip()] if cutter.price is not None else []
    parts += [f"place {cutter.drawer}"] if cutter.drawer else []
    parts += [f"marked {cutter.marking}"] if cutter.marking else []
    parts += [f'noted "{cutter.note}"'] if cutter.note else []
    return ", ".join(parts)


def _said(cutter: Cutter, key: str, words: str, named: str, size: float, units: str) -> str:
    """A size in words; empty where the name of the cutter tells it."""
    said = as_said(size, units) if size else ""
    if key == "diameter_mm":
        is_told = cutter.nominal_mm in (None, size) or said in named or "thread" in kind_of(cutter).size_keys
        if key in cutter.measured:
            words, is_told = "measures {}", is_told or "measures " in named
    else:
        is_told = words.format(in_words(size, units)) in named or not size or (
            key == "face_mm" and _is_in_size(said, cutter, named)) or (key == "corner_radius_mm" and "ball" in named)
    return "" if is_told else words.format(said)


def _is_in_size(face: str, cutter: Cutter, named: str) -> bool:
    """Whether the size in a cutter's name tells its face: behind the diameter, or first where it is said first."""
    is_first = cutter.diameter_mm is None or kind_of(cutter).speech.order[:1] == ("face_mm",)
    return f"x {face} " in named or (is_first and named.startswith(f"{face} "))


def unknown(cutter: Cutter) -> list[str]:
    """What such a cutter has and nobody said."""
    keys = kind_of(cutter).speech.wanted
    return [key for key in keys if getattr(cutter, key) is None]


def name_of(key: str) -> str:
    """A field as it is said."""
    return key.removesuffix("_mm").removesuffix("_deg").replace("_", " ")


def _without(cutter: Cutter, unused: Sequence[str]) -> Cutter:
    """A cutter without the part of its note that keeps the words which nothing was made of."""
    words = " ".join(unused)
    parts = [part for part in (cutter.note or "").split("; ") if part != words]
    return cutter.but(note="; ".join(parts) or None) if words else cutter


def _set(here: Sequence[Cutter], missing: Sequence[Cutter], units: str) -> str:
    if not here:
        return f"{len(missing)} missing"
    few = len(here) <= _FEW
    said = f"{len(here)} cutters" + (": " + ", ".join(label(one, units) for one in here) if few else
                                     f" from {label(here[0], units)} to {label(here[-1], units)}")
    gone = ", ".join(label(cutter, units) for cutter in missing)
    return said + (f"; missing: {gone}" if gone else "")


def _read_as(line: Line) -> str:
    return ", ".join(f"{word} read as {meant}" for word, meant in (line.read_as or {}).items())


def _listed(name: str, words: Sequence[str]) -> str:
    return f"{name}: {', '.join(words)}" if words else ""
