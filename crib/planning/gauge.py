"""Naming an unmarked cutter from what calipers, pitch gauge and protractor say. Every reading that fits is shown; what
can't be told apart is said, with the measurement that would."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from crib.findings.errors import CribError
from crib.handbook.drill_sizes import drill_sizes
from crib.handbook.threads import Thread, threads
from crib.units import in_words, show

IN = 25.4
TAP_UNDER_MM, TAP_OVER_MM, PITCH_MM = 0.003 * IN, 0.006 * IN, 0.0004 * IN
"""A tap measures from so much under its thread's major diameter, worn, to so much over it; and a pitch taken over ten
threads is so good [mm]. Common practice."""

DRILL_MM, UNDECIDED_MM = 0.0020 * IN, 0.0010 * IN
_MILL_MM, _REGROUND_MM, _REAMER_MM = 0.003 * IN, 0.060 * IN, 0.002 * IN
_KEY_ACROSS_MM, _KEY_WIDTH_MM = 0.020 * IN, 0.003 * IN
_ANGLE_DEG = 1.0
_COARSEST_MM = 8.0
_ANGLES = (30.0, 45.0, 50.0, 55.0, 60.0, 70.0, 75.0, 82.0, 90.0, 100.0, 118.0, 120.0, 135.0)
_FLANKS = (45.0, 50.0, 55.0, 60.0)

TWINS: tuple[tuple[str, ...], ...] = (
    ("10-32 UNF", "M5x0.8"), ("1/4-28 UNF", "M6x1", "0 BA"), ("5/16-18 UNC", "M8x1.25", "5/16-18 BSW"),
    ("5/16-24 UNF", "M8x1"), ("3/8-16 UNC", "M10x1.5", "3/8-16 BSW"), ("1/2-13 UNC", "1/2-12 BSW", "M12x1.75"),
    ("8-32 UNC", "M4x0.7"), ("6-32 UNC", "M3.5x0.6"), ("4-40 UNC", "M3x0.5"), ("10-24 UNC", "3/16-24 BSW"),
    ("1/4-20 UNC", "1/4-20 BSW"), ("1/8-27 NPT", "G 1/8"), ("4-48 UNF", "6 BA"), ("3-56 UNF", "M2.5x0.45"),
    ("2-56 UNC", "M2.2x0.45"), ("5-40 UNC", "1/8-40 NS"), ("8-36 UNF", "M4x0.7"), ("1-72 UNF", "M1.8x0.35", "10 BA"),
    ("1-64 UNC", "9 BA"),
)
"""Threads that people mix up. Common practice."""


@dataclass(frozen=True)
class Measured:
    """What was measured [mm, deg]; None where it wasn't. `units`: how to say it again."""

    diameter_mm: float | None = None
    width_mm: float | None = None
    pitch_mm: float | None = None
    angle_deg: float | None = None
    units: str = "in"

    def said(self, mm: float) -> str:
        """A length to a tenth of a thou or a micron."""
        return show(mm, self.units, places=4 if self.units == "in" else 3)


@dataclass(frozen=True)
class Candidate:
    """What it may be: how far the measurement is off [mm], and why it is named. `twin`: named because it is mixed up
    with one that fits, and not because it fits itself."""

    kind: str
    label: str
    off_mm: float | None
    why: str
    twin: bool = False


def gauge(measured: Measured, kind: str | None = None) -> tuple[Candidate, ...]:
    """Everything that the measurements fit, nearest first. Raises `CribError` for a kind that isn't named this way, and
    where too little was measured for it."""
    if kind is not None and kind not in _KINDS:
        raise CribError("kind", f"a {kind} isn't named by gauging", kind, "one of " + ", ".join(_KINDS))
    if measured.pitch_mm is not None and measured.pitch_mm > _COARSEST_MM:
        raise CribError("pitch", f"a pitch of {measured.said(measured.pitch_mm)} is no tap's", str(measured.pitch_mm),
                        "with its unit: 0.8mm, or --tpi 32")
    chosen = [kind] if kind else _likely(measured)
    found = [one for name in chosen for one in _KINDS[name](measured)]
    if kind is not None and not found and measured.diameter_mm is None and measured.angle_deg is None:
        raise CribError("usage", f"to name a {kind} its diameter is wanted", kind, "--diameter .250")
    return tuple(sorted(found, key=lambda one: (one.twin, one.off_mm is None, abs(one.off_mm or 0.0))))


def pitch_of(tpi: float) -> float:
    """The pitch of so many threads to the inch [mm].

    >>> pitch_of(20)
    1.27
    """
    return IN / tpi


