"""What tapping goes by: the percent of thread to aim at, the threads that a tap's chamfer takes, torque, fluid, and the
signs of a tap that will break."""

from __future__ import annotations

from crib.handbook.materials import Material
from crib.handbook.threads.base import Thread
from crib.handbook.threads.percent import percent_of
from crib.light.records import dataclass

IN = 25.4
CHAMFER_THREADS: dict[str, float] = {"taper": 9.0, "plug": 4.0, "bottoming": 1.5}
"""Threads of chamfer that are reckoned with [-]: taper has 7 to 10, plug 3 to 5, bottoming 1 to 2. ASME B94.9 names."""

FORMING_CHAMFER_THREADS: dict[str, float] = {"taper": 4.0, "plug": 4.0, "bottoming": 2.0}
SPIRAL_POINT_ROOM = 4.0
"""Threads of room more that a spiral-point tap needs for the chips it drives ahead [-]. Common practice."""

FORMING_WINDOW = (60.0, 70.0)
"""Percent of thread for forming taps. Machinery's Handbook gives 60 to 75 and recommends 65; 70 common practice."""

BREAKS_ABOVE, IMPOSSIBLE_ABOVE, WEAK_BELOW, TOO_WEAK_BELOW = 83.0, 100.0, 55.0, 45.0
"""Percent of thread, by the hole expected, at which a tap is apt to break, can't go in, and the thread is weak or not
to be loaded. Common practice."""

_TARGETS: dict[str, tuple[float, float]] = {
    "free-machining steel": (60, 70), "mild steel": (60, 70), "medium-carbon steel": (55, 65),
    "alloy steel, annealed": (55, 65), "pre-hard steel": (50, 60), "tool steel, annealed": (50, 60),
    "stainless 303": (60, 65), "stainless 304/316": (50, 60), "grey cast iron": (65, 75), "ductile cast iron": (60, 70),
    "malleable iron": (60, 70), "aluminium 6061": (60, 70), "cast aluminium": (70, 75), "free-cutting brass": (65, 70),
    "bronze": (55, 65), "aluminium bronze": (55, 65), "beryllium copper": (55, 65), "copper": (60, 60),
    "acetal": (70, 75), "nylon": (70, 75), "titanium 6Al-4V": (50, 60), "magnesium": (60, 70),
}
"""Percent of thread by material, by the hole expected, where no class is called. Common practice."""

_KC: dict[str, tuple[float, float]] = {
    "free-machining steel": (1200, 0.18), "mild steel": (1780, 0.17), "medium-carbon steel": (2220, 0.14),
    "alloy steel, annealed": (2500, 0.26), "pre-hard steel": (2500, 0.26), "tool steel, annealed": (2100, 0.26),
    "stainless 303": (2350, 0.21), "stainless 304/316": (2350, 0.21), "grey cast iron": (1160, 0.26),
    "ductile cast iron": (1480, 0.17), "malleable iron": (1200, 0.21), "aluminium 6061": (780, 0.23),
    "cast aluminium": (640, 0.25), "free-cutting brass": (780, 0.18), "bronze": (1780, 0.17),
    "aluminium bronze": (1780, 0.17), "titanium 6Al-4V": (1370, 0.21),
}
"""Specific cutting force kc1.1 [N/mm2] and its exponent [-]. All from memory; books differ by a quarter and more. 303
is taken as 304, pre-hard as alloy steel."""

CHIP_MM = 0.04
"""Chip of a tap's tooth [mm]: 0.02 to 0.06 is usual. From memory."""

HARD_GOING = 1.5
"""Torque of a blind hole or a worn tap over that of a sharp tap through [-]: 1.5 to 2. From memory."""

FORMING_TORQUE = 1.75
"""Torque of a forming tap over a cutting one [-]: 1.5 to 2. From memory."""


@dataclass(frozen=True)
class Target:
    """The percent of thread to aim at, from and to, and why."""

    low: float
    high: float
    why: tuple[str, ...]

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


def target_percent(thread: Thread, material: Material, depth_mm: float | None = None) -> Target:
    """The percent of thread to aim at by the hole expected, where no class decides.

    By material; in a plate under 3 P 75 to 80; deeper than 1.5 D 5 less; taps below #6 or M3.5 5 less.

    Parameters: thread; material; depth of full thread [mm], None where it isn't known. Returns: percent with reasons.
    References: common practice.

    >>> from crib.handbook.materials import find_material
    >>> from crib.handbook.threads import read_thread
    >>> t = target_percent(read_thread("4-40").thread, find_material("304"))
    >>> t.low, t.high, t.why[1]
    (45, 55, '5 less for a tap below #6 or M3.5')
    """
    low, high = _TARGETS.get(material.name, (60, 70))
    why = [f"{low:g} to {high:g} percent for {material.name}"]
    if depth_mm is not None and depth_mm < 3 * thread.pitch_mm:
        low, high = 75, 80
        why = ["75 to 80 percent, all there is, in a plate under three threads thick"]
    elif depth_mm is not None and depth_mm > 1.5 * thread.major_mm:
        low, high = low - 5, high - 5
        why.append("5 less for a thread deeper than 1.5 diameters")
    if thread.is_small:
        low, high = low - 5, high - 5
        why.append("5 less for a tap below #6 or M3.5")
    return Target(low, high, tuple(why))


