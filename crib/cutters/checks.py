"""What can't be true of a cutter: checks that kinds share, and those that hold for every kind."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi
from operator import attrgetter

from crib.cutters.base import Cutter
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import Deg, InWords, said

_SLACK_MM = 1e-6


def no_fatter(cutter: Cutter, key: str, limit: str, name: str, limit_name: str) -> tuple[Finding, ...]:
    """One finding where the field `key` is wider than the field `limit`; what isn't known can't be wrong."""
    return _not_above(cutter, key, limit, name, limit_name, "fatter")


def no_longer(cutter: Cutter, key: str, limit: str, name: str, limit_name: str) -> tuple[Finding, ...]:
    """One finding where the field `key` is longer than the field `limit`; what isn't known can't be wrong."""
    return _not_above(cutter, key, limit, name, limit_name, "longer")


def _not_above(
    cutter: Cutter, key: str, limit: str, name: str, limit_name: str, how: str
) -> tuple[Finding, ...]:
    size, most = getattr(cutter, key), getattr(cutter, limit)
    if size is None or most is None or size <= most + _SLACK_MM:
        return ()
    has, needs = InWords(size), InWords(most)
    says = said("{name}, {has}, is {how} than {limit}, {needs}", name=name, has=has, how=how, limit=limit_name,
                needs=needs)
    fix = said("{needs} or less, or another size for {limit}", needs=needs, limit=limit_name)
    return (wrong(says, said("{has}", has=has), fix),)


def impossible(cutter: Cutter) -> tuple[Finding, ...]:
    """Everything about a cutter that can't be true whatever its kind, worst first; empty where nothing is amiss."""
    return (*_beyond_another(cutter), *_bad_angle(cutter), *_too_many_teeth(cutter))


_slender_of = attrgetter("neck_mm", "tip_mm", "pilot_mm", "bore_mm", "face_mm", "reach_mm", "length_of_cut_mm",
                         "overall_length_mm")
_UNKNOWN = (None,) * 8


def _beyond_another(cutter: Cutter) -> tuple[Finding, ...]:
    """Sizes that are above others that they can't be above."""
    if _slender_of(cutter) == _UNKNOWN:
        return ()
    across = "diameter_mm" if cutter.diameter_mm is not None else "nominal_mm"
    teeth = "the diameter over the teeth"
    return (
        *no_fatter(cutter, "neck_mm", across, "the neck", teeth),
        *no_fatter(cutter, "tip_mm", across, "the tip", teeth if cutter.kind != "centre-drill" else "the body"),
        *no_fatter(cutter, "pilot_mm", across, "the pilot", teeth),
        *no_fatter(cutter, "bore_mm", across, "the bore", teeth),
        *no_longer(cutter, "face_mm", "reach_mm", "the face", "the reach (face and neck together)"),
        *no_longer(cutter, "face_mm", "overall_length_mm", "the face", "the overall length"),
        *no_longer(cutter, "reach_mm", "overall_length_mm", "the reach", "the overall length"),
        *no_longer(cutter, "length_of_cut_mm", "overall_length_mm", "the length of cut", "the overall length"),
        *no_longer(cutter, "shank_mm", "overall_length_mm", "the shank's diameter", "the overall length"),
    )


_FINEST_MM = 0.4
"""From tooth to tooth along the edge, of the finest cutter that is ground [mm]. From memory."""
_FEW_TEETH = 8
"""So many teeth even the smallest cutter may have."""


def _too_many_teeth(cutter: Cutter) -> Iterator[Finding]:
    across, teeth = cutter.diameter_mm or cutter.nominal_mm, cutter.flutes or 0
    if across and teeth > _FEW_TEETH and pi * across / teeth < _FINEST_MM:
        yield wrong(said("{teeth} teeth round {across} stand {apart} apart: nobody grinds them so fine",
                         teeth=f"{teeth}", across=InWords(across), apart=InWords(pi * across / teeth)), f"{teeth}",
                    said("count them; {most} would be the most", most=f"{int(pi * across / _FINEST_MM)}"))


def _bad_angle(cutter: Cutter) -> Iterator[Finding]:
    angle = cutter.angle_deg
    flat = cutter.kind == "drill" and angle == 180
    if angle is not None and not 0 < angle < 180 and not flat:
        yield wrong(said("an angle of {angle} degrees can't be ground", angle=Deg(angle)), f"{angle:g}",
                         "an angle between 0 and 180 degrees")