def _likely(measured: Measured) -> list[str]:
    """The kinds that the measurements could name."""
    if measured.pitch_mm is not None:
        return ["tap"]
    if measured.width_mm is not None:
        return ["keyseat-cutter"]
    if measured.angle_deg is not None:
        return ["angle-cutter"]
    if measured.diameter_mm is None:
        raise CribError("usage", "nothing is measured", "", "crib gauge --diameter .249 --tpi 28")
    return ["drill", "end-mill", "reamer", "tap"]


def tap(measured: Measured) -> Iterator[Candidate]:
    """Threads that a tap's size and pitch fit, and the twins of those."""
    if measured.diameter_mm is None:
        raise CribError("usage", "to name a tap its diameter is wanted", "", "--diameter .189 --tpi 32")
    fits = [t for t in threads() if _tap_fits(t, measured)]
    shown: list[Thread] = []
    for thread in fits:
        if any(thread.same_as(other) for other in shown):
            continue
        shown.append(thread)
        others = [t for t in fits if not t.same_as(thread)]
        told = f"; {_tell(thread, others[0], measured)}" if others else ""
        off = measured.diameter_mm - thread.major_mm
        basic = f"basic {measured.said(thread.major_mm)}, {_pitch(thread)}, {thread.form.angle_deg:g} degrees"
        yield Candidate("tap", f"{thread.designation} tap", off, basic + told)
    for thread, twin in _twins(shown):
        yield Candidate("tap", f"{twin.designation} tap", measured.diameter_mm - twin.major_mm,
                        f"mixed up with {thread.designation}: {_tell(thread, twin, measured)}", twin=True)


def _tap_fits(thread: Thread, measured: Measured) -> bool:
    off = (measured.diameter_mm or 0.0) - thread.major_mm
    if not -TAP_UNDER_MM - 1e-9 <= off <= TAP_OVER_MM + 1e-9:
        return False
    if measured.pitch_mm is not None and abs(measured.pitch_mm - thread.pitch_mm) > PITCH_MM + 1e-9:
        return False
    return measured.angle_deg is None or abs(measured.angle_deg - thread.form.angle_deg) <= 3


def _twins(shown: list[Thread]) -> Iterator[tuple[Thread, Thread]]:
    """The twins of the threads that fit, that don't fit themselves."""
    named = {t.designation: t for t in threads()}
    told: list[Thread] = list(shown)
    for thread in shown:
        for group in TWINS:
            if thread.designation not in group:
                continue
            for twin in (named[name] for name in group):
                if not any(twin.same_as(other) for other in told):
                    told.append(twin)
                    yield thread, twin


def _tell(one: Thread, other: Thread, measured: Measured) -> str:
    """The measurements that tell two threads apart."""
    says = []
    if abs(one.pitch_mm - other.pitch_mm) > 0.004:
        ten = (measured.said(10 * one.pitch_mm), measured.said(10 * other.pitch_mm))
        says.append(f"ten threads measure {ten[0]} on {one.designation}, {ten[1]} on {other.designation}")
    if abs(one.major_mm - other.major_mm) > 0.02:
        says.append(f"across {measured.said(one.major_mm)} against {measured.said(other.major_mm)}")
    if one.form.angle_deg != other.form.angle_deg:
        says.append(f"flanks {one.form.angle_deg:g} degrees against {other.form.angle_deg:g}")
    return ", ".join(says) or f"{one.designation} and {other.designation} are one thread by two names"


def _pitch(thread: Thread) -> str:
    in_mm = thread.is_metric or thread.series == "BA"
    return f"{thread.pitch_mm:g} mm pitch" if in_mm else f"{thread.tpi:g} to the inch"


def drill(measured: Measured) -> Iterator[Candidate]:
    """Every drill that is made within .002 in; two within .001 can't be told apart with calipers."""
    if measured.diameter_mm is None:
        return
    near = [(mm, name) for mm, name in drill_sizes() if abs(mm - measured.diameter_mm) <= DRILL_MM + 1e-9]
    for mm, name in near:
        rivals = [other for size, other in near if other != name and abs(size - mm) <= UNDECIDED_MM + 1e-9]
        doubt = f"; not to be told from {' or '.join(rivals)} with calipers: mic it over the margins" if rivals else ""
        yield Candidate("drill", f"{name} drill", measured.diameter_mm - mm, f"made {measured.said(mm)}{doubt}")