def chamfer_threads(chamfer: str | None, form: str | None) -> float:
    """The threads at a tap's end that don't cut full: of the usual chamfer, plug, where it isn't known [-].

    >>> chamfer_threads("plug", None), chamfer_threads("bottoming", "forming")
    (4.0, 2.0)
    """
    table = FORMING_CHAMFER_THREADS if form == "forming" else CHAMFER_THREADS
    return table[chamfer or "plug"]


def chip_room(thread: Thread, point: str | None = None) -> float:
    """The room for chips below a tap in a blind hole: .050 in or one pitch, and four more for a spiral point [mm].

    References: common practice.

    >>> from crib.handbook.threads import read_thread
    >>> round(chip_room(read_thread("1/4-20").thread) / 25.4, 3)
    0.05
    """
    room = max(0.050 * IN, thread.pitch_mm)
    return room + (SPIRAL_POINT_ROOM * thread.pitch_mm if point == "spiral point" else 0.0)


def thread_area(pitch_mm: float, percent: float) -> float:
    """The area that a tap cuts out of a 60 degree thread's section.

    A = P^2 (0.0812 p + 0.2436 p^2), p as a share on the 3/4 H scale

    Parameters: P [mm]; percent. Returns: A [mm2]. References: geometry.

    >>> round(thread_area(1, 60) / thread_area(1, 75), 2), round(thread_area(1, 85) / thread_area(1, 75), 2)
    (0.69, 1.24)
    """
    share = percent / 100
    return pitch_mm**2 * (0.0812 * share + 0.2436 * share**2)


def tapping_torque(thread: Thread, hole_mm: float, material: Material, hard_going: bool = False,
                   forming: bool = False) -> float | None:
    """The torque of tapping, to an order of magnitude; None where no cutting force is known for the material.

    M = kc A D / 2000, kc = kc1.1 h^-m; x 1.5 blind or worn, x 1.75 forming

    Parameters: thread; hole [mm]; material. Returns: M [N m]. References: textbook form, forces from memory; the area
    is geometry of the 60 degree form and is taken for the others too.

    >>> from crib.handbook.materials import find_material
    >>> from crib.handbook.threads import read_thread
    >>> round(tapping_torque(read_thread("1/4-20").thread, 5.18, find_material("mild steel")), 1)
    2.8
    """
    if material.name not in _KC:
        return None
    unit, exponent = _KC[material.name]
    kc: float = unit * CHIP_MM**-exponent
    percent = 65.0 if forming else max(0.0, min(100.0, percent_of(thread, hole_mm)))
    torque = kc * thread_area(thread.pitch_mm, percent) * thread.major_mm / 2000
    return torque * (HARD_GOING if hard_going else 1.0) * (FORMING_TORQUE if forming else 1.0)


def risks(thread: Thread, material: Material, percent: float, depth_mm: float | None, blind: bool,
          dull: bool, power: bool = False) -> tuple[str, ...]:
    """The signs of a tap that will break; three of them want care, five are a stop.

    Parameters: thread; material; percent of thread by the hole expected; depth [mm]; how it is tapped. Returns: the
    signs in words. References: common practice.

    >>> from crib.handbook.materials import find_material
    >>> from crib.handbook.threads import read_thread
    >>> risks(read_thread("4-40").thread, find_material("304"), 63, 8, True, False)
    ('a small tap', 'deeper than two diameters', 'a blind hole', 'stainless')
    """
    signs = (
        (thread.major_mm <= 0.138 * IN + 1e-6, "a small tap"),
        (depth_mm is not None and depth_mm > 2 * thread.major_mm, "deeper than two diameters"),
        (blind, "a blind hole"),
        (material.group in ("stainless", "titanium"), material.group),
        (dull, "a dull tap"),
        (percent > 75, f"{percent:.0f} percent of thread"),
        (power, "tapped under power"),
    )
    return tuple(words for holds, words in signs if holds)


def fluid(material: Material) -> str:
    """What to tap with: as for milling, but never dry in a metal that drags.

    References: common practice.

    >>> from crib.handbook.materials import find_material
    >>> fluid(find_material("mild steel")), fluid(find_material("grey iron"))
    ('sulphurised oil, by brush', 'dry, or a drop of paraffin')
    """
    if material.group == "iron":
        return "dry, or a drop of paraffin"
    if material.group in ("brass", "bronze"):
        return "light oil, no sulphur"
    if material.group == "copper":
        return "light oil or tallow, no sulphur"
    return material.fluid
