"""Naming what isn't marked from what calipers, pitch gauge, pins and protractor say. Every reading that fits is shown;
what can't be told apart is said, with the measurement that would; where nothing fits, the nearest, and by how much."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import KINDS
from crib.cutters.gauged import IN, Candidate, Gauging, Measured, fine
from crib.findings.errors import CribError
from crib.findings.message import a, said
from crib.light.tuples import NamedTuple
from crib.planning.gauging import THINGS

_COARSEST_MM = 8.0
"""A coarser pitch than this is no thread's here [mm]."""

_TELLING = ("pins", "small_mm", "radius_mm", "hole_mm", "pitch_mm", "width_mm", "angle_deg", "diameter_mm")
"""Measurements, the one that says most before the others."""

_MEASURES = {"diameter_mm": ("its diameter", "--diameter .250"), "width_mm": ("its width", "--width 3/16"),
             "angle_deg": ("its angle", "--angle 60"), "radius_mm": ("its radius", "--radius 1/8"),
             "hole_mm": ("the drill or plug that enters", "--hole '#7'"),
             "small_mm": ("its diameter at the small end", "--small .572"),
             "length_mm": ("the length between its two diameters", "--length 2.5"),
             "pins": ("the size over or between pins", "--pin 1/2,1/4 --over-pins 3.366,2.683")}
_NEAREST = 3


class Named(NamedTuple):
    """What the measurements fit, nearest first; where nothing does, what comes nearest."""

    candidates: tuple[Candidate, ...]
    nearest: tuple[Candidate, ...] = ()


def gauge(measured: Measured, kind: str | None = None) -> Named:
    """Everything that the measurements fit, nearest first. Raises `CribError` for a kind that isn't named this way, and
    where too little was measured for it."""
    name = None if kind is None else _known(kind)
    if measured.pitch_mm is not None and measured.pitch_mm > _COARSEST_MM:
        says = said("a pitch of {pitch} is no thread's here", pitch=fine(measured.pitch_mm))
        raise CribError("pitch", says, str(measured.pitch_mm), "with its unit: 0.8mm, or --tpi 32")
    mixed = name is None and measured.pitch_mm is not None
    found = sorted((one for gauging in _likely(measured, name) for one in gauging.fits(measured)),
                   key=lambda one: _order(one, name, mixed))
    fits = [one for one in found if one.beyond <= 0]
    nearest = () if any(_is_measured(one) for one in fits) else sorted(
        (one for one in found if one.beyond > 0), key=lambda one: one.beyond)[:_NEAREST]
    return Named(tuple(_without_twins_twice(fits)), tuple(nearest))


def gauged() -> dict[str, Gauging]:
    """What gauging names: kinds of cutters, then things that are none."""
    return {kind.name: kind.gauging for kind in KINDS.values() if kind.gauging is not None} | {
        name: thing.gauging for name, thing in THINGS.items()}


def pitch_of(tpi: float) -> float:
    """The pitch of so many threads to the inch [mm].

    >>> pitch_of(20)
    1.27
    """
    return IN / tpi


def _known(kind: str) -> str:
    """What is named by a kind's name, its words or another name for a thing. Raises `CribError` where none is."""
    plain = " ".join(kind.lower().replace("-", " ").split())
    names = {**{kind.words.lower(): name for name, kind in KINDS.items()},
             **{kind.plural.lower(): name for name, kind in KINDS.items()},
             **{form: name for name, thing in THINGS.items() for word in thing.words for form in (word, f"{word}s")},
             **{name.replace("-", " "): name for name in (*KINDS, *THINGS)}}
    name = names.get(plain)
    named = gauged()
    if name in named:
        return str(name)
    if name is not None:
        raise CribError("kind", f"{a(name)} isn't named by its sizes", kind,
                        f"take it in by what it measures; gauging names {', '.join(named)}")
    raise CribError("kind", f"{a(kind)} isn't named by gauging", kind, "one of " + ", ".join(named))


def _likely(measured: Measured, kind: str | None) -> Iterator[Gauging]:
    """What the measurements could name, or the one that is asked about with those that only a look can tell from it:
    discs and angles of one size are of several kinds."""
    by = next((key for key in _TELLING if getattr(measured, key) is not None), None)
    if by is None and kind is None:
        raise CribError("usage", "nothing is measured", "", "crib gauge --diameter .249 --tpi 28")
    named = gauged()
    for name, gauging in named.items():
        alike = kind is not None and gauging.by == named[kind].by and gauging.by in ("width_mm", "angle_deg")
        if name != kind and not alike and not (kind is None and not gauging.rare and by in (gauging.by, *gauging.also)):
            continue
        lacking = next((key for key in gauging.needs or (gauging.by,) if not _has(measured, key)), None)
        if lacking is None:
            yield gauging
        elif name == kind or (kind is None and by == gauging.by and by in ("pitch_mm", "small_mm")):
            what, how = _MEASURES[lacking]
            raise CribError("usage", f"to name {a(name)} {what} is wanted", name, how)


def _has(measured: Measured, key: str) -> bool:
    """Whether something was measured; who asks about a hole by its diameter means the hole."""
    return getattr(measured, key) is not None or (key == "hole_mm" and measured.diameter_mm is not None)


def _order(one: Candidate, asked: str | None, mixed: bool) -> tuple[bool, bool, bool, tuple[float, ...], bool, float,
                                                                     str]:
    """What fits before what is only mixed up with it, what is asked about before what is like it; then by distance,
    cutters before things that are as near."""
    how_far = abs(one.off_mm or one.off_deg or 0.0)
    order = one.among if mixed and one.among else one.order or (how_far,)
    is_thing = one.kind in THINGS
    kind = one.kind if one.off_mm is not None else ""
    return one.twin, not _is_measured(one), asked not in (None, one.kind), order, is_thing, how_far, kind


def _is_measured(one: Candidate) -> bool:
    return one.off_mm is not None or one.off_deg is not None


def _without_twins_twice(found: list[Candidate]) -> Iterator[Candidate]:
    """Twins of things only where no cutter was named that has the same."""
    told = any(not one.twin and one.kind not in THINGS for one in found)
    return (one for one in found if not (told and one.twin and one.kind in THINGS))