def end_mill(measured: Measured) -> Iterator[Candidate]:
    """The sizes that end mills are made in, new or reground."""
    if measured.diameter_mm is None:
        return
    sizes = [(IN * n / 32, str(Fraction(n, 32))) for n in range(2, 65)] + [(float(n), f"{n} mm") for n in range(2, 33)]
    for mm, name in sizes:
        off = measured.diameter_mm - mm
        if abs(off) <= _MILL_MM:
            yield Candidate("end-mill", f"{_mixed(name)} end mill", off, f"made {measured.said(mm)}")
        elif -_REGROUND_MM <= off < 0 and Fraction(mm / IN).limit_denominator(64).denominator <= 16:
            yield Candidate("end-mill", f"{_mixed(name)} end mill, reground", off,
                            f"ground {measured.said(-off)} under, if its flutes look thin for their size")


def _mixed(name: str) -> str:
    return in_words(float(Fraction(name)) * IN, "in") if "mm" not in name else name


def reamer(measured: Measured) -> Iterator[Candidate]:
    """Sixty-fourths, the over and under sizes for dowels, whole millimetres."""
    if measured.diameter_mm is None:
        return
    names = {IN * n / 64: in_words(IN * n / 64, "in") for n in range(4, 97)}
    names |= {float(n): f"{n} mm" for n in range(2, 33)}
    for mm, name in names.items():
        off = measured.diameter_mm - mm
        if abs(off) <= _REAMER_MM:
            over = "" if abs(off) < 0.0003 * IN else f", {measured.said(abs(off))} {'over' if off > 0 else 'under'}"
            yield Candidate("reamer", f"{name} reamer", off, f"basic {measured.said(mm)}{over}; mic it near the lead, "
                            "over opposite flutes")


def keyseat_cutter(measured: Measured) -> Iterator[Candidate]:
    """The number that a keyseat cutter's diameter and face stand for: eighths behind, thirty-seconds before."""
    if measured.diameter_mm is None or measured.width_mm is None:
        return
    eighths, thirty_seconds = round(measured.diameter_mm / IN * 8), round(measured.width_mm / IN * 32)
    across, face = eighths * IN / 8, thirty_seconds * IN / 32
    off, thick = measured.diameter_mm - across, measured.width_mm - face
    if eighths and thirty_seconds and abs(off) <= _KEY_ACROSS_MM and abs(thick) <= _KEY_WIDTH_MM:
        sizes = f"{in_words(across, 'in')} x {in_words(face, 'in')}"
        ground = "; reground" if off < -_MILL_MM else ""
        yield Candidate("keyseat-cutter", f"{thirty_seconds}{eighths:02d} keyseat cutter", off,
                        f"{sizes}, face {measured.said(abs(thick))} {'over' if thick >= 0 else 'under'}{ground}")
    plain = f"{in_words(measured.diameter_mm, measured.units)} x {in_words(measured.width_mm, measured.units)}"
    yield Candidate("t-slot-cutter", f"{plain} T-slot or slot cutter", None,
                    "if its faces have teeth too it is no keyseat cutter: look at both faces, mic the neck")


def angle_cutter(measured: Measured) -> Iterator[Candidate]:
    """What an angle may be: a flank from the face, or the angle between two edges."""
    if measured.angle_deg is None:
        return
    size = f"{in_words(measured.diameter_mm, measured.units)} " if measured.diameter_mm is not None else ""
    for angle in _ANGLES:
        if abs(measured.angle_deg - angle) > _ANGLE_DEG:
            continue
        off = f"{measured.angle_deg - angle:+.2g} degrees off" if measured.angle_deg != angle else "as measured"
        if angle in _FLANKS:
            yield Candidate("dovetail-cutter", f"{size}{angle:g} degree dovetail cutter", None,
                            f"{off}, if {angle:g} is from the face to the flank; between two pins shows which it is")
        if angle <= 90:
            yield Candidate("angle-cutter", f"{size}{angle:g} degree single-angle cutter", None,
                            f"{off}, if one side is flat and {angle:g} is from that face; a double-angle cutter has "
                            "half of it on each side")
        if angle >= 60:
            yield Candidate("countersink", f"{size}{angle:g} degree countersink or point", None,
                            f"{off}, if {angle:g} is between its two edges: a protractor across the point")


_KINDS: dict[str, Callable[[Measured], Iterator[Candidate]]] = {
    "tap": tap, "drill": drill, "end-mill": end_mill, "reamer": reamer, "keyseat-cutter": keyseat_cutter,
    "angle-cutter": angle_cutter,
}
KINDS: tuple[str, ...] = tuple(_KINDS)
"""The kinds that gauging names."""
